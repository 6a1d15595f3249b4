/** A port on its curved side: flat on its template, and as it lies on the wood. */
import { drawOutline, type OutlineTrouble } from "../../geometry/drawn/outline.ts";
import { flatten } from "../../geometry/flatten.ts";
import { pathArea, pathBounds } from "../../geometry/measure.ts";
import { offsetPath } from "../../geometry/offset.ts";
import type { Path } from "../../geometry/path.ts";
import { piecesOf, pointAt, reversePath, tangentAt } from "../../geometry/segment.ts";
import { selfCrossings } from "../../geometry/self-crossing.ts";
import { rotation, transformPath } from "../../geometry/transform.ts";
import { unit, vec, ORIGIN, type Vec } from "../../geometry/vec.ts";
import { riseFromHoles, type AirHole } from "../../lutherie/air-resonance.ts";
import { bentFace, type BentFace } from "../../lutherie/bent-face.ts";
import { curveSegments } from "../../geometry/curve-path.ts";
import { roundOval } from "../../lutherie/oval.ts";
import type { Sources } from "../contract.ts";
import { bentSideOf, type BentSide, type PortParams } from "./numbers.ts";

/** Least of something round the port: how much, and where on its drawing. */
export interface Least {
  readonly distance: number;
  readonly at: Vec;
}

export interface PortMeasures {
  /** The port as the template has it, about its middle: x along the side to the right as seen from outside, y up to the top. */
  readonly flat?: Path;
  /** The same as it lies on the outer face, laid flat: what a paper outline wrapped round the side shows. */
  readonly wrapped?: Path;
  /** And on the inner face, where the backing ring goes, with the ring's own edges. */
  readonly inside?: Path;
  readonly ringInner?: Path;
  readonly ringOuter?: Path;
  /** Why there is none of these. */
  readonly fault: string;
  readonly crossings: readonly Vec[];
  readonly troubles: readonly OutlineTrouble[];
  /** Of the side where the port's middle is; absent where it is straight. */
  readonly radius?: number;
  readonly bends: "out" | "in" | "straight";
  /** Along the side and across it, on the template; along the face. */
  readonly length: number;
  readonly width: number;
  readonly lengthOnFace: number;
  /** Between the side and a flat template on it, where the gap is widest. */
  readonly gap: number;
  readonly leanRad: number;
  /** The most that a point of the flat outline and of the wrapped one lie apart. */
  readonly misfit: number;
  readonly insertBlank: number;
  /** mm2: of the opening, less what an insert closes. */
  readonly openArea: number;
  readonly air?: AirHole;
  /** By what factor the stiff-box air resonance rises with the port open; absent without a soundhole. */
  readonly rise?: number;
  /** Side left from the port's edge to the lining at the top and at the back. */
  readonly toTop?: Least;
  readonly toBack?: Least;
  /** Along the face to the nearer block or end of the side. */
  readonly toBlock?: Least;
  /** On the instrument, in plan, at the middle of the port; and its height over the plane of the body's edge. */
  readonly at?: Vec;
  readonly height: number;
  /** As seen from outside with the top up, the neck lies to the left. */
  readonly neckAtLeft: boolean;
  /** Along the outer face from the neck's end of the side. */
  readonly fromNeck: number;
  readonly sideThickness: number;
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    port: PortMeasures;
  }
}

const NOTHING = {
  bends: "straight",
  length: 0,
  width: 0,
  lengthOnFace: 0,
  gap: 0,
  leanRad: 0,
  misfit: 0,
  insertBlank: 0,
  openArea: 0,
  height: 0,
} as const;

