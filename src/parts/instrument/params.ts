/** The numbers that all parts share. */
import { fretShare } from "../../lutherie/fret-positions.ts";
import { marginFrom, spreadFrom, takenByStrings, widthFrom, type MarginTo } from "../../lutherie/nut-numbers.ts";
import type { Balance, ParamTable } from "../contract.ts";
import { PRACTICE } from "../finding.ts";

export interface StringRecord {
  /** Diameter, mm. */
  readonly gauge: number;
  readonly wound: boolean;
  readonly note: string;
  /** Along the nut from its place by the spacing, mm; above 0 towards the treble side. */
  readonly nutShift: number;
}

export interface InstrumentParams {
  readonly handed: "right" | "left";
  readonly strings: readonly StringRecord[];
  readonly courses: readonly number[];
  readonly courseSpacing: number;
  readonly saddleCourseSpacing: number;
  readonly spacing: "equal-gap" | "equal-centre";
  readonly scale: number;
  readonly bassScale: number | undefined;
  readonly squareFret: number;
  readonly frets: number;
  readonly zeroFret: boolean;
  readonly joinFret: number;
  readonly nutWidth: number;
  readonly nutSpread: number;
  readonly nutMargin: number;
  readonly marginTo: MarginTo;
  readonly saddleSpread: number;
  readonly joinSpread: number;
}

const STRINGS = "Strings";
const SCALE = "Scale and frets";
const NUT = "At the nut";
const SADDLE = "At the saddle";

const hasCourses = (p: InstrumentParams): boolean => p.courses.some((count) => count > 1);

/** What the outer strings take of the width where margins are measured to their edges. */
export const takenOf = (p: Pick<InstrumentParams, "strings" | "marginTo">): number =>
  takenByStrings(p.marginTo, p.strings[0]?.gauge ?? 0, p.strings.at(-1)?.gauge ?? 0);

