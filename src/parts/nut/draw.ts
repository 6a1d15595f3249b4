/** The nut from the front of the instrument, in its place against the board. */
import type { Drawing, Shape } from "../../drawing/drawing.ts";
import { polygon, segmentPath } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import { meetEdge, movedBy, pointAt } from "../../lutherie/transverse-line.ts";
import { centreAlong } from "../centre-line.ts";
import type { Sources } from "../contract.ts";
import { faceLine, instrumentOf, type NutMeasures } from "./measure.ts";

/** How far the centre line runs on beyond the nut, and dimension lines stand off it, mm. */
const BEYOND = 6;
const ROW = 10;

export function drawNut(m: NutMeasures, from: Sources): Drawing {
  const instrument = instrumentOf(from);
  const face = faceLine(from);
  const back = movedBy(face, -m.thickness);
  const half = m.width / 2;
  const slots = m.slots.map((slot, i): Shape => {
    const string = instrument.strings[i]!;
    const rise = (string.saddle.y - string.nut.y) / string.scale;
    const behind = meetEdge(back, rise, string.nut.y - rise * string.nut.x) ?? pointAt(back, slot.y);
    return {
      id: `slot-${slot.string}`,
      role: "slot",
      line: "narrow",
      path: segmentPath(pointAt(face, slot.y), behind),
      name: `slot of string ${slot.string}`,
      says: [
        { label: "string", value: slot.gauge, quantity: "length" },
        { label: "slot width", value: slot.width, quantity: "length" },
        { label: "bottom above the board", value: slot.height, quantity: "length" },
        { label: "from the centre line", value: slot.y, quantity: "length" },
      ],
    };
  });
  const low = Math.min(pointAt(back, -half).x, pointAt(back, half).x);
  return {
    layers: [
      {
        name: "outline",
        shapes: [
          {
            id: "outline",
            role: "cut",
            line: "visible",
            path: polygon([pointAt(back, -half), pointAt(face, -half), pointAt(face, half), pointAt(back, half)]),
            name: "nut",
            says: [
              { label: "width", value: m.width, quantity: "length" },
              { label: "thickness", value: m.thickness, quantity: "length" },
              { label: "height at the middle", value: m.height, quantity: "length" },
            ],
            tint: "wood",
          },
        ],
      },
      centreAlong(m.backX - BEYOND, m.faceX + BEYOND),
      { name: "slots", shapes: slots },
    ],
    dimensions: [
      {
        id: "width",
        from: vec(low, -half),
        to: vec(low, half),
        along: "y",
        offset: ROW,
        value: m.width,
        quantity: "length",
        edits: ".width",
        rank: 1,
      },
      {
        id: "thickness",
        from: pointAt(back, half),
        to: pointAt(face, half),
        along: face.q === 0 ? "x" : "straight",
        offset: ROW,
        value: m.thickness,
        quantity: "length",
        edits: ".thickness",
        rank: 1,
      },
    ],
  };
}
