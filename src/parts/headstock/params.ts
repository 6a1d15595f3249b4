/** The numbers of a headstock. */
import type { ParamTable, Sources } from "../contract.ts";
import { outlineSpec } from "../outline-points.ts";
import { PRACTICE } from "../finding.ts";
import { backX, instrumentOf, isScarfed, widthBehindNut, type HeadstockParams } from "./numbers.ts";
import { tunersInRow, tunerTable } from "./params-tuners.ts";
import { startingHead } from "./starting-shapes.ts";

const OUTLINE = "Outline";
const SECTION = "Thickness and tilt";
const ROD = "Truss rod";
const DEGREE = Math.PI / 180;

/** What of the neck's rod lies in the head: how far beyond the nut's back, and how wide. */
function rodEnd(from: Sources): { readonly length: number; readonly width: number } | undefined {
  const x0 = backX(from);
  const ends = from.get("neck")?.channels.filter((one) => (one.id === "rod" || one.id === "pocket") && one.from < x0 - 1) ?? [];
  if (ends.length === 0) return undefined;
  return { length: x0 - Math.min(...ends.map((one) => one.from)), width: Math.max(...ends.map((one) => one.width)) };
}

const withRod = (p: HeadstockParams): boolean => p.rodPocket;

export const headstockParams: ParamTable<HeadstockParams> = {
  start: {
    type: "choice",
    label: "Starting shape",
    help: "What it is until its points are moved.",
    group: OUTLINE,
    follows: { words: "the rows of tuners", value: (p) => (p.rows === "one" ? "one-sided" : "straight") },
    options: [
      { value: "straight", label: "Straight sides" },
      { value: "waisted", label: "Waisted" },
      { value: "crowned", label: "Crowned" },
      { value: "one-sided", label: "One-sided" },
    ],
  },
  length: {
    type: "length",
    label: "Length",
    help: "Along its face, from the nut's back to the top.",
    group: OUTLINE,
    follows: {
      words: "the neck, or the room that the tuners need",
      value: (p, from) => {
        const row = tunersInRow(p, from);
        return Math.min(600, from.get("neck")?.headLength ?? p.first + Math.max(0, row - 1) * p.pitch + 38);
      },
    },
    min: 20,
    max: 600,
    step: 1,
    usual: { from: 110, to: 200, basis: PRACTICE },
  },
  widthAtNut: {
    type: "length",
    label: "Width behind the nut",
    help: "Across the neck, where the head begins.",
    group: OUTLINE,
    follows: {
      words: "the nut, its thickness and the taper of the board",
      value: (_p, from) => Math.min(300, widthBehindNut(from)),
    },
    min: 5,
    max: 300,
    step: 0.1,
  },
  widthAtFirst: {
    type: "length",
    label: "Width at the first tuners",
    help: "Of the starting shape, where it has flared out.",
    group: OUTLINE,
    follows: { words: "the width behind the nut and 24 mm", value: (p) => p.widthAtNut + 24 },
    min: 5,
    max: 400,
    step: 0.5,
  },
  widthAtTop: {
    type: "length",
    label: "Width at the top",
    help: "Of the starting shape.",
    group: OUTLINE,
    follows: { words: "the width at the first tuners", value: (p) => p.widthAtFirst },
    min: 5,
    max: 400,
    step: 0.5,
  },
  mirrored: {
    type: "flag",
    label: "Mirrored about the centre line",
    help: "Only one half is drawn; the other is its image.",
    group: OUTLINE,
    follows: { words: "the rows of tuners", value: (p) => p.rows !== "one" },
  },
  outline: outlineSpec<HeadstockParams>({
    label: "Points",
    help: "From the corner at the nut on, measured from the nut's back; the corner itself follows the width there.",
    group: OUTLINE,
    words: "the starting shape",
    shape: (p, from) => startingHead(p.start, p, p.mirrored, instrumentOf(from).side),
  }),
  plateOverhang: {
    type: "length",
    label: "Headplate beyond the head",
    help: "All round; below 0 it stays within the edge, as for a binding.",
    group: OUTLINE,
    fallback: 0,
    min: -20,
    max: 20,
    step: 0.1,
  },
  thickness: {
    type: "length",
    label: "Thickness",
    help: "Square to its face, with the headplate.",
    group: SECTION,
    follows: { words: "the neck's wood there and a 2 mm plate", value: (_p, from) => (from.get("neck")?.headWood ?? 12.5) + 2 },
    min: 3,
    max: 60,
    step: 0.1,
    usual: { from: 14, to: 15, basis: PRACTICE },
  },
  tilt: {
    type: "angle",
    label: "Tilt",
    help: "Between the head's face and the board; 0 for a straight head.",
    group: SECTION,
    follows: { words: "the neck", value: (_p, from) => from.get("neck")?.tiltRad ?? 15 * DEGREE },
    min: 0,
    max: 45 * DEGREE,
    step: DEGREE / 2,
    usual: { from: 13 * DEGREE, to: 17 * DEGREE, basis: PRACTICE },
  },
  blankThickness: {
    type: "length",
    label: "Blank at the scarf",
    help: "Thickness of the planed board that the scarf is sawn through.",
    group: SECTION,
    follows: {
      words: "the neck's blank, or 20 mm",
      value: (_p, from) => Math.min(120, from.get("neck")?.blankThickness ?? 20),
    },
    min: 3,
    max: 120,
    step: 0.5,
    usual: { from: 18, to: 25, basis: PRACTICE },
    when: (p, from) => p.tilt > 0 && isScarfed(from),
  },
  faceBelowBoard: {
    type: "length",
    label: "Face below the board's face",
    help: "At the nut's back, from the face of the board down to the headplate's.",
    group: SECTION,
    follows: {
      words: "the seat of the nut, less a 2 mm plate",
      value: (_p, from) => Math.max(0, (from.get("nut")?.seatDepth ?? 6.35) - 2),
    },
    min: 0,
    max: 60,
    step: 0.1,
  },
  ...tunerTable,
  rodPocket: {
    type: "flag",
    label: "Rod adjusted from the head",
    help: "Cuts a pocket behind the nut for the rod's nut or socket.",
    group: ROD,
    follows: { words: "the neck's rod", value: (_p, from) => rodEnd(from) !== undefined },
  },
  pocketWidth: {
    type: "length",
    label: "Pocket width",
    help: "Across the head.",
    group: ROD,
    follows: {
      words: "the neck's pocket, or 12 mm",
      value: (_p, from) => Math.min(60, Math.max(2, rodEnd(from)?.width ?? 12)),
    },
    min: 2,
    max: 60,
    step: 0.5,
    when: withRod,
  },
  pocketLength: {
    type: "length",
    label: "Pocket length",
    help: "From the nut's back.",
    group: ROD,
    follows: {
      words: "where the neck's rod ends, or 26 mm",
      value: (_p, from) => Math.min(150, Math.max(4, rodEnd(from)?.length ?? 26)),
    },
    min: 4,
    max: 150,
    step: 0.5,
    when: withRod,
  },
  pocketDepth: {
    type: "length",
    label: "Pocket depth",
    help: "Below the head's face, square to it.",
    group: ROD,
    fallback: 8,
    min: 0.5,
    max: 60,
    step: 0.5,
    when: withRod,
  },
  coverMargin: {
    type: "length",
    label: "Cover beyond the pocket",
    help: "All round but at the nut.",
    group: ROD,
    fallback: 5,
    min: 0.5,
    max: 40,
    step: 0.5,
    when: withRod,
  },
};
