/**
 * Repairs as a start: a few questions about the old instrument, and a design of the same parts with the answers in it. How each number
 * is taken: common practice, no source.
 */
import type { Design, Units } from "../document/design.ts";
import { emptyPart } from "../document/edit-parts.ts";
import { newDesign, type NewKind } from "../document/new-design.ts";
import { resetAtHeel } from "../lutherie/neck-pitch.ts";
import { stringCentres } from "../lutherie/string-spacing.ts";
import type { Raw } from "../parts/derived.ts";
import { readPlain } from "../units/plain.ts";
import { numbersFound, scaleFound } from "./found.ts";
import { keyOfFret, READINGS, type Reading, type Taken, type Target } from "./readings.ts";
import type { SketchName } from "./sketch.ts";
import { withNumber, withPart } from "./taken.ts";

/** A question of a repair: a reading that the measuring sheet knows, or one of its own. */
export interface Ask extends Omit<Reading, "group"> {
  /** Several lengths in a row, "4.1 11.6 19 ..." */
  readonly row?: true;
  readonly needed?: true;
}

/** What a repair works out at once from the answers. Lengths mm. */
export interface Worked {
  readonly label: string;
  readonly value: number;
  readonly from: string;
}

export interface Repair {
  readonly id: string;
  readonly label: string;
  readonly about: string;
  readonly asks: readonly Ask[];
  /** Kinds of the parts that the design is about; the others of the usual instrument are left out. */
  readonly parts: readonly string[];
  /** What to do on the board next. */
  readonly next: string;
  readonly works?: (answers: Answers) => readonly Worked[];
  /** Numbers beyond those that are a question's own target. */
  readonly sets?: (answers: Answers, design: Design) => readonly (Target & { readonly value: Raw })[];
}

/** The answers as numbers: single ones, and rows. */
export interface Answers {
  readonly taken: Taken;
  readonly rows: Readonly<Record<string, readonly number[]>>;
}

const known = (key: string, needed = false): Ask => {
  const { group: _, ...reading } = READINGS.find((one) => one.key === key)!;
  return needed ? { ...reading, needed: true } : reading;
};

const toFret = (fret: number): Ask => ({
  key: keyOfFret(fret),
  label: `Nut to fret ${fret}`,
  how: "From the front of the nut to the middle of the crown, or of the slot where the fret is out.",
  sketch: "toFret12",
});

const own = (key: string, label: string, how: string, sketch: SketchName, more: Partial<Ask> = {}): Ask => ({
  key,
  label,
  how,
  sketch,
  ...more,
});

/** From the join to the saddle by the scale, mm: the join fret divides it. */
const joinToSaddle = ({ scale, joinFret }: { readonly scale: number; readonly joinFret: number }): number =>
  scale * 2 ** (-joinFret / 12);

