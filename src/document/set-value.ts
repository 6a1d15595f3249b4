import type { AnySpec, Raw, RawRecord } from "../parts/derived.ts";
import type { AnyPart } from "../parts/registry.ts";
import type { Result } from "../units/result.ts";
import { ORDER_STATUSES, UNITS, type Design, type Measured, type Repair, type Trouble } from "./design.ts";
import { readJson } from "./json.ts";
import type { Step } from "./path.ts";
import { placeOf, type TablePlace } from "./place.ts";
import { setUnits } from "./set-units.ts";
import { isFiniteNumber, isRecord, measuredShape, quantity, shapeOf, spoken, text, type Shape } from "./shape.ts";

const refuse = (path: string, message: string, mend: string): { readonly ok: false; readonly error: Trouble } => ({
  ok: false,
  error: { path, message, mend },
});

/**
 * The design with a value set at a path: `instrument.nutWidth` or `nutWidth`, `parts.fingerboard.binding[0].thickness` or
 * `fingerboard.overhang`, `order.title`, `measured.instrument.nutWidth`, `templates.fingerboard/blank-outline.bush`,
 * `wood.fingerboard/board.grain`, `units`. Undefined,
 * and a blank text where a number is wanted, take the value back, so that it follows or falls back again. Where a part's numbers are in
 * balance and one too many would be given, another is taken back (see `Balance`).
 * @returns the same object where nothing changes; refused where the path leads nowhere or the value is of another shape. A text that
 * cannot be read as a length is set all the same: the field tells.
 */
export function setValue(design: Design, path: string, raw: Raw): Result<Design, Trouble> {
  const found = placeOf(design, path);
  if (!found.ok) return found;
  const place = found.value;
  switch (place.in) {
    case "table":
      return setInTable(design, place, raw);
    case "order": {
      const shaped = shape(text, raw, path);
      if (!shaped.ok) return shaped;
      const value = shaped.value;
      if (place.key === "status" && value !== undefined && !(ORDER_STATUSES as Raw[]).includes(value)) {
        return refuse(path, `the status cannot be ${JSON.stringify(value)}`, `Write one of ${ORDER_STATUSES.join(", ")}.`);
      }
      return { ok: true, value: withSection(design, "order", place.key, value) };
    }
    case "reference": {
      const value = shape(quantity, blankIsNone(raw), path);
      if (!value.ok) return value;
      const reference = withKey(design.order?.reference ?? {}, place.key, value.value);
      return {
        ok: true,
        value: withSection(design, "order", "reference", Object.keys(reference).length > 0 ? reference : undefined),
      };
    }
    case "measured":
      return setMeasured(design, place.of.path, raw);
    case "limits": {
      const value = shape(quantity, blankIsNone(raw), path);
      return value.ok ? { ok: true, value: withSection(design, "limits", place.key, value.value) } : value;
    }
    case "making":
    case "wood": {
      const value = readRaw(place.spec, raw, path);
      if (!value.ok) return value;
      const section = place.in === "making" ? "templates" : "wood";
      const record = withKey(design[section]?.[place.id] ?? {}, place.key, value.value);
      return {
        ok: true,
        value: withSection(design, section, place.id, Object.keys(record).length > 0 ? record : undefined),
      };
    }
    case "seasons": {
      const value = readRaw(place.spec, raw, path);
      return value.ok ? { ok: true, value: withSection(design, "seasons", place.key, value.value) } : value;
    }
    case "display":
      return place.path === "units" ? chooseUnits(design, raw) : chooseFractions(design, raw);
  }
}

function chooseUnits(design: Design, raw: Raw): Result<Design, Trouble> {
  const units = UNITS.find((known) => known === raw);
  return units ? setUnits(design, units) : refuse("units", "the units can be in or mm", "Write one of the two.");
}

function chooseFractions(design: Design, raw: Raw): Result<Design, Trouble> {
  const value = flagOf(raw);
  if (typeof value !== "boolean" && value !== undefined)
    return refuse("fractions", `fractions cannot be ${spoken(raw)}`, "Write true or false.");
  return { ok: true, value: withKey(design, "fractions", value) };
}

