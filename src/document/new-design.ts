/** Designs to begin with. String gauges and the other figures are common practice, no source; the maker changes what is different. */
import type { RawRecord } from "../parts/derived.ts";
import { FORMAT, VERSION, type Design, type Units } from "./design.ts";
import { emptyPart } from "./edit-parts.ts";

export const NEW_KINDS = ["steel-string", "classical", "ukulele", "tenor-guitar", "baritone", "octave-mandolin"] as const;
export type NewKind = (typeof NEW_KINDS)[number];

/** What is said of an instrument of each kind; everything else follows. */
interface Start {
  readonly title: string;
  readonly units: Units;
  readonly instrument: RawRecord;
  readonly fingerboard: RawRecord;
  readonly neck?: RawRecord;
}

/** Bass to treble: note, gauge, and a w where it is wound. */
const strings = (unit: string, ...set: readonly string[]): readonly RawRecord[] =>
  set.map((written) => {
    const [note = "", gauge = "", wrap] = written.split(" ");
    return { gauge: `${gauge} ${unit}`, wound: wrap === "w", note };
  });

const STARTS: Readonly<Record<NewKind, Start>> = {
  "steel-string": {
    title: "Steel-string guitar",
    units: "in",
    instrument: {
      handed: "right",
      strings: strings("in", "E2 0.053 w", "A2 0.042 w", "D3 0.032 w", "G3 0.024 w", "B3 0.016", "E4 0.012"),
      spacing: "equal-gap",
      scale: "25.4 in",
      frets: 20,
      joinFret: 14,
      nutWidth: "1 3/4 in",
      nutMargin: "1/8 in",
      saddleSpread: "2 3/16 in",
    },
    fingerboard: { thickness: "1/4 in", radius: "16 in" },
  },
  classical: {
    title: "Nylon-string guitar",
    units: "mm",
    instrument: {
      handed: "right",
      strings: strings("mm", "E2 1.09 w", "A2 0.89 w", "D3 0.74 w", "G3 1.02", "B3 0.82", "E4 0.71"),
      spacing: "equal-gap",
      scale: "650 mm",
      frets: 19,
      joinFret: 12,
      nutWidth: "52 mm",
      nutMargin: "4.25 mm",
      saddleSpread: "58 mm",
    },
    fingerboard: { widthAtJoin: "62 mm", thickness: "6 mm", markerFrets: [], doubleFrets: [] },
    neck: {
      firstDepth: "22 mm",
      secondDepth: "24 mm",
      rod: "none",
      bars: [{ offset: "0 mm", width: "6.35 mm", depth: "9.5 mm" }],
      bridgeThickness: "8.5 mm",
      saddleHeight: "3.8 mm",
      action: "2.8 mm",
      moreAtBass: "0.9 mm",
    },
  },
  ukulele: {
    title: "Tenor ukulele",
    units: "mm",
    instrument: {
      handed: "right",
      strings: strings("mm", "G4 0.57", "C4 0.81", "E4 0.65", "A4 0.55"),
      spacing: "equal-centre",
      scale: "430 mm",
      frets: 18,
      joinFret: 14,
      nutWidth: "35 mm",
      nutMargin: "3.5 mm",
      saddleSpread: "42 mm",
    },
    fingerboard: { thickness: "5 mm", markerFrets: [5, 7, 10, 12, 15], doubleFrets: [12] },
    neck: {
      firstDepth: "18.5 mm",
      secondDepth: "20 mm",
      rod: "none",
      bars: [{ offset: "0 mm", width: "5 mm", depth: "8 mm" }],
      headThickness: "12 mm",
      headplate: "1.5 mm",
      bend: "28 mm",
      tenonWidth: "16 mm",
      bush: "12 mm",
      bit: "8 mm",
      bridgeThickness: "7.5 mm",
      saddleHeight: "3.5 mm",
      action: "2.2 mm",
      moreAtBass: "0.3 mm",
    },
  },
  "tenor-guitar": {
    title: "Tenor guitar",
    units: "in",
    instrument: {
      handed: "right",
      strings: strings("in", "C3 0.032 w", "G3 0.022 w", "D4 0.014", "A4 0.010"),
      spacing: "equal-gap",
      scale: "23 in",
      frets: 19,
      joinFret: 14,
      nutWidth: "1 1/4 in",
      nutMargin: "1/8 in",
      saddleSpread: "1 5/8 in",
    },
    fingerboard: { thickness: "1/4 in", radius: "12 in" },
    neck: {
      firstDepth: "0.81 in",
      secondDepth: "0.87 in",
      bars: [{ offset: "-0.31 in" }, { offset: "0.31 in" }],
    },
  },
  baritone: {
    title: "Two-scale baritone guitar",
    units: "in",
    instrument: {
      handed: "right",
      strings: strings("in", "B1 0.070 w", "E2 0.056 w", "A2 0.045 w", "D3 0.035 w", "F#3 0.026 w", "B3 0.017"),
      spacing: "equal-gap",
      scale: "27 in",
      bassScale: "28.5 in",
      squareFret: 7,
      frets: 20,
      joinFret: 14,
      nutWidth: "1 13/16 in",
      nutMargin: "1/8 in",
      saddleSpread: "2 1/4 in",
    },
    fingerboard: { thickness: "1/4 in", radius: "16 in", end: "angled" },
    neck: { firstDepth: "0.87 in", secondDepth: "0.95 in" },
  },
  "octave-mandolin": {
    title: "Octave mandolin",
    units: "in",
    instrument: {
      handed: "right",
      strings: strings(
        "in",
        "G2 0.046 w",
        "G2 0.046 w",
        "D3 0.032 w",
        "D3 0.032 w",
        "A3 0.022 w",
        "A3 0.022 w",
        "E4 0.012",
        "E4 0.012",
      ),
      courses: [2, 2, 2, 2],
      courseSpacing: "2.4 mm",
      spacing: "equal-centre",
      scale: "21 in",
      frets: 20,
      joinFret: 14,
      nutWidth: "1 3/8 in",
      nutMargin: "1/8 in",
      saddleSpread: "1 7/8 in",
    },
    fingerboard: { thickness: "1/4 in", radius: "12 in" },
    neck: {
      firstDepth: "0.81 in",
      secondDepth: "0.87 in",
      bars: [{ offset: "-0.31 in" }, { offset: "0.31 in" }],
    },
  },
};

/** A complete design of a kind, right-handed, with a fingerboard, a nut and a neck. */
export function newDesign(kind: NewKind): Design {
  const { title, units, instrument, fingerboard, neck } = STARTS[kind];
  return {
    format: FORMAT,
    version: VERSION,
    units,
    order: { title },
    instrument,
    parts: {
      fingerboard: { ...emptyPart("fingerboard"), ...fingerboard },
      nut: emptyPart("nut"),
      neck: { ...emptyPart("neck"), ...neck },
    },
  };
}
