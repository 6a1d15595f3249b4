/** The settled numbers of a port, lengths in mm and angles in radians, and the side that it is cut into. */
import type { OutlinePoint } from "../../geometry/drawn/point.ts";
import { pathLength, stationAt } from "../../geometry/measure.ts";
import { arc, type Path } from "../../geometry/path.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { plateHeight } from "../../lutherie/domed-plate.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";

export interface PortParams {
  readonly side: "bass" | "treble";
  readonly fromNeck: number;
  readonly fromTop: number;
  readonly sideRadius: number;
  readonly sideDepth: number;
  readonly sideThickness: number;
  readonly shape: "ellipse" | "free";
  readonly measured: "template" | "face";
  readonly length: number;
  readonly width: number;
  readonly turn: number;
  readonly outline: readonly OutlinePoint[];
  readonly fill: "open" | "insert";
  readonly insertThickness: number;
  readonly openPct: number;
  readonly blank: number | undefined;
  readonly ringWidth: number;
  readonly ringThickness: number;
  readonly ringLip: number;
}

export type Instrument = MeasuresByKind["instrument"];

export function instrumentOf(from: Sources): Instrument {
  const measures = from.get("instrument");
  if (!measures) throw new Error("a port was derived without its instrument");
  return measures;
}

/** Length of the strings along the centre line, before compensation. */
export const centreScale = ({ scale, bassScale }: Instrument): number => (scale + bassScale) / 2;

/** The bent piece that a port is cut into. */
export interface BentSide {
  /** The outer face, the body to its left, towards the neck; on the side of rising y. */
  readonly plan: Path;
  /** From the plan's start to the port's middle. */
  readonly at: number;
  /** Heights of both edges over the plane of the body's edge, and the linings inside them. */
  readonly top: (at: Vec) => number;
  readonly back: (at: Vec) => number;
  readonly lining: number;
  /** Along the plan where the blocks' edges meet it; its ends where there are none. */
  readonly free: { readonly from: number; readonly to: number };
  /** Of the port on the instrument: 1 where its side is that of rising y. */
  readonly sign: 1 | -1;
}

type Asked = Pick<PortParams, "side" | "fromNeck" | "sideRadius" | "sideDepth">;

/** Lining that is kept from where the design has no sides, mm. */
const USUAL_LINING = 15;

/** The side of the design, or, without one, a round one of the typed radius and depth. Undefined where the place lies on no side. */
export function bentSideOf(p: Asked, from: Sources): BentSide | undefined {
  const sign = (p.side === "treble") === (instrumentOf(from).side === 1) ? 1 : -1;
  const sides = from.get("sides");
  const pieces = sides?.pieces.filter(({ side }) => side === p.side) ?? [];
  if (sides && pieces.length > 0) {
    const found = onRuns(pieces, p.fromNeck);
    if (!found) return undefined;
    const { piece, at } = found;
    const markAt = (id: string): number | undefined => piece.marks.find((mark) => mark.id === id)?.alongOuter;
    return {
      plan: piece.plan,
      at,
      top: (place) => plateHeight(sides.top, place),
      back: (place) => plateHeight(sides.back, place),
      lining: sides.liningHeight,
      free: { from: markAt("tail-block") ?? 0, to: markAt("neck-block") ?? piece.outer },
      sign,
    };
  }
  const flat: Pick<BentSide, "top" | "back" | "lining" | "sign"> = {
    top: () => 0,
    back: () => -p.sideDepth,
    lining: USUAL_LINING,
    sign,
  };
  const runs = from.get("body")?.[p.side]?.bent.map((plan) => ({ plan, outer: pathLength(plan) })) ?? [];
  if (runs.length > 0) {
    const found = onRuns(runs, p.fromNeck);
    return found && { ...flat, plan: found.piece.plan, at: found.at, free: { from: 0, to: found.piece.outer } };
  }
  // Half a turn, its middle facing rising y.
  const r = p.sideRadius;
  const plan: Path = { start: vec(r, 0), segments: [arc(vec(-r, 0), vec(0, 0), true)], closed: false };
  const outer = Math.PI * r;
  return { ...flat, plan, at: outer / 2, free: { from: 0, to: outer } };
}

/** The piece that lies `fromNeck` along the side from its end at the neck, and how far along it from its own start. */
function onRuns<R extends { readonly outer: number }>(
  runs: readonly R[],
  fromNeck: number,
): { readonly piece: R; readonly at: number } | undefined {
  let left = fromNeck;
  for (const piece of runs.toReversed()) {
    if (left <= piece.outer) return left >= 0 ? { piece, at: piece.outer - left } : undefined;
    left -= piece.outer;
  }
  return undefined;
}

/** From the neck's end to the upper bout, along the outer face; a third of the scale where there is no body. */
export function upperBout(side: PortParams["side"], from: Sources): number {
  const half = from.get("body")?.[side];
  const bout = half?.levels.find(({ what }) => what === "bout");
  const run = half?.bent.at(-1);
  if (!half || !bout || !run) return centreScale(instrumentOf(from)) / 3;
  // The straight way, so a little before it.
  return Math.max(1, Math.min(half.length, Math.hypot(bout.at.x - run.segments.at(-1)!.to.x, bout.at.y)));
}

/** Half the side's depth where the port's middle is. */
export function halfDepth(p: Asked, from: Sources): number {
  const side = bentSideOf(p, from);
  const place = side && stationAt(side.plan, side.at);
  return side && place ? Math.max(0, side.top(place.point) - side.back(place.point)) / 2 : p.sideDepth / 2;
}
