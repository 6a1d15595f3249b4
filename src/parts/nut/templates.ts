/** The nut seen from the board, along its own face: x along the nut, y up from the face of the board at its middle. */
import type { Layer, Shape, Text } from "../../drawing/drawing.ts";
import { arcOfRise } from "../../geometry/arc.ts";
import { arc, line, rectangle, type Path, type Segment } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import { centreLine } from "../centre-line.ts";
import type { Sources, TemplateSource } from "../contract.ts";
import { instrumentOf, type NutMeasures, type NutSlot } from "./measure.ts";

/** Height of the string numbers, mm. */
const LABEL = 2;

export function nutTemplates(m: NutMeasures, from: Sources): TemplateSource[] {
  return [frontView(m, instrumentOf(from).side), blank(m)];
}

function frontView(m: NutMeasures, side: 1 | -1): TemplateSource {
  const half = m.length / 2;
  const seat = -m.seatDepth;
  const right = vec(half, m.topAtEnds);
  const left = vec(-half, m.topAtEnds);
  const outline: Path = {
    start: vec(-half, seat),
    segments: [line(vec(half, seat)), line(right), arcOfRise(right, left, m.crest - m.topAtEnds), line(vec(-half, seat))],
    closed: true,
  };
  const texts: Text[] = m.slots.map((slot) => ({
    id: `slot-label-${slot.string}`,
    at: vec(slot.along, seat - LABEL - 1.5),
    text: `${slot.string}`,
    height: LABEL,
    align: "middle",
  }));
  return {
    name: "front-view",
    title: "Nut, seen from the board",
    lineIs: "edge of the finished nut and its slots; file to the line, then by ear and feeler gauge",
    drawing: {
      layers: [
        {
          name: "outline",
          shapes: [
            {
              id: "outline",
              role: "cut",
              line: "visible",
              path: outline,
              name: "nut",
              says: [
                { label: "length", value: m.length, quantity: "length" },
                { label: "height at the middle", value: m.height, quantity: "length" },
              ],
              tint: "wood",
            },
          ],
        },
        centre(seat, m.crest),
        { name: "slots", shapes: m.slots.map((slot) => slotShape(slot, m)) },
        { name: "labels", shapes: [], texts },
      ],
      dimensions: [],
    },
    edge: "outline",
    table: {
      title: "From the treble end of the nut to the middle of each slot",
      rows: m.slots.map((slot) => ({ label: `string ${slot.string}`, value: half - side * slot.along })).toReversed(),
    },
  };
}

const centre = (from: number, to: number): Layer => ({ name: "centre", shapes: [centreLine(vec(0, from - 3), vec(0, to + 3))] });

/** A slot with a round bottom, its walls up to the top of the nut where that is higher than half its width. */
function slotShape(slot: NutSlot, m: NutMeasures): Shape {
  const r = slot.width / 2;
  const middle = slot.level + r;
  const share = (2 * slot.along) / m.length;
  const top = Math.max(middle, m.crest - (m.crest - m.topAtEnds) * share * share);
  const walls = top > middle;
  const from = vec(slot.along - r, middle);
  const to = vec(slot.along + r, middle);
  const bottom: Segment = arc(to, vec(slot.along, middle), true);
  const path: Path = walls
    ? { start: vec(from.x, top), segments: [line(from), bottom, line(vec(to.x, top))], closed: false }
    : { start: from, segments: [bottom], closed: false };
  return {
    id: `slot-${slot.string}`,
    role: "slot",
    line: "narrow",
    path,
    name: `slot of string ${slot.string}`,
    says: [
      { label: "string", value: slot.gauge, quantity: "length" },
      { label: "slot width", value: slot.width, quantity: "length" },
      { label: "bottom above the board", value: slot.height, quantity: "length" },
    ],
  };
}

function blank(m: NutMeasures): TemplateSource {
  const half = m.length / 2;
  return {
    name: "blank",
    title: "Nut blank",
    lineIs: "edge of the blank with its spare height; cut outside the line",
    drawing: {
      layers: [
        {
          name: "outline",
          shapes: [
            {
              id: "outline",
              role: "cut",
              line: "visible",
              path: rectangle(-half, -m.seatDepth, half, m.blankHeight - m.seatDepth),
              name: "nut blank",
              says: [
                { label: "length", value: m.length, quantity: "length" },
                { label: "height", value: m.blankHeight, quantity: "length" },
                { label: "thickness", value: m.thickness, quantity: "length" },
              ],
              tint: "wood",
            },
          ],
        },
        centre(-m.seatDepth, m.blankHeight - m.seatDepth),
      ],
      dimensions: [],
    },
    edge: "outline",
  };
}
