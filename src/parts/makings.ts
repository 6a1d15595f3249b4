/** The makings of a design's templates, settled: what the maker said of each, with formulas over the numbers of all parts. */
import type { NamedQuantity } from "../units/read.ts";
import type { Result } from "../units/result.ts";
import { NO_SOURCES, type ParamTable } from "./contract.ts";
import type { Derived, DerivedPart, DesignNumbers, Field, Problem, RawRecord } from "./derived.ts";
import { plain } from "./lazy.ts";
import { makingTable, SHARED_TABLE } from "./making.ts";
import type { MadeFrom, Making, SharedMaking } from "./making-choices.ts";
import { partOf } from "./registry.ts";
import { openTable } from "./resolve.ts";

/** One record settled: the fields of a panel, and the numbers unless a problem is in the way. */
export interface Settled<P> {
  readonly fields: readonly Field[];
  readonly problems: readonly Problem[];
  readonly value: P | undefined;
}

export interface Makings {
  /** Of one template, by its id `fingerboard/blank-outline`. */
  readonly of: (templateId: string, from: MadeFrom) => Settled<Making>;
  /** Of what the templates of a part share. */
  readonly shared: (partId: string) => Settled<SharedMaking>;
}

/** Where a design keeps what is said of a template or, under a part's id, of all its templates. */
export const makingPath = (id: string): string => `templates.${id}`;

/** Settles the makings of a design against what was derived from it. */
export function makingsOf(design: Pick<DesignNumbers, "units" | "templates">, derived: Derived): Makings {
  const settled = <P>(id: string, table: ParamTable<P>): Settled<P> =>
    settleRecord(design.templates?.[id] ?? {}, table, makingPath(id), design.units, derived, id.split("/")[0]!);
  return {
    of: (id, from) => settled(id, makingTable(from)),
    shared: (id) => settled(id, SHARED_TABLE),
  };
}

/** Settles a record of a design beside its parts, at `path`, with formulas over their numbers; those of the part `own` go by their short names. */
export function settleRecord<P>(
  raw: RawRecord,
  table: ParamTable<P>,
  path: string,
  units: DesignNumbers["units"],
  derived: Derived,
  own: string,
): Settled<P> {
  const opened = openTable(table, raw, { path, units, from: NO_SOURCES, outside: (name) => named(derived, name, own) });
  const problems = opened.problems();
  return { fields: opened.fields(), problems, value: problems.length > 0 ? undefined : plain(opened.p) };
}

type Named = Result<NamedQuantity, { message: string; mend: string }>;

/** A dimension of the design by its name: `fingerboard.overhang`, one of the template's own part, or one that all parts share. */
function named({ instrument, parts }: Derived, name: string, own: string): Named {
  const dot = name.indexOf(".");
  const owner = parts.find(({ id }) => dot > 0 && id === name.slice(0, dot));
  const holders = [...parts.filter(({ id }) => id === own), instrument];
  const found = owner ? namedOn(owner, name.slice(dot + 1)) : holders.map((part) => namedOn(part, name)).find(Boolean);
  return (
    found ?? {
      ok: false,
      error: { message: `there is no dimension named ${name}`, mend: "Use a name shown beside a field." },
    }
  );
}

const QUANTITIES: Readonly<Record<string, NamedQuantity["quantity"]>> = {
  length: "length",
  angle: "angle",
  number: "number",
  count: "number",
};

function namedOn(part: DerivedPart, name: string): Named | undefined {
  const [, key = "", index, inside] = /^(\w+)(?:\[(\d+)\]\.(\w+))?$/.exec(name) ?? [];
  const top = part.fields.find((field) => field.key === key);
  const field = index === undefined ? top : top?.records?.[Number(index)]?.find((one) => one.key === inside);
  const quantity = field && QUANTITIES[field.spec.type.replace("optional-", "")];
  if (quantity) return valued(name, field.value, quantity);
  const isMeasure = (partOf(part.kind)?.measureNames as readonly string[] | undefined)?.includes(name) ?? false;
  const measures = part.measures as Readonly<Record<string, unknown>> | undefined;
  return isMeasure ? valued(name, measures?.[name], name.endsWith("Rad") ? "angle" : "length") : undefined;
}

const valued = (name: string, value: unknown, quantity: NamedQuantity["quantity"]): Named =>
  typeof value === "number"
    ? { ok: true, value: { quantity, value } }
    : { ok: false, error: { message: `${name} has no value here`, mend: "Use another number." } };
