/**
 * What a design says of its wood: by blank (`fingerboard/board`) which wood it is and how it lies, and for all of it the air that it was
 * worked in and will live in.
 */
import { AIR_LIMITS } from "../lutherie/equilibrium-moisture.ts";
import { WOOD_SPECIES } from "../lutherie/wood-species.ts";
import type { ParamTable, Joint } from "./contract.ts";
import type { Blank, Sawn } from "./made-of.ts";
import type { Derived, DesignNumbers } from "./derived.ts";
import { settleRecord, type Settled } from "./makings.ts";
import { PRACTICE } from "./finding.ts";
import { partName } from "./part-name.ts";

/** Stands for what is no wood. */
export const NO_WOOD = "none";

/** One blank's wood. */
export interface Wood {
  /** Id in the species table, or NO_WOOD. */
  readonly species: string;
  readonly sawn: Sawn;
  /** Direction of the grain from the instrument's length, radians. */
  readonly grain: number;
  /** Left on all round and on the thickness, mm. */
  readonly allowance: number;
  readonly planing: number;
  /** Where it comes from, which board of the rack it is, and the papers that go with it; blank where nothing is said. */
  readonly origin: string;
  readonly board: string;
  readonly papers: string;
}

/** Percent of relative humidity and degrees Celsius. */
export interface Seasons {
  readonly shopHumidityPct: number;
  readonly shopC: number;
  readonly dryHumidityPct: number;
  readonly dampHumidityPct: number;
  readonly homeC: number;
}

const WOOD = "Wood";
const LEFT_ON = "Left on";
const RECORD = "Where it comes from";
/** Of a line in the report. */
const LONGEST_WORDS = 80;

/** What the table falls back to where nothing is known of the blank. */
type Usual = Pick<Blank, "species" | "sawn" | "grain" | "allowance" | "planing">;
const PLAIN: Usual = { grain: 0, allowance: 3, planing: 1 };

const isWood = (p: Wood): boolean => p.species !== NO_WOOD;

/** The table of one blank's wood. */
export const woodTable = (usual: Usual = PLAIN): ParamTable<Wood> => ({
  species: {
    type: "choice",
    label: "Wood",
    help: "From the table of woods; its figures and how well each is known stand under the seasons.",
    group: WOOD,
    fallback: usual.species ?? NO_WOOD,
    options: [{ value: NO_WOOD, label: "No wood" }, ...WOOD_SPECIES.map(({ id, common }) => ({ value: id, label: common }))],
  },
  sawn: {
    type: "choice",
    label: "Sawn",
    help: "Quartersawn: the rings stand on the broad face, and its width moves least. Flatsawn: they lie along it.",
    group: WOOD,
    fallback: usual.sawn ?? "quartersawn",
    options: [
      { value: "quartersawn", label: "Quarter" },
      { value: "riftsawn", label: "Rift" },
      { value: "flatsawn", label: "Flat" },
    ],
    when: isWood,
  },
  grain: {
    type: "angle",
    label: "Grain",
    help: "Its direction from the length of the instrument: 0 runs along it, 90 degrees across.",
    group: WOOD,
    fallback: usual.grain,
    min: -Math.PI,
    max: Math.PI,
    step: Math.PI / 180,
    when: isWood,
  },
  allowance: {
    type: "length",
    label: "All round",
    help: "What the blank is larger by on every side until it is fitted.",
    group: LEFT_ON,
    fallback: usual.allowance,
    min: 0,
    max: 100,
    step: 0.5,
    usual: { from: 1, to: 6, basis: PRACTICE },
  },
  planing: {
    type: "length",
    label: "On the thickness",
    help: "What is planed, scraped or sanded off until it has its thickness.",
    group: LEFT_ON,
    fallback: usual.planing,
    min: 0,
    max: 50,
    step: 0.1,
    usual: { from: 0.2, to: 3, basis: PRACTICE },
  },
  origin: {
    type: "text",
    label: "Origin",
    help: "The country or the forest that it was bought from, for the order and for a border.",
    group: RECORD,
    fallback: "",
    maxLength: LONGEST_WORDS,
  },
  board: {
    type: "text",
    label: "Board",
    help: "Which board or set of the rack it is: its mark there, or where it was bought and when.",
    group: RECORD,
    fallback: "",
    maxLength: LONGEST_WORDS,
  },
  papers: {
    type: "text",
    label: "Papers",
    help: "Permit, invoice or certificate that goes with it, with its number. Some species may not be sold or cross a border without.",
    group: RECORD,
    fallback: "",
    maxLength: LONGEST_WORDS,
  },
});

