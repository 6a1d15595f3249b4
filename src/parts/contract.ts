/**
 * What a part is. A part knows numbers, never pixels; it draws plain paths in mm. Its table of parameters drives validation, the
 * fields on screen, the flags of the command line and the reference page, so a new part is one folder and one line in the registry.
 */
import type { Drawing, Layer } from "../drawing/drawing.ts";
import type { OutlinePoint } from "../geometry/drawn/point.ts";
import type { Path } from "../geometry/path.ts";
import type { Affine } from "../geometry/transform.ts";
import type { Vec } from "../geometry/vec.ts";
import type { Face } from "../lettering/face.ts";
import type { Trouble } from "../lettering/trouble.ts";
import type { Result } from "../units/result.ts";
import type { Blank, Cutter, Holes, Strip } from "./made-of.ts";

// ------------------------------------------------------------------------------------------------------------------ parameters

/** The usual range of a number and where that comes from. */
export interface Usual {
  readonly from: number;
  readonly to: number;
  readonly basis: string;
}

/** What a parameter follows when the maker has not given it. */
export interface Follows<T, P> {
  /** "width less both margins" */
  readonly words: string;
  /**
   * Total on every accepted table of numbers. Reads of other parameters of the same part settle on demand (a circle is told to the
   * maker); `given` tells whether the maker gave a parameter, which decides who follows whom in a balance.
   */
  readonly value: (p: P, from: Sources, given: (key: keyof P & string) => boolean) => T;
}

interface Described<T, P> {
  /** Few words, sentence case: "Width at the nut". */
  readonly label: string;
  /** One plain sentence: what it is, how to measure it. */
  readonly help: string;
  /** Heading under which the panel lists it. */
  readonly group: string;
  /** Exactly one of `fallback` and `follows`: what holds when the maker gives nothing. */
  readonly fallback?: T;
  readonly follows?: Follows<T, P>;
  /** False: not shown now, since another choice makes it idle. The value is kept. */
  readonly when?: (p: P, from: Sources) => boolean;
}

/** A number: `min` and `max` bound what is accepted at all; beyond `usual` is only said. Lengths mm, angles radians. */
export interface NumberSpec<P> extends Described<number, P> {
  readonly type: "length" | "angle" | "number" | "count";
  readonly min: number;
  readonly max: number;
  readonly usual?: Usual;
  /** One step of the arrow keys, same unit as the value. */
  readonly step?: number;
}
/** A number that may be absent and then follows nothing: `undefined` is a meaning ("no bass scale: one scale"). */
export interface OptionalNumberSpec<P> extends Omit<Described<number, P>, "fallback" | "follows"> {
  readonly type: "optional-length" | "optional-angle" | "optional-count";
  readonly min: number;
  readonly max: number;
  readonly usual?: Usual;
  /** What absence means: "one scale". */
  readonly absent: string;
}
export interface ChoiceSpec<T extends string, P> extends Described<T, P> {
  readonly type: "choice";
  readonly options: readonly { readonly value: T; readonly label: string }[];
  /** Each is a face of letters, shown in its own: those of the text with this key. */
  readonly lettered?: keyof P & string;
}
export interface FlagSpec<P> extends Described<boolean, P> {
  readonly type: "flag";
}
export interface TextSpec<P> extends Described<string, P> {
  readonly type: "text";
  readonly maxLength: number;
  /** Filled in from a chosen file: the outlines in an SVG file, as path data in mm with y down, or a whole font file as a data address. */
  readonly file?: "svg" | "font";
}
/** Whole numbers in a row, typed as "3 5 7 9 12". */
export interface CountsSpec<P> extends Described<readonly number[], P> {
  readonly type: "counts";
  readonly min: number;
  readonly max: number;
  readonly maxItems: number;
}
/** A list of like records (binding layers, strings, outline points), each described by a table of its own. */
export interface RecordsSpec<R, P> extends Described<readonly R[], P> {
  readonly type: "records";
  /** "layer", "string": names one record in messages and buttons. */
  readonly item: string;
  readonly maxItems: number;
  readonly of: ParamTable<R>;
  /** Records are counted from the last, as strings are from the treble though they are listed from the bass. */
  readonly countsDown?: boolean;
  /** The field a bare text stands for: `binding: "0.095 in"` means one layer of that thickness. */
  readonly short?: keyof R & string;
}

