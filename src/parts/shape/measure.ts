/** The outline of a free shape and what can be said of it. */
import { tightestHollow, type Bend } from "../../geometry/drawn/bends.ts";
import { drawOutline, type OutlineTrouble } from "../../geometry/drawn/outline.ts";
import { mirroredPoints } from "../../geometry/drawn/point.ts";
import { pathArea, pathLength, pathsBounds } from "../../geometry/measure.ts";
import { outlinesArea, type Outline } from "../../geometry/outline.ts";
import type { Path } from "../../geometry/path.ts";
import { reversePath } from "../../geometry/segment.ts";
import { selfCrossings } from "../../geometry/self-crossing.ts";
import type { Vec } from "../../geometry/vec.ts";
import { artOutlines } from "../art-outline.ts";
import type { ShapeParams } from "./numbers.ts";

export interface ShapeMeasures {
  /** The largest piece, which inlays may be let into; absent where there is no outline. */
  readonly host?: { readonly outline: Path; readonly thickness: number; readonly holes: readonly Path[] };
  /** All pieces, the largest first. */
  readonly pieces: readonly Outline[];
  readonly thickness: number;
  /** From end to end along the centre line, and across; 0 where there is no outline. */
  readonly length: number;
  readonly width: number;
  /** mm2, holes taken off. */
  readonly area: number;
  /** Of the outer edges. */
  readonly perimeter: number;
  readonly crossings: readonly Vec[];
  readonly troubles: readonly OutlineTrouble[];
  readonly tightest?: Bend;
  /** Why there is no outline. */
  readonly fault: string;
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    shape: ShapeMeasures;
  }
}

export function measureShape(p: ShapeParams): ShapeMeasures {
  const { pieces, crossings, troubles, fault } =
    p.source === "points" ? drawnPieces(p) : { ...NONE, ...artOutlines(p.art, p.artWidth) };
  const largest = pieces[0];
  const box = largest && pathsBounds(pieces.map(({ outer }) => outer));
  const bends = pieces.flatMap(({ outer, holes }) => [outer, ...holes]).flatMap((path) => tightestHollow(path) ?? []);
  const tightest = bends.toSorted((a, b) => a.radius - b.radius)[0];
  return {
    ...(largest ? { host: { outline: largest.outer, thickness: p.thickness, holes: largest.holes } } : {}),
    pieces,
    thickness: p.thickness,
    length: box ? box.maxX - box.minX : 0,
    width: box ? box.maxY - box.minY : 0,
    area: outlinesArea(pieces),
    perimeter: pieces.reduce((sum, { outer }) => sum + pathLength(outer), 0),
    crossings,
    troubles,
    ...(tightest ? { tightest } : {}),
    fault,
  };
}

type Pieces = Pick<ShapeMeasures, "pieces" | "crossings" | "troubles" | "fault">;
const NONE: Pieces = { pieces: [], crossings: [], troubles: [], fault: "" };

function drawnPieces(p: ShapeParams): Pieces {
  const drawn = drawOutline(p.mirrored ? mirroredPoints(p.outline) : p.outline);
  if (!drawn) return { ...NONE, fault: "its points span no area" };
  const { path, troubles } = drawn;
  const crossings = selfCrossings(path);
  return {
    ...NONE,
    pieces: [{ outer: pathArea(path) < 0 ? reversePath(path) : path, holes: [] }],
    crossings,
    troubles: troubles.filter(({ point }) => point < p.outline.length),
  };
}
