/** Where the markers of a fingerboard go. */
import { circle, polygon, type Path } from "../../geometry/path.ts";
import { add, lerp, turned, vec, type Vec } from "../../geometry/vec.ts";
import { widthAt, type Taper } from "../../lutherie/fingerboard-taper.ts";
import { markerSpaces } from "../../lutherie/marker-places.ts";
import { lineAcross, meetEdge, pointAt, slantOf, type TransverseLine } from "../../lutherie/transverse-line.ts";
import type { MeasuresByKind } from "../contract.ts";
import type { FingerboardParams } from "./numbers.ts";

export type Point = readonly [x: number, y: number];

export interface Marker {
  /** The marked fret: the marker stands between it and the one before. */
  readonly fret: number;
  readonly at: Point;
}

export interface FaceMarker extends Marker {
  /** Turned with the frets beside it, counter-clockwise; 0 where they are square. */
  readonly angleRad: number;
}

type Instrument = MeasuresByKind["instrument"];

/** Two side markers at one fret stand this many diameters apart. */
const SIDE_PAIR_DIAMETERS = 3;

const sorted = (frets: readonly number[], onBoard: ReadonlySet<number>): number[] =>
  [...new Set(frets)].filter((fret) => onBoard.has(fret)).toSorted((a, b) => a - b);

/** The line half way between a fret and the one before it. */
function betweenFrets(instrument: Instrument, number: number): TransverseLine {
  const fret = instrument.frets[number]!;
  const before = instrument.frets[number - 1]!;
  const a = lineAcross(before.bass, before.treble);
  const b = lineAcross(fret.bass, fret.treble);
  return { x0: (a.x0 + b.x0) / 2, q: (a.q + b.q) / 2 };
}

/** Markers on the face, in the order of the frets, of a pair the bass one first. */
export function placeFaceMarkers(
  p: FingerboardParams,
  instrument: Instrument,
  onBoard: ReadonlySet<number>,
  taper: Taper,
): FaceMarker[] {
  const doubles = new Set(p.doubleFrets);
  return sorted([...p.markerFrets, ...p.doubleFrets], onBoard).flatMap((fret) => {
    const line = betweenFrets(instrument, fret);
    const places = markerPlaces(p.markerPlace, instrument, taper, doubles.has(fret));
    return places.map((place) => {
      // Strings spread along the board and the line may slant: height and x settle each other in a few rounds.
      let at = pointAt(line, 0);
      for (let round = 0; round < 4; round++) at = pointAt(line, place(at.x));
      return { fret, at: [at.x, at.y] as const, angleRad: 0 - slantOf(line) };
    });
  });
}

/** Heights of the markers at one fret, as functions of x. */
function markerPlaces(
  where: FingerboardParams["markerPlace"],
  instrument: Instrument,
  taper: Taper,
  pair: boolean,
): ((x: number) => number)[] {
  const { side, courses } = instrument;
  const spaces = markerSpaces(courses.length);
  const quarter = (x: number): number => widthAt(taper, x) / 4;
  if (pair) {
    const apart = spaces
      ? (x: number): number => (spaceMiddle(instrument, spaces.pair[1], x) - spaceMiddle(instrument, spaces.pair[0], x)) / 2
      : quarter;
    return [(x) => -side * apart(x), (x) => side * apart(x)];
  }
  const stringInMiddle = where === "between" && courses.length % 2 === 1;
  if (!stringInMiddle) return [() => 0];
  return [spaces ? (x) => side * spaceMiddle(instrument, spaces.single, x) : (x) => side * quarter(x)];
}

/** Middle of the clear space on the treble side of a course, at x, mm from the centre line towards the treble. */
function spaceMiddle(instrument: Instrument, course: number, x: number): number {
  const last = instrument.courses.slice(0, course + 1).reduce((sum, count) => sum + count, 0) - 1;
  const a = instrument.strings[last]!;
  const b = instrument.strings[last + 1]!;
  const height = (s: typeof a): number => instrument.side * lerp(s.nut, s.saddle, (x - s.nut.x) / s.scale).y;
  return (height(a) + a.gauge / 2 + height(b) - b.gauge / 2) / 2;
}

/** Markers on the edge of the bass side. */
export function placeSideMarkers(
  p: FingerboardParams,
  instrument: Instrument,
  onBoard: ReadonlySet<number>,
  taper: Taper,
): Marker[] {
  const doubles = new Set(p.sideDoubles);
  const bass = -instrument.side;
  const m = (bass * taper.slope) / 2;
  const c = (bass * taper.atNut) / 2;
  return sorted([...p.sideFrets, ...p.sideDoubles], onBoard).flatMap((fret) => {
    const at = meetEdge(betweenFrets(instrument, fret), m, c);
    if (!at) return [];
    const apart = doubles.has(fret) ? (SIDE_PAIR_DIAMETERS * p.sideDiameter) / 2 : 0;
    const onEdge = (x: number): Vec => vec(x, m * x + c);
    const xs = apart > 0 ? [at.x - apart, at.x + apart] : [at.x];
    return xs.map((x) => ({ fret, at: [x, onEdge(x).y] as const }));
  });
}

/** The outline of a marker; bars and diamonds are turned with the frets beside them. */
export function markerPath(p: Pick<FingerboardParams, "markerShape" | "markerSize" | "markerLength">, marker: FaceMarker): Path {
  if (p.markerShape === "dot") return circle(vec(...marker.at), p.markerSize / 2);
  const along = p.markerLength / 2;
  const across = p.markerSize / 2;
  const off = (x: number, y: number): Vec => add(vec(...marker.at), turned(vec(x, y), marker.angleRad));
  return p.markerShape === "bar"
    ? polygon([off(-along, -across), off(along, -across), off(along, across), off(-along, across)])
    : polygon([off(-along, 0), off(0, -across), off(along, 0), off(0, across)]);
}