/** The description of one parameter whose settled value has the type T. */
export type ParamSpec<T, P> = [T] extends [boolean]
  ? FlagSpec<P>
  : [T] extends [number]
    ? NumberSpec<P>
    : [T] extends [number | undefined]
      ? OptionalNumberSpec<P>
      : [T] extends [readonly number[]]
        ? CountsSpec<P>
        : [T] extends [readonly (infer R)[]]
          ? RecordsSpec<R, P>
          : [T] extends [string]
            ? ChoiceSpec<T, P> | TextSpec<P>
            : never;

/** One description for every settled value of P, in the order in which the panel shows them. */
export type ParamTable<P> = { readonly [K in keyof P & string]-?: ParamSpec<P[K], P> };

// -------------------------------------------------------------------------------------------------------------------- measures

/**
 * The measures of each kind, which other parts may read without importing each other: every part's folder adds its own by
 * `declare module "../contract.ts" { interface MeasuresByKind { nut: NutMeasures } }`.
 */
// eslint-disable-next-line @typescript-eslint/no-empty-object-type
export interface MeasuresByKind {}
export type PartKind = keyof MeasuresByKind & string;

/**
 * Work too heavy to be done while somebody types: a pure function from plain data to plain data, which may be done beside the page, step by
 * step. Every step gives a whole answer, better than the one before and later; only that of the last is good for cutting. A long step
 * may give undefined when it has come part of the way, to be called again: so it can be dropped there. The last step never does.
 */
export interface Work<Q, A> {
  /** Kebab-case, unique among all parts. */
  readonly name: string;
  readonly steps: (question: Q) => readonly (() => A | undefined)[];
}

/** What is known of an answer: `coarse` comes from a step before the last; `stale` is that to an earlier question of the same part, shown until a better one comes. */
export interface Answered<A> {
  readonly answer: A;
  readonly state: "final" | "coarse" | "stale";
}

/** What a part may read besides its own numbers. */
export interface Sources {
  /** Measures of another part: only of the kinds named in `reads`. Undefined where the design has no such part. */
  get<K extends PartKind>(kind: K, id?: string): MeasuresByKind[K] | undefined;
  /**
   * A face of letters by its id (for a maker's own file the whole file, as a data address), of which at least the letters of `wanted` are to be
   * read; undefined as long as it has not been read. To be asked for while measuring.
   */
  face(id: string, wanted?: string): Result<Face, Trouble> | undefined;
  /** The answer of a work of the part's own; undefined as long as there is none at all. Asked for while measuring; later calls get the same answer. */
  worked<Q, A>(work: Work<Q, A>, question: Q): Answered<A> | undefined;
}

/** For tables that read nothing but themselves. */
export const NO_SOURCES: Sources = { get: () => undefined, face: () => undefined, worked: () => undefined };

// ---------------------------------------------------------------------------------------------------------------------- checks

export type Severity = "stop" | "look" | "fine";

/** How what is needed bounds what is measured. A finding cannot tell the one without the other. */
export type Needed =
  | { readonly needed?: undefined; readonly bound?: undefined; readonly upTo?: undefined }
  | { readonly needed: number; readonly bound: "least" | "most" | "same"; readonly upTo?: undefined }
  | { readonly needed: number; readonly bound: "between"; readonly upTo: number };

/** The outcome of one check at one place. Numbers in mm or radians; the words hold `{measured}` and `{needed}` where they stand. */
export type Finding = Needed & Outcome;

export interface Outcome {
  /** Check id and place, stable over runs: `string-margin/bass`. */
  readonly id: string;
  readonly severity: Severity;
  /** A sentence: "Only {measured} of board is left outside the first string at fret 1." */
  readonly says: string;
  readonly measured?: number;
  readonly quantity?: "length" | "angle" | "count" | "number";
  /** Published source, or "common practice, no source". */
  readonly basis: string;
  /** What to change: "Make the nut wider or the spread smaller." Empty where all is well. */
  readonly mend: string;
  /** Where on the part's drawing, and which shape. */
  readonly at?: Vec;
  readonly shape?: string;
}

/** A limit that the maker may change. */
export interface Limit {
  readonly label: string;
  readonly value: number;
  readonly quantity: "length" | "angle" | "count" | "number";
  readonly basis: string;
}

