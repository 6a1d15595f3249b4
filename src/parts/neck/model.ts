/** A neck as functions of the place along it: the section anywhere, the back, the channels. Total: what cannot be is held at what can, and named. */
import { sectionBetween, GREATEST_EXPONENT, type NeckSection, type NeckStation } from "../../lutherie/neck-section.ts";
import { heelUndercut } from "../../lutherie/neck-pitch.ts";
import { LEAST_DEPTH, neckProfile, type NeckProfile } from "../../lutherie/neck-profile.ts";
import type { ChannelRun } from "../../lutherie/neck-run.ts";
import type { Sources } from "../contract.ts";
import {
  boardThicknessOf,
  fretX,
  headX,
  instrumentOf,
  neckWidth,
  nutFaceX,
  type Instrument,
  type NeckParams,
  type Which,
} from "./numbers.ts";

/** A channel with its id in drawings and its name. */
export interface NeckChannel {
  readonly id: string;
  readonly name: string;
  readonly run: ChannelRun;
}

/** Something that the numbers ask for and that no neck can have. */
export type Flaw = "one-fret" | "no-depth" | "no-width" | "lean";

export interface Heel {
  /** x where the curve leaves the back, of the front edge of the foot, and of the foot's edge against the body. */
  readonly from: number;
  readonly to: number;
  readonly foot: number;
  readonly depth: number;
  readonly undercut: number;
}

export interface NeckModel {
  readonly instrument: Instrument;
  readonly nutX: number;
  readonly headX: number;
  readonly joinX: number;
  readonly board: number;
  readonly tan: number;
  /** Wood of the head, square to its face, under the headplate. */
  readonly headWood: number;
  readonly first: NeckStation;
  readonly second: NeckStation;
  readonly profile: NeckProfile;
  readonly heel: Heel;
  readonly widthAt: (x: number) => number;
  /** The section of the wood under the glue plane, from well behind the nut to the join. */
  readonly sectionAt: (x: number) => NeckSection;
  /** How far the head's face has fallen below the glue plane; 0 from the nut's shelf on. */
  readonly faceFall: (x: number) => number;
  readonly channels: readonly NeckChannel[];
  /** Where the sections that walls are measured in begin and end. */
  readonly limits: { readonly from: number; readonly to: number };
  readonly flaws: readonly Flaw[];
}

const LEAST_WIDTH = 2;
/** Greatest lean as a part of half the width. */
const MOST_LEAN = 0.8;
/** Shortest channel, mm. */
export const LEAST_RUN = 0.5;

