/**
 * From what the maker typed to settled numbers: every parameter of a part is a cell that settles when first read, so formulas and
 * followers may name each other in any order, and a circle is found and told instead of looping.
 */
import { formatQuantity, inFull } from "../units/format.ts";
import { readQuantity, type NamedQuantity } from "../units/read.ts";
import type { Result } from "../units/result.ts";
import {
  NO_SOURCES,
  type NumberSpec,
  type OptionalNumberSpec,
  type ParamTable,
  type RecordsSpec,
  type Sources,
} from "./contract.ts";
import type { AnySpec, Field, FieldState, Problem, Raw, RawRecord } from "./derived.ts";
import { lazyCopy, plain } from "./lazy.ts";
import { Circle, CIRCLE_MEND, Unsettled } from "./unsettled.ts";

/** What a table needs from around it to settle. */
export interface Surroundings {
  /** Path of the record in the design: `parts.fingerboard`. */
  readonly path: string;
  /** What a bare number in a text means. */
  readonly units: "in" | "mm";
  readonly from: Sources;
  /** The as-built value by full path, if there is one. */
  readonly measured?: (path: string) => Raw;
  /** What the maker gave as the plan, where measured values have taken some of it back; otherwise the record itself. */
  readonly plan?: RawRecord;
  /** A dimension outside this record by the name used in a formula; the error says why there is none. */
  readonly outside?: (name: string) => Result<NamedQuantity, { message: string; mend: string }>;
  /** The record is the table's own fallback: its numbers are mm and radians. In a maker's record a plain angle is in degrees. */
  readonly settled?: boolean;
  /** Cells being settled now, for telling a circle; shared over all tables of one design. */
  readonly settling?: string[];
}

export interface Settling<P> {
  /** Settles a parameter when it is read; reading one that cannot be settled throws `Unsettled`. */
  readonly p: P;
  /** The quantity of a parameter or of a field of a record in a list, by the name used in formulas: `overhang`, `binding[0].thickness`. */
  readonly quantity: (name: string) => Result<NamedQuantity, { message: string; mend: string }> | undefined;
  /** Settles everything; what the panel shows. */
  readonly fields: () => readonly Field[];
  readonly problems: () => readonly Problem[];
}

interface Settled {
  readonly value: unknown;
  readonly state: FieldState;
  readonly problem?: Problem;
  /** Failed without a problem of its own: it follows one that failed. */
  readonly failed?: boolean;
  readonly records?: readonly Settling<unknown>[];
}

const DIMENSION: Partial<Record<AnySpec["type"], NamedQuantity["quantity"]>> = {
  length: "length",
  "optional-length": "length",
  angle: "angle",
  "optional-angle": "angle",
  number: "number",
  count: "number",
  "optional-count": "number",
};

