/** What is derived from a design: settled numbers, measures, drawings, findings and templates of every part. Nothing of it is saved. */
import type { Drawing } from "../drawing/drawing.ts";
import type {
  Finding,
  InPlace,
  ParamSpec,
  PartKind,
  OnHost,
  PointOutline,
  TemplateSource,
  Words,
  Materials,
} from "./contract.ts";

/** Plain JSON as the maker said it: a text, a number in mm, a list, a record. */
export type Raw = unknown;
export type RawRecord = Readonly<Record<string, Raw>>;

/** The part of a design that numbers come from. */
export interface DesignNumbers {
  /** What a bare number in a text means. */
  readonly units: "in" | "mm";
  readonly instrument: RawRecord;
  readonly parts: Readonly<Record<string, RawRecord>>;
  /** As built: a value by dimension path takes over from the planned one. */
  readonly measured?: Readonly<Record<string, { readonly value: Raw; readonly leads?: boolean }>>;
  /** Limits that the maker changed, by `<kind>.<check id>.<limit>`. */
  readonly limits?: Readonly<Record<string, Raw>>;
  /** How templates are made, by template (`fingerboard/blank-outline`) or, for what they share, by part (`fingerboard`). */
  readonly templates?: Readonly<Record<string, RawRecord>>;
  /** The wood of each blank, by `<part id>/<blank>`. */
  readonly wood?: Readonly<Record<string, RawRecord>>;
  /** The air in the shop and where the instrument will live. */
  readonly seasons?: RawRecord;
}

/** A number that cannot be used, said where it stands. */
export interface Problem {
  /** `parts.fingerboard.binding[0].thickness` */
  readonly path: string;
  /** "Width at the nut" */
  readonly label: string;
  readonly message: string;
  readonly mend: string;
  /** Place in the typed text, if it is one. */
  readonly at?: number;
  readonly length?: number;
}

export type FieldState = "given" | "follows" | "fallback" | "measured";

/** One field of a panel. */
export interface Field {
  readonly path: string;
  readonly key: string;
  readonly spec: AnySpec;
  /** As the maker typed it; undefined if not given. */
  readonly raw: Raw;
  /** Settled value (mm, rad, ...); undefined if it could not be settled. */
  readonly value: unknown;
  readonly state: FieldState;
  /** The planned value where a measured one has taken over. */
  readonly planned?: unknown;
  /** Whether another choice makes it idle. */
  readonly idle: boolean;
  readonly problem?: Problem;
  /** For a list of records: the fields of each. */
  readonly records?: readonly (readonly Field[])[];
}
/** A parameter's description when its owner's types do not matter. */
export type AnySpec =
  | ParamSpec<number, unknown>
  | ParamSpec<boolean, unknown>
  | ParamSpec<number | undefined, unknown>
  | ParamSpec<readonly number[], unknown>
  | ParamSpec<readonly Record<string, unknown>[], unknown>
  | ParamSpec<string, unknown>;

export interface DerivedPart {
  /** `fingerboard`; the instrument's own is `instrument`. */
  readonly id: string;
  /** `parts.fingerboard` or `instrument`. */
  readonly path: string;
  readonly kind: PartKind;
  readonly label: string;
  readonly about: string;
  readonly fields: readonly Field[];
  /** Not empty: nothing below can be had, the calls return empty results. */
  readonly problems: readonly Problem[];
  /** A face that it asked for is still being read, or its heavy work goes on: it is not yet what will be cut. */
  readonly waiting: boolean;
  /** Plain data of the part's own measures type; undefined where there are problems. */
  readonly measures: unknown;
  readonly summary: Words;
  /** Worked out on first call, then kept. */
  readonly drawing: () => Drawing;
  readonly templates: () => readonly TemplateSource[];
  readonly outlines: () => readonly PointOutline[];
  /** How it lies on the whole instrument; empty for a part that has no place on it. */
  readonly inPlace: () => InPlace;
  readonly materials: () => Materials;
  readonly findings: () => readonly Finding[];
  /** Where it lies on another part of the design, whose id is named, and what is seen of it there. */
  readonly onHost: () => (OnHost & { readonly id: string }) | undefined;
}

/** Derives another design than the open one. `key` says what it is of, "copy 2": its next design takes the place of the one before. */
export type DeriveOther = (key: string, design: DesignNumbers) => Derived;

export interface Derived {
  readonly instrument: DerivedPart;
  /** In the registry's order, then by id. */
  readonly parts: readonly DerivedPart[];
  readonly problems: readonly Problem[];
  /** The faces that parts asked for, whether they had been read or not, and the letters that are wanted of each. */
  readonly faces: readonly { readonly id: string; readonly wanted: string }[];
  /** Whether one of the parts is. */
  readonly waiting: boolean;
}
