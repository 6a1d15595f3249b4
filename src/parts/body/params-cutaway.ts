/** The numbers of the cutaways: on the treble side, and on the bass side as there until the maker says otherwise. */
import type { ChoiceSpec, NumberSpec, ParamTable } from "../contract.ts";
import { PRACTICE } from "../finding.ts";
import type { BodyParams, CutawayKind } from "./numbers.ts";

const CUTAWAY = "Cutaway";
const BASS = "Cutaway on the bass side";
const AS_TREBLE = "as on the treble side";
const DEGREE = Math.PI / 180;

const measured = (p: BodyParams): boolean => p.outlineBy === "measures";
const cut = (p: BodyParams): boolean => measured(p) && p.cutaway !== "none";
const bassCut = (p: BodyParams): boolean => measured(p) && p.bassCutaway !== "none";

type CutawayNumbers = Pick<
  BodyParams,
  | "cutaway"
  | "bassCutaway"
  | "hornAt"
  | "hornOut"
  | "cutDepth"
  | "neckOut"
  | "cutFullness"
  | "tipFall"
  | "tipAngle"
  | "bassHornAt"
  | "bassHornOut"
  | "bassCutDepth"
  | "bassCutFullness"
  | "bassTipFall"
  | "bassTipAngle"
>;

const kind = (label: string, help: string): ChoiceSpec<CutawayKind, BodyParams> => ({
  type: "choice",
  label,
  help,
  group: CUTAWAY,
  fallback: "none",
  options: [
    { value: "none", label: "None" },
    { value: "rounded", label: "Rounded" },
    { value: "pointed", label: "Pointed" },
  ],
  when: measured,
});

type Spec = NumberSpec<BodyParams>;
/** What both sides share; what it stands at until it is given is said for each. */
type Bare = Omit<Spec, "fallback" | "follows">;

const hornAt: Bare = {
  type: "length",
  label: "Horn from the neck end",
  help: "Where the horn comes nearest to the neck end of the body, along the centre line.",
  group: CUTAWAY,
  min: 0,
  max: 1800,
  step: 0.5,
  when: cut,
};
const hornOut: Bare = {
  type: "length",
  label: "Horn from the centre line",
  help: "Of the same place, across.",
  group: CUTAWAY,
  min: 1,
  max: 600,
  step: 0.5,
  when: cut,
};
const cutDepth: Bare = {
  type: "length",
  label: "Depth of the cutaway",
  help: "From the neck end of the body to where the hollow meets the neck.",
  group: CUTAWAY,
  min: 1,
  max: 1800,
  step: 0.5,
  when: cut,
};
const cutFullness: Bare = {
  type: "number",
  label: "Hollow",
  help: "The hollow of the cutaway. More is rounder, less runs out straighter.",
  group: CUTAWAY,
  min: 0.05,
  max: 0.95,
  step: 0.01,
  usual: { from: 0.4, to: 0.65, basis: PRACTICE },
  when: cut,
};
const tipFall: Bare = {
  type: "angle",
  label: "Fall of the outer edge",
  help: "How the outer edge comes in towards the centre line at the point.",
  group: CUTAWAY,
  min: 1 * DEGREE,
  max: 89 * DEGREE,
  step: DEGREE,
  when: (p) => cut(p) && p.cutaway === "pointed",
};
const tipAngle: Bare = {
  type: "angle",
  label: "Angle of the point",
  help: "Between both sides of the horn.",
  group: CUTAWAY,
  min: 5 * DEGREE,
  max: 175 * DEGREE,
  step: DEGREE,
  usual: { from: 45 * DEGREE, to: 90 * DEGREE, basis: PRACTICE },
  when: (p) => cut(p) && p.cutaway === "pointed",
};

/** The same number on the bass side. */
const onBass = (spec: Bare, value: (p: BodyParams) => number, when: (p: BodyParams) => boolean = bassCut): Spec => ({
  ...spec,
  group: BASS,
  follows: { words: AS_TREBLE, value },
  when,
});

const bassPointed = (p: BodyParams): boolean => bassCut(p) && p.bassCutaway === "pointed";

export const cutawayParams: Pick<ParamTable<BodyParams>, keyof CutawayNumbers> = {
  cutaway: kind("On the treble side", "A cutaway with a rounded horn or with one that ends in a point."),
  bassCutaway: kind("On the bass side", "One there as well, or there alone; its numbers are its own."),
  neckOut: {
    type: "length",
    label: "Neck from the centre line",
    help: "Half the neck's width where a cutaway meets it, with a little to spare.",
    group: CUTAWAY,
    follows: {
      words: "half the board at the join and 2 mm",
      value: (_p, from) => Math.min(300, (from.get("fingerboard")?.widthAtJoin ?? 56) / 2 + 2),
    },
    min: 1,
    max: 300,
    step: 0.5,
    when: (p) => cut(p) || bassCut(p),
  },
  hornAt: { ...hornAt, follows: { words: "4 hundredths of the length", value: (p) => 0.04 * p.length } },
  hornOut: { ...hornOut, follows: { words: "36 hundredths of the upper bout", value: (p) => 0.36 * p.upperBout } },
  cutDepth: { ...cutDepth, follows: { words: "14 hundredths of the length", value: (p) => 0.14 * p.length } },
  cutFullness: { ...cutFullness, fallback: 0.5 },
  tipFall: { ...tipFall, fallback: 35 * DEGREE },
  tipAngle: { ...tipAngle, fallback: 60 * DEGREE },
  bassHornAt: onBass(hornAt, (p) => p.hornAt),
  bassHornOut: onBass(hornOut, (p) => p.hornOut),
  bassCutDepth: onBass(cutDepth, (p) => p.cutDepth),
  bassCutFullness: onBass(cutFullness, (p) => p.cutFullness),
  bassTipFall: onBass(tipFall, (p) => p.tipFall, bassPointed),
  bassTipAngle: onBass(tipAngle, (p) => p.tipAngle, bassPointed),
};