/** A bare value keeps the date and the manner of the last measuring; a record replaces it. */
function setMeasured(design: Design, key: string, raw: Raw): Result<Design, Trouble> {
  const before = design.measured?.[key];
  const given = blankIsNone(raw);
  const record = given === undefined || isRecord(given) ? given : { ...before, value: given };
  const value = shape(measuredShape, record, `measured.${key}`);
  if (!value.ok) return value;
  if (isRecord(value.value) && value.value.value === undefined)
    return refuse(`measured.${key}`, "a measured number has no value", "Write what was measured.");
  const same = before !== undefined && isRecord(value.value) && JSON.stringify(before) === JSON.stringify(value.value);
  return { ok: true, value: same ? design : withSection(design, "measured", key, value.value as Measured | undefined) };
}

function setInTable(design: Design, place: TablePlace, raw: Raw): Result<Design, Trouble> {
  const record = ownerOf(design, place.owner);
  const set = setSteps(record, place.part.params, place.steps, raw, place.path);
  if (!set.ok) return set;
  return { ok: true, value: withOwner(design, place.owner, balanced(set.value, place.part, String(place.steps[0]))) };
}

/** What the design says of the instrument or of a part. */
export const ownerOf = (design: Design, owner: string): RawRecord =>
  owner === "instrument" ? design.instrument : design.parts[owner]!;

export function withOwner(design: Design, owner: string, record: RawRecord): Design {
  if (record === ownerOf(design, owner)) return design;
  if (owner === "instrument") return { ...design, instrument: record };
  const { kind } = design.parts[owner]!;
  return { ...design, parts: { ...design.parts, [owner]: { ...record, kind } } };
}

function setSteps(
  record: RawRecord,
  table: object,
  [key, index, ...rest]: readonly Step[],
  raw: Raw,
  path: string,
): Result<RawRecord, Trouble> {
  const name = String(key);
  const spec = (table as Readonly<Record<string, AnySpec>>)[name]!;
  if (index === undefined) {
    const value = readRaw(spec, raw, path);
    return value.ok ? { ok: true, value: withKey(record, name, value.value) } : value;
  }
  if (spec.type !== "records") throw new Error(`${path} passed as a place in a list`);
  const list = entriesOf(record[name], spec, path);
  if (!list.ok) return list;
  const at = Number(index);
  const [next] = rest;
  if (at >= list.value.length) return noEntry(path, spec.item, at, list.value.length);
  if (next === undefined && isNothing(raw)) return { ok: true, value: { ...record, [name]: list.value.toSpliced(at, 1) } };
  const entry =
    next === undefined ? readEntry(spec, raw, path) : setSteps(recordOfEntry(list.value[at], spec), spec.of, rest, raw, path);
  if (!entry.ok) return entry;
  return { ok: true, value: entry.value === list.value[at] ? record : { ...record, [name]: list.value.with(at, entry.value) } };
}

type RecordsOf = Extract<AnySpec, { type: "records" }>;

export const noEntry = (
  path: string,
  item: string,
  index: number,
  count: number,
): { readonly ok: false; readonly error: Trouble } =>
  refuse(path, `there is no ${item} ${index}`, count === 0 ? `Add a ${item} first.` : `There are ${count}, counted from 0.`);

/** The entries of a list as they stand: given, or those that hold when nothing is given. */
export function entriesOf(raw: Raw, spec: RecordsOf, path: string): Result<readonly Raw[], Trouble> {
  if (Array.isArray(raw)) return { ok: true, value: raw as readonly Raw[] };
  if (isNothing(raw)) {
    if (!spec.follows) return { ok: true, value: (spec.fallback ?? []) as readonly Raw[] };
    return refuse(path, `the list follows ${spec.follows.words} until it is given`, "Give the whole list first.");
  }
  if (spec.short !== undefined && !isRecord(raw)) return { ok: true, value: [raw] };
  return refuse(path, `${spec.label} is ${spoken(raw)} and no list`, "Give the whole list anew.");
}

