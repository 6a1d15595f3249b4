/** The numbers of a nut. */
import type { ParamTable, Sources } from "../contract.ts";
import { PRACTICE } from "../finding.ts";

export interface NutParams {
  readonly thickness: number;
  readonly width: number;
  readonly seatDepth: number;
  readonly fretClearance: number;
  readonly bassFretClearance: number;
  readonly zeroFretDrop: number;
  readonly slotPlay: number;
  readonly topAboveSlots: number;
  readonly spare: number;
}

const BLANK = "Blank";
const SLOTS = "String slots";

const hasZeroFret = (from: Sources): boolean => from.get("instrument")?.zeroFret === true;

export const nutParams: ParamTable<NutParams> = {
  thickness: {
    type: "length",
    label: "Thickness",
    help: "Along the strings, square to the face that meets the board.",
    group: BLANK,
    fallback: 5.5,
    min: 1,
    max: 30,
    step: 0.1,
    usual: { from: 5, to: 6.5, basis: PRACTICE },
  },
  width: {
    type: "length",
    label: "Width",
    help: "Across the neck, square to the centre line.",
    group: BLANK,
    follows: {
      words: "the finished board at the nut",
      value: (_p, from) => from.get("fingerboard")?.boundWidthAtNut ?? from.get("instrument")?.nutWidth ?? 44.45,
    },
    min: 5,
    max: 300,
    step: 0.1,
  },
  seatDepth: {
    type: "length",
    label: "Seat below the face",
    help: "From the face of the board at its middle down to what the nut stands on.",
    group: BLANK,
    follows: { words: "the board's thickness", value: (_p, from) => from.get("fingerboard")?.thickness ?? 6.35 },
    min: 0,
    max: 60,
    step: 0.1,
  },
  spare: {
    type: "length",
    label: "Spare height of the blank",
    help: "What the blank stands above the finished nut, to be filed away.",
    group: BLANK,
    fallback: 2,
    min: 0,
    max: 30,
    step: 0.5,
    usual: { from: 1, to: 3, basis: PRACTICE },
  },
  fretClearance: {
    type: "length",
    label: "Clearance over fret 1, treble",
    help: "Between the string and fret 1 while it is held down at fret 3.",
    group: SLOTS,
    fallback: 0.05,
    min: 0,
    max: 3,
    step: 0.01,
    usual: { from: 0.03, to: 0.2, basis: PRACTICE },
    when: (_p, from) => !hasZeroFret(from),
  },
  bassFretClearance: {
    type: "length",
    label: "Clearance over fret 1, bass",
    help: "The same under the bass string; strings between them share the difference.",
    group: SLOTS,
    follows: { words: "same as on the treble side", value: (p) => p.fretClearance },
    min: 0,
    max: 3,
    step: 0.01,
    usual: { from: 0.03, to: 0.3, basis: PRACTICE },
    when: (_p, from) => !hasZeroFret(from),
  },
  zeroFretDrop: {
    type: "length",
    label: "Below the zero fret",
    help: "How far the slots lie below the top of the zero fret, which then carries the strings.",
    group: SLOTS,
    fallback: 0.3,
    min: 0,
    max: 4,
    step: 0.1,
    usual: { from: 0.2, to: 0.5, basis: PRACTICE },
    when: (_p, from) => hasZeroFret(from),
  },
  slotPlay: {
    type: "length",
    label: "Slot wider than its string",
    help: "By how much in all.",
    group: SLOTS,
    fallback: 0.05,
    min: 0,
    max: 2,
    step: 0.01,
    usual: { from: 0.03, to: 0.1, basis: PRACTICE },
  },
  topAboveSlots: {
    type: "length",
    label: "Top above the slots",
    help: "From the bottoms of the slots to the top of the finished nut.",
    group: SLOTS,
    follows: {
      words: "half of the thickest string",
      value: (_p, from) => Math.max(0.1, ...(from.get("instrument")?.strings ?? []).map((string) => string.gauge / 2)),
    },
    min: 0.05,
    max: 10,
    step: 0.1,
  },
};
