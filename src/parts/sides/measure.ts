/** The sides: their pieces, how deep they stand and how long they are. Places have x from the nut; heights are over the plane of the body's edge. */
import { intersectPaths } from "../../geometry/intersect.ts";
import { pathLength } from "../../geometry/measure.ts";
import { nearestOnPath } from "../../geometry/nearest.ts";
import { segmentPath, type Path } from "../../geometry/path.ts";
import { piecesOf, pointAt, tangentAt } from "../../geometry/segment.ts";
import { add, angleBetween, leftOf, scale, vec, type Vec } from "../../geometry/vec.ts";
import { leastDome, plateHeight, type DomedPlate } from "../../lutherie/domed-plate.ts";
import { lengthAlong } from "../../lutherie/unrolled-side.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";
import { hollowOf, type Body, type SidesParams } from "./numbers.ts";

type BodyHalf = NonNullable<Body["treble"]>;

/** A place along a side, where something is marked. */
export interface SideMark {
  readonly id: string;
  readonly name: string;
  /** From the piece's end at the tail, along the face that is measured, and along the outer face. */
  readonly along: number;
  readonly alongOuter: number;
  /** On the plan of the outer face. */
  readonly at: Vec;
  /** Heights of both edges. */
  readonly top: number;
  readonly back: number;
  readonly depth: number;
}

/** One piece of bent wood. */
export interface SidePiece {
  /** `treble`, `bass`, and from the second piece of a side on `treble-2`. */
  readonly id: string;
  readonly side: "treble" | "bass";
  /** "treble side", "horn" */
  readonly name: string;
  /**
   * The outer face in plan, from the tail towards the neck with the body to its left, on the side of rising y whichever side it is: `sign`
   * times y is where it lies on the instrument.
   */
  readonly plan: Path;
  readonly sign: 1 | -1;
  /** Of the outer face, of the middle of the wood, of the inner face. */
  readonly outer: number;
  readonly middle: number;
  readonly inner: number;
  readonly leastDepth: number;
  readonly greatestDepth: number;
  /** Ends, bouts, waist and blocks, from the tail on. */
  readonly marks: readonly SideMark[];
  /** Along the inner face between the blocks. */
  readonly lining: number;
  /** It ends in a mitre at the point of a horn: at its end towards the tail (`start`) or towards the neck. */
  readonly mitre: { readonly atStart?: Mitred; readonly atEnd?: Mitred };
}

/** The end of a side at a corner of the outline. */
export interface Mitred {
  /** Between the two sides' outer faces, radians. */
  readonly angleRad: number;
  /** What is cut off, along the outer and along the inner face. */
  readonly outer: number;
  readonly inner: number;
}

/** Where two pieces meet in a point. */
export interface Horn {
  readonly at: Vec;
  readonly sign: 1 | -1;
  readonly angleRad: number;
  /** Unit directions from the point along both outer faces, on the instrument. */
  readonly along: readonly [Vec, Vec];
  readonly depth: number;
}

export interface SidesMeasures {
  readonly thickness: number;
  /** How far inside the outer face the pieces are measured along. */
  readonly inset: number;
  readonly depthNeck: number;
  readonly depthTail: number;
  /** Top and back over the plane of the body's edge, as far as the sides' edges go. */
  readonly top: DomedPlate;
  readonly back: DomedPlate;
  readonly backRadius?: number;
  readonly pieces: readonly SidePiece[];
  readonly horns: readonly Horn[];
  readonly trebleLength: number;
  readonly bassLength: number;
  readonly leastDepth: number;
  readonly greatestDepth: number;
  readonly endHole?: { readonly height: number; readonly diameter: number };
  readonly liningWidth: number;
  readonly liningHeight: number;
  readonly neckBlock: { readonly width: number; readonly length: number };
  readonly tailBlock: { readonly width: number; readonly length: number };
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    sides: SidesMeasures;
  }
}