export function modelOf(p: NeckParams, from: Sources): NeckModel {
  const instrument = instrumentOf(from);
  const flaws = new Set<Flaw>();
  const { joinX } = instrument;
  // Plain, as it is asked at hundreds of places: reading through a view takes its time.
  const { widthAtNut, widthAtJoin, bend } = p;
  const width = (x: number): number => neckWidth({ widthAtNut, widthAtJoin }, { joinX }, x);
  const nutX = nutFaceX(from);
  const head = headX(p, from);
  const board = boardThicknessOf(p, from);
  const widthAt = (x: number): number => Math.max(LEAST_WIDTH, width(x));
  if (Math.min(width(head), width(joinX)) < LEAST_WIDTH) flaws.add("no-width");

  const stationAt = (which: Which): NeckStation => {
    const x = fretX(instrument, p[`${which}Fret`]);
    const halfWidth = widthAt(x) / 2;
    const depth = p[`${which}Depth`] - board;
    if (depth < LEAST_DEPTH) flaws.add("no-depth");
    if (Math.abs(p[`${which}Lean`]) > MOST_LEAN * halfWidth) flaws.add("lean");
    return {
      x,
      halfWidth,
      depth: Math.max(LEAST_DEPTH, depth),
      lean: heldLean(p[`${which}Lean`], halfWidth),
      bassExponent: p[`${which}Fullness`],
      trebleExponent: p[`${which}TrebleFullness`],
    };
  };
  const stations = [stationAt("first"), stationAt("second")].toSorted((a, b) => a.x - b.x);
  let [first, second] = stations as [NeckStation, NeckStation];
  if (!(second.x - first.x > 1)) {
    flaws.add("one-fret");
    second = { ...first, x: first.x + 1 };
  }

  const undercut = heelUndercut(p.heelDepth, p.pitch);
  const foot = joinX - undercut;
  const heelTo = foot - p.heelCapLength;
  const heelFrom = Math.min(joinX - p.heelLength, heelTo - 1);
  const headWood = Math.max(1, p.headThickness - p.headplate);
  const profile = neckProfile({
    first,
    second,
    headX: head,
    tilt: p.headTilt,
    headThickness: headWood,
    bend,
    voluteHeight: p.volute,
    voluteLength: p.voluteLength,
    heel: { from: heelFrom, to: heelTo, depth: p.heelDepth },
  });
  if (profile.depthAt(joinX) <= LEAST_DEPTH || profile.depthAt(heelFrom) <= LEAST_DEPTH) flaws.add("no-depth");

  const sectionAt = (x: number): NeckSection => {
    const shape = sectionBetween(first, second, Math.min(Math.max(x, first.x), second.x));
    const halfWidth = widthAt(x) / 2;
    const t = Math.min(1, Math.max(0, (profile.bendTo - x) / bend));
    // Level at both ends, so that the shoulders pass into the head without a line.
    const square = t * t * (3 - 2 * t);
    return {
      halfWidth,
      depth: profile.depthAt(x),
      lean: heldLean(shape.lean * (1 - square), halfWidth),
      bassExponent: shape.bassExponent + (GREATEST_EXPONENT - shape.bassExponent) * square,
      trebleExponent: shape.trebleExponent + (GREATEST_EXPONENT - shape.trebleExponent) * square,
    };
  };

  const tan = Math.tan(p.headTilt);
  return {
    instrument,
    nutX,
    headX: head,
    joinX,
    board,
    tan,
    headWood,
    first,
    second,
    profile,
    heel: { from: heelFrom, to: heelTo, foot, depth: Math.max(p.heelDepth, profile.depthAt(heelTo)), undercut },
    widthAt,
    sectionAt,
    faceFall: (x) => Math.max(0, (head - x) * tan),
    channels: channelsOf(p, joinX, head, tan),
    limits: { from: head - p.headLength, to: joinX },
    flaws: [...flaws],
  };
}

const heldLean = (lean: number, halfWidth: number): number =>
  Math.min(MOST_LEAN * halfWidth, Math.max(-MOST_LEAN * halfWidth, lean));

/** The channels that have a length: the rod's, its pocket, the bars from the first on. */
function channelsOf(p: NeckParams, joinX: number, head: number, tan: number): NeckChannel[] {
  const channels: NeckChannel[] = [];
  const add = (id: string, name: string, run: ChannelRun): void => {
    // Behind the nut the face falls away, and with it the channel's floor comes out at the top.
    const from = Math.max(run.from, head - Math.max(run.depthFrom, run.depthTo) / tan);
    if (run.to - from >= LEAST_RUN) channels.push({ id, name, run: { ...run, from } });
  };
  if (p.rod !== "none") {
    const [start, end] = [p.rodStart, p.rodStart + p.rodLength];
    const level = { middleFrom: 0, middleTo: 0 };
    add("rod", "truss-rod channel", {
      ...level,
      from: start,
      to: end,
      width: p.rodWidth,
      depthFrom: p.rodDepth,
      depthTo: p.rodDepth,
    });
    if (p.pocketLength > 0) {
      const [a, b] = p.rod === "head" ? [start, start + p.pocketLength] : [end - p.pocketLength, end];
      add("pocket", "pocket of the truss rod", {
        ...level,
        from: a,
        to: b,
        width: p.pocketWidth,
        depthFrom: p.pocketDepth,
        depthTo: p.pocketDepth,
      });
    }
  }
  p.bars.forEach((bar, i) =>
    add(`bar-${i + 1}`, `channel of bar ${i + 1}`, {
      from: bar.start,
      to: joinX - bar.stop,
      width: bar.width,
      middleFrom: bar.offset,
      middleTo: bar.endOffset,
      depthFrom: bar.depth,
      depthTo: bar.endDepth,
    }),
  );
  return channels;
}