function recordOfEntry(entry: Raw, spec: RecordsOf): RawRecord {
  if (isRecord(entry)) return entry;
  return spec.short === undefined ? {} : { [spec.short]: entry };
}

/** A list after changes to it: one entry of its own shape. */
export function readEntry(spec: RecordsOf, raw: Raw, path: string): Result<Raw, Trouble> {
  const list = readRaw(spec, [fromText(raw)], path);
  return list.ok ? { ok: true, value: (list.value as readonly Raw[])[0] } : list;
}

const isNothing = (raw: Raw): boolean => raw === undefined || raw === null;
const isBlank = (raw: Raw): boolean => typeof raw === "string" && raw.trim() === "";
const blankIsNone = (raw: Raw): Raw => (isBlank(raw) || raw === null ? undefined : raw);

/** A value as it is saved, from one that a field, a script or the command line gives. */
function readRaw(spec: AnySpec, raw: Raw, path: string): Result<Raw, Trouble> {
  switch (spec.type) {
    case "text":
      return shape(text, raw, path);
    case "flag":
      return shape(shapeOf(spec), flagOf(raw), path);
    case "counts":
    case "records":
      return shape(shapeOf(spec), fromText(blankIsNone(raw)), path);
    default:
      return shape(shapeOf(spec), blankIsNone(raw), path);
  }
}

const FLAGS: ReadonlyMap<Raw, boolean> = new Map<Raw, boolean>([
  ["true", true],
  ["yes", true],
  ["false", false],
  ["no", false],
]);
const flagOf = (raw: Raw): Raw =>
  typeof raw === "string" && !isBlank(raw) ? (FLAGS.get(raw.trim().toLowerCase()) ?? raw) : blankIsNone(raw);

/** Lists and records may come as JSON from the command line. */
function fromText(raw: Raw): Raw {
  if (typeof raw !== "string" || !/^\s*[[{]/.test(raw)) return raw;
  const json = readJson(raw, { depth: 8, values: 10_000 });
  return json.ok && json.value.omissions.length === 0 ? json.value.value : raw;
}

/** The value, if it has the shape; the first thing wrong with it otherwise. */
function shape(wanted: Shape, raw: Raw, path: string): Result<Raw, Trouble> {
  if (isNothing(raw)) return { ok: true, value: undefined };
  const wrong: Repair[] = [];
  const value = wanted(raw, path, (repair) => wrong.push(repair));
  const first = wrong[0];
  if (!first || (wanted === text && isFiniteNumber(raw))) return { ok: true, value };
  return refuse(
    first.path,
    first.says.replace(/^it was/, "the value is").replace(/: left out$/, ""),
    "Give a value of the kind that stands there.",
  );
}

function withKey<R extends object>(record: R, key: string, value: Raw): R {
  if (Object.hasOwn(record, key) ? (record as RawRecord)[key] === value : value === undefined) return record;
  if (value !== undefined) return { ...record, [key]: value };
  const { [key as keyof R]: _, ...others } = record;
  return others as unknown as R;
}

type Section = "order" | "measured" | "limits" | "templates" | "wood" | "seasons";

/** The design with one key of a section set; a section that is left empty is taken out. */
function withSection(design: Design, section: Section, key: string, value: Raw): Design {
  const before = (design[section] ?? {}) as RawRecord;
  const after = withKey(before, key, value);
  if (after === before) return design;
  return withKey(design, section, Object.keys(after).length > 0 ? after : undefined);
}

/** Takes back a number where one more of a balance is given than it bears, never the one just set. */
function balanced(record: RawRecord, part: AnyPart, justSet: string): RawRecord {
  let result = record;
  for (const { members, given, yields } of part.balances ?? []) {
    if (!(members as readonly string[]).includes(justSet)) continue;
    const isGiven = (key: string): boolean => !isNothing(result[key]);
    for (const key of yields as readonly string[]) {
      if ((members as readonly string[]).filter(isGiven).length <= given) break;
      if (key !== justSet) result = withKey(result, key, undefined);
    }
  }
  return result;
}