export function measurePort(p: PortParams, from: Sources): PortMeasures {
  const side = bentSideOf(p, from);
  const drawn = drawnOf(p);
  const common = {
    crossings: drawn?.crossings ?? [],
    troubles: drawn?.troubles ?? [],
    neckAtLeft: (side?.sign ?? -1) === -1,
    fromNeck: p.fromNeck,
    sideThickness: p.sideThickness,
  };
  const nothing = (fault: string): PortMeasures => ({ ...NOTHING, ...common, fault });
  if (!side) return nothing("its place lies on no side of the body");
  if (!drawn) return nothing("its points span no area");
  const box = pathBounds(drawn.path);
  // A template longer than the side can be seen over is told by its fault.
  const reach = Math.max(box.maxX, -box.minX) + 1;
  const faceAt = (inset: number): BentFace | undefined => bentFace(side.plan, side.at, reach, inset);
  const [outer, inner] = [faceAt(0), faceAt(p.sideThickness)];
  // u of the drawing runs to the right as seen from outside, the plan towards the neck.
  const sign = side.sign;
  const onTemplate = p.measured === "template";
  const flat = onTemplate ? drawn.path : outer && mapped(drawn.path, (x) => signed(sign, outer.flat(sign * x)));
  const wrapped = outer && flat && mapped(flat, (x) => signed(sign, outer.place(sign * x)?.along));
  const inside = inner && flat && mapped(flat, (x) => signed(sign, inner.place(sign * x)?.along));
  if (!outer || !flat || !wrapped || !inside) return nothing("it is longer than the side's bend lets a flat template be");
  const flatBox = pathBounds(flat);
  const wrappedBox = pathBounds(wrapped);
  const area = Math.abs(pathArea(flat));
  const open = p.fill === "insert" ? (area * p.openPct) / 100 : area;
  const air = open > 0 ? airOf(flatBox.maxX - flatBox.minX, flatBox.maxY - flatBox.minY, open, wallOf(p)) : undefined;
  const hole = from.get("soundhole")?.air;
  const gap = gapUnder(
    outer,
    Math.min(sign * flatBox.minX, sign * flatBox.maxX),
    Math.max(sign * flatBox.minX, sign * flatBox.maxX),
  );
  return {
    ...common,
    flat,
    wrapped,
    inside,
    ...ringOf(p, inside),
    fault: "",
    ...(Math.abs(outer.radius) === Infinity ? {} : { radius: Math.abs(outer.radius) }),
    bends: Math.abs(outer.radius) === Infinity ? "straight" : outer.radius > 0 ? "out" : "in",
    length: flatBox.maxX - flatBox.minX,
    width: flatBox.maxY - flatBox.minY,
    lengthOnFace: wrappedBox.maxX - wrappedBox.minX,
    gap,
    leanRad: Math.max(...[flatBox.minX, flatBox.maxX].map((x) => outer.place(sign * x)?.lean ?? 0)),
    misfit: Math.max(
      ...[
        [flatBox.minX, wrappedBox.minX],
        [flatBox.maxX, wrappedBox.maxX],
      ].map(([a, b]) => Math.abs(a! - b!)),
    ),
    insertBlank: p.insertThickness + gap,
    openArea: open,
    ...(air ? { air } : {}),
    ...(air && hole ? { rise: riseFromHoles([hole], [air], "wideWall") } : {}),
    ...roomsOf(p, side, outer, wrapped, wrappedBox),
    at: vec(outer.at.x, sign * outer.at.y),
    height: side.top(outer.at) - p.fromTop,
  };
}

const signed = (sign: 1 | -1, value: number | undefined): number | undefined => (value === undefined ? undefined : sign * value);

/** What the air goes through: the side, and an insert or the ring that is glued behind it. */
export const wallOf = (p: PortParams): number =>
  p.fill === "insert" ? Math.max(p.sideThickness, p.insertThickness) : p.sideThickness + (p.ringWidth > 0 ? p.ringThickness : 0);

interface DrawnPort {
  readonly path: Path;
  readonly crossings: readonly Vec[];
  readonly troubles: readonly OutlineTrouble[];
}

/** The outline as typed, turned, about its middle. */
function drawnOf(p: PortParams): DrawnPort | undefined {
  const turned = (path: Path): Path => (p.turn === 0 ? path : transformPath(rotation(p.turn), path));
  if (p.shape === "ellipse")
    return { path: turned(roundOval({ centre: ORIGIN, a: p.length / 2, b: p.width / 2 }, 0)), crossings: [], troubles: [] };
  const drawn = drawOutline(p.outline);
  if (!drawn) return undefined;
  const path = turned(pathArea(drawn.path) < 0 ? reversePath(drawn.path) : drawn.path);
  return {
    path,
    crossings: selfCrossings(path),
    troubles: drawn.troubles.filter(({ point }) => point < p.outline.length),
  };
}

