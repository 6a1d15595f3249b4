/** From a file to a design. A damaged file opens as far as it can, and everything that was left out is told; the file is not written. */
import { strFromU8 } from "fflate";
import type { Raw, RawRecord } from "../parts/derived.ts";
import { tableOfMaking } from "../parts/making.ts";
import { needsEveryPart, partOf } from "../parts/registry.ts";
import { SEASONS_TABLE, woodTable } from "../parts/wood.ts";
import {
  FORMAT,
  ORDER_STATUSES,
  UNITS,
  VERSION,
  type Cut,
  type Design,
  type Numbers,
  type Order,
  type PartRecord,
  type Repair,
} from "./design.ts";
import { boardsShape } from "./read-boards.ts";
import { readJson, type Json, type JsonReading, type Omission } from "./json.ts";
import { mendLines } from "./mend-lines.ts";
import { upgradeFile, upgradePart, type VersionTrouble } from "./migrate.ts";
import {
  flag,
  isRecord,
  listOf,
  mapOf,
  oneOf,
  partShape,
  quantity,
  measuredShape,
  recordOf,
  spoken,
  tableShape,
  text,
  type Shape,
  type Tell,
} from "./shape.ts";
import { isPartId } from "./path.ts";
import { SECTIONS } from "./write.ts";
import { sniff } from "./sniff.ts";

export type { Repair } from "./design.ts";

export type ReadDesign =
  | {
      readonly ok: true;
      readonly design: Design;
      readonly repairs: readonly Repair[];
      /** The file is cut off or has mistakes in it: what is lost is not known, so that nothing should be cut from it unseen. */
      readonly damaged: boolean;
    }
  | { readonly ok: false; readonly message: string; readonly mend: string };

export const MOST_BYTES = 32 * 1024 * 1024;
/** A design holds some hundred values; a photograph in it is one. */
const BOUNDS = { depth: 64, values: 100_000 };
/** More than this is no text with a few wrong bytes. */
const MOST_UNREADABLE = 1000;
const SAMPLE_BYTES = 65_536;

const ANOTHER_COPY = "Open another copy; this one was not changed.";

/**
 * Reads a design file.
 * @param file its bytes, or its text
 * @returns the design and what had to be left out of the file, or why it is refused. Never throws, whatever the file holds, once every part is
 * here.
 */
