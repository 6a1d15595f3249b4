/** A body's outline on the instrument, and what other parts and its own drawing read of it. x from the nut. */
import { drawOutline, type OutlineTrouble } from "../../geometry/drawn/outline.ts";
import { mirroredPoints } from "../../geometry/drawn/point.ts";
import { pathArea, pathBounds, pathLength } from "../../geometry/measure.ts";
import type { Path } from "../../geometry/path.ts";
import { curvatureAt, extremesOf, piecesOf, pointAt, reversePath, tangentAt } from "../../geometry/segment.ts";
import { selfCrossings } from "../../geometry/self-crossing.ts";
import { transformPath, translation } from "../../geometry/transform.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { leanOnDome } from "../../lutherie/dome.ts";
import { leastDome, plateHeight, type DomedPlate } from "../../lutherie/domed-plate.ts";
import { allMovedInside } from "../../geometry/parallel.ts";
import { smoothRuns } from "../../lutherie/unrolled-side.ts";
import type { Sources } from "../contract.ts";
import { tightBends, type TightBends } from "./bends.ts";
import { cornersOf, type BodyCorner } from "./corners.ts";
import { halvesOf } from "./halves.ts";
import { halvesAlike, instrumentOf, type BodyParams, type EdgeLayer } from "./numbers.ts";
import { measuredOutline, refusalOf } from "./starting-outline.ts";

/** A bout or a waist on one side: where the outline runs level. */
export interface BodyLevel {
  readonly what: "bout" | "waist";
  /** On the side of rising y of its half. */
  readonly at: Vec;
  /** Of the outline there, mm; absent where it is straight. */
  readonly radius?: number;
  /** Of a router that rides the dome of the top there, from square to the plane of the edge, radians. */
  readonly leanRad: number;
}

/** A half of the outline. */
export interface BodyHalf {
  /** From the tail to the neck, the body to its left, laid on the side of rising y whichever half it is. */
  readonly outline: Path;
  readonly length: number;
  /** From the neck to the tail. */
  readonly levels: readonly BodyLevel[];
  /** The stretches without corners that a side is bent to, from the tail on; what runs along the neck in a cutaway is none. */
  readonly bent: readonly Path[];
}

/** A channel round the edge: everything in from the edge, down to its height. */
export interface Ledge {
  readonly id: string;
  readonly name: string;
  readonly thickness: number;
  /** From the edge to the wall of the channel: this layer and those outside it. */
  readonly inset: number;
  /** Down the side from the plate. */
  readonly height: number;
  /** Absent where the outline has no room for it. */
  readonly path?: Path;
}

export interface BodyMeasures {
  readonly build: "hollow" | "solid";
  /** Closed, counter-clockwise; absent where the numbers give none. */
  readonly outline?: Path;
  /** Of the hollow: the outline less the sides; absent for a solid body. */
  readonly inside?: Path;
  /** Within which inlays lie: the top, seen from the front. */
  readonly host?: { readonly outline: Path; readonly thickness: number; readonly holes: readonly Path[] };
  readonly treble?: BodyHalf;
  readonly bass?: BodyHalf;
  /** Neck end and tail on the centre line. */
  readonly joinX: number;
  readonly neckX: number;
  readonly tailX: number;
  readonly length: number;
  /** No place on the body is farther from the middle between neck and tail. */
  readonly reach: number;
  /** Of the whole outline. */
  readonly greatestWidth: number;
  /** mm2 */
  readonly area: number;
  readonly perimeter: number;
  /** From tail to neck round the outer face, treble and bass. */
  readonly trebleSide: number;
  readonly bassSide: number;
  readonly topThickness: number;
  readonly backThickness: number;
  readonly sideThickness: number;
  /** Of a solid body. */
  readonly depth: number;
  /** The top over the plane of its edge at neck and tail. */
  readonly top: DomedPlate;
  /** The dome's radius as it is held; absent for a flat top. */
  readonly topRadius?: number;
  /** How far the top stands over the plane of its edge where the scale ends, on the centre line. */
  readonly riseAtScale: number;
  /** Greatest lean of a router riding the top along its edge, and where. */
  readonly greatestLeanRad: number;
  readonly greatestLeanAt?: Vec;
  readonly topLedges: readonly Ledge[];
  readonly backLedges: readonly Ledge[];
  /** Where the layers turn a corner. */
  readonly corners: readonly BodyCorner[];
  /** All layers round the top together. */
  readonly bindingThickness: number;
  /** Both halves are alike. */
  readonly symmetric: boolean;
  /** The tightest bends of the outline, corners left out. */
  readonly tightest: TightBends;
  readonly crossings: readonly Vec[];
  readonly troubles: readonly OutlineTrouble[];
  /** Why there is no outline. */
  readonly fault: string;
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    body: BodyMeasures;
  }
}

