/** A pickguard on the instrument, what it keeps clear of, what it weighs, and whether it hides what was there before. x from the nut. */
import type { Clearance } from "../../geometry/clearance.ts";
import { apart, cover, roomInside, type Cover } from "../../geometry/cover.ts";
import { drawOutline, type OutlineTrouble } from "../../geometry/drawn/outline.ts";
import { pathArea, pathBounds, pathCentroid, pathLength } from "../../geometry/measure.ts";
import { rayHits } from "../../geometry/intersect.ts";
import { offsetPath } from "../../geometry/offset.ts";
import type { Outline } from "../../geometry/outline.ts";
import type { Path } from "../../geometry/path.ts";
import { reversePath } from "../../geometry/segment.ts";
import { selfCrossings } from "../../geometry/self-crossing.ts";
import { compose, rotation, transformOutline, transformPath, translation } from "../../geometry/transform.ts";
import { add, scale, sub, unit, vec, type Vec } from "../../geometry/vec.ts";
import { pathWinding } from "../../geometry/winding.ts";
import { plateMassG } from "../../lutherie/wood-density.ts";
import { artOutlines } from "../art-outline.ts";
import type { Sources } from "../contract.ts";
import { withLater } from "../lazy.ts";
import { instrumentOf, roundOf, type PickguardParams } from "./numbers.ts";

/** How far the guard keeps from something, or in it; below 0 it lies on it, or out of it, by that. */
export interface Room {
  readonly distance: number;
  readonly at: Vec;
  /** On the edge of the other. */
  readonly to: Vec;
}

export interface PickguardMeasures {
  /** Where its points are measured from: the middle of the soundhole. */
  readonly origin: Vec;
  /** Within which inlays lie; absent where the points span no area. */
  readonly host?: { readonly outline: Path; readonly thickness: number; readonly holes: readonly Path[] };
  readonly outline?: Path;
  /** Edge of the sheet of adhesive: the guard's own where it is trimmed flush, absent where the inset leaves nothing whole. */
  readonly adhesive?: Path;
  readonly length: number;
  readonly width: number;
  readonly thickness: number;
  /** mm2 */
  readonly area: number;
  readonly perimeter: number;
  readonly massG: number;
  readonly atBoard?: Room;
  readonly atBridge?: Room;
  readonly atRosette?: Room;
  readonly inBody?: Room;
  /** What it must hide, in its place, and whether it does. */
  readonly old: readonly Outline[];
  readonly oldFault: string;
  readonly cover?: Cover;
  readonly crossings: readonly Vec[];
  readonly troubles: readonly OutlineTrouble[];
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    pickguard: PickguardMeasures;
  }
}

export function measurePickguard(p: PickguardParams, from: Sources): PickguardMeasures {
  const { middle } = roundOf(from);
  const { side } = instrumentOf(from);
  const drawn = drawOutline(p.outline);
  const outline = drawn && placed(drawn.path, middle);
  const { pieces: old, fault } = oldOf(p, middle, side);
  const common = {
    origin: middle,
    thickness: p.thickness,
    old,
    oldFault: fault,
    crossings: outline ? selfCrossings(outline) : [],
    troubles: drawn?.troubles.filter(({ point }) => point < p.outline.length) ?? [],
  };
  if (!outline) return { ...common, length: 0, width: 0, area: 0, perimeter: 0, massG: 0 };
  const box = pathBounds(outline);
  const area = Math.abs(pathArea(outline));
  const { adhesiveInset } = p;
  const covered = cover([whole(outline)], old);
  const now = {
    ...common,
    outline,
    host: { outline, thickness: p.thickness, holes: [] },
    length: box.maxX - box.minX,
    width: box.maxY - box.minY,
    area,
    perimeter: pathLength(outline),
    massG: plateMassG(area, p.thickness, p.density),
    ...(covered ? { cover: covered } : {}),
  };
  return withLater<PickguardMeasures, "adhesive" | keyof Rooms>(now, {
    adhesive: () => (adhesiveInset === 0 ? outline : onlyPiece(offsetPath(outline, -adhesiveInset))),
    ...roomsOf(outline, from),
  });
}

const whole = (outer: Path): Outline => ({ outer, holes: [] });

function placed(path: Path, at: Vec): Path {
  const moved = transformPath(translation(at), path);
  return pathArea(moved) < 0 ? reversePath(moved) : moved;
}

function onlyPiece(pieces: readonly Outline[]): Path | undefined {
  const [first, ...more] = pieces;
  return first && more.length === 0 && first.holes.length === 0 ? first.outer : undefined;
}

type Rooms = { readonly [K in "atBoard" | "atBridge" | "atRosette" | "inBody"]?: () => Room };

function roomsOf(outline: Path, from: Sources): Rooms {
  const guard = whole(outline);
  const room = ({ a, b, distance }: Clearance): Room => ({ at: a, to: b, distance });
  const board = from.get("fingerboard")?.outline;
  const bridge = from.get("bridge")?.outline;
  const rosette = from.get("soundhole")?.rosette;
  const body = from.get("body")?.outline;
  return {
    ...(board ? { atBoard: () => room(apart(guard, whole(board))) } : {}),
    ...(bridge ? { atBridge: () => room(apart(guard, whole(bridge))) } : {}),
    ...(rosette ? { atRosette: () => room(apart(guard, whole(rosette))) } : {}),
    ...(body ? { inBody: () => room(roomInside(guard, whole(body))) } : {}),
  };
}

/** What was there before, where it is on the instrument. */
function oldOf(p: PickguardParams, middle: Vec, side: 1 | -1): { readonly pieces: readonly Outline[]; readonly fault: string } {
  if (p.old === "none") return { pieces: [], fault: "" };
  if (p.old === "points") {
    const drawn = drawOutline(p.oldOutline);
    return drawn ? { pieces: [whole(placed(drawn.path, middle))], fault: "" } : { pieces: [], fault: "its points span no area" };
  }
  const { pieces, fault } = artOutlines(p.oldArt, p.oldWidth);
  const place = compose(rotation(side * p.oldTurn), translation(add(middle, vec(p.oldX, side * p.oldY))));
  return { pieces: pieces.map((outline) => transformOutline(place, outline)), fault };
}

/**
 * The middle of its area, where the arrow of the grain stands; of a narrow guard round the hole, whose own middle lies beside it, the middle
 * of the band there; the middle of its box where it crosses itself.
 */
export function middleOf(m: PickguardMeasures, outline: Path): Vec {
  if (m.crossings.length === 0 && m.area > 0) {
    const centre = pathCentroid(outline);
    if (pathWinding(outline, centre) !== 0) return centre;
    const out = sub(centre, m.origin);
    const [far, near] = rayHits([outline], m.origin, out).toReversed();
    return near === undefined ? centre : add(m.origin, scale(unit(out), (near + far!) / 2));
  }
  const box = pathBounds(outline);
  return vec((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);
}
