/**
 * Numbers typed without a unit mean the design's unit. To pin them is to write that unit behind each, so that they mean the same
 * whatever the design's unit is.
 */
import type { AnySpec, Raw, RawRecord } from "../parts/derived.ts";
import { tableOfMaking } from "../parts/making.ts";
import { partOf, REGISTRY, type AnyPart } from "../parts/registry.ts";
import { WHOLE, wholeCheckOf } from "../parts/whole-checks.ts";
import { woodTable } from "../parts/wood.ts";
import { isFormula } from "../units/formula.ts";
import type { QuantityKind } from "../units/quantity.ts";
import type { NamedQuantity } from "../units/read.ts";
import { withUnits } from "../units/with-units.ts";
import type { Numbers, Trouble } from "./design.ts";
import { isRecord } from "./shape.ts";

export interface Pinned {
  readonly instrument: Numbers["instrument"];
  readonly parts: Numbers["parts"];
  readonly measured: NonNullable<Numbers["measured"]>;
  readonly limits: NonNullable<Numbers["limits"]>;
  readonly templates: NonNullable<Numbers["templates"]>;
  readonly wood: NonNullable<Numbers["wood"]>;
  /** Formulas that cannot be read, so that nobody can tell which of their numbers are lengths; they stand as typed. */
  readonly stuck: readonly Trouble[];
}

type QuantityOfName = (name: string) => NamedQuantity["quantity"] | undefined;

/** Values by the path or the name of what they are, such as an order's readings, with every length pinned. */
export function pinReference(values: RawRecord, numbers: Numbers): RawRecord {
  return mapped(values, (raw, key) => {
    if (typeof raw !== "string" || (quantityOfName(numbers, key) ?? "length") !== "length") return raw;
    const pinned = withUnits(raw, {
      quantity: "length",
      bareUnit: numbers.units,
      resolve: () => ({ ok: true, value: { quantity: "length", value: 1 } }),
    });
    return pinned.ok ? pinned.value : raw;
  });
}

/** The numbers with every text pinned. What needs no unit is the same object as before. */
export function pinUnits(numbers: Numbers): Pinned {
  const stuck: Trouble[] = [];

  function pinText(text: string, quantity: QuantityKind, path: string, nameIn: QuantityOfName): string {
    const pinned = withUnits(text, {
      quantity,
      bareUnit: numbers.units,
      // Of a name only its quantity matters here.
      resolve: (name) => ({ ok: true, value: { quantity: nameIn(name) ?? "length", value: 1 } }),
    });
    if (pinned.ok) return pinned.value;
    if (isFormula(text)) stuck.push({ path, message: pinned.error.message, mend: pinned.error.mend });
    return text;
  }

  function pinRaw(raw: Raw, spec: AnySpec, path: string, nameIn: QuantityOfName): Raw {
    if (spec.type !== "records") {
      const quantity = quantityOf(spec);
      return typeof raw === "string" && quantity ? pinText(raw, quantity, path, nameIn) : raw;
    }
    const table = spec.of as Table;
    const short = spec.short === undefined ? undefined : table[spec.short];
    const pinEntry = (entry: Raw, at: string): Raw => {
      if (isRecord(entry)) return pinRecord(entry, table, at, (name) => quantityIn(table, name) ?? nameIn(name));
      return short ? pinRaw(entry, short, at, nameIn) : entry;
    };
    if (!Array.isArray(raw)) return pinEntry(raw, path);
    const list = raw.map((entry: Raw, i) => pinEntry(entry, `${path}[${i}]`));
    return list.some((entry, i) => entry !== raw[i]) ? list : raw;
  }

  const pinRecord = (record: RawRecord, table: Table, path: string, nameIn: QuantityOfName): RawRecord =>
    mapped(record, (raw, key) => (Object.hasOwn(table, key) ? pinRaw(raw, table[key]!, `${path}.${key}`, nameIn) : raw));

  const anywhere: QuantityOfName = (name) => quantityOfName(numbers, name);
  function pinOwner<R extends RawRecord>(record: R, part: AnyPart | undefined, path: string): R {
    if (!part) return record;
    return pinRecord(record, part.params as Table, path, (name) => quantityIn(part.params as Table, name) ?? anywhere(name)) as R;
  }

  return {
    instrument: pinOwner(numbers.instrument, partOf("instrument"), "instrument"),
    parts: mapped(numbers.parts, (record, id) => pinOwner(record, partOf(record.kind), `parts.${id}`)),
    measured: mapped(numbers.measured ?? {}, (entry, path) => {
      const value =
        typeof entry.value === "string"
          ? pinText(entry.value, anywhere(path) ?? "length", `measured.${path}`, anywhere)
          : entry.value;
      const perFace =
        typeof entry.perFace === "string"
          ? pinText(entry.perFace, "length", `measured.${path}.perFace`, anywhere)
          : entry.perFace;
      return value === entry.value && perFace === entry.perFace
        ? entry
        : { ...entry, value, ...(perFace === undefined ? {} : { perFace }) };
    }),
    limits: mapped(numbers.limits ?? {}, (raw, key) =>
      typeof raw === "string" ? pinText(raw, quantityOfLimit(key), `limits.${key}`, anywhere) : raw,
    ),
    templates: mapped(numbers.templates ?? {}, (record, id) => {
      const table = tableOfMaking(id) as Table;
      return pinRecord(record, table, `templates.${id}`, (name) => quantityIn(table, name) ?? anywhere(name));
    }),
    wood: mapped(numbers.wood ?? {}, (record, id) => {
      const table = woodTable() as Table;
      return pinRecord(record, table, `wood.${id}`, (name) => quantityIn(table, name) ?? anywhere(name));
    }),
    stuck,
  };
}

