/** What a path in a design leads to. Short forms are read too: `nutWidth` is the instrument's, `fingerboard.overhang` the part's. */
import type { AnySpec, Raw, RawRecord } from "../parts/derived.ts";
import { entryName } from "../parts/part-name.ts";
import { tableOfMaking } from "../parts/making.ts";
import { partOf, REGISTRY, type AnyPart } from "../parts/registry.ts";
import type { Limit } from "../parts/contract.ts";
import { WHOLE, WHOLE_CHECKS } from "../parts/whole-checks.ts";
import { SEASONS_TABLE, woodTable } from "../parts/wood.ts";
import { nearestName } from "../units/nearest-name.ts";
import type { Result } from "../units/result.ts";
import type { Design, Trouble } from "./design.ts";
import { pathText } from "./json.ts";
import { readPath, type Step } from "./path.ts";

/** A number of the instrument or of a part. */
export interface TablePlace {
  readonly in: "table";
  /** In full: `parts.fingerboard.binding[0].thickness`. */
  readonly path: string;
  /** Id of the part, or `instrument`. */
  readonly owner: string;
  readonly part: AnyPart;
  /** From the owner's record on; the first is a key of the part's table. */
  readonly steps: readonly Step[];
  /** The description of what it leads to; for an entry of a list, that of the list. */
  readonly spec: AnySpec;
  /** The entry of a list that it is or stands in, counted as people do: "layer 1". */
  readonly entry?: string;
}

export type Place =
  | TablePlace
  | { readonly in: "order"; readonly path: string; readonly key: OrderKey }
  | { readonly in: "reference"; readonly path: string; readonly key: string }
  | { readonly in: "measured"; readonly path: string; readonly of: TablePlace }
  | { readonly in: "making"; readonly path: string; readonly id: string; readonly key: string; readonly spec: AnySpec }
  | { readonly in: "wood"; readonly path: string; readonly id: string; readonly key: string; readonly spec: AnySpec }
  | { readonly in: "seasons"; readonly path: string; readonly key: string; readonly spec: AnySpec }
  | { readonly in: "limits"; readonly path: string; readonly key: string; readonly label: string }
  | { readonly in: "display"; readonly path: "units" | "fractions" };

export const ORDER_KEYS = ["title", "player", "number", "date", "notes", "builtBy", "status"] as const;
export type OrderKey = (typeof ORDER_KEYS)[number];

const SECTIONS = ["units", "fractions", "order", "instrument", "parts", "templates", "wood", "seasons", "measured", "limits"];

const refuse = (path: string, message: string, mend: string): { readonly ok: false; readonly error: Trouble } => ({
  ok: false,
  error: { path, message, mend },
});

/** Says that there is no such name, and which known one is nearest. */
function unknown(
  path: string,
  name: string,
  where: string,
  known: readonly string[],
  otherwise: string,
): { readonly ok: false; readonly error: Trouble } {
  const near = nearestName(name, known);
  return refuse(path, `${where} has no ${name}`, near === undefined ? otherwise : `Did you mean ${near}?`);
}

const listed = (known: readonly string[]): string => `Known here: ${known.join(", ")}.`;

/** The description of every number that a design may hold at a path. */
export function placeOf(design: Design, path: string): Result<Place, Trouble> {
  const read = readPath(path);
  if (!read.ok) return read;
  const [head, ...rest] = read.value;
  const below = path.slice(String(head).length + 1);
  switch (head) {
    case "units":
    case "fractions":
      return rest.length === 0
        ? { ok: true, value: { in: "display", path: head } }
        : refuse(path, `${head} holds nothing further`, `Write ${head} alone.`);
    case "order":
      return orderPlace(path, rest, below);
    case "instrument":
      return tablePlace(path, "instrument", design.instrument, rest);
    case "parts":
      return partPlace(design, path, rest);
    case "measured": {
      const of = placeOf(design, below);
      if (!of.ok) return of;
      if (of.value.in !== "table" || of.value.spec.type === "records")
        return refuse(path, `${below} cannot be measured`, "Name a number of the instrument or of a part.");
      return { ok: true, value: { in: "measured", path: `measured.${of.value.path}`, of: of.value } };
    }
    case "limits":
      return limitPlace(path, below);
    case "templates":
      return makingPlace(design, path, rest);
    case "wood":
      return woodPlace(design, path, rest);
    case "seasons":
      return seasonsPlace(path, rest);
  }
  if (typeof head === "string" && Object.hasOwn(design.parts, head) && rest.length > 0)
    return partPlace(design, path, read.value);
  const shared = partOf("instrument")?.params ?? {};
  if (typeof head === "string" && Object.hasOwn(shared, head))
    return tablePlace(path, "instrument", design.instrument, read.value);
  return unknown(
    path,
    String(head),
    "a design",
    [...SECTIONS, ...Object.keys(shared), ...Object.keys(design.parts)],
    listed([...SECTIONS, ...Object.keys(design.parts)]),
  );
}

function orderPlace(path: string, [key, ...rest]: readonly Step[], below: string): Result<Place, Trouble> {
  if (key === "reference" && rest.length > 0)
    return { ok: true, value: { in: "reference", path, key: below.slice("reference.".length) } };
  const known = ORDER_KEYS.find((name) => name === key);
  if (known && rest.length === 0) return { ok: true, value: { in: "order", path, key: known } };
  return unknown(
    path,
    below === "" ? "value of its own" : below,
    "the order",
    ORDER_KEYS,
    listed([...ORDER_KEYS, "reference.<name>"]),
  );
}

