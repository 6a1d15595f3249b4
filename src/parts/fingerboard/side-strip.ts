/** The edge of the bass side rolled flat, with its markers: a strip to stick on while they are drilled. */
import type { Shape, Text } from "../../drawing/drawing.ts";
import { circle, cubic, line, segmentPath, type Path, type Segment } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import { fallOver } from "../../lutherie/board-radius.ts";
import { widthAt } from "../../lutherie/fingerboard-taper.ts";
import type { MeasuresByKind, TemplateSource } from "../contract.ts";
import { faceRadius, frameOf, outlinesOf, type FingerboardMeasures } from "./measure.ts";
import type { FingerboardParams } from "./numbers.ts";
import { at, fretName, sideMarkerId } from "./shapes.ts";

/** Pieces of the curved upper edge; each is a cubic with the true slope at both ends. */
const PIECES = 8;
const SLOPE_STEP = 1e-3;

/** Undefined where there is no marker to drill or no edge to drill it in. */
export function sideStrip(
  p: FingerboardParams,
  m: FingerboardMeasures,
  instrument: MeasuresByKind["instrument"],
): TemplateSource | undefined {
  const frame = frameOf(p, instrument);
  const { bound } = outlinesOf(p, frame);
  if (!bound || m.sideMarkers.length === 0) return undefined;
  const { side } = instrument;
  const [from, to] = side === 1 ? [bound.lowStart.x, bound.lowEnd.x] : [bound.highStart.x, bound.highEnd.x];
  const stretch = Math.hypot(1, frame.taper.slope / 2);
  // Seen from the bass side with the face up, the nut is at the left of a right-handed board and at the right of a left-handed one.
  const along = (x: number): number => side * x * stretch;
  const edgeHeight = (x: number): number =>
    Math.max(0, p.thickness - fallOver(faceRadius(p, m.endX, x), Math.max(0, widthAt(frame.taper, x))));

  const shapes: Shape[] = [
    {
      id: "outline",
      role: "cut",
      line: "visible",
      path: stripOutline(from, to, along, edgeHeight),
      name: "edge of the board, bass side",
      says: [{ label: "length along the edge", value: (to - from) * stretch, quantity: "length" }],
    },
  ];
  const texts: Text[] = [];
  for (const fret of m.frets) {
    const end = fret.crownEnds?.[0];
    if (!end) continue;
    const x = along(end[0]);
    shapes.push({
      id: `fret-${fret.number}`,
      role: "guide",
      line: "narrow",
      path: segmentPath(vec(x, edgeHeight(end[0])), vec(x, edgeHeight(end[0]) + p.crownHeight)),
      name: fretName(fret),
    });
    if (fret.number > 0)
      texts.push({ id: `fret-label-${fret.number}`, at: vec(x, -4), text: `${fret.number}`, height: 2.5, align: "middle" });
  }
  m.sideMarkers.forEach((marker, i) => {
    const { x } = at(marker.at);
    shapes.push({
      id: sideMarkerId(m, i),
      role: "drill",
      line: "visible",
      path: circle(vec(along(x), edgeHeight(x) - p.sideDepth), p.sideDiameter / 2),
      name: `side marker at fret ${marker.fret}`,
      says: [{ label: "diameter", value: p.sideDiameter, quantity: "length" }],
    });
  });
  return {
    name: "side-markers",
    title: "Side markers",
    lineIs: "edge of the board on the bass side, seen from outside; prick the middles of the holes through",
    drawing: {
      layers: [
        { name: "edge", shapes },
        { name: "labels", shapes: [], texts },
      ],
      dimensions: [],
    },
  };
}

function stripOutline(from: number, to: number, along: (x: number) => number, height: (x: number) => number): Path {
  const start = vec(along(from), 0);
  const top: Segment[] = [];
  const step = (from - to) / PIECES;
  const slope = (x: number): number => (height(x + SLOPE_STEP) - height(x - SLOPE_STEP)) / (2 * SLOPE_STEP);
  for (let i = 0; i < PIECES; i++) {
    const x0 = to + i * step;
    const x1 = i === PIECES - 1 ? from : x0 + step;
    const third = (x1 - x0) / 3;
    top.push(
      cubic(
        vec(along(x0 + third), height(x0) + slope(x0) * third),
        vec(along(x1 - third), height(x1) - slope(x1) * third),
        vec(along(x1), height(x1)),
      ),
    );
  }
  return { start, segments: [line(vec(along(to), 0)), line(vec(along(to), height(to))), ...top, line(start)], closed: true };
}