export const REPAIRS: readonly Repair[] = [
  {
    id: "bridge",
    label: "A replacement bridge",
    about: "The old footprint as the least outline, the pin holes kept, the saddle from fret 12 as it is.",
    parts: ["bridge"],
    asks: [
      known("nutToFret12", true),
      known("saddleSpread", true),
      known("actionTreble"),
      known("actionBass"),
      own("oldSpan", "Old footprint, across", "Over the scar of the old bridge, square to the strings.", "saddleSpread", {
        target: { kind: "bridge", key: "oldSpan" },
      }),
      own("oldAlong", "Old footprint, along", "The same along the strings, where it is widest.", "bridgeThickness", {
        target: { kind: "bridge", key: "oldAlong" },
      }),
      own(
        "oldFront",
        "Fret 12 to the old front edge",
        "From the crown of fret 12 to the front of the scar, on the centre line.",
        "toFret12",
        {
          target: { kind: "bridge", key: "oldFrom12" },
        },
      ),
      own("pinSpread", "Outer pin holes apart", "Middle to middle.", "saddleSpread", {
        target: { kind: "bridge", key: "pinSpread" },
      }),
      own("pinHole", "Pin hole", "Diameter of a hole as it is now, worn or not.", "saddleSpread", {
        target: { kind: "bridge", key: "pinHole" },
      }),
    ],
    next: "Trace the old footprint from a photograph if it is no rectangle; the check under Fit says whether any of it shows.",
    sets: ({ taken }) => [
      ...(taken["oldSpan"] === undefined ? [] : [{ kind: "bridge", key: "old", value: "rectangle" }]),
      ...(taken["actionTreble"] === undefined ? [] : [{ kind: "bridge", key: "actionTreble", value: taken["actionTreble"] }]),
      ...(taken["actionBass"] === undefined ? [] : [{ kind: "bridge", key: "actionBass", value: taken["actionBass"] }]),
    ],
  },
  {
    id: "pickguard",
    label: "A replacement pickguard",
    about: "Traced over the scar of the old one; the new one must cover it.",
    parts: ["soundhole", "pickguard"],
    asks: [
      known("nutToFret12", true),
      own("holeDiameter", "Soundhole", "Its diameter.", "upperBout", { target: { kind: "soundhole", key: "diameter" } }),
      own("holeFromNut", "Nut to the middle of the soundhole", "Along the centre line.", "bodyLength", {
        target: { kind: "soundhole", key: "middle" },
      }),
    ],
    next: "Put a photograph of the top under the board, bring it to scale, and trace the scar as the old outline.",
    sets: () => [{ kind: "pickguard", key: "old", value: "points" }],
  },
  {
    id: "nut",
    label: "A new nut from the old one’s slots",
    about: "Every slot where it was, or evened out by the spacing.",
    parts: ["fingerboard", "nut"],
    asks: [
      known("nutToFret12"),
      known("nutWidth", true),
      own(
        "slots",
        "Slots from the bass end",
        "From the bass end of the nut to the middle of every slot, all from one laying of the rule, bass to treble.",
        "nutSpread",
        { row: true, needed: true },
      ),
      own("nutThickness", "Thickness of the nut", "Along the strings.", "nutWidth", {
        target: { kind: "nut", key: "thickness" },
      }),
      known("edgeChord"),
      known("edgeRise"),
    ],
    next: "Each string’s “Moved at the nut” holds how far its old slot stands from an even spacing; set it to 0 to even it out.",
    sets: nutFromSlots,
  },
  {
    id: "board",
    label: "A refret, or a new board on an old neck",
    about: "The scale from the frets as they are, the outline from the neck.",
    parts: ["fingerboard", "nut"],
    asks: [
      known("nutToFret12", true),
      ...[5, 7, 14, 17].map(toFret),
      known("frets"),
      known("joinFret"),
      known("nutWidth", true),
      known("widthAtJoin", true),
      known("edgeChord"),
      known("edgeRise"),
      own("boardThickness", "Thickness of the board", "At its edge, between two frets.", "depth", {
        target: { kind: "fingerboard", key: "thickness" },
      }),
    ],
    next: "The slots are laid out by the scale found; a slot that is out is named under Measuring an instrument.",
  },
  {
    id: "reset",
    label: "A neck reset",
    about: "How much wood comes off the heel to bring the strings down.",
    parts: ["fingerboard", "nut", "neck"],
    asks: [
      known("nutToFret12", true),
      known("joinFret", true),
      own("heelLength", "Height of the heel", "From the top’s plane at the join down to the heel’s foot or cap.", "depthAtNeck", {
        needed: true,
        target: { kind: "neck", key: "heelDepth" },
      }),
      own(
        "riseAtSaddle",
        "The frets’ plane must rise at the saddle by",
        "A long straightedge on the frets, carried on to the bridge: how much higher its end must come for the action wanted.",
        "stringsOverTop",
        { needed: true, target: { kind: "neck", key: "resetRise" } },
      ),
      known("nutToSaddleTreble"),
    ],
    next: "The neck’s side view shows the wedge that comes off; try the neck dry, strings’ pull is not in the sum.",
    works: ({ taken }) => {
      const scale = scaleFound(taken)?.scale;
      const { heelLength, riseAtSaddle, joinFret, nutToSaddleTreble } = taken;
      if (scale === undefined || heelLength === undefined || riseAtSaddle === undefined || joinFret === undefined) return [];
      const longer = nutToSaddleTreble === undefined ? 0 : nutToSaddleTreble - scale;
      const length = joinToSaddle({ scale, joinFret }) + longer;
      if (!(length > 0)) return [];
      return [
        { label: "Join to saddle", value: length, from: longer === 0 ? "by the scale" : "by the scale and the compensation" },
        {
          label: "Wood off at the foot of the heel",
          value: resetAtHeel(heelLength, riseAtSaddle, length),
          from: "heel × rise / join to saddle",
        },
      ];
    },
  },
  {
    id: "binding",
    label: "A binding replaced",
    about: "Lengths of binding, and the channel it lies in.",
    parts: ["body", "sides"],
    asks: [
      known("nutToFret12", true),
      known("bodyLength", true),
      known("upperBout", true),
      known("waist", true),
      known("lowerBout", true),
      own(
        "channelWidth",
        "Width of the channel",
        "Calliper’s depth rod across the ledge, where the old binding is out.",
        "bodyLength",
        {
          needed: true,
        },
      ),
      own("channelHeight", "Height of the channel", "Down the side.", "depthAtNeck", { needed: true }),
    ],
    next: "The lengths to buy or bend stand on the cutting list under Fit.",
    sets: ({ taken }) => [
      {
        kind: "body",
        key: "binding",
        value: [{ thickness: taken["channelWidth"], height: taken["channelHeight"] }],
      },
    ],
  },
];

