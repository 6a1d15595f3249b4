/**
 * How far behind the scale length the saddle must stand for a string's octave to be in tune.
 *
 * The string runs from the nut slot (0, h_nut) over the top of fret n (x_n, 0) to the saddle (L + c, h_s), heights above
 * the plane of the fret tops. Fretting lengthens it, so it pulls harder: dT = E A (l_fretted - l_open) / l_open. Each
 * clamped end shortens what sounds by lambda = sqrt(E I / T), so f = sqrt(T / mu) / (2 (l - N lambda)). The open string is
 * tuned to pitch at every trial of c, and c is the setback that leaves the fretted octave true.
 *
 * Source: Hooke's law and geometry, the model class of Varieschi and Gower, Am. J. Phys. 78 (2010) 47 (arXiv:0906.0127);
 * the stiff string of Fletcher and Rossing, The Physics of Musical Instruments, 2nd ed., chapter 2 (from memory).
 * Left out: the finger behind the fret (0.2-0.5 mm), string beyond nut and saddle, friction, relief, the wrap's stiffness.
 * N cannot be measured: 1 is the estimate, 0 and 2 its band. To be shown to 0.1 mm.
 */
import { rootBetween } from "../geometry/root.ts";
import { bendingNmm2, massKgPerM, stretchN, type StringBuild } from "./string-build.ts";

/** One string over its board: its scale, and its height over the fret tops at fret 12 and over fret 1's plane at the nut, mm. */
export interface StringSetup {
  readonly build: StringBuild;
  readonly frequencyHz: number;
  readonly scale: number;
  readonly actionAt12: number;
  readonly nutHeight: number;
}

/** An octave no farther off than this, cents, is true; it moves by some 3 cents a mm. */
const TRUE = 1e-9;

/** How many ends of the sounding string are held stiffly, not hinged. */
export type ClampedEnds = 0 | 1 | 2;

/** The setback estimated with one clamped end and the band with none and two, mm. */
export interface Setback {
  readonly setback: number;
  readonly least: number;
  readonly most: number;
}

/** The saddle's height over the plane of the fret tops at the scale length, mm. */
export const saddleHeight = ({ actionAt12, nutHeight }: Pick<StringSetup, "actionAt12" | "nutHeight">): number =>
  2 * actionAt12 - nutHeight;

/** Pull of the open string at pitch with the saddle `setback` mm behind the scale; undefined where it is so stiff that it is a bar. */
export function openTensionN(setup: StringSetup, setback: number, ends: ClampedEnds): number | undefined {
  requireSetup(setup);
  // T solves sqrt(T) = s (l - N sqrt(E I / T)), a quadratic in sqrt(T); s = 2 f sqrt(mu) for lengths in mm.
  const s = (2 * setup.frequencyHz * Math.sqrt(massKgPerM(setup.build))) / 1000;
  const half = (s * openLength(setup, setback)) / 2;
  const rest = half * half - s * ends * Math.sqrt(bendingNmm2(setup.build));
  return rest > 0 ? (half + Math.sqrt(rest)) ** 2 : undefined;
}

/**
 * How sharp (flat below 0) the string sounds at a fret, cents; the fret a whole number from 1 to 36. Undefined where the
 * string is so stiff that it is a bar.
 */
export function centsSharp(setup: StringSetup, setback: number, fret: number, ends: ClampedEnds): number | undefined {
  if (!(Number.isInteger(fret) && fret >= 1 && fret <= 36))
    throw new RangeError("centsSharp: the fret must be a whole number from 1 to 36");
  const { scale, nutHeight, build, frequencyHz } = setup;
  const tension = openTensionN(setup, setback, ends);
  if (tension === undefined) return undefined;
  const at = scale * (1 - 2 ** (-fret / 12));
  const behind = Math.hypot(at, nutHeight);
  const sounding = Math.hypot(scale + setback - at, saddleHeight(setup));
  const open = openLength(setup, setback);
  const pressed = tension + (stretchN(build) * (behind + sounding - open)) / open;
  const effective = sounding - ends * Math.sqrt(bendingNmm2(build) / pressed);
  if (!(effective > 0)) return undefined;
  const heardHz = (Math.sqrt(pressed / massKgPerM(build)) * 1000) / (2 * effective);
  return 1200 * Math.log2(heardHz / (frequencyHz * 2 ** (fret / 12)));
}

/**
 * The setback (mm) that makes the octave at fret 12 true; undefined where no saddle within a tenth of the scale does, as
 * for a string far too slack or too thick for its note.
 */
export function saddleSetback(setup: StringSetup, ends: ClampedEnds): number | undefined {
  const octave = (setback: number): number => centsSharp(setup, setback, 12, ends) ?? Infinity;
  const most = setup.scale / 10;
  const [sharp, flat] = [octave(-most), octave(most)];
  return sharp > 0 && flat < 0 ? rootBetween(octave, -most, most, sharp, flat, TRUE) : undefined;
}

/** The estimate and its band, mm; undefined where one of the three has no answer. */
export function setbackWithBand(setup: StringSetup): Setback | undefined {
  const [least, setback, most] = ([0, 1, 2] as const).map((ends) => saddleSetback(setup, ends));
  return least === undefined || setback === undefined || most === undefined ? undefined : { setback, least, most };
}

const openLength = (setup: StringSetup, setback: number): number =>
  Math.hypot(setup.scale + setback, saddleHeight(setup) - setup.nutHeight);

function requireSetup({ scale, frequencyHz, actionAt12, nutHeight }: StringSetup): void {
  if (!(scale > 0 && scale < Infinity && frequencyHz > 0 && frequencyHz < Infinity)) {
    throw new RangeError("string setup: the scale and the pitch must be above 0");
  }
  if (!(nutHeight >= 0 && actionAt12 >= 0 && actionAt12 < scale / 10 && nutHeight < scale / 10)) {
    throw new RangeError("string setup: the heights must not be below 0 nor over a tenth of the scale");
  }
}
