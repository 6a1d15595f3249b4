/** Where the strings want to end, the saddle nearest to that, and what is bored and cut about it. x from the nut. */
import { drawOutline, type OutlineTrouble } from "../../geometry/drawn/outline.ts";
import { mirroredPoints } from "../../geometry/drawn/point.ts";
import { cover, type Cover } from "../../geometry/cover.ts";
import { pathArea } from "../../geometry/measure.ts";
import { roundedPolygon } from "../../geometry/arc.ts";
import { circle, rectangle, type Path } from "../../geometry/path.ts";
import { reversePath } from "../../geometry/segment.ts";
import { selfCrossings } from "../../geometry/self-crossing.ts";
import { transformPath, translation } from "../../geometry/transform.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { noteFrequencyHz } from "../../lutherie/pitch.ts";
import { setbackWithBand, type Setback } from "../../lutherie/saddle-compensation.ts";
import { fitSaddle } from "../../lutherie/saddle-line.ts";
import {
  assumedNylonCore,
  assumedSteelCore,
  CORE_MATERIALS,
  WRAP_MATERIALS,
  type StringBuild,
} from "../../lutherie/string-build.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";
import { instrumentOf, type BridgeParams } from "./numbers.ts";

type InstrumentString = MeasuresByKind["instrument"]["strings"][number];

export type Point = readonly [x: number, y: number];

export interface BridgeString {
  /** As people count: 1 is the treble string. */
  readonly string: number;
  /** Behind its scale length: as computed with its band, or as typed; absent where nothing can be computed. */
  readonly setback?: number;
  readonly least?: number;
  readonly most?: number;
  /** Where it wants to end, and where the straight saddle ends it. */
  readonly wished: Point;
  readonly given: Point;
  /** Wished less given along the string; above 0 it wants its saddle farther back. */
  readonly residual: number;
  /** The core of a wound string was not measured but assumed. */
  readonly coreAssumed: boolean;
}

export interface BridgeMeasures {
  readonly saddle: {
    /** Of the slot, bass and treble, on the middle line of the saddle. */
    readonly ends: readonly [Point, Point];
    /** Turn from square to the centre line; above 0 the treble end lies farther from the nut. */
    readonly angleRad: number;
    /** Where the strings want to end, from bass to treble. */
    readonly points: readonly Point[];
    readonly length: number;
    /** x where its middle line crosses the centre line. */
    readonly x: number;
    /** From the least to the greatest residual. */
    readonly spread: number;
  };
  /** From bass to treble. */
  readonly strings: readonly BridgeString[];
  readonly pins: readonly { readonly string: number; readonly at: Point }[];
  readonly outline?: Path;
  readonly host?: { readonly outline: Path; readonly thickness: number; readonly holes: readonly Path[] };
  /** Of a floating bridge: what stands on the top, one or two pieces. */
  readonly feet: readonly Path[];
  /** Of pins in a line of their own: how far behind the saddle the outer ones are, bass and treble, along the strings. */
  readonly pinsBehind?: readonly [number, number];
  readonly saddleX: number;
  readonly fromFret12: number;
  readonly fromJoin: number;
  readonly thickness: number;
  /** What is to be covered, and whether this bridge does. */
  readonly old?: Path;
  readonly cover?: Cover;
  readonly crossings: readonly Vec[];
  readonly troubles: readonly OutlineTrouble[];
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    bridge: BridgeMeasures;
  }
}