export function measureSides(p: SidesParams, from: Sources): SidesMeasures {
  const body = hollowOf(from);
  const { top, back } = platesOf(p, body);
  const side = from.get("instrument")?.side ?? 1;
  const pieces = body
    ? [...piecesOn(p, body, "treble", side, top, back), ...piecesOn(p, body, "bass", side === 1 ? -1 : 1, top, back)]
    : [];
  const lengthOf = (which: SidePiece["side"]): number =>
    pieces
      .filter((piece) => piece.side === which)
      .reduce((sum, piece) => sum + (p.face === "outer" ? piece.outer : piece.middle), 0);
  return {
    thickness: body?.sideThickness ?? 0,
    inset: body ? insetOf(p, body) : 0,
    depthNeck: p.depthNeck,
    depthTail: p.depthTail,
    top,
    back,
    ...(back.radius === undefined ? {} : { backRadius: back.radius }),
    pieces,
    horns: hornsOf(pieces),
    trebleLength: lengthOf("treble"),
    bassLength: lengthOf("bass"),
    leastDepth: pieces.length > 0 ? Math.min(...pieces.map(({ leastDepth }) => leastDepth)) : 0,
    greatestDepth: pieces.length > 0 ? Math.max(...pieces.map(({ greatestDepth }) => greatestDepth)) : 0,
    ...(p.endHole === "none" ? {} : { endHole: { height: -p.endHoleDown, diameter: p.endHoleDiameter } }),
    liningWidth: p.liningWidth,
    liningHeight: p.liningHeight,
    neckBlock: { width: p.neckBlockWidth, length: p.neckBlockLength },
    tailBlock: { width: p.tailBlockWidth, length: p.tailBlockLength },
  };
}

function platesOf(
  p: SidesParams,
  body: MeasuresByKind["body"] | undefined,
): { readonly top: DomedPlate; readonly back: DomedPlate } {
  const top: DomedPlate = body?.top ?? {
    neck: { x: 0, height: 0 },
    tail: { x: 1, height: 0 },
    bulges: "up",
  };
  const [neck, tail] = [
    { x: top.neck.x, height: top.neck.height - p.depthNeck },
    { x: top.tail.x, height: top.tail.height - p.depthTail },
  ];
  const flat = { neck, tail, bulges: "down" } as const;
  return {
    top,
    back:
      p.backRadius === undefined ? flat : { ...flat, radius: Math.max(p.backRadius, leastDome(neck, tail, body?.reach ?? 0)) },
  };
}

/** How far inside the outer face the sides are measured: in the middle of the wood, if it follows the outline there at all. */
const insetOf = (p: SidesParams, body: Body): number => (p.face === "middle" && body.inside ? body.sideThickness / 2 : 0);

/** Places on each segment at which the depth is looked at. */
const LOOKS = 8;

function piecesOn(
  p: SidesParams,
  body: Body,
  which: SidePiece["side"],
  sign: 1 | -1,
  top: DomedPlate,
  back: DomedPlate,
): SidePiece[] {
  const half = body[which];
  if (!half) return [];
  const inset = insetOf(p, body);
  const depthAt = (at: Vec): number => plateHeight(top, at) - plateHeight(back, at);
  return half.bent.map((plan, i): SidePiece => {
    const last = piecesOf(plan).length - 1;
    const depths = piecesOf(plan).flatMap((piece) =>
      Array.from({ length: LOOKS + 1 }, (_, k) => depthAt(pointAt(piece, k / LOOKS))),
    );
    const mark = (id: string, name: string, index: number, t: number): SideMark => {
      const at = pointAt(piecesOf(plan)[index]!, t);
      // On a face inside the outer one the edge stands as high as the plates do there.
      const way = tangentAt(piecesOf(plan)[index]!, t);
      const on = way ? add(at, scale(leftOf(way), inset)) : at;
      const [high, low] = [plateHeight(top, on), plateHeight(back, on)];
      return {
        id,
        name,
        along: lengthAlong(plan, inset, index, t),
        alongOuter: lengthAlong(plan, 0, index, t),
        at,
        top: high,
        back: low,
        depth: high - low,
      };
    };
    const marks = [
      mark("start", i === 0 ? "tail" : "point", 0, 0),
      ...levelMarks(half, plan, mark),
      ...blockMarks(p, body, plan, i === 0, i === half.bent.length - 1, mark),
      mark("end", i < half.bent.length - 1 ? "point" : "neck", last, 1),
    ].toSorted((a, b) => a.along - b.along);
    const inner = lengthAlong(plan, body.sideThickness, last, 1);
    return {
      id: i === 0 ? which : `${which}-${i + 1}`,
      side: which,
      name: half.bent.length === 1 ? `${which} side` : i === 0 ? `${which} side to the point` : `${which} side, piece ${i + 1}`,
      plan,
      sign,
      outer: pathLength(plan),
      middle: lengthAlong(plan, body.sideThickness / 2, last, 1),
      inner,
      leastDepth: Math.min(...depths),
      greatestDepth: Math.max(...depths),
      marks,
      lining: liningOf(marks, inner, body.sideThickness, plan),
      mitre: {
        ...(i > 0 ? { atStart: mitred(p, half, i - 1, body.sideThickness) } : {}),
        ...(i < half.bent.length - 1 ? { atEnd: mitred(p, half, i, body.sideThickness) } : {}),
      },
    };
  });
}