export function measureBody(p: BodyParams, from: Sources): BodyMeasures {
  const { joinX, side } = instrumentOf(from);
  const { outline, troubles, fault } = outlineOf(p, joinX, side);
  const halves = outline && halvesOf(outline);
  const box = outline && pathBounds(outline);
  const neckX = halves ? endX(halves.up) : joinX;
  const tailX = halves ? halves.up.start.x : joinX + p.length;
  const reach = box ? Math.hypot((tailX - neckX) / 2, Math.max(box.maxY, -box.minY)) : 0;
  const top = topOf(p, neckX, tailX, reach);
  const lean = (at: Vec): number => leanAt(top, at);
  const halfOf = (path: Path | undefined, cut: boolean): BodyHalf | undefined =>
    path && { outline: path, length: pathLength(path), levels: levelsOf(path, lean), bent: bentRuns(path, cut) };
  const byMeasures = p.outlineBy === "measures";
  const [up, down] = halves ? [halves.up, halves.down] : [];
  const symmetric = byMeasures ? halvesAlike(p) : p.mirrored;
  const treble = halfOf(side === 1 ? up : down, byMeasures && p.cutaway !== "none");
  const bass = symmetric ? treble : halfOf(side === 1 ? down : up, byMeasures && p.bassCutaway !== "none");
  const walls = wallsOf(p, outline);
  const farthest = outline && farthestFrom(outline, vec((neckX + tailX) / 2, 0));
  return {
    build: p.build,
    ...(outline ? { outline, host: { outline, thickness: p.topThickness, holes: [] } } : {}),
    ...(walls.inside ? { inside: walls.inside } : {}),
    ...(treble && bass ? { treble, bass } : {}),
    joinX,
    neckX,
    tailX,
    length: tailX - neckX,
    reach,
    greatestWidth: box ? box.maxY - box.minY : 0,
    area: outline ? pathArea(outline) : 0,
    perimeter: outline ? pathLength(outline) : 0,
    trebleSide: treble?.length ?? 0,
    bassSide: bass?.length ?? 0,
    topThickness: p.topThickness,
    backThickness: p.backThickness,
    sideThickness: p.sideThickness,
    depth: p.depth,
    top,
    ...(top.radius === undefined ? {} : { topRadius: top.radius }),
    riseAtScale: riseAt(top, scaleEnd(from)),
    greatestLeanRad: farthest ? lean(farthest) : 0,
    ...(farthest ? { greatestLeanAt: farthest } : {}),
    topLedges: walls.top,
    backLedges: walls.back,
    corners: treble && bass ? cornersOf(treble, bass, side) : [],
    bindingThickness: p.binding.reduce((sum, { thickness }) => sum + thickness, 0),
    symmetric,
    tightest: outline ? tightBends(outline) : {},
    crossings: outline ? selfCrossings(outline) : [],
    troubles,
    fault,
  };
}

interface Found {
  readonly outline?: Path;
  readonly troubles: readonly OutlineTrouble[];
  readonly fault: string;
}

function outlineOf(p: BodyParams, joinX: number, side: 1 | -1): Found {
  const place = (path: Path): Path => transformPath(translation(vec(joinX, 0)), path);
  if (p.outlineBy === "measures") {
    const found = measuredOutline(p, side);
    return found
      ? { outline: place(found.outline), troubles: [], fault: "" }
      : { troubles: [], fault: refusalOf(p) ?? "the measures give no outline" };
  }
  const drawn = drawOutline(p.mirrored ? mirroredPoints(p.outline) : p.outline);
  if (!drawn) return { troubles: [], fault: "its points span no area" };
  const path = place(drawn.path);
  return {
    outline: pathArea(path) < 0 ? reversePath(path) : path,
    troubles: drawn.troubles.filter(({ point }) => point < p.outline.length),
    fault: "",
  };
}

/** The runs of a half less what closes it across the neck's end, and less the one along the neck in a cutaway. */
function bentRuns(half: Path, cut: boolean): Path[] {
  const runs = smoothRuns(half);
  const x = endX(half);
  const across = (run: Path): boolean =>
    [run.start, ...run.segments.map(({ to }) => to)].every((at) => Math.abs(at.x - x) < 1e-6);
  while (runs.length > 1 && across(runs.at(-1)!)) runs.pop();
  if (cut && runs.length > 1) runs.pop();
  return runs;
}

const endX = (path: Path): number => path.segments.at(-1)!.to.x;