export function measureBridge(p: BridgeParams, from: Sources): BridgeMeasures {
  const instrument = instrumentOf(from);
  const { strings, side } = instrument;
  const setbacks = strings.map((string, i) => setbackOf(p, from, string, strings.length > 1 ? i / (strings.length - 1) : 1));
  const wished = strings.map((string, i) => alongString(string, setbacks[i]?.setback ?? 0));
  const told = wished.filter((_, i) => setbacks[i] !== undefined);
  const apart = told.length > 1 && Math.max(...told.map(({ y }) => y)) - Math.min(...told.map(({ y }) => y)) > 1e-6;
  const square = told.length > 0 ? told.reduce((sum, { x }) => sum + x, 0) / told.length : instrument.scale;
  const line = apart ? fitSaddle(told) : { x: square, slope: 0 };
  const outer = [-1, 1].map((end) => end * (Math.max(0, ...wished.map(({ y }) => Math.abs(y))) + p.saddleBeyond));
  const on = (y: number): Vec => vec(line.x + line.slope * y, y);
  // The bass end first.
  const ends = (side === 1 ? outer : outer.toReversed()).map(on) as [Vec, Vec];
  const bridgeStrings = strings.map((string, i): BridgeString => {
    const rise = (string.saddle.y - string.nut.y) / string.scale;
    // Where the string's line meets the saddle's.
    const y = (string.nut.y + rise * (line.x - string.nut.x)) / (1 - rise * line.slope);
    const given = on(Number.isFinite(y) ? y : string.saddle.y);
    const found = setbacks[i];
    return {
      string: string.number,
      ...(found ? { setback: found.setback } : {}),
      ...(found && p.saddleBy === "strings" ? { least: found.least, most: found.most } : {}),
      wished: point(wished[i]!),
      given: point(given),
      residual: found ? wished[i]!.x - given.x : 0,
      coreAssumed: p.saddleBy === "strings" && string.wound,
    };
  });
  const residuals = bridgeStrings.filter(({ setback }) => setback !== undefined).map(({ residual }) => residual);
  const pins = p.type === "pinned" ? placePins(p, from, on) : [];
  const drawn = drawOutline(p.mirrored ? mirroredPoints(p.outline) : p.outline);
  const path = drawn && transformPath(translation(vec(line.x, 0)), drawn.path);
  const outline = path && (pathArea(path) < 0 ? reversePath(path) : path);
  const old = oldFootprint(p, instrument.fret12X);
  const covered = outline && old && cover([{ outer: outline, holes: [] }], [{ outer: old, holes: [] }]);
  return {
    saddle: {
      ends: [point(ends[0]), point(ends[1])],
      angleRad: side * Math.atan(line.slope) + 0,
      points: wished.map(point),
      length: Math.hypot(ends[0].x - ends[1].x, ends[0].y - ends[1].y),
      x: line.x,
      spread: residuals.length > 0 ? Math.max(...residuals) - Math.min(...residuals) : 0,
    },
    strings: bridgeStrings,
    pins: pins.map(({ string, at }) => ({ string, at: point(at) })),
    ...(outline
      ? { outline, host: { outline, thickness: p.thickness, holes: pins.map(({ at }) => circle(at, p.pinHole / 2)) } }
      : {}),
    feet: p.type === "floating" ? feetAt(p, line.x) : [],
    ...(pins.length > 1
      ? { pinsBehind: [pins[0]!.at.x - on(pins[0]!.at.y).x, pins.at(-1)!.at.x - on(pins.at(-1)!.at.y).x] as const }
      : {}),
    ...(old ? { old } : {}),
    ...(covered ? { cover: covered } : {}),
    saddleX: line.x,
    fromFret12: line.x - instrument.fret12X,
    fromJoin: line.x - instrument.joinX,
    thickness: p.thickness,
    crossings: outline ? selfCrossings(outline) : [],
    troubles: (drawn?.troubles ?? []).filter(({ point: i }) => i < p.outline.length),
  };
}

/** The old bridge's footprint on the top; undefined where there is none or its points span no area. */
function oldFootprint(p: BridgeParams, fret12X: number): Path | undefined {
  if (p.old === "none") return undefined;
  if (p.old === "rectangle") {
    const from = fret12X + p.oldFrom12;
    return rectangle(from, -p.oldSpan / 2, from + p.oldAlong, p.oldSpan / 2);
  }
  const path = drawOutline(p.oldOutline)?.path;
  return path && transformPath(translation(vec(fret12X, 0)), path);
}

