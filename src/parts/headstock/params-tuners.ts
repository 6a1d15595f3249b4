/** Where the tuners of a headstock stand, and the machines that they are. */
import { PRACTICE } from "../finding.ts";
import type { ParamTable, Sources } from "../contract.ts";
import { bendBehind, instrumentOf, type HeadstockParams, type Nudge } from "./numbers.ts";

const TUNERS = "Tuners";
const MACHINE = "Machine";

/** Room from the last tuner to the top, mm. */
const AFTER_LAST = 24;

/** Tuners in the longer row. */
export function tunersInRow(p: Pick<HeadstockParams, "rows" | "trebleTuners">, from: Sources): number {
  const count = instrumentOf(from).strings.length;
  return p.rows === "one" ? count : Math.max(p.trebleTuners, count - p.trebleTuners);
}

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

export const tunerTable: Pick<
  ParamTable<HeadstockParams>,
  | "rows"
  | "trebleTuners"
  | "first"
  | "pitch"
  | "fromEdge"
  | "nudges"
  | "wound"
  | "hole"
  | "ferrule"
  | "post"
  | "stringHeight"
  | "footprintLength"
  | "footprintWidth"
  | "slotWidth"
> = {
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
};