type Table = Readonly<Record<string, AnySpec>>;

const QUANTITIES: Partial<Record<AnySpec["type"], QuantityKind>> = {
  length: "length",
  "optional-length": "length",
  angle: "angle",
  "optional-angle": "angle",
  number: "number",
  count: "count",
  "optional-count": "count",
};
const quantityOf = (spec: AnySpec): QuantityKind | undefined => QUANTITIES[spec.type];

/** The quantity of a name of a table: a key, or a key of an entry of a list, `binding[0].thickness`. */
function quantityIn(table: Table, name: string): NamedQuantity["quantity"] | undefined {
  const [, key = "", rest] = /^([^.[\]]+)(?:\[[0-9]+\]\.(.+))?$/.exec(name) ?? [];
  const spec = Object.hasOwn(table, key) ? table[key] : undefined;
  if (spec && rest !== undefined) return spec.type === "records" ? quantityIn(spec.of as Table, rest) : undefined;
  const quantity = spec && quantityOf(spec);
  return quantity === "count" ? "number" : quantity;
}

/** The quantity of a dimension of the design by its name or its path. */
function quantityOfName(numbers: Numbers, name: string): NamedQuantity["quantity"] | undefined {
  const plain = name.replace(/^parts\./, "").replace(/^instrument\./, "");
  const dot = plain.indexOf(".");
  const owner =
    dot > 0 && Object.hasOwn(numbers.parts, plain.slice(0, dot)) ? partOf(numbers.parts[plain.slice(0, dot)]!.kind) : undefined;
  const own = owner ? plain.slice(dot + 1) : plain;
  for (const part of owner ? [owner] : REGISTRY) {
    const quantity =
      quantityIn(part.params as Table, own) ??
      ((part.measureNames as readonly string[] | undefined)?.includes(own)
        ? own.endsWith("Rad")
          ? "angle"
          : "length"
        : undefined);
    if (quantity) return quantity;
  }
  return undefined;
}

function quantityOfLimit(key: string): QuantityKind {
  const [kind, check = "", limit = ""] = key.split(".");
  if (kind === WHOLE) return wholeCheckOf(check)?.limits[limit]?.quantity ?? "length";
  return partOf(kind)?.checks.find(({ id }) => id === check)?.limits[limit]?.quantity ?? "length";
}

/** The record with every value mapped; the same record if none is another. */
function mapped<V>(record: Readonly<Record<string, V>>, change: (value: V, key: string) => V): Readonly<Record<string, V>> {
  const entries = Object.entries(record).map(([key, value]) => [key, change(value, key)] as const);
  return entries.every(([key, value]) => value === record[key]) ? record : Object.fromEntries(entries);
}