const point = ({ x, y }: Vec): Point => [x, y];

/** The place `setback` mm behind the string's scale, on its line. */
function alongString(string: InstrumentString, setback: number): Vec {
  const rise = (string.saddle.y - string.nut.y) / string.scale;
  return vec(string.saddle.x + setback, string.saddle.y + rise * setback);
}

/** @param share 0 for the outer bass string, 1 for the outer treble string */
function setbackOf(p: BridgeParams, from: Sources, string: InstrumentString, share: number): Setback | undefined {
  if (p.saddleBy === "hand") {
    const setback = p.setbackBass + (p.setbackTreble - p.setbackBass) * share;
    return { setback, least: setback, most: setback };
  }
  const frequencyHz = noteFrequencyHz(string.note);
  if (frequencyHz === undefined || !(string.gauge > 0) || !(string.scale > 0)) return undefined;
  const crown = from.get("fingerboard")?.crownHeight ?? 0;
  const slot = from.get("nut")?.slots.find((one) => one.string === string.number);
  const nutHeight = slot ? Math.max(0, slot.height - crown) : 0.4;
  const actionAt12 = p.actionBass + (p.actionTreble - p.actionBass) * share;
  // Beyond a tenth of the scale the string's path is no string's any more.
  if (!(actionAt12 < string.scale / 10 && nutHeight < string.scale / 10)) return undefined;
  return setbackWithBand({ build: buildOf(p, string), frequencyHz, scale: string.scale, actionAt12, nutHeight });
}

function buildOf(p: BridgeParams, { gauge, wound }: InstrumentString): StringBuild {
  const coreMaterial = CORE_MATERIALS[p.core];
  if (!wound) return { diameter: gauge, core: gauge, coreMaterial };
  const core = p.core === "steel" ? assumedSteelCore(gauge) : assumedNylonCore(gauge);
  return { diameter: gauge, core, coreMaterial, wrapMaterial: WRAP_MATERIALS[p.wrap] };
}

/** The saddle over the middle of the foot; the corners a little rounded. */
function feetAt(p: BridgeParams, x: number): Path[] {
  const [half, along] = [p.footSpan / 2, p.footWidth / 2];
  const open = Math.min(p.footOpening, p.footSpan - 2) / 2;
  const foot = (from: number, to: number): Path => {
    const radius = Math.min(2, along * 0.9, (to - from) * 0.45);
    const corners = [vec(x - along, from), vec(x + along, from), vec(x + along, to), vec(x - along, to)];
    return roundedPolygon(corners, [radius, radius, radius, radius]) ?? rectangle(x - along, from, x + along, to);
  };
  return open > 0 ? [foot(-half, -open), foot(open, half)] : [foot(-half, half)];
}

/** Strings nearer to each other than this, mm, stand in one place. */
const TOGETHER = 1e-6;

/** Pins behind the saddle, spread as the strings are, over their own spread. */
function placePins(p: BridgeParams, from: Sources, on: (y: number) => Vec): { readonly string: number; readonly at: Vec }[] {
  const { strings, side } = instrumentOf(from);
  const ys = strings.map(({ saddle }) => saddle.y);
  const [low, high] = [Math.min(...ys), Math.max(...ys)];
  const k = high - low > TOGETHER ? p.pinSpread / (high - low) : 1;
  const middle = (low + high) / 2;
  const half = p.pinSpread / 2;
  const treble = middle + side * half;
  const bass = middle - side * half;
  const behind = (y: number): number => {
    if (p.pinLine === "follow") return on(y).x + p.pinBehindTreble;
    const share = half > TOGETHER ? (y - bass) / (treble - bass) : 1;
    const [a, b] = [on(bass).x + p.pinBehindBass, on(treble).x + p.pinBehindTreble];
    return a + (b - a) * share;
  };
  return strings.map(({ number, saddle }) => {
    const y = middle + (saddle.y - middle) * k;
    return { string: number, at: vec(behind(y), y) };
  });
}