/** A number of how a template is made: `templates.fingerboard/blank-outline.bush`. */
function makingPlace(design: Design, path: string, [id, key, ...rest]: readonly Step[]): Result<Place, Trouble> {
  const [owner = "", name] = String(id ?? "").split("/");
  const ids = Object.keys(design.parts);
  if (!ids.includes(owner) || name === "")
    return unknown(
      path,
      owner === "" ? "template of no name" : owner,
      "the design",
      ids,
      `Write it as ${ids[0] ?? "part"}/outline.`,
    );
  const table = tableOfMaking(String(id));
  const keys = Object.keys(table);
  const spec = specIn(table, key, rest);
  if (!spec) return unknown(path, String(key ?? "value of its own"), String(id), keys, listed(keys));
  return { ok: true, value: { in: "making", path, id: String(id), key: String(key), spec } };
}

/** A number of what a blank is cut from: `wood.fingerboard/board.grain`. */
function woodPlace(design: Design, path: string, [id, key, ...rest]: readonly Step[]): Result<Place, Trouble> {
  const [owner = "", name = ""] = String(id ?? "").split("/");
  const ids = Object.keys(design.parts);
  if (!ids.includes(owner) || name === "")
    return unknown(
      path,
      owner === "" ? "blank of no name" : String(id),
      "the design",
      ids.map((part) => `${part}/board`),
      `Write it as ${ids[0] ?? "part"}/board.`,
    );
  const spec = specIn(woodTable(), key, rest);
  const keys = Object.keys(woodTable());
  if (!spec) return unknown(path, String(key ?? "value of its own"), String(id), keys, listed(keys));
  return { ok: true, value: { in: "wood", path, id: String(id), key: String(key), spec } };
}

function seasonsPlace(path: string, [key, ...rest]: readonly Step[]): Result<Place, Trouble> {
  const spec = specIn(SEASONS_TABLE, key, rest);
  const keys = Object.keys(SEASONS_TABLE);
  if (!spec) return unknown(path, String(key ?? "value of its own"), "the seasons", keys, listed(keys));
  return { ok: true, value: { in: "seasons", path, key: String(key), spec } };
}

const specIn = (table: object, key: Step | undefined, rest: readonly Step[]): AnySpec | undefined =>
  typeof key === "string" && rest.length === 0 && Object.hasOwn(table, key)
    ? (table as Readonly<Record<string, AnySpec>>)[key]
    : undefined;

function partPlace(design: Design, path: string, [id, ...rest]: readonly Step[]): Result<Place, Trouble> {
  const ids = Object.keys(design.parts);
  const none = ids.length === 0 ? "It has no parts yet." : listed(ids);
  if (id === undefined) return refuse(path, "a part is not named", none);
  const record = typeof id === "string" && Object.hasOwn(design.parts, id) ? design.parts[id] : undefined;
  return record ? tablePlace(path, String(id), record, rest) : unknown(path, String(id), "the design", ids, none);
}

function tablePlace(path: string, owner: string, record: RawRecord, steps: readonly Step[]): Result<TablePlace, Trouble> {
  const part = partOf(owner === "instrument" ? owner : record.kind);
  if (!part) return refuse(path, `this version knows no part of the kind ${JSON.stringify(record.kind)}`, "Take another part.");
  const full = pathText([...(owner === "instrument" ? [] : ["parts"]), owner, ...steps]);
  let table: object = part.params;
  let spec: AnySpec | undefined;
  let entry: string | undefined;
  let where = owner === "instrument" ? "the instrument" : owner;
  for (const [i, step] of steps.entries()) {
    if (typeof step === "string") {
      const list = spec as AnySpec | undefined;
      if (list && (list.type !== "records" || typeof steps[i - 1] !== "number")) {
        return refuse(
          full,
          list.type === "records" ? `${where} is a list` : `${where} holds nothing further`,
          list.type === "records" ? `Say which ${list.item}: ${where}[0].` : `Write ${where} alone.`,
        );
      }
      if (list?.type === "records") table = list.of;
      const keys = Object.keys(table);
      if (!keys.includes(step)) return unknown(full, step, where, keys, listed(keys));
      spec = (table as Readonly<Record<string, AnySpec>>)[step];
    } else if (spec?.type !== "records" || typeof steps[i - 1] === "number") {
      return refuse(full, `${where} is no list`, spec ? `Write ${where} alone.` : "Name one of its numbers.");
    } else entry = entryName(spec, step, countOf(record[String(steps[0])] ?? spec.fallback));
    where = pathText(steps.slice(0, i + 1));
  }
  if (!spec) return refuse(full, `${where} is no number`, listed(Object.keys(part.params)));
  return { ok: true, value: { in: "table", path: full, owner, part, steps, spec, ...(entry === undefined ? {} : { entry }) } };
}

const countOf = (list: Raw): number => (Array.isArray(list) ? list.length : 1);

function limitPlace(path: string, key: string): Result<Place, Trouble> {
  const ofParts = REGISTRY.flatMap((part) => part.checks.map((check) => ({ at: `${part.kind}.${check.id}`, check })));
  const ofWhole = Object.entries(WHOLE_CHECKS).map(([id, check]) => ({ at: `${WHOLE}.${id}`, check }));
  const limits = [...ofParts, ...ofWhole].flatMap(({ at, check }) =>
    Object.entries<Limit>(check.limits).map(([name, limit]) => ({ key: `${at}.${name}`, label: limit.label })),
  );
  const found = limits.find((limit) => limit.key === key);
  if (found) return { ok: true, value: { in: "limits", path, ...found } };
  return unknown(
    path,
    key,
    "the table of limits",
    limits.map((limit) => limit.key),
    "Take one from the list of checks.",
  );
}