export function readDesign(file: string | Uint8Array): ReadDesign {
  needsEveryPart();
  if (file.length > MOST_BYTES) return refuse(`the file is larger than ${MOST_BYTES / 1024 / 1024} MB`, "Choose a design file.");
  const repairs: Repair[] = [];
  let source = file;
  if (typeof source !== "string") {
    const other = sniff(source);
    if (other) return refuse(`the file is ${other.what} and no design`, other.mend);
    // A large file that is no text at all is told by its beginning, since decoding it takes long.
    if (unreadableIn(strFromU8(source.subarray(0, SAMPLE_BYTES))) > MOST_UNREADABLE) return NO_TEXT;
    source = strFromU8(source);
    const unreadable = unreadableIn(source);
    if (unreadable > MOST_UNREADABLE) return NO_TEXT;
    if (unreadable > 0) repairs.push({ path: "", says: `${unreadable} characters cannot be read: they stand as \uFFFD` });
  }
  if (source.startsWith("\uFEFF")) source = source.slice(1);
  if (source.trim() === "") return refuse("the file is empty", ANOTHER_COPY);

  const json = readJson(source, BOUNDS, standsBegun);
  if (json.ok) return designOf(json.value, repairs, false);
  if (!/^\s*\{/.test(source)) return refuse("the file is no design", "Choose a file that Gramil has saved.");
  const { message, line, column, cutOff, behindEnd, whole } = json.error;
  const place = `(line ${line}, column ${column})`;
  const byLines = mendLines(source, standsBegun);
  if (byLines && byLines.repairs.length > 0) {
    const rest = readJson(byLines.text, BOUNDS);
    if (rest.ok && saysWhatItIs(rest.value.value)) return designOf(rest.value, [...repairs, ...byLines.repairs], true);
  } else {
    const rest = readJson(whole.text, BOUNDS);
    const says = cutOff
      ? `the file ends behind this, in the middle ${place}: whatever followed is lost`
      : `behind this ${message} ${place}: whatever followed is left out`;
    if (rest.ok && saysWhatItIs(rest.value.value) && (byLines || (!behindEnd && standsAsWritten(rest.value.value))))
      return designOf(rest.value, [...repairs, { path: whole.last, says }], true);
  }
  return cutOff
    ? refuse(`only a part of the file is there: ${message} ${place}`, ANOTHER_COPY)
    : refuse(`the file is damaged: ${message} ${place}`, "Mend it there in a text editor, or open another copy.");
}

/** Without its units the numbers of a file could be inches or millimetres. */
const saysWhatItIs = (value: Json): value is { readonly [key: string]: Json } =>
  isRecord(value) && [value.format, value.version, value.units].every((one) => one !== undefined) && isRecord(value.instrument);

/**
 * Whether nothing in what is read before a mistake stands where only a lost or added bracket can have brought it: unknown sections, records in
 * the instrument or in a part, parts without a kind.
 */
const standsAsWritten = (design: RawRecord): boolean =>
  Object.keys(design).every((key) => SECTIONS.includes(key)) &&
  [design.instrument, ...Object.values(isRecord(design.parts) ? design.parts : {})].every(
    (part) => isRecord(part) && (part === design.instrument || part.kind !== undefined) && !Object.values(part).some(isRecord),
  );

/** Of a damaged file, its sections and its parts stand with the whole values that they have; all else stands whole or not at all. */
const standsBegun = (path: readonly (string | number)[]): boolean =>
  path.length < 2 || (path.length === 2 && path[0] === "parts");

/** How many characters stand for bytes that are no UTF-8, counted up to one too many. */
function unreadableIn(source: string): number {
  let count = 0;
  for (let at = source.indexOf("\uFFFD"); at >= 0 && count <= MOST_UNREADABLE; at = source.indexOf("\uFFFD", at + 1)) count++;
  return count;
}

const OMITTED: Readonly<Record<Omission["what"], string>> = {
  "key twice": "it stood there twice: the last one is kept",
  "forbidden key": "a key of this name is not taken: left out",
  "number too large": "the number is larger than any can be: left out",
};

const refuse = (message: string, mend: string): ReadDesign => ({ ok: false, message, mend });

const NO_TEXT = refuse("the file is no text", "Choose a file that Gramil has saved.");

function designOf({ value: json, omissions }: JsonReading, told: readonly Repair[], damaged: boolean): ReadDesign {
  const repairs = [...told, ...omissions.map(({ path, what }) => ({ path, says: OMITTED[what] }))];
  if (!isRecord(json) || json.format !== FORMAT)
    return refuse("the file is JSON, but no design", "Choose a file that Gramil has saved.");
  const upgraded = upgradeFile(json);
  if (!upgraded.ok) return { ok: false, ...upgraded.error };
  const raw = upgraded.value;
  const tell: Tell = (repair) => repairs.push(repair);
  try {
    const {
      fractions,
      order,
      cuts,
      boards,
      copies,
      measured: _measured,
      limits: _limits,
      templates: _templates,
      wood: _wood,
      seasons: _seasons,
      ...others
    } = raw;
    if (json.version === undefined) tell({ path: "version", says: `it was missing: read as version ${VERSION}` });
    const design: Design = {
      ...others,
      ...readNumbers(raw, "", tell),
      format: FORMAT,
      version: VERSION,
      ...optional("fractions", flag, fractions, tell),
      ...optional("order", orderShape, order, tell),
      ...optional("cuts", cutsShape, cuts, tell),
      ...optional("boards", boardsShape, boards, tell),
      ...optional("copies", copiesShape, copies, tell),
    };
    return { ok: true, design, repairs, damaged };
  } catch (error) {
    if (error instanceof NewerPart) return { ok: false, ...error.trouble };
    throw error;
  }
}

/** A part of a version that this Gramil does not know: the whole file is refused, wherever the part stands. */
class NewerPart extends Error {
  readonly trouble: VersionTrouble;
  constructor(trouble: VersionTrouble) {
    super(trouble.message);
    this.trouble = trouble;
  }
}

const orderShape = recordOf({
  title: text,
  player: text,
  number: text,
  date: text,
  notes: text,
  builtBy: text,
  status: oneOf(ORDER_STATUSES),
  reference: recordOf({}),
}) as Shape & ((...args: Parameters<Shape>) => Order | undefined);

const measuredByPath: Shape = mapOf((value, path, tell) => {
  if (typeof value === "string" || typeof value === "number") {
    tell({ path, says: "the value stood there alone: now it stands in a record" });
    return { value };
  }
  const kept = measuredShape(value, path, tell);
  if (!isRecord(kept) || kept.value !== undefined) return kept;
  tell({ path, says: "it had no value: left out" });
  return undefined;
});
const copiesShape = listOf(recordOf({ number: text, player: text, own: recordOf({}) }));

const limitsShape = mapOf(quantity);
const templatesShape = mapOf((value, path, tell) => tableShape(tableOfMaking(path))(value, path, tell));
const woodShape = mapOf(tableShape(woodTable()));
const seasonsShape = tableShape(SEASONS_TABLE);

const cutShape: Shape = (value, path, tell): Cut | undefined => {
  const kept = recordOf({ date: text, part: text, template: text, fingerprint: text, material: text, note: text })(
    value,
    path,
    tell,
  );
  if (!isRecord(kept)) return undefined;
  if (!isRecord(kept.numbers)) {
    tell({ path: `${path}.numbers`, says: `the numbers were ${spoken(kept.numbers)}: the record of this cut is left out` });
    return undefined;
  }
  const needed = (key: "date" | "part" | "template" | "fingerprint"): string => {
    const given = kept[key];
    if (typeof given === "string") return given;
    tell({ path: `${path}.${key}`, says: "it was missing: now an empty text" });
    return "";
  };
  const {
    measured: _measured,
    limits: _limits,
    templates: _templates,
    wood: _wood,
    seasons: _seasons,
    ...otherKeys
  } = kept.numbers;
  return {
    ...kept,
    date: needed("date"),
    part: needed("part"),
    template: needed("template"),
    fingerprint: needed("fingerprint"),
    numbers: { ...otherKeys, ...readNumbers(kept.numbers, `${path}.numbers.`, tell) },
  };
};
const cutsShape = listOf(cutShape);

/** What is kept of a section, if the file has it. */
function optional(key: string, shape: Shape, value: Raw, tell: Tell, prefix = ""): RawRecord {
  if (value === undefined) return {};
  const kept = shape(value, `${prefix}${key}`, tell);
  return kept === undefined ? {} : { [key]: kept };
}

function readNumbers(raw: RawRecord, prefix: string, tell: Tell): Numbers {
  const { units, instrument, parts, measured, limits, templates, wood, seasons } = raw;
  return {
    units: UNITS.find((known) => known === units) ?? madeUnits(units, `${prefix}units`, tell),
    instrument: readPart(section(instrument, `${prefix}instrument`, tell), "instrument", `${prefix}instrument`, tell),
    parts: readParts(section(parts, `${prefix}parts`, tell), `${prefix}parts`, tell),
    ...optional("measured", measuredByPath, measured, tell, prefix),
    ...optional("limits", limitsShape, limits, tell, prefix),
    ...optional("templates", templatesShape, templates, tell, prefix),
    ...optional("wood", woodShape, wood, tell, prefix),
    ...optional("seasons", seasonsShape, seasons, tell, prefix),
  };
}

/** A bare number in a file is in mm, so a bare number in a text is taken for mm too where the file does not say what it means. */
function madeUnits(units: Raw, path: string, tell: Tell): "mm" {
  tell({
    path,
    says: `the units were ${typeof units === "string" ? JSON.stringify(units) : spoken(units)}: now mm. Look at numbers typed without a unit`,
  });
  return "mm";
}

function section(value: Raw, path: string, tell: Tell): RawRecord {
  if (isRecord(value)) return value;
  tell({ path, says: `it was ${spoken(value)}: now an empty record` });
  return {};
}

function readPart(raw: RawRecord, id: string, path: string, tell: Tell): RawRecord {
  const part = partOf(id === "instrument" ? id : raw.kind);
  if (!part) return raw;
  const upgraded = upgradePart(raw, id, part);
  if (!upgraded.ok) throw new NewerPart(upgraded.error);
  return partShape(part)(upgraded.value, path, tell) as RawRecord;
}

function readParts(raw: RawRecord, path: string, tell: Tell): Readonly<Record<string, PartRecord>> {
  const parts = new Map<string, PartRecord>();
  for (const [id, value] of Object.entries(raw)) {
    const at = `${path}.${id}`;
    if (!isRecord(value)) {
      tell({ path: at, says: `it was ${spoken(value)} and not a part: left out` });
    } else if (typeof value.kind !== "string") {
      tell({ path: at, says: `its kind was ${spoken(value.kind)}, so nobody knows what part it is: left out` });
    } else {
      const kept = isPartId(id)
        ? id
        : freeId(id.replace(/[^\p{L}\p{N}_-]+/gu, "-").replace(/^[^\p{L}_]+/u, "") || value.kind, raw, parts);
      if (kept !== id) tell({ path: at, says: `a part cannot be called so: it is ${kept} now` });
      parts.set(kept, readPart(value, kept, at, tell) as PartRecord);
    }
  }
  return Object.fromEntries(parts);
}

function freeId(wish: string, raw: RawRecord, parts: ReadonlyMap<string, PartRecord>): string {
  const base = isPartId(`${wish}2`) ? wish : "part";
  for (let n = 2; ; n++) {
    const id = `${base}${n}`;
    if (!Object.hasOwn(raw, id) && !parts.has(id)) return id;
  }
}