function scaleEnd(from: Sources): number {
  const { scale, bassScale } = instrumentOf(from);
  return (scale + bassScale) / 2;
}

/** The top through its edge at the neck and at the tail; a dome too tight to span it is held at one that does. */
function topOf(p: BodyParams, neckX: number, tailX: number, reach: number): DomedPlate {
  const [neck, tail] = [
    { x: neckX, height: 0 },
    { x: tailX, height: 0 },
  ];
  const plate = { neck, tail, bulges: "up" } as const;
  if (p.build === "solid" || p.topRadius === undefined) return plate;
  return { ...plate, radius: Math.max(p.topRadius, leastDome(neck, tail, reach)) };
}

/** The top over the plane of its edge at x on the centre line, between neck and tail; 0 elsewhere. */
const riseAt = (top: DomedPlate, x: number): number => (x > top.neck.x && x < top.tail.x ? plateHeight(top, vec(x, 0)) : 0);

function leanAt({ radius, neck, tail }: DomedPlate, at: Vec): number {
  return radius === undefined ? 0 : leanOnDome(Math.min(radius, Math.hypot(at.x - (neck.x + tail.x) / 2, at.y)), radius);
}

/** Places on a curve looked at for the farthest. */
const LOOKS = 16;

function farthestFrom(outline: Path, middle: Vec): Vec {
  const places = piecesOf(outline).flatMap((piece) => Array.from({ length: LOOKS + 1 }, (_, k) => pointAt(piece, k / LOOKS)));
  const away = (at: Vec): number => Math.hypot(at.x - middle.x, at.y - middle.y);
  return places.reduce((best, at) => (away(at) > away(best) ? at : best));
}

/** Below this bend, 1/mm, it is straight. */
const STRAIGHT = 1e-5;

/** Steeper than this against the centre line, the outline does not run level. */
const LEVEL = 1e-4;

function levelsOf(half: Path, lean: (at: Vec) => number): BodyLevel[] {
  const pieces = piecesOf(half);
  const levels: BodyLevel[] = [];
  const take = (at: Vec, bend: number): void => {
    if (levels.some((known) => Math.hypot(known.at.x - at.x, known.at.y - at.y) < 1e-3) || !(at.y > 1)) return;
    levels.push({
      what: bend >= 0 ? "bout" : "waist",
      at,
      ...(Math.abs(bend) > STRAIGHT ? { radius: 1 / Math.abs(bend) } : {}),
      leanRad: lean(at),
    });
  };
  pieces.forEach((piece, i) => {
    // Where it turns from rising to falling or back, inside a curve or at a joint of two.
    for (const t of extremesOf(piece))
      if (Math.abs(tangentAt(piece, t)!.y) < LEVEL) take(pointAt(piece, t), curvatureAt(piece, t));
    const next = pieces[i + 1];
    const [arriving, leaving] = [tangentAt(piece, 1), next && tangentAt(next, 0)];
    if (!next || !arriving || !leaving || piece.segment.kind === "line" || next.segment.kind === "line") return;
    if (Math.abs(arriving.y) < LEVEL && Math.abs(leaving.y) < LEVEL && arriving.x < 0) take(next.from, curvatureAt(next, 0));
  });
  return levels.toSorted((a, b) => a.at.x - b.at.x);
}

/** The inside of the sides and the walls of all channels: outlines parallel to the body's. */
function wallsOf(
  p: BodyParams,
  outline: Path | undefined,
): { readonly inside: Path | undefined; readonly top: readonly Ledge[]; readonly back: readonly Ledge[] } {
  const insets = (layers: readonly EdgeLayer[]): number[] =>
    layers.map((_, i) => layers.slice(0, i + 1).reduce((sum, { thickness }) => sum + thickness, 0));
  const [top, back] = [insets(p.binding), insets(p.backBinding)];
  const sides = p.build === "hollow" ? [p.sideThickness] : [];
  const paths = outline ? allMovedInside(outline, [...sides, ...top, ...back]) : [];
  const ledges = (plate: "top" | "back", layers: readonly EdgeLayer[], depths: readonly number[], first: number): Ledge[] =>
    layers.map(({ name, thickness, height }, i): Ledge => {
      const path = paths[first + i];
      return {
        id: `${plate}-ledge-${i + 1}`,
        name: name.trim() === "" ? `layer ${i + 1}` : name,
        thickness,
        inset: depths[i]!,
        height,
        ...(path ? { path } : {}),
      };
    });
  return {
    inside: sides.length > 0 ? paths[0] : undefined,
    top: ledges("top", p.binding, top, sides.length),
    back: ledges("back", p.backBinding, back, sides.length + top.length),
  };
}