/** Opens the cells of one record against its table. `raw` holds what the maker gave; unknown keys in it are left alone. */
export function openTable<P>(table: ParamTable<P>, raw: RawRecord, around: Surroundings): Settling<P> {
  const settling = around.settling ?? [];
  const cells = new Map<string, Settled>();
  let unmeasured: Settling<P> | undefined;
  const keys = Object.keys(table) as (keyof P & string)[];
  const specOf = (key: string): AnySpec => table[key as keyof P & string] as unknown as AnySpec;
  const isTyped = (key: string): boolean => raw[key] !== undefined && raw[key] !== null;
  const isGiven = (key: string): boolean => isTyped(key) || around.measured?.(`${around.path}.${key}`) !== undefined;

  function cell(key: string): Settled {
    const known = cells.get(key);
    if (known) return known;
    const path = `${around.path}.${key}`;
    const from = settling.indexOf(path);
    if (from >= 0) throw new Circle([...settling.slice(from), path]);
    settling.push(path);
    try {
      const done = settleCell(key, path);
      cells.set(key, done);
      return done;
    } finally {
      settling.pop();
    }
  }

  function settleCell(key: string, path: string): Settled {
    const spec = specOf(key);
    const measured = around.measured?.(path);
    if (measured === undefined || spec.type === "records") return plannedOf(key, path, spec);
    const built = read(spec, measured, path);
    return built.problem || built.failed ? built : { value: built.value, state: "measured" };
  }

  function plannedOf(key: string, path: string, spec: AnySpec): Settled {
    if (isTyped(key)) return read(spec, raw[key], path);
    try {
      if ("follows" in spec && spec.follows) {
        const value = (spec.follows.value as (p: P, from: Sources, given: (key: string) => boolean) => unknown)(
          p,
          around.from,
          isGiven,
        );
        return checkRange(spec, value, path, "follows");
      }
      if (spec.type === "records")
        return readRecords(spec as unknown as AnyRecordsSpec, (spec.fallback ?? []) as readonly Raw[], path, "fallback");
      return { value: "fallback" in spec ? spec.fallback : undefined, state: "fallback" };
    } catch (error) {
      return failure(error, spec, path, "follows");
    }
  }

  /** Turns what was thrown while settling into the state of the cell that needed it. */
  function failure(error: unknown, spec: AnySpec, path: string, state: FieldState): Settled {
    if (error instanceof Unsettled) return { value: undefined, state, failed: true };
    if (error instanceof Circle) return bad(spec, path, state, error.message, CIRCLE_MEND);
    throw error;
  }

  function bad(
    spec: AnySpec,
    path: string,
    state: FieldState,
    message: string,
    mend: string,
    at?: number,
    length?: number,
  ): Settled {
    const problem: Problem = {
      path,
      label: spec.label,
      message,
      mend,
      ...(at === undefined ? {} : { at }),
      ...(length === undefined ? {} : { length }),
    };
    return { value: undefined, state, problem };
  }

  function read(spec: AnySpec, given: Raw, path: string): Settled {
    switch (spec.type) {
      case "length":
      case "angle":
      case "number":
      case "count":
      case "optional-length":
      case "optional-angle":
      case "optional-count":
        return readNumber(spec, given, path);
      case "flag":
        return typeof given === "boolean"
          ? { value: given, state: "given" }
          : bad(spec, path, "given", `${spec.label} is neither true nor false`, "Write true or false.");
      case "text":
        if (typeof given !== "string") return bad(spec, path, "given", `${spec.label} is not a text`, "Write it in quotes.");
        return given.length > spec.maxLength
          ? bad(spec, path, "given", `${spec.label} has ${given.length} letters`, `At most ${spec.maxLength} are taken.`)
          : { value: given, state: "given" };
      case "choice":
        return spec.options.some((o) => o.value === given)
          ? { value: given, state: "given" }
          : bad(
              spec,
              path,
              "given",
              `${spec.label} cannot be ${shown(given)}`,
              `Choose one of ${spec.options.map((o) => o.value).join(", ")}.`,
            );
      case "counts":
        return readCounts(spec, given, path);
      case "records":
        return readRecords(spec as unknown as AnyRecordsSpec, given, path, "given");
    }
  }

  function readNumber(spec: NumberSpec<unknown> | OptionalNumberSpec<unknown>, given: Raw, path: string): Settled {
    const quantity = spec.type.replace("optional-", "") as "length" | "angle" | "number" | "count";
    if (typeof given === "number") {
      if (!Number.isFinite(given)) return bad(spec, path, "given", `${spec.label} is ${given}`, "Write a number.");
      const value = quantity === "angle" && !around.settled ? (given * Math.PI) / 180 : given;
      if (quantity === "count" && !Number.isInteger(value))
        return bad(spec, path, "given", `${spec.label} is ${given}, not a whole number`, "Write a whole number.");
      return checkRange(spec, value, path, "given");
    }
    if (typeof given !== "string")
      return bad(spec, path, "given", `${spec.label} is ${shown(given)}, not a number`, "Write a number.");
    const result = readQuantity(given, {
      quantity,
      bareUnit: around.units,
      resolve: (name) => {
        try {
          return resolveName(name);
        } catch (error) {
          if (error instanceof Circle) return { ok: false, error: { message: error.message, mend: CIRCLE_MEND } };
          if (!(error instanceof Unsettled)) throw error;
          return { ok: false, error: { message: `${name} has no value yet`, mend: `Mend ${name} first.` } };
        }
      },
    });
    if (!result.ok)
      return bad(spec, path, "given", result.error.message, result.error.mend, result.error.at, result.error.length);
    return checkRange(spec, result.value.value, path, "given");
  }

  function resolveName(name: string): Result<NamedQuantity, { message: string; mend: string }> {
    return (
      quantityOf(name) ??
      around.outside?.(name) ?? {
        ok: false,
        error: { message: `there is no dimension named ${name}`, mend: "Use a name shown beside a field." },
      }
    );
  }

  function quantityOf(name: string): Result<NamedQuantity, { message: string; mend: string }> | undefined {
    const inList = /^([A-Za-z]\w*)\[(\d+)\]\.(.+)$/.exec(name);
    if (inList) {
      const [, key = "", index = "", rest = ""] = inList;
      if (!Object.hasOwn(table, key)) return undefined;
      const records = cell(key).records;
      return (
        records?.[Number(index)]?.quantity(rest) ?? {
          ok: false,
          error: { message: `${key} has no entry ${index}`, mend: `It has ${records?.length ?? 0}, counted from 0.` },
        }
      );
    }
    if (!Object.hasOwn(table, name)) return undefined;
    const quantity = DIMENSION[specOf(name).type];
    if (!quantity) return { ok: false, error: { message: `${name} is not a number`, mend: "Name a number." } };
    const value = valueOf(name);
    return typeof value === "number"
      ? { ok: true, value: { quantity, value } }
      : { ok: false, error: { message: `${name} is not given`, mend: `Give ${name} first.` } };
  }

  function checkRange(spec: AnySpec, value: unknown, path: string, state: FieldState): Settled {
    if (!("min" in spec) || typeof value !== "number") return { value, state };
    if (!Number.isFinite(value)) throw new Error(`${path} settled to ${value}`);
    if (value >= spec.min && value <= spec.max) return { value, state };
    const say = (n: number): string => saidIn(spec.type, n, around.units);
    return bad(
      spec,
      path,
      state,
      `${spec.label} ${state === "follows" ? "comes out at" : "is"} ${say(value)}`,
      `It must lie between ${say(spec.min)} and ${say(spec.max)}.`,
    );
  }

  function readCounts(spec: Extract<AnySpec, { type: "counts" }>, given: Raw, path: string): Settled {
    const items =
      typeof given === "string"
        ? given
            .split(/[\s,;]+/)
            .filter((s) => s !== "")
            .map(Number)
        : given;
    if (!Array.isArray(items))
      return bad(spec, path, "given", `${spec.label} is ${shown(given)}`, 'Write whole numbers in a row: "3 5 7 9".');
    if (items.length > spec.maxItems)
      return bad(spec, path, "given", `${spec.label} has ${items.length} numbers`, `At most ${spec.maxItems} are taken.`);
    const wrong = items.find((n) => typeof n !== "number" || !Number.isInteger(n) || n < spec.min || n > spec.max) as unknown;
    return wrong === undefined
      ? { value: items as number[], state: "given" }
      : bad(spec, path, "given", `${spec.label} holds ${shown(wrong)}`, `Write whole numbers from ${spec.min} to ${spec.max}.`);
  }

  function readRecords(spec: AnyRecordsSpec, given: Raw, path: string, state: FieldState): Settled {
    const list = Array.isArray(given)
      ? (given as readonly Raw[])
      : spec.short !== undefined && (typeof given === "string" || typeof given === "number")
        ? [given]
        : undefined;
    if (!list)
      return bad(
        spec as unknown as AnySpec,
        path,
        state,
        `${spec.label} is ${shown(given)}`,
        `Write a list with one entry a ${spec.item}.`,
      );
    if (list.length > spec.maxItems)
      return bad(
        spec as unknown as AnySpec,
        path,
        state,
        `${spec.label} has ${list.length} entries`,
        `At most ${spec.maxItems} are taken.`,
      );
    const records = list.map((item, i) => {
      const record: RawRecord =
        typeof item === "object" && item !== null && !Array.isArray(item)
          ? (item as RawRecord)
          : spec.short !== undefined
            ? { [spec.short]: item }
            : {};
      return openTable(spec.of, record, {
        ...around,
        path: `${path}[${i}]`,
        settling,
        settled: state === "fallback",
        outside: (name) => resolveName(name),
      });
    });
    return { value: records.map((r) => lazyCopy(r.p, Object.keys(spec.of))), state, records };
  }

  function valueOf(key: string): unknown {
    const done = cell(key);
    if (done.problem || done.failed) throw new Unsettled(`${around.path}.${key}`);
    return done.value;
  }

  const p = {} as P;
  for (const key of keys) Object.defineProperty(p, key, { enumerable: true, get: () => valueOf(key) });

  function plannedIn(key: string, { state }: Settled): { readonly planned?: unknown } {
    if (state !== "measured") return {};
    // Apart from the cells here, in which a number that follows the measured one may need it in turn.
    const { measured: _, settling: __, plan = raw, ...apart } = around;
    unmeasured ??= openTable(table, plan, apart);
    try {
      return { planned: unmeasured.p[key as keyof P & string] };
    } catch (error) {
      if (error instanceof Unsettled) return {};
      throw error;
    }
  }

  function fields(): readonly Field[] {
    return keys.map((key) => {
      const spec = specOf(key);
      const done = cell(key);
      let idle = false;
      try {
        idle = spec.when ? !(spec.when as (p: P, from: Sources) => boolean)(p, around.from) : false;
      } catch (error) {
        if (!(error instanceof Unsettled)) throw error;
      }
      const { value, state, problem, records } = done;
      const field: Field = { path: `${around.path}.${key}`, key, spec, raw: raw[key], value, state, idle };
      // Most fields have none of these.
      if (state !== "measured" && !problem && !records) return field;
      return {
        ...field,
        ...plannedIn(key, done),
        ...(problem ? { problem } : {}),
        ...(records ? { records: records.map((r) => r.fields()) } : {}),
      };
    });
  }

  function problems(): readonly Problem[] {
    const found: Problem[] = [];
    for (const key of keys) {
      const { problem, records } = cell(key);
      if (problem) found.push(problem);
      for (const record of records ?? []) found.push(...record.problems());
    }
    return found;
  }

  return { p, quantity: quantityOf, fields, problems };
}

type AnyRecordsSpec = RecordsSpec<Record<string, unknown>, unknown>;

function shown(given: unknown): string {
  const text = JSON.stringify(given) ?? String(given);
  return text.length > 40 ? `${text.slice(0, 40)}...` : text;
}

const saidIn = (type: AnySpec["type"], value: number, units: "in" | "mm"): string =>
  inFull(formatQuantity(value, DIMENSION[type] ?? "number", { unit: units, fractions: false }));

/**
 * Settles a whole record at once into plain data.
 * @returns the settled parameters, or every problem in the way
 */
export function settle<P>(
  table: ParamTable<P>,
  raw: RawRecord,
  around: Partial<Surroundings> = {},
): Result<P, readonly Problem[]> {
  const opened = openTable(table, raw, { path: "part", units: "mm", from: NO_SOURCES, ...around });
  const problems = opened.problems();
  return problems.length > 0 ? { ok: false, error: problems } : { ok: true, value: plain(opened.p) };
}