type Marker = (id: string, name: string, index: number, t: number) => SideMark;

/** Bouts and waist that lie on this piece. */
function levelMarks(half: BodyHalf, plan: Path, mark: Marker): SideMark[] {
  const bouts = half.levels.filter(({ what }) => what === "bout");
  return half.levels.flatMap((level, i): SideMark[] => {
    const place = nearestOnPath(plan, level.at);
    if (place.distance > 1e-3) return [];
    const name =
      level.what === "waist"
        ? "waist"
        : bouts.length === 2
          ? ["upper bout", "lower bout"][bouts.indexOf(level)]!
          : bouts.length === 1
            ? "bout"
            : `bout ${bouts.indexOf(level) + 1}`;
    return [mark(`level-${i + 1}`, name, place.index, place.t)];
  });
}

/** Where the blocks' edges meet the side. */
function blockMarks(p: SidesParams, body: Body, plan: Path, atTail: boolean, atNeck: boolean, mark: Marker): SideMark[] {
  const middle = (body.neckX + body.tailX) / 2;
  const meets = (y: number): { readonly x: number; readonly index: number; readonly t: number }[] =>
    intersectPaths(plan, segmentPath(vec(body.neckX - 1, y), vec(body.tailX + 1, y))).map(({ point, first, s }) => ({
      x: point.x,
      index: first,
      t: s,
    }));
  const tail = atTail ? meets(p.tailBlockWidth / 2).find(({ x }) => x > middle) : undefined;
  const neck = atNeck ? meets(p.neckBlockWidth / 2).findLast(({ x }) => x < middle) : undefined;
  return [
    ...(tail ? [mark("tail-block", "edge of the tail block", tail.index, tail.t)] : []),
    ...(neck ? [mark("neck-block", "edge of the neck block", neck.index, neck.t)] : []),
  ];
}

function liningOf(marks: readonly SideMark[], inner: number, thickness: number, plan: Path): number {
  const innerAt = (id: string): number | undefined => {
    const found = marks.find((mark) => mark.id === id);
    if (!found) return undefined;
    const place = nearestOnPath(plan, found.at);
    return lengthAlong(plan, thickness, place.index, place.t);
  };
  return Math.max(0, (innerAt("neck-block") ?? inner) - (innerAt("tail-block") ?? 0));
}

/** The sharpest point that a mitre is worked out for, radians. */
const LEAST_POINT = 0.02;

/** Cut off at the corner between a side's piece `index` and the next: at half the corner, moved back by the accent block. */
function mitred(p: SidesParams, half: BodyHalf, index: number, thickness: number): Mitred {
  const [back, on] = cornerOf(half.bent[index]!, half.bent[index + 1]!);
  const angleRad = Math.max(LEAST_POINT, Math.abs(angleBetween(back, on)));
  return { angleRad, outer: p.accent, inner: p.accent + thickness / Math.tan(angleRad / 2) };
}

/** Unit directions away from the corner between two runs: back along the first and on along the second. */
function cornerOf(before: Path, after: Path): readonly [Vec, Vec] {
  const [last, first] = [piecesOf(before).at(-1)!, piecesOf(after)[0]!];
  return [scale(tangentAt(last, 1)!, -1), tangentAt(first, 0)!];
}

function hornsOf(pieces: readonly SidePiece[]): Horn[] {
  return pieces.flatMap((piece, i): Horn[] => {
    const next = pieces[i + 1];
    if (!piece.mitre.atEnd || !next || next.side !== piece.side) return [];
    const placed = (v: Vec): Vec => vec(v.x, piece.sign * v.y);
    const [back, on] = cornerOf(piece.plan, next.plan);
    const end = piece.marks.at(-1)!;
    return [
      {
        at: placed(end.at),
        sign: piece.sign,
        angleRad: piece.mitre.atEnd.angleRad,
        along: [placed(back), placed(on)],
        depth: end.depth,
      },
    ];
  });
}