const SHOP = "Where it is made";
const HOME = "Where it will live";
const humidity = { min: AIR_LIMITS.lowestRhPct, max: AIR_LIMITS.highestRhPct, step: 1 } as const;
const air = { min: -1, max: AIR_LIMITS.highestC, step: 1 } as const;

export const SEASONS_TABLE: ParamTable<Seasons> = {
  shopHumidityPct: {
    type: "number",
    label: "Humidity in the shop, %",
    help: "Relative humidity of the air that the wood has lain in until nothing moved any more.",
    group: SHOP,
    fallback: 45,
    ...humidity,
    usual: { from: 40, to: 50, basis: PRACTICE },
  },
  shopC: {
    type: "number",
    label: "Temperature in the shop, °C",
    help: "It matters little beside the humidity.",
    group: SHOP,
    fallback: 20,
    ...air,
    usual: { from: 17, to: 25, basis: PRACTICE },
  },
  dryHumidityPct: {
    type: "number",
    label: "Driest air at the player's, %",
    help: "In a heated room in winter, or on a stage.",
    group: HOME,
    fallback: 25,
    ...humidity,
    usual: { from: 20, to: 40, basis: PRACTICE },
  },
  dampHumidityPct: {
    type: "number",
    label: "Dampest air at the player's, %",
    help: "In a damp summer, or by the sea.",
    group: HOME,
    fallback: 65,
    ...humidity,
    usual: { from: 55, to: 80, basis: PRACTICE },
  },
  homeC: {
    type: "number",
    label: "Temperature there, °C",
    help: "It matters little beside the humidity.",
    group: HOME,
    fallback: 20,
    ...air,
    usual: { from: 17, to: 30, basis: PRACTICE },
  },
};

/** Where a design keeps what is said of a blank. */
export const woodPath = (id: string): string => `wood.${id}`;

/** A blank of a design with the wood that it is cut from. */
export interface PlacedBlank {
  /** `fingerboard/board` */
  readonly id: string;
  readonly partId: string;
  readonly partLabel: string;
  readonly blank: Blank;
  readonly wood: Settled<Wood>;
}

/** Every blank of every part, in the order of the parts. */
export function blanksOf(design: Pick<DesignNumbers, "units" | "wood">, derived: Derived): readonly PlacedBlank[] {
  return derived.parts.flatMap((part) =>
    part.materials().blanks.map((blank): PlacedBlank => {
      const id = `${part.id}/${blank.name}`;
      const wood = settleRecord(design.wood?.[id] ?? {}, woodTable(blank), woodPath(id), design.units, derived, part.id);
      return { id, partId: part.id, partLabel: partName(part), blank, wood };
    }),
  );
}

/** Two blanks that are glued. */
export interface PlacedJoint {
  /** `fingerboard/on-neck` */
  readonly id: string;
  readonly joint: Joint;
  readonly first: PlacedBlank;
  readonly second: PlacedBlank;
}

/** Every glued pair of which both pieces are in the design; a part of which there are several is glued to the first of the other kind. */
export function jointsOf(derived: Derived, blanks: readonly PlacedBlank[]): readonly PlacedJoint[] {
  return derived.parts.flatMap((part) =>
    (part.materials().joints ?? []).flatMap((joint): PlacedJoint[] => {
      const other = joint.on.kind === part.kind ? part : derived.parts.find(({ kind }) => kind === joint.on.kind);
      const first = blanks.find(({ id }) => id === `${part.id}/${joint.blank}`);
      const second = other && blanks.find(({ id }) => id === `${other.id}/${joint.on.blank}`);
      return first && second ? [{ id: `${part.id}/${joint.name}`, joint, first, second }] : [];
    }),
  );
}

/** The air in the shop and at the player's. */
export const seasonsOf = (design: Pick<DesignNumbers, "units" | "seasons">, derived: Derived): Settled<Seasons> =>
  settleRecord(design.seasons ?? {}, SEASONS_TABLE, "seasons", design.units, derived, "instrument");
