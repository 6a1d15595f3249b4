/** The head's outline, its tuners and the strings to them. Heights are over the head's face, places in its plane with x from the nut. */
import { drawOutline, type OutlineTrouble } from "../../geometry/drawn/outline.ts";
import { outlinePoint, wholeOutline, type OutlinePoint } from "../../geometry/drawn/point.ts";
import { pathArea, pathBounds } from "../../geometry/measure.ts";
import { nearestOnPath } from "../../geometry/nearest.ts";
import { circle, type Path } from "../../geometry/path.ts";
import { reversePath } from "../../geometry/segment.ts";
import { selfCrossings } from "../../geometry/self-crossing.ts";
import { transformPath, translation } from "../../geometry/transform.ts";
import { angleBetween, distance, sub, vec, type Vec } from "../../geometry/vec.ts";
import { pathWinding } from "../../geometry/winding.ts";
import { breakAngle, scarf } from "../../lutherie/head-angle.ts";
import { passingClearance, postTangent } from "../../lutherie/string-to-post.ts";
import type { Sources } from "../contract.ts";
import { backX, bendBehind, instrumentOf, isScarfed, nutSlope, type HeadstockParams } from "./numbers.ts";

export interface HeadTuner {
  /** As people count: 1 is the treble string. */
  readonly string: number;
  readonly at: Vec;
  /** 1 on the side of rising y, -1 on the other. */
  readonly row: 1 | -1;
  /** Wood between the hole and the nearest edge; below 0 where it breaks out. */
  readonly edgeWood: number;
}

export interface HeadString {
  readonly string: number;
  readonly gauge: number;
  /** Where it leaves the nut, at its back, and where it meets its post. */
  readonly from: Vec;
  readonly to: Vec;
  /** Between its line along the board and its line to the post, seen square to the face; 0 or more. */
  readonly angleAtNutRad: number;
  /** How far it bends down over the nut. */
  readonly breakRad: number;
  /** Least air to another post, and whose that is; absent with no other post. */
  readonly clearance?: number;
  readonly besidePost?: number;
}

export interface HeadstockMeasures {
  readonly outline?: Path;
  /** Within which inlays lie. */
  readonly host?: { readonly outline: Path; readonly thickness: number; readonly holes: readonly Path[] };
  readonly tuners: readonly HeadTuner[];
  readonly strings: readonly HeadString[];
  readonly startX: number;
  readonly topX: number;
  readonly greatestWidth: number;
  readonly widthAtNut: number;
  readonly thickness: number;
  readonly tiltRad: number;
  /** The scarf along its cut face (t / sin) and laid out on the blank's face (t / tan); absent under 1 degree and in a neck sawn from one piece. */
  readonly scarfCutFace?: number;
  readonly scarfLayout?: number;
  /** Least wood between the rims of two holes. */
  readonly betweenHoles?: number;
  /** From here on, away from the nut, the back is flat: bend and volute of the neck end; absent without a neck. */
  readonly flatBackX?: number;
  /** Wood left under the rod's pocket, from the head through the bend to the shelf of the nut. */
  readonly woodUnderPocket?: number;
  /** The least of it is under the shelf, in the neck. */
  readonly leastUnderShelf?: boolean;
  readonly crossings: readonly Vec[];
  readonly troubles: readonly OutlineTrouble[];
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    headstock: HeadstockMeasures;
  }
}

/** Below this a head is straight: its scarf would run on without end. */
const LEAST_TILT = Math.PI / 180;

/** The corners at the nut, before and after the points of the list. */
export function cornersOf(
  p: HeadstockParams,
  from: Sources,
): { readonly before: OutlinePoint[]; readonly after: OutlinePoint[] } {
  const half = p.widthAtNut / 2;
  const slope = nutSlope(from);
  return {
    before: [outlinePoint(slope * half, half)],
    after: p.mirrored && slope === 0 ? [] : [outlinePoint(-slope * half, -half)],
  };
}

export function measureHeadstock(p: HeadstockParams, from: Sources): HeadstockMeasures {
  const x0 = backX(from);
  const { before, after } = cornersOf(p, from);
  const drawn = drawOutline(wholeOutline({ before, points: p.outline, after, mirrored: p.mirrored }));
  const path = drawn && transformPath(translation(vec(x0, 0)), drawn.path);
  const outline = path && (pathArea(path) < 0 ? reversePath(path) : path);
  const tuners = outline ? placeTuners(p, from, outline, x0) : [];
  const box = outline && pathBounds(outline);
  const holes = p.rows === "slotted" ? [] : tuners.map(({ at }) => circle(at, p.hole / 2));
  const gaps = tuners.flatMap((a, i) => tuners.slice(i + 1).map((b) => distance(a.at, b.at) - p.hole));
  const bend = bendBehind(from);
  const under = p.rodPocket ? from.get("neck")?.woodUnderEntry : undefined;
  const joint = p.tilt >= LEAST_TILT && isScarfed(from) ? scarf(p.blankThickness, p.tilt) : undefined;
  return {
    ...(outline ? { outline, host: { outline, thickness: p.thickness, holes } } : {}),
    tuners,
    strings: tuners.map((tuner) => measureString(p, from, tuner, tuners, x0)).toSorted((a, b) => b.string - a.string),
    startX: x0,
    topX: box ? box.minX : x0,
    greatestWidth: box ? box.maxY - box.minY : 0,
    widthAtNut: p.widthAtNut,
    thickness: p.thickness,
    tiltRad: p.tilt,
    ...(joint ? { scarfCutFace: joint.cutFace, scarfLayout: joint.layout } : {}),
    ...(gaps.length > 0 && p.rows !== "slotted" ? { betweenHoles: Math.min(...gaps) } : {}),
    ...(bend === undefined ? {} : { flatBackX: x0 - bend }),
    ...(p.rodPocket
      ? {
          // Bend and volute only add to the head's own back; under the nut and its shelf it is the neck that knows.
          woodUnderPocket: Math.min(p.thickness - p.pocketDepth, under ?? Infinity),
          leastUnderShelf: under !== undefined && under < p.thickness - p.pocketDepth,
        }
      : {}),
    crossings: outline ? selfCrossings(outline) : [],
    troubles: (drawn?.troubles ?? []).flatMap(({ what, point }) => {
      const own = point - before.length;
      return own >= 0 && own < p.outline.length ? [{ what, point: own }] : [];
    }),
  };
}