/** The numbers of a nut from its old slots: the spread, the spacing that fits better, and what each slot is off it. */
function nutFromSlots({ taken, rows }: Answers, design: Design): readonly (Target & { readonly value: Raw })[] {
  const slots = rows["slots"] ?? [];
  const width = taken["nutWidth"];
  const strings = (design.instrument["strings"] as readonly Readonly<Record<string, Raw>>[] | undefined) ?? [];
  if (slots.length < 2 || width === undefined) return [];
  const spread = slots.at(-1)! - slots[0]!;
  const same = strings.length === slots.length;
  const gauges = same ? strings.map(({ gauge }) => lengthOf(gauge, design.units) ?? 0.5) : slots.map(() => 0.5);
  const courses = slots.map(() => 1);
  // From the middle of the width, bass below 0.
  const places = slots.map((slot) => slot - width / 2);
  const fits = (["equal-gap", "equal-centre"] as const).map((by) => {
    const even = stringCentres({ spread, gauges, courses, inCourse: 0, by });
    const off = places.map((place, i) => place - even[i]!);
    return { by, off, worst: Math.max(...off.map((mm, i) => Math.abs(mm - off[0]!) * (i > 0 ? 1 : 0))) };
  });
  const best = fits[0]!.worst <= fits[1]!.worst ? fits[0]! : fits[1]!;
  const tidy = (mm: number): number => Math.round(mm * 1e6) / 1e6 + 0;
  return [
    { kind: "instrument", key: "nutSpread", value: spread },
    { kind: "instrument", key: "spacing", value: best.by },
    {
      kind: "instrument",
      key: "strings",
      value: slots.map((_, i) => ({
        ...(same ? strings[i] : { gauge: gauges[i] }),
        ...(Math.abs(best.off[i]!) < 1e-6 ? {} : { nutShift: tidy(best.off[i]!) }),
      })),
    },
  ];
}

function lengthOf(raw: Raw, units: Units): number | undefined {
  if (typeof raw === "number") return raw;
  const read = typeof raw === "string" ? readPlain(raw, { quantity: "length", bareUnit: units }) : undefined;
  return read?.ok ? read.value : undefined;
}

/** Reads the answers of a repair as they were typed; the keys of those that are no numbers are listed. */
export function readAnswers(
  repair: Repair,
  typed: Readonly<Record<string, string>>,
  units: Units,
): { readonly answers: Answers; readonly wrong: readonly string[]; readonly missing: readonly string[] } {
  const taken: Record<string, number> = {};
  const rows: Record<string, readonly number[]> = {};
  const wrong: string[] = [];
  const missing: string[] = [];
  for (const { key, row, count, needed } of repair.asks) {
    const text = typed[key]?.trim() ?? "";
    if (text === "") {
      if (needed) missing.push(key);
      continue;
    }
    if (row) {
      const lengths = text.split(/[\s;]+/).map((one) => lengthOf(one, units));
      const rising = lengths.every((mm, i) => mm !== undefined && (i === 0 || mm > (lengths[i - 1] ?? Infinity)));
      if (rising && lengths.length > 1) rows[key] = lengths as number[];
      else wrong.push(key);
      continue;
    }
    const read = readPlain(text, { quantity: count ? "count" : "length", bareUnit: units });
    if (read.ok && read.value > 0) taken[key] = read.value;
    else wrong.push(key);
  }
  return { answers: { taken, rows }, wrong, missing };
}

/** The design that a repair begins with: the usual instrument of its kind, cut down to the parts in question, the answers in it. */
export function beginRepair(repair: Repair, kind: NewKind, typed: Readonly<Record<string, string>>, units: Units): Design {
  const { answers } = readAnswers(repair, typed, units);
  const usual = newDesign(kind);
  const parts = Object.fromEntries(Object.entries(usual.parts).filter(([, part]) => repair.parts.includes(part.kind)));
  let design: Design = repair.parts.reduce<Design>((so, part) => withPart(so, part), {
    ...usual,
    parts: Object.keys(parts).length > 0 ? parts : { [repair.parts[0]!]: emptyPart(repair.parts[0]!) },
    units,
    order: {
      title: repair.label.replace("’", "'"),
      reference: Object.fromEntries(Object.entries(typed).filter(([, text]) => text.trim() !== "")),
    },
  });
  const inDesign = ({ kind: owner }: Pick<Target, "kind">): boolean => owner === "instrument" || repair.parts.includes(owner);
  for (const { key, target } of repair.asks) {
    const text = typed[key]?.trim() ?? "";
    if (target && text !== "" && inDesign(target)) design = withNumber(design, target, text);
  }
  for (const found of numbersFound(answers.taken)) {
    const asked = repair.asks.some(({ target }) => target?.kind === found.kind && target.key === found.key);
    if (!asked && inDesign(found)) design = withNumber(design, found, found.value);
  }
  for (const { value, ...target } of repair.sets?.(answers, design) ?? []) design = withNumber(design, target, value);
  return design;
}