/** The outline with x carried over by a function that rises, within 0.002 mm; undefined where it has no value. */
function mapped(path: Path, x: (value: number) => number | undefined): Path | undefined {
  const { minX, maxX } = pathBounds(path);
  if (x(minX) === undefined || x(maxX) === undefined) return undefined;
  const at = (p: Vec): Vec => vec(x(p.x)!, p.y);
  const step = Math.max(1e-4, (maxX - minX) * 1e-5);
  const rate = (value: number): number => {
    const [a, b] = [Math.max(minX, value - step), Math.min(maxX, value + step)];
    return (x(b)! - x(a)!) / (b - a);
  };
  const held = (p: Vec): Vec => vec(Math.min(maxX, Math.max(minX, p.x)), p.y);
  const segments = piecesOf(path).flatMap((piece) =>
    curveSegments(
      {
        at: (t) => at(held(pointAt(piece, t))),
        direction: (t) => {
          const way = tangentAt(piece, t) ?? vec(1, 0);
          return unit(vec(way.x * rate(held(pointAt(piece, t)).x), way.y));
        },
      },
      0,
      1,
      2e-3,
    ),
  );
  const start = at(held(path.start));
  const last = segments.at(-1);
  return last ? { start, segments: [...segments.slice(0, -1), { ...last, to: start }], closed: true } : undefined;
}

const LOOKS = 24;

/** Between the face and a flat template that lies on it from u to u: on one that bends out it touches in the middle, on a hollow at its ends. */
function gapUnder(face: BentFace, from: number, to: number): number {
  const falls = Array.from({ length: LOOKS + 1 }, (_, i) => face.place(from + ((to - from) * i) / LOOKS)?.fall ?? 0);
  return Math.max(...falls) - Math.min(...falls, 0);
}

function ringOf(p: PortParams, inside: Path): Pick<PortMeasures, "ringInner" | "ringOuter"> {
  if (!(p.ringWidth > 0)) return {};
  const only = (by: number): Path | undefined => {
    if (by === 0) return inside;
    const [first, ...more] = offsetPath(inside, by);
    return first && more.length === 0 && first.holes.length === 0 ? first.outer : undefined;
  };
  const [ringInner, ringOuter] = [only(-p.ringLip), only(p.ringWidth)];
  return { ...(ringInner ? { ringInner } : {}), ...(ringOuter ? { ringOuter } : {}) };
}

function airOf(length: number, width: number, area: number, wall: number): AirHole {
  const k = Math.sqrt(area / (Math.PI * length * width));
  return { a: k * length, b: k * width, wall };
}

/** Coarse enough to be quick, far finer than any room that matters, mm. */
const OUTLINE_STEP = 0.02;

function roomsOf(
  p: PortParams,
  side: BentSide,
  face: BentFace,
  wrapped: Path,
  box: { readonly minX: number; readonly maxX: number },
): Pick<PortMeasures, "toTop" | "toBack" | "toBlock"> {
  const middle = side.top(face.at) - p.fromTop;
  const points = flatten(wrapped, OUTLINE_STEP).map((at) => ({ at, plan: face.plan(side.sign * at.x) ?? face.at }));
  const least = (room: (point: (typeof points)[number]) => number): Least =>
    points
      .map((point) => ({ distance: room(point), at: point.at }))
      .reduce((best, found) => (found.distance < best.distance ? found : best));
  const ends = ([box.minX, box.maxX] as const).map((x) => {
    const along = side.at + side.sign * x;
    return { at: vec(x, 0), distance: Math.min(along - side.free.from, side.free.to - along) };
  });
  return {
    toTop: least(({ at, plan }) => side.top(plan) - side.lining - middle - at.y),
    toBack: least(({ at, plan }) => middle + at.y - side.back(plan) - side.lining),
    toBlock: ends.reduce((a, b) => (b.distance < a.distance ? b : a)),
  };
}
