/** The joint with the body: tongue, bolts, and the templates' edges from one guide bush. */
import { roundedPolygon } from "../../geometry/arc.ts";
import { polygon, type Path } from "../../geometry/path.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { templateOffset } from "../../lutherie/template-offset.ts";
import type { NeckModel } from "./model.ts";
import type { NeckParams } from "./numbers.ts";

export interface JointMeasures {
  readonly joint: "butt" | "tenon" | "dovetail";
  /** Of the tongue, 0 for a butt: width on top at its far end and at its root, width at its lower end (far end), length, depth. */
  readonly tongueWidth: number;
  readonly tongueRootWidth: number;
  readonly tongueFootWidth: number;
  readonly tongueLength: number;
  readonly tongueDepth: number;
  /** Middles of the bolts below the glue plane. */
  readonly bolts: readonly number[];
  readonly boltDiameter: number;
  readonly insertDiameter: number;
  readonly insertDepth: number;
  readonly blockThickness: number;
}

/** Half the width of the heel against the body at `down` below the glue plane: upright on top, closing to the foot as the square of the depth. */
export const heelHalfWidth = (p: Pick<NeckParams, "heelCapWidth">, model: NeckModel, down: number): number => {
  const top = model.widthAt(model.joinX) / 2;
  const share = Math.min(1, Math.max(0, down / model.heel.depth));
  return top + (p.heelCapWidth / 2 - top) * share * share;
};

export function measureJoint(p: NeckParams, model: NeckModel): JointMeasures {
  const tongue = tongueOf(p, model);
  return {
    joint: p.joint,
    tongueWidth: tongue ? 2 * tongue.farTop : 0,
    tongueRootWidth: tongue ? 2 * tongue.rootTop : 0,
    tongueFootWidth: tongue ? 2 * tongue.farFoot : 0,
    tongueLength: tongue ? tongue.length : 0,
    tongueDepth: tongue ? tongue.depth : 0,
    bolts: Array.from({ length: p.bolts }, (_, i) => p.firstBolt + i * p.boltSpacing),
    boltDiameter: p.boltDiameter,
    insertDiameter: p.insertDiameter,
    insertDepth: p.insertDepth,
    blockThickness: p.blockThickness,
  };
}

/** Half widths of a tongue at its root and far end, on top and at its lower end; nothing is less than 0. */
export interface Tongue {
  readonly length: number;
  readonly depth: number;
  readonly farTop: number;
  readonly farFoot: number;
  readonly rootTop: number;
  readonly rootFoot: number;
}

/** Undefined for a butt joint. */
export function tongueOf(p: NeckParams, model: NeckModel): Tongue | undefined {
  if (p.joint === "butt") return undefined;
  const isDovetail = p.joint === "dovetail";
  const depth = Math.min(p.tenonDepth, model.heel.depth);
  const opens = isDovetail ? p.tenonLength * Math.tan(p.flare) : 0;
  const closes = isDovetail ? depth * Math.tan(p.dovetailTaper) : 0;
  const farTop = p.tenonWidth / 2;
  return {
    length: p.tenonLength,
    depth,
    farTop,
    farFoot: Math.max(0, farTop - closes),
    rootTop: Math.max(0, farTop - opens),
    rootFoot: Math.max(0, farTop - opens - closes),
  };
}

/** The tongue seen along the neck: open on top, half widths `top` and `foot`, `depth` deep, its lower corners rounded. */
interface Trapezoid {
  readonly top: number;
  readonly foot: number;
  readonly depth: number;
  readonly radius: number;
}

/** A closed path with its upper edge `over` above the glue plane, the sides carried on; undefined where it has no room for its lower corners. */
export function trapezoidPath({ top, foot, depth, radius }: Trapezoid, over: number): Path | undefined {
  if (!(depth > 0 && top > 0 && foot > 0)) return undefined;
  const slope = (top - foot) / depth;
  const upper = top + slope * over;
  const points = [vec(-upper, over), vec(-foot, -depth), vec(foot, -depth), vec(upper, over)];
  return radius > 0 ? roundedPolygon(points, [0, radius, radius, 0]) : polygon(points);
}

/** The trapezoid with its sides and lower end moved out by `by` mm, square to them (in where below 0). */
function movedOut({ top, foot, depth, radius }: Trapezoid, by: number): Trapezoid {
  const slope = (top - foot) / depth;
  const stretch = Math.hypot(1, slope);
  const deeper = depth + by;
  const newTop = top + by * stretch;
  return { top: newTop, foot: newTop - slope * deeper, depth: deeper, radius: Math.max(0, radius + by) };
}

/** Both templates of a tongue, cut with one bush and bit, or why there is none. */
export interface JointTemplates {
  /** What the bit leaves: the mortise at its bottom (the tongue's far end), the tongue at its root. */
  readonly mortise: Path;
  readonly tongue: Path;
  /** Edges of the inside template for the mortise and of the outside template for the tongue. */
  readonly inside: Path;
  readonly outside: Path;
  readonly cornerRadius: number;
}

/** How far the templates run on above the top, so that the bush enters and leaves clear of it, mm. */
const RUN_OUT = 15;

export function jointTemplates(p: NeckParams, model: NeckModel): JointTemplates | undefined {
  const tongue = tongueOf(p, model);
  if (!tongue || !(p.bush > p.bit)) return undefined;
  const cutter = { by: "bush", guide: p.bush, bit: p.bit } as const;
  const inside = templateOffset(cutter, "blind-recess", "inside");
  const outside = templateOffset(cutter, "piece", "outside");
  if (!inside.ok || !outside.ok) return undefined;
  const radius = Math.max(inside.leastOutwardRadius, outside.leastOutwardRadius);
  const mortise: Trapezoid = { top: tongue.farTop, foot: tongue.farFoot, depth: tongue.depth, radius };
  const root: Trapezoid = { top: tongue.rootTop, foot: tongue.rootFoot, depth: tongue.depth, radius };
  const paths = [
    trapezoidPath(mortise, 0),
    trapezoidPath(root, 0),
    trapezoidPath(movedOut(mortise, inside.offset), RUN_OUT),
    trapezoidPath(movedOut(root, outside.offset), RUN_OUT),
  ];
  const [a, b, c, d] = paths;
  return a && b && c && d ? { mortise: a, tongue: b, inside: c, outside: d, cornerRadius: radius } : undefined;
}

/** Whether a bolt's insert fits at `down`: the wood left of the heel beside it, and between it and the rod's channel floor. */
export function woodRoundInsert(p: NeckParams, model: NeckModel, down: number): number {
  const radius = p.insertDiameter / 2;
  const tongue = tongueOf(p, model);
  // In a tongue that reaches the bolt the insert sits in it and not in the whole heel.
  const beside =
    tongue && down < tongue.depth
      ? Math.min(tongue.rootTop, tongue.rootTop + ((tongue.rootFoot - tongue.rootTop) * down) / tongue.depth)
      : heelHalfWidth(p, model, down);
  return beside - radius;
}

/** A point of the side view moved by the lean of the butt: `out` beyond the butt into the body, `down` below the glue plane. */
export function inBody(model: NeckModel, pitch: number, out: number, down: number): Vec {
  const cos = Math.cos(pitch);
  const sin = Math.sin(pitch);
  // Down the butt, which leans by the pitch, and square to it into the body.
  const along = down / cos;
  return vec(model.joinX - along * sin + out * cos, -along * cos - out * sin);
}
