/** The numbers of a headstock. */
import type { ParamTable, Sources } from "../contract.ts";
import { outlineSpec } from "../outline-points.ts";
import { PRACTICE } from "../finding.ts";
import { backX, bendBehind, instrumentOf, widthBehindNut, type HeadstockParams, type Nudge } from "./numbers.ts";
import { startingHead } from "./starting-shapes.ts";

const OUTLINE = "Outline";
const SECTION = "Thickness and tilt";
const TUNERS = "Tuners";
const MACHINE = "Machine";
const ROD = "Truss rod";
const DEGREE = Math.PI / 180;

/** Room from the last tuner to the top, mm. */
const AFTER_LAST = 24;

/** Tuners in the longer row. */
function tunersInRow(p: Pick<HeadstockParams, "rows" | "trebleTuners">, from: Sources): number {
  const count = instrumentOf(from).strings.length;
  return p.rows === "one" ? count : Math.max(p.trebleTuners, count - p.trebleTuners);
}

/** What of the neck's rod lies in the head: how far beyond the nut's back, and how wide. */
function rodEnd(from: Sources): { readonly length: number; readonly width: number } | undefined {
  const x0 = backX(from);
  const ends = from.get("neck")?.channels.filter((one) => (one.id === "rod" || one.id === "pocket") && one.from < x0 - 1) ?? [];
  if (ends.length === 0) return undefined;
  return { length: x0 - Math.min(...ends.map((one) => one.from)), width: Math.max(...ends.map((one) => one.width)) };
}

const withRod = (p: HeadstockParams): boolean => p.rodPocket;

const nudgeTable: ParamTable<Nudge> = {
  string: { type: "count", label: "String", help: "Counted from the treble.", group: TUNERS, fallback: 1, min: 1, max: 24 },
  along: {
    type: "length",
    label: "Along",
    help: "Away from the nut.",
    group: TUNERS,
    fallback: 0,
    min: -200,
    max: 200,
    step: 0.5,
  },
  across: {
    type: "length",
    label: "Across",
    help: "Away from the centre line.",
    group: TUNERS,
    fallback: 0,
    min: -100,
    max: 100,
    step: 0.5,
  },
};

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
    fallback: 20,
    min: 3,
    max: 120,
    step: 0.5,
    usual: { from: 18, to: 25, basis: PRACTICE },
    when: (p) => p.tilt > 0,
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
  rows: {
    type: "choice",
    label: "Rows",
    help: "Tuners on both sides, all in one line on the bass side, or rollers in two slots.",
    group: TUNERS,
    fallback: "two",
    options: [
      { value: "two", label: "Both sides" },
      { value: "one", label: "One line" },
      { value: "slotted", label: "Slotted" },
    ],
  },
  trebleTuners: {
    type: "count",
    label: "On the treble side",
    help: "The other tuners stand on the bass side.",
    group: TUNERS,
    follows: { words: "half of the strings", value: (_p, from) => Math.floor(instrumentOf(from).strings.length / 2) },
    min: 0,
    max: 24,
    when: (p) => p.rows !== "one",
  },
  first: {
    type: "length",
    label: "First tuner from the nut",
    help: "Along the head, from the nut's back to the middle of the nearest hole.",
    group: TUNERS,
    follows: {
      words: "38 mm, or clear of the neck's bend behind",
      value: (p, from) =>
        p.rows === "slotted"
          ? 38
          : Math.min(300, Math.max(38, Math.ceil(2 * ((bendBehind(from) ?? 0) + p.footprintLength / 2)) / 2)),
    },
    min: 5,
    max: 300,
    step: 0.5,
    usual: { from: 30, to: 50, basis: PRACTICE },
  },
  pitch: {
    type: "length",
    label: "Tuners apart",
    help: "Along the head, from middle to middle.",
    group: TUNERS,
    follows: {
      words: "the rows, closer where the neck's head is short",
      value: (p, from) => {
        const usual = p.rows === "one" ? 25 : p.rows === "slotted" ? 35 : 40;
        const gaps = tunersInRow(p, from) - 1;
        const head = from.get("neck")?.headLength;
        if (head === undefined || gaps < 1) return usual;
        return Math.max(5, Math.min(usual, Math.floor((2 * (head - p.first - AFTER_LAST)) / gaps) / 2));
      },
    },
    min: 5,
    max: 150,
    step: 0.5,
    usual: { from: 24, to: 42, basis: PRACTICE },
  },
  fromEdge: {
    type: "length",
    label: "From the edge",
    help: "From the nearest edge to the middle of the hole; of a slotted head, to the middle of the slot.",
    group: TUNERS,
    follows: { words: "the rows", value: (p) => (p.rows === "slotted" ? 18 : 12) },
    min: 1,
    max: 100,
    step: 0.5,
    usual: { from: 10, to: 20, basis: PRACTICE },
  },
  nudges: {
    type: "records",
    label: "Nudges",
    help: "Tuners moved from where the row puts them.",
    group: TUNERS,
    item: "nudge",
    maxItems: 24,
    of: nudgeTable,
    fallback: [],
  },
  wound: {
    type: "choice",
    label: "Strings wind on",
    help: "Which side of the post the string meets.",
    group: TUNERS,
    fallback: "inside",
    options: [
      { value: "inside", label: "The inside" },
      { value: "outside", label: "The outside" },
    ],
    when: (p) => p.rows !== "slotted",
  },
  hole: {
    type: "length",
    label: "Hole",
    help: "Diameter through the head.",
    group: MACHINE,
    fallback: 10,
    min: 2,
    max: 40,
    step: 0.1,
    usual: { from: 8.5, to: 10.5, basis: PRACTICE },
  },
  ferrule: {
    type: "length",
    label: "Ferrule or washer",
    help: "Its outside diameter on the face.",
    group: MACHINE,
    follows: { words: "the hole and 4 mm", value: (p) => p.hole + 4 },
    min: 2,
    max: 60,
    step: 0.1,
    when: (p) => p.rows !== "slotted",
  },
  post: {
    type: "length",
    label: "Post",
    help: "Diameter where the string winds.",
    group: MACHINE,
    fallback: 6.2,
    min: 1,
    max: 30,
    step: 0.1,
    usual: { from: 5.5, to: 10, basis: PRACTICE },
  },
  stringHeight: {
    type: "length",
    label: "String above the face",
    help: "Where it meets the post; below 0 in a slot.",
    group: MACHINE,
    follows: { words: "the rows", value: (p) => (p.rows === "slotted" ? -4 : 6) },
    min: -40,
    max: 40,
    step: 0.5,
  },
  footprintLength: {
    type: "length",
    label: "Machine behind, along the head",
    help: "Of its housing or plate on the back.",
    group: MACHINE,
    fallback: 22,
    min: 1,
    max: 100,
    step: 0.5,
    when: (p) => p.rows !== "slotted",
  },
  footprintWidth: {
    type: "length",
    label: "Machine behind, across",
    help: "Of its housing or plate on the back.",
    group: MACHINE,
    fallback: 18,
    min: 1,
    max: 100,
    step: 0.5,
    when: (p) => p.rows !== "slotted",
  },
  slotWidth: {
    type: "length",
    label: "Slot",
    help: "Width of each slot, with ends of half as much radius.",
    group: MACHINE,
    fallback: 14,
    min: 2,
    max: 60,
    step: 0.5,
    usual: { from: 12, to: 16, basis: PRACTICE },
    when: (p) => p.rows === "slotted",
  },
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