export const instrumentParams: ParamTable<InstrumentParams> = {
  handed: {
    type: "choice",
    label: "Handed",
    help: "Which hand strums or picks; left mirrors everything that has a bass and a treble side.",
    group: STRINGS,
    fallback: "right",
    options: [
      { value: "right", label: "Right-handed" },
      { value: "left", label: "Left-handed" },
    ],
  },
  strings: {
    type: "records",
    label: "Strings",
    help: "One entry a string, from bass to treble.",
    group: STRINGS,
    item: "string",
    countsDown: true,
    short: "gauge",
    maxItems: 24,
    // A light steel-string set: .053, .042, .032, .024, .016 and .012 in.
    fallback: [
      { gauge: 1.3462, wound: true, note: "E2", nutShift: 0 },
      { gauge: 1.0668, wound: true, note: "A2", nutShift: 0 },
      { gauge: 0.8128, wound: true, note: "D3", nutShift: 0 },
      { gauge: 0.6096, wound: true, note: "G3", nutShift: 0 },
      { gauge: 0.4064, wound: false, note: "B3", nutShift: 0 },
      { gauge: 0.3048, wound: false, note: "E4", nutShift: 0 },
    ],
    of: {
      gauge: {
        type: "length",
        label: "Gauge",
        help: "Diameter of the string, as printed on the packet.",
        group: STRINGS,
        fallback: 0.4064,
        min: 0.05,
        max: 5,
        step: 0.0254,
        usual: { from: 0.2, to: 1.5, basis: PRACTICE },
      },
      wound: { type: "flag", label: "Wound", help: "Whether the string has a wrap.", group: STRINGS, fallback: false },
      note: {
        type: "text",
        label: "Note",
        help: "The note of the open string, such as E4.",
        group: STRINGS,
        fallback: "",
        maxLength: 8,
      },
      nutShift: {
        type: "length",
        label: "Moved at the nut",
        help: "How far its slot stands from where the spacing puts it, as on an old nut; above 0 towards the treble side.",
        group: STRINGS,
        fallback: 0,
        min: -20,
        max: 20,
        step: 0.05,
      },
    },
  },
  courses: {
    type: "counts",
    label: "Courses",
    help: "How many strings are played as one, course by course from bass to treble: 2 2 2 2 for an octave mandolin.",
    group: STRINGS,
    min: 1,
    max: 4,
    maxItems: 24,
    follows: { words: "one string a course", value: (p) => p.strings.map(() => 1) },
  },
  courseSpacing: {
    type: "length",
    label: "Spacing in a course, at the nut",
    help: "Between the centres of two strings of one course.",
    group: STRINGS,
    fallback: 2.2,
    min: 0.2,
    max: 15,
    step: 0.1,
    usual: { from: 1.8, to: 3, basis: PRACTICE },
    when: hasCourses,
  },
  saddleCourseSpacing: {
    type: "length",
    label: "Spacing in a course, at the saddle",
    help: "Between the centres of two strings of one course.",
    group: STRINGS,
    follows: { words: "same as at the nut", value: (p) => p.courseSpacing },
    min: 0.2,
    max: 15,
    step: 0.1,
    usual: { from: 1.8, to: 4, basis: PRACTICE },
    when: hasCourses,
  },
  spacing: {
    type: "choice",
    label: "Spacing",
    help: "What is made equal from string to string: the clear gap between them, or the distance of their centres.",
    group: STRINGS,
    fallback: "equal-gap",
    options: [
      { value: "equal-gap", label: "Equal gaps" },
      { value: "equal-centre", label: "Equal centres" },
    ],
  },
  scale: {
    type: "length",
    label: "Scale",
    help: "Twice the distance from the nut to fret 12; on a two-scale board that of the treble side.",
    group: SCALE,
    fallback: 645.16,
    min: 100,
    max: 2000,
    step: 0.5,
    usual: {
      from: 430,
      to: 725,
      basis: `tenor ukulele 430 mm, steel-string 632 to 648 mm, classical 650 mm, baritone to 725 mm: ${PRACTICE}`,
    },
  },
  bassScale: {
    type: "optional-length",
    label: "Scale on the bass side",
    help: "Given, the frets fan out between the two scales.",
    group: SCALE,
    min: 100,
    max: 2000,
    absent: "one scale",
  },
  squareFret: {
    type: "count",
    label: "Square fret",
    help: "The fret that stands square to the centre line; 0 for the nut.",
    group: SCALE,
    fallback: 7,
    min: 0,
    max: 36,
    usual: { from: 5, to: 12, basis: PRACTICE },
    when: (p) => p.bassScale !== undefined,
  },
  frets: {
    type: "count",
    label: "Frets",
    help: "How many, the nut or a zero fret not counted.",
    group: SCALE,
    fallback: 20,
    min: 0,
    max: 36,
    usual: { from: 18, to: 24, basis: PRACTICE },
  },
  zeroFret: {
    type: "flag",
    label: "Zero fret",
    help: "A fret at the start of the scale carries the strings; the nut behind it only spaces them.",
    group: SCALE,
    fallback: false,
  },
  joinFret: {
    type: "count",
    label: "Join at fret",
    help: "The fret at which the neck meets the body.",
    group: SCALE,
    fallback: 14,
    min: 1,
    max: 36,
    usual: { from: 12, to: 14, basis: PRACTICE },
  },
  nutWidth: {
    type: "length",
    label: "Width at the nut",
    help: "Width of the finished board at the nut, binding included.",
    group: NUT,
    follows: {
      words: "strings and both margins; 44.45 mm where neither is given",
      value: (p, _from, given) => (given("nutSpread") ? widthFrom(p.nutSpread, p.nutMargin, takenOf(p)) : 44.45),
    },
    min: 5,
    max: 200,
    step: 0.1,
    usual: {
      from: 33,
      to: 52,
      basis: `tenor guitar and ukulele 33 to 35 mm, steel-string 42.86 to 44.45 mm, nylon 52 mm: ${PRACTICE}`,
    },
  },
  nutSpread: {
    type: "length",
    label: "Outer strings apart, at the nut",
    help: "Between the centres of the outer strings.",
    group: NUT,
    follows: { words: "width less both margins", value: (p) => spreadFrom(p.nutWidth, p.nutMargin, takenOf(p)) },
    min: 0,
    max: 200,
    step: 0.1,
  },
  nutMargin: {
    type: "length",
    label: "Margin at the nut",
    help: "From the outer string to the edge of the board, alike on both sides.",
    group: NUT,
    follows: {
      words: "half of what the strings leave of the width; 3.2 mm where not both are given",
      value: (p, _from, given) =>
        given("nutWidth") && given("nutSpread") ? marginFrom(p.nutWidth, p.nutSpread, takenOf(p)) : 3.2,
    },
    min: 0,
    max: 100,
    step: 0.1,
    usual: { from: 3, to: 4.5, basis: `steel-string 3.0 to 3.5 mm, nylon 4 to 4.5 mm, to the string's centre: ${PRACTICE}` },
  },
  marginTo: {
    type: "choice",
    label: "Margins to the string's",
    help: "Whether margins are measured to the centre or to the outer edge of the string.",
    group: NUT,
    fallback: "centre",
    options: [
      { value: "centre", label: "Centre" },
      { value: "edge", label: "Edge" },
    ],
  },
  saddleSpread: {
    type: "length",
    label: "Outer strings apart, at the saddle",
    help: "Between the centres of the outer strings.",
    group: SADDLE,
    follows: {
      words: "on the lines through nut and join; 55.56 mm where the join is not given",
      value: (p, _from, given) =>
        given("joinSpread") ? p.nutSpread + (p.joinSpread - p.nutSpread) / fretShare(p.joinFret) : 55.5625,
    },
    min: 0,
    max: 300,
    step: 0.1,
    usual: { from: 42, to: 58.7, basis: `tenor ukulele about 42 mm, steel-string 54 to 58.7 mm, nylon 58 mm: ${PRACTICE}` },
  },
  joinSpread: {
    type: "length",
    label: "Outer strings apart, at the join",
    help: "Between the centres of the outer strings, over the fret at which neck and body meet.",
    group: SADDLE,
    follows: {
      words: "on the lines from nut to saddle",
      value: (p) => p.nutSpread + (p.saddleSpread - p.nutSpread) * fretShare(p.joinFret),
    },
    min: 0,
    max: 300,
    step: 0.1,
  },
};

export const instrumentBalances: readonly Balance<InstrumentParams>[] = [
  { members: ["nutWidth", "nutSpread", "nutMargin"], given: 2, yields: ["nutSpread", "nutMargin"] },
  { members: ["saddleSpread", "joinSpread"], given: 1, yields: ["saddleSpread", "joinSpread"] },
];
