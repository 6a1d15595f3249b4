/** The readings as written with an order, read as numbers; and a design begun from them. */
import { addPart } from "../document/edit-parts.ts";
import type { Design, Units } from "../document/design.ts";
import { newDesign, type NewKind } from "../document/new-design.ts";
import { setValue } from "../document/set-value.ts";
import type { Raw, RawRecord } from "../parts/derived.ts";
import { readPlain } from "../units/plain.ts";
import { numbersFound, type Found } from "./found.ts";
import { FRETS_ASKED, keyOfFret, READINGS, type Taken } from "./readings.ts";

const COUNTS: ReadonlySet<string> = new Set(READINGS.filter(({ count }) => count).map(({ key }) => key));
const KEYS: readonly string[] = [...new Set([...READINGS.map(({ key }) => key), ...FRETS_ASKED.map(keyOfFret)])];

/** One reading as a number, mm or a count; undefined where the text is none. */
export function readTaken(key: string, raw: Raw, units: Units): number | undefined {
  if (typeof raw === "number") return Number.isFinite(raw) ? raw : undefined;
  if (typeof raw !== "string" || raw.trim() === "") return undefined;
  const read = readPlain(raw, { quantity: COUNTS.has(key) ? "count" : "length", bareUnit: units });
  return read.ok && read.value > 0 ? read.value : undefined;
}

/** All readings that are numbers. */
export function takenFrom(reference: RawRecord, units: Units): Taken {
  return Object.fromEntries(
    KEYS.flatMap((key) => {
      const value = readTaken(key, reference[key], units);
      return value === undefined ? [] : [[key, value] as const];
    }),
  );
}

/** Path of a number in a design, in the first part of its kind; undefined where the design has no such part. */
export function pathOf(design: Design, { kind, key }: Pick<Found, "kind" | "key">): string | undefined {
  if (kind === "instrument") return `instrument.${key}`;
  const id = Object.keys(design.parts).find((part) => design.parts[part]!.kind === kind);
  return id === undefined ? undefined : `parts.${id}.${key}`;
}

/** A design with a part of this kind. */
export function withPart(design: Design, kind: string): Design {
  if (kind === "instrument" || Object.values(design.parts).some((part) => part.kind === kind)) return design;
  const added = addPart(design, kind);
  return added.ok ? added.value.design : design;
}

/** The design with a number of one of its parts set; the part is added where it is missing. A number that is not accepted is left. */
export function withNumber(design: Design, of: Pick<Found, "kind" | "key">, value: Raw): Design {
  const whole = withPart(design, of.kind);
  const path = pathOf(whole, of);
  const set = path === undefined ? undefined : setValue(whole, path, value);
  return set?.ok ? set.value : design;
}

/** The usual instrument of a kind, with every number that the readings give, and the readings kept as its reference. */
export function beginFrom(kind: NewKind, reference: RawRecord, units: Units): Design {
  const start: Design = { ...newDesign(kind), units };
  const found = numbersFound(takenFrom(reference, units));
  const written = (one: Found): Raw => {
    const reading = READINGS.find(({ target }) => target?.kind === one.kind && target.key === one.key);
    return (reading && reference[reading.key]) ?? one.value;
  };
  const design = found.reduce((so, one) => withNumber(so, one, written(one)), start);
  return { ...design, order: { ...design.order, reference } };
}
