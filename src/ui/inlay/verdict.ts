/** What the bits do to the letters, in a sentence or two. */
import { sentenceOf } from "../../checks/findings.ts";
import type { Finding, MeasuresByKind, Severity } from "../../parts/contract.ts";
import { bareUnitOf, inside } from "../../units/unit.ts";
import { say, type Notation } from "../notation.ts";

export type InlayMeasures = MeasuresByKind["inlay"];

export interface Verdict {
  readonly severity: Severity;
  /** The sentence that matters. */
  readonly says: string;
  /** What would mend it, or how much room there is. */
  readonly more: string;
}

/** Undefined while nothing is known yet. `findings` are those of the inlay: they say why bushes and bits cannot cut it. */
export function verdictOf(m: InlayMeasures, findings: readonly Finding[], notation: Notation): Verdict | undefined {
  if (m.trouble) return { severity: "stop", says: `${m.trouble.message}.`, more: m.trouble.mend };
  const why = m.refused && findings.find(({ id }) => id === "letters");
  if (why)
    return {
      severity: "stop",
      says: sentenceOf(why, (value, quantity) => say(value, quantity, notation)),
      more: why.mend,
    };
  if (m.state === "reading" || m.state === "waiting") return undefined;
  const length = (mm: number): string => say(mm, "length", notation);
  const bitOf = (mm: number): string => sayBit(mm, notation);
  if (m.pocketCutter === 0)
    return {
      severity: "fine",
      says: "Knife and chisel reach every corner.",
      more: "Pocket and piece differ by the glue gap alone.",
    };
  const bit = m.corners ? "this set of bushes and bits" : `a ${bitOf(m.pocketCutter)} bit`;
  if (m.pieceCount === 0)
    return {
      severity: "stop",
      says: `Nothing is as wide as ${bit}.`,
      more: keeping(m.cutterForWhole, m.scaleForWhole, m, length, bitOf),
    };
  const { scaleForStrokes, scaleForWhole, cutterForStrokes } = m;
  // Whether strokes hold is looked at after the outlines; before that only the outlines are shown.
  if (scaleForStrokes === undefined || scaleForWhole === undefined) return undefined;
  if (scaleForStrokes <= 1)
    return {
      severity: "fine",
      says: `At ${sizeWords(m, length)} all strokes survive ${bit}.`,
      more: `They do down to ${sizeAt(m, scaleForStrokes, length)}${cutterForStrokes === undefined ? "" : `, or with a bit up to ${bitOf(cutterForStrokes)}`}.`,
    };
  const broken = m.changes.filter(({ kind }) => kind !== "filled" && kind !== "pierced" && kind !== "joined").length;
  if (broken === 0 && m.changes.length === 0)
    return {
      severity: "look",
      says: `${capital(bit)} thins out the ends of fine strokes, but no piece breaks.`,
      more: keeping(cutterForStrokes, scaleForStrokes, m, length, bitOf),
    };
  const counters = m.changes.length - broken;
  const what = [
    broken > 0 ? `breaks ${broken === 1 ? "a stroke" : `${broken} strokes`}` : "",
    counters > 0 ? `fills ${counters === 1 ? "a counter or slit" : `${counters} counters or slits`}` : "",
  ].filter((text) => text !== "");
  return {
    severity: "look",
    says: `${capital(bit)} ${what.join(" and ")}.`,
    more: keeping(cutterForStrokes, scaleForStrokes, m, length, bitOf),
  };
}

/** A thousandth of an inch, in which bits are sold that are not sold by the millimetre. */
const THOU = inside(0.001, bareUnitOf("in"));

/** A bit or a gap: in inches only where it is whole thousandths, since 0.5 mm is not 0.020 in. */
export function sayBit(mm: number, notation: Notation): string {
  const isThou = Math.abs(mm / THOU - Math.round(mm / THOU)) < 1e-6;
  return say(
    mm,
    "length",
    notation.unit === "in" && isThou ? { ...notation, fractions: false } : { unit: "mm", fractions: false },
  );
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const sizeWords = (m: InlayMeasures, length: (mm: number) => string): string =>
  m.capHeight === undefined ? "this size" : `${length(m.capHeight)} cap height`;

const sizeAt = (m: InlayMeasures, scale: number, length: (mm: number) => string): string =>
  m.capHeight === undefined ? `${length(m.width * scale)} overall width` : `${length(m.capHeight * scale)} cap height`;

/** Larger letters than this many times are no advice. */
const MOST_TIMES = 5;

function keeping(
  cutter: number | undefined,
  scale: number | undefined,
  m: InlayMeasures,
  length: (mm: number) => string,
  bitOf: (mm: number) => string,
): string {
  const bit = cutter === undefined ? "" : `a bit of ${bitOf(cutter)} or less`;
  const size = scale === undefined || scale > MOST_TIMES ? "" : sizeAt(m, scale, length);
  if (bit === "") return size === "" ? "" : `${capital(size)} keeps every stroke.`;
  return `${capital(bit)}${size === "" ? "" : `, or ${size},`} keeps every stroke.`;
}