/** What the limits of a part's checks stand at, by check and limit. */
export type Limits = Readonly<Record<string, Readonly<Record<string, number>>>>;

export interface Check<P, M> {
  /** Kebab-case, unique within the part. */
  readonly id: string;
  readonly title: string;
  readonly limits: Readonly<Record<string, Limit>>;
  /** At least one finding, one of severity "fine" where nothing is wrong; empty only where the check does not apply. */
  readonly run: (subject: {
    readonly p: P;
    readonly m: M;
    readonly from: Sources;
    readonly limits: Readonly<Record<string, number>>;
  }) => readonly Finding[];
}

// ------------------------------------------------------------------------------------------------------------------- templates

/** A true-size pattern that a part gives: what is drawn, and what the maker does with its line. */
export interface TemplateSource {
  /** Kebab-case, unique within the part, kept: `blank-outline`, `radius-gauges`. */
  readonly name: string;
  /** "Blank outline" */
  readonly title: string;
  /** What the line is: "edge of the board before binding; cut to the centre of the line". */
  readonly lineIs: string;
  readonly drawing: Drawing;
  /** Id of the closed shape that an offset, a bearing or a bush works on, if it has one. */
  readonly edge?: string;
  /** Distances printed beside the drawing, since paper moves: rows of a label and mm from the nut. */
  readonly table?: { readonly title: string; readonly rows: readonly { readonly label: string; readonly value: number }[] };
  /** Which way the grain of the wood runs: along x of the drawing or along y. Absent where it does not matter. */
  readonly grain?: Grain;
  /** Ways of a cutter that clear the recess; machine files carry them in layers of their own, the sheets leave them out. */
  readonly passes?: readonly CutterPasses[];
}

export type Grain = "along-x" | "along-y";

/** What one cutter's centre runs along, in the order of cutting. */
export interface CutterPasses {
  /** Kebab-case, unique within the template: `first`, `corners`. */
  readonly name: string;
  /** Of the cutter, mm. */
  readonly diameter: number;
  readonly paths: readonly Path[];
}

// ----------------------------------------------------------------------------------------------------------- outlines by points

/** An outline of a part that its maker draws by points on the board. */
export interface PointOutline {
  /** Key of the list of points in the part's table. */
  readonly key: string;
  /** "Outline of the head" */
  readonly title: string;
  /** Where on the drawing the points are measured from. */
  readonly origin: Vec;
  /** How the axes in which they are measured are turned about it, radians, counter-clockwise; absent: not at all. */
  readonly turn?: number;
  /** The list is a half, mirrored about the centre line. */
  readonly mirrored: boolean;
  /** Key of the flag that says whether it is, if the maker may choose. */
  readonly mirrorKey?: string;
  /** The points of the list as they settled. */
  readonly points: readonly OutlinePoint[];
  /** Points that the part puts before and after those of the list, measured from the same origin. */
  readonly before: readonly OutlinePoint[];
  readonly after: readonly OutlinePoint[];
  /** Lines to keep to, such as the strings. */
  readonly guides: readonly Path[];
  /** The points are places that were measured, with no outline through them. */
  readonly loose?: LoosePoints;
}

/** Places that were measured, such as those of a contour gauge. */
export interface LoosePoints {
  /** The keys under which a record keeps x and y, and whether it counts them the same way (1) or the other (-1). */
  readonly x: { readonly key: string; readonly sign: 1 | -1 };
  readonly y: { readonly key: string; readonly sign: 1 | -1 };
  /** Further values of the part that are said with the list when it is traced, by key. */
  readonly traced: Readonly<Record<string, string>>;
  /** What of the drawing is looked at while they are traced, mm about the origin. */
  readonly across: number;
  /** What tracing leads to: "Fit the section to it", and the finding that tells how well. */
  readonly finish: string;
  readonly finding: string;
}

// ---------------------------------------------------------------------------------------------------------------- in its place

/**
 * A part as it is seen on the whole instrument, in mm. Both views have x from the front of the nut along the centre line to the tail.
 * The front view has y up to the treble side of a right-handed instrument; the side view has z up from the plane in which board and
 * neck are glued. Only edges and holes that a maker looks for on a general arrangement, no dimensions.
 */