/** Which row each string's tuner stands in, and the how manieth from the nut it is. The outer strings go to the nearest posts. */
function seatsOf(
  p: HeadstockParams,
  count: number,
  side: 1 | -1,
): { readonly string: number; readonly row: 1 | -1; readonly place: number }[] {
  const bass = side === 1 ? -1 : 1;
  return Array.from({ length: count }, (_, i) => {
    const string = i + 1;
    if (p.rows === "one") return { string, row: bass, place: count - string };
    const treble = Math.min(p.trebleTuners, count);
    return string <= treble ? { string, row: side, place: string - 1 } : { string, row: bass, place: count - string };
  });
}

function placeTuners(p: HeadstockParams, from: Sources, outline: Path, x0: number): HeadTuner[] {
  const { strings, side } = instrumentOf(from);
  return seatsOf(p, strings.length, side).map(({ string, row, place }): HeadTuner => {
    const x = x0 - p.first - place * p.pitch;
    const nudge = p.nudges.filter((one) => one.string === string);
    const along = nudge.reduce((sum, one) => sum + one.along, 0);
    const across = nudge.reduce((sum, one) => sum + one.across, 0);
    const y = acrossAt(outline, x, row, p.fromEdge);
    const at = vec(x - along, y + row * across);
    const inside = pathWinding(outline, at) !== 0;
    const away = nearestOnPath(outline, at).distance;
    return { string, at, row, edgeWood: (inside ? away : -away) - p.hole / 2 };
  });
}

/** Steps inwards from the widest place, and what may lack of the distance in the end, mm. */
const MOST_STEPS = 400;
const CLOSE = 1e-9;

/** y at which a point at x lies `fromEdge` inside the edge of its row's side; the middle where the head is too narrow there. */
function acrossAt(outline: Path, x: number, row: 1 | -1, fromEdge: number): number {
  const box = pathBounds(outline);
  const reach = row === 1 ? box.maxY : -box.minY;
  const end = Math.max(-reach, -box.maxY, box.minY);
  let y = reach;
  for (let round = 0; round < MOST_STEPS && y >= end; round++) {
    const at = vec(x, row * y);
    const away = nearestOnPath(outline, at).distance;
    const lacks = fromEdge - (pathWinding(outline, at) !== 0 ? away : -away);
    if (lacks <= CLOSE) return row * y;
    // A place comes no deeper than by the way that it goes, so that nothing is passed over.
    y -= lacks;
  }
  return 0;
}

function measureString(
  p: HeadstockParams,
  from: Sources,
  tuner: HeadTuner,
  tuners: readonly HeadTuner[],
  x0: number,
): HeadString {
  const instrument = instrumentOf(from);
  const line = instrument.strings.find(({ number }) => number === tuner.string)!;
  const rise = (line.saddle.y - line.nut.y) / line.scale;
  // Where the string's line crosses the nut's back.
  const slope = nutSlope(from);
  const startY = (line.nut.y + rise * (x0 - line.nut.x)) / (1 - rise * slope);
  const start = vec(x0 + slope * startY, startY);
  const radius = p.post / 2;
  const to = p.rows === "slotted" ? vec(tuner.at.x + radius, tuner.at.y) : (tangentOf(p, start, tuner) ?? tuner.at);
  const way = sub(to, start);
  const slot = from.get("nut")?.slots.find(({ string }) => string === tuner.string);
  const heightInNut = (slot?.level ?? 1) + p.faceBelowBoard;
  const reach = distance(start, to);
  const others = tuners.filter((other) => other !== tuner);
  const passed = others
    .map((other) => ({ post: other.string, air: passingClearance(start, to, line.gauge, other.at, radius) }))
    .toSorted((a, b) => a.air - b.air)[0];
  return {
    string: tuner.string,
    gauge: line.gauge,
    from: start,
    to,
    angleAtNutRad: reach > 0 ? Math.abs(angleBetween(vec(-1, -rise), way)) : 0,
    breakRad: reach > 0 ? breakAngle({ heightInNut, heightAtPost: p.stringHeight, distance: reach }, p.tilt) : p.tilt,
    ...(passed && p.rows !== "slotted" ? { clearance: passed.air, besidePost: passed.post } : {}),
  };
}

/** The inside of a post is its side towards the centre line. Looking from the nut to the head, rising y lies to the right. */
function tangentOf(p: HeadstockParams, start: Vec, tuner: HeadTuner): Vec | undefined {
  const insideIsLeft = tuner.row === 1;
  return postTangent(start, tuner.at, p.post / 2, insideIsLeft === (p.wound === "inside") ? "left" : "right");
}
