/** What the dividers measure: between two places of a drawing, or the shortest way between two of its lines. */
import type { Span, SpanEnd } from "../../../document/board.ts";
import type { Dimension, Drawing, Shape } from "../../../drawing/drawing.ts";
import { clearance } from "../../../geometry/clearance.ts";
import { nearestOnPath } from "../../../geometry/nearest.ts";
import { asCircle, type Path } from "../../../geometry/path.ts";
import { piecesOf, pointAt, tangentAt } from "../../../geometry/segment.ts";
import { angleBetween, distance, sub, vec, type Vec } from "../../../geometry/vec.ts";

export type Shapes = ReadonlyMap<string, Shape>;

export const shapesOf = (drawing: Drawing): Shapes =>
  new Map(drawing.layers.flatMap(({ shapes }) => shapes.map((shape) => [shape.id, shape] as const)));

/** The place that a leg of the dividers stands on, wherever that has moved to; undefined where the line is gone. */
export function placeOfEnd(end: SpanEnd, shapes: Shapes): Vec | undefined {
  if ("at" in end) return vec(end.at[0], end.at[1]);
  if ("middleOf" in end) {
    const shape = shapes.get(end.middleOf);
    return shape && asCircle(shape.path)?.centre;
  }
  const piece = pieceOf(end, shapes);
  return piece && pointAt(piece, end.t);
}

const pieceOf = (end: Extract<SpanEnd, { shape: string }>, shapes: Shapes) => {
  const shape = shapes.get(end.shape);
  return shape && piecesOf(shape.path)[end.piece];
};

/** The direction of the line that a leg stands on. */
export function wayOfEnd(end: SpanEnd, shapes: Shapes): Vec | undefined {
  const piece = "shape" in end ? pieceOf(end, shapes) : undefined;
  return piece && "shape" in end ? tangentAt(piece, end.t) : undefined;
}

/** Where a leg comes to stand: on a middle, a corner or a line in reach (mm), else where it is put. */
export function endAt(shapes: Shapes, at: Vec, reach: number): SpanEnd {
  let best: { readonly away: number; readonly end: SpanEnd } | undefined;
  const take = (end: SpanEnd, away: number): void => {
    if (away <= reach && (!best || away < best.away)) best = { away, end };
  };
  // Middles and corners are hit more readily than the lines that they lie on.
  for (const { id, path } of shapes.values()) {
    const round = asCircle(path);
    if (round) take({ middleOf: id }, distance(round.centre, at) / 2);
    const near = nearestOnPath(path, at);
    if (near.distance > reach) continue;
    const piece = piecesOf(path)[near.index];
    if (!piece) continue;
    take({ shape: id, piece: near.index, t: near.t }, near.distance + 0.01 * reach);
    if (!round)
      for (const [t, corner] of [
        [0, piece.from],
        [1, piece.segment.to],
      ] as const)
        take({ shape: id, piece: near.index, t }, distance(corner, at) / 2);
  }
  return best?.end ?? { at: [Math.round(at.x * 100) / 100, Math.round(at.y * 100) / 100] };
}

export interface Measured {
  readonly from: Vec;
  readonly to: Vec;
  readonly distance: number;
  /** Along and across the centre line. */
  readonly along: number;
  readonly across: number;
  /** Of the way from one to the other, from the centre line; radians, from 0 to half a turn. */
  readonly angle: number;
  /** Between the two lines that the legs stand on; radians, from 0 to a quarter turn. */
  readonly between?: number;
}

/** Undefined where a line that it holds on to is gone. */
export function measureSpan(span: Span, shapes: Shapes): Measured | undefined {
  if ("between" in span) {
    const [a, b] = span.between.map((id) => shapes.get(id)?.path);
    const found = a && b && shortest(a, b);
    return found && measured(found[0], found[1]);
  }
  const [from, to] = [placeOfEnd(span.from, shapes), placeOfEnd(span.to, shapes)];
  if (!from || !to) return undefined;
  const [u, v] = [wayOfEnd(span.from, shapes), wayOfEnd(span.to, shapes)];
  const turn = u && v && Math.abs(angleBetween(u, v));
  return { ...measured(from, to), ...(turn === undefined ? {} : { between: Math.min(turn, Math.PI - turn) }) };
}

function shortest(a: Path, b: Path): readonly [Vec, Vec] {
  const found = clearance(a, b);
  return [found.a, found.b];
}

function measured(from: Vec, to: Vec): Measured {
  const by = sub(to, from);
  const turn = Math.atan2(by.y, by.x);
  return {
    from,
    to,
    distance: Math.hypot(by.x, by.y),
    along: Math.abs(by.x),
    across: Math.abs(by.y),
    angle: turn < 0 ? turn + Math.PI : turn,
  };
}

/** The kept dimensions of a board, as the board shows them; those whose lines are gone are left out. */
export function dimensionsOf(spans: readonly Span[], drawing: Drawing): Dimension[] {
  const shapes = shapesOf(drawing);
  return spans.flatMap((span, i): Dimension[] => {
    const found = measureSpan(span, shapes);
    if (!found || found.distance === 0) return [];
    return [
      {
        id: `kept-${i + 1}`,
        from: found.from,
        to: found.to,
        along: "straight",
        offset: 0,
        value: found.distance,
        quantity: "length",
        rank: 1,
      },
    ];
  });
}