export interface InPlace {
  readonly front?: Drawing;
  readonly side?: Drawing;
  /** `body`: the side view has z up from the plane of the body's edge instead, which the pitch of the neck turns about the join. */
  readonly plane?: "body";
  /** Takes the part's own drawing into the front view, for what lies on the part; absent: it is drawn there as on its own. */
  readonly fromOwn?: Affine;
}

// ------------------------------------------------------------------------------------------------------------ on another part

/** What lies on another part, drawn in that part's own frame: an inlay on a headstock. */
export interface OnHost {
  readonly kind: PartKind;
  /** Undefined: the first of its kind. */
  readonly id?: string;
  readonly layers: readonly Layer[];
  /** From its own frame into that of the other part: given, its own drawing shows what else lies there. */
  readonly place?: Affine;
}

// ------------------------------------------------------------------------------------------------------------- what it is made of

/** Two pieces glued face to face: one of this part, and one of another part or its own. */
export interface Joint {
  readonly name: string;
  /** "Fingerboard on the neck" */
  readonly title: string;
  readonly blank: string;
  readonly on: { readonly kind: PartKind; readonly blank: string };
  /** Extent of the glued face along and across the instrument. */
  readonly along: number;
  readonly across: number;
  /** Their grain crosses by custom, and the glue has always borne it: a bridge on its top. */
  readonly crossed?: boolean;
}

export interface Materials {
  readonly blanks: readonly Blank[];
  readonly strips?: readonly Strip[];
  readonly joints?: readonly Joint[];
  readonly holes?: readonly Holes[];
  readonly cutters?: readonly Cutter[];
}

// ------------------------------------------------------------------------------------------------------------------------ part

/** Turns plain JSON of one version into plain JSON of the next. */
export interface Migration {
  readonly from: number;
  readonly name: string;
  readonly apply: (raw: Readonly<Record<string, unknown>>) => Record<string, unknown>;
}

/** A sentence in pieces; the numbers in it (mm, radians) are formatted where it is shown. */
export type Words = readonly (string | { readonly value: number; readonly quantity: "length" | "angle" })[];

/**
 * Parameters bound by one relation. At most `given` of `members` are given and the rest follow. When a further one is set, the first of
 * `yields` that is not the one just set is taken back.
 */
export interface Balance<P> {
  readonly members: readonly (keyof P & string)[];
  readonly given: number;
  readonly yields: readonly (keyof P & string)[];
}

export interface Part<P, M> {
  /** Saved in designs, never renamed. */
  readonly kind: PartKind;
  /** "Fingerboard" */
  readonly label: string;
  /** One sentence for lists and help. */
  readonly about: string;
  readonly version: number;
  readonly migrations: readonly Migration[];
  readonly params: ParamTable<P>;
  readonly balances?: readonly Balance<P>[];
  /** Kinds whose measures it reads; only kinds that stand earlier in the registry. */
  readonly reads: readonly PartKind[];
  readonly measure: (p: P, from: Sources) => M;
  /** Measures that formulas may name: single lengths, or angles if the name ends in Rad. */
  readonly measureNames?: readonly (keyof M & string)[];
  /** Total: returns a finite drawing for every P that the table accepts. */
  readonly draw: (p: P, m: M, from: Sources, limits: Limits) => Drawing;
  /** A line under the part's name: "20 frets, bound, 16 in radius." */
  readonly summary: (p: P, m: M, limits: Limits) => Words;
  readonly templates: (p: P, m: M, from: Sources, limits: Limits) => readonly TemplateSource[];
  /** The outlines that are drawn by points, as they stand now. */
  readonly outlines?: (p: P, m: M, from: Sources) => readonly PointOutline[];
  /** How it lies on the whole instrument; absent for a part that has no place on it. */
  readonly inPlace?: (p: P, m: M, from: Sources) => InPlace;
  /** What it adds to the drawing of the part that it lies on. */
  readonly onHost?: (p: P, m: M, from: Sources) => OnHost | undefined;
  /** Heavy work that it asks for through its sources. */
  readonly works?: readonly Work<never, unknown>[];
  /** What it is cut from and glued to. */
  readonly materials?: (p: P, m: M, from: Sources) => Materials;
  readonly checks: readonly Check<P, M>[];
}
