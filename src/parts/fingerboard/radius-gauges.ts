/** Gauges for the arch across the face: hollow ones that sit on the board, round ones for the sanding block. */
import type { Shape, Text } from "../../drawing/drawing.ts";
import { arc, line, segmentPath, type Path } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import { fallOver } from "../../lutherie/board-radius.ts";
import type { MeasuresByKind, TemplateSource } from "../contract.ts";
import { faceRadius, type FingerboardMeasures } from "./measure.ts";
import type { FingerboardParams } from "./numbers.ts";

/** Height of a gauge beyond its arc, and the space between gauges, mm. */
const BODY = 22;
const SPACE = 8;
/** Height of the words on a gauge, mm; less on a narrow one. */
const LABEL = 2.5;
/** How much wider than the board a gauge is, mm; never more than this share of the arch's diameter. */
const WIDER = 10;
const MOST_OF_DIAMETER = 0.9;

/** Undefined on a flat board. */
export function radiusGauges(
  p: FingerboardParams,
  m: FingerboardMeasures,
  instrument: MeasuresByKind["instrument"],
): TemplateSource | undefined {
  if (p.radius === undefined) return undefined;
  const compound = p.radiusAtEnd !== undefined && p.radiusAtEnd !== p.radius;
  const places = [
    { key: "nut", label: "nut", x: 0 },
    ...(compound && instrument.fret12X < m.endX ? [{ key: "fret-12", label: "fret 12", x: instrument.fret12X }] : []),
    ...(compound ? [{ key: "end", label: "end", x: m.endX }] : []),
  ];
  const shapes: Shape[] = [];
  const texts: Text[] = [];
  const rows: { label: string; value: number }[] = [];
  let top = 0;
  for (const { key, label: place, x } of places) {
    const radius = faceRadius(p, m.endX, x)!;
    const width = Math.min(Math.max(m.widthAtNut, m.widthAtEnd) + WIDER, MOST_OF_DIAMETER * 2 * radius);
    const fall = fallOver(radius, width);
    const said = compound ? place : "board";
    rows.push({ label: said, value: radius });
    for (const kind of ["hollow", "round"] as const) {
      // The arc's highest point; a hollow gauge stands above its arc, a round one below.
      const crest = kind === "hollow" ? top - BODY : top;
      const path = gaugePath(kind, width, radius, fall, crest);
      const base = kind === "hollow" ? top : crest - fall - BODY;
      shapes.push({
        id: `gauge-${key}-${kind}`,
        role: "cut",
        line: "visible",
        path,
        name: kind === "hollow" ? `gauge for the ${said}, sits on the face` : `gauge for the ${said}, for the block`,
        says: [{ label: "radius", value: radius, quantity: "length" }],
        tint: "wood",
      });
      shapes.push({
        id: `gauge-${key}-${kind}-middle`,
        role: "centre",
        line: "centre",
        path: segmentPath(vec(0, crest), vec(0, base)),
        name: "middle of the gauge",
      });
      const label = { height: Math.min(LABEL, width / 20), align: "middle" } as const;
      const height = (crest + base) / 2 - label.height / 2;
      texts.push(
        { ...label, id: `gauge-${key}-${kind}-place`, at: vec(-width / 4, height), text: said },
        {
          ...label,
          id: `gauge-${key}-${kind}-use`,
          at: vec(width / 4, height),
          text: kind === "hollow" ? "on the face" : "for the block",
        },
      );
      top = (kind === "hollow" ? crest - fall : base) - SPACE;
    }
  }
  return {
    name: "radius-gauges",
    title: "Radius gauges",
    lineIs: "edge of the gauge; cut to the centre of the line and try it against the arc",
    drawing: {
      layers: [
        { name: "gauges", shapes },
        { name: "labels", shapes: [], texts },
      ],
      dimensions: [],
    },
    table: { title: "Radius of the face", rows },
  };
}

function gaugePath(kind: "hollow" | "round", width: number, radius: number, fall: number, crest: number): Path {
  const half = width / 2;
  const left = vec(-half, crest - fall);
  const right = vec(half, crest - fall);
  const centre = vec(0, crest - radius);
  const base = kind === "hollow" ? crest + BODY : crest - fall - BODY;
  // Clockwise over the crest from left to right, then back along the straight sides.
  return {
    start: left,
    segments: [arc(right, centre, false), line(vec(half, base)), line(vec(-half, base)), line(left)],
    closed: true,
  };
}
