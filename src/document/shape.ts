/**
 * Whether plain JSON has the shape that its place wants. Only the shape: a text that is no length is kept as typed, and told where it is
 * settled. What has another shape is left out and told; no value is made up in its place.
 */
import type { AnyPart } from "../parts/registry.ts";
import type { AnySpec, Raw, RawRecord } from "../parts/derived.ts";
import type { Repair } from "./design.ts";

/** Gives what is kept of a value, or undefined where nothing is. */
export type Shape = (value: Raw, path: string, tell: Tell) => Raw;
export type Tell = (repair: Repair) => void;

export const isRecord = (value: Raw): value is RawRecord => typeof value === "object" && value !== null && !Array.isArray(value);

/** A value in the words of a message. */
export function spoken(value: Raw): string {
  if (value === null) return "null";
  if (value === undefined) return "missing";
  if (Array.isArray(value)) return "a list";
  if (typeof value === "object") return "a record";
  if (typeof value === "string") return "a text";
  return `${value as number | boolean}`;
}

const without = (value: Raw, path: string, wanted: string, tell: Tell): undefined => {
  tell({ path, says: `it was ${spoken(value)} and not ${wanted}: left out` });
  return undefined;
};

export const isFiniteNumber = (value: Raw): value is number => typeof value === "number" && Number.isFinite(value);

export const text: Shape = (value, path, tell) => {
  if (typeof value === "string") return value;
  if (!isFiniteNumber(value)) return without(value, path, "a text", tell);
  tell({ path, says: `it was the number ${value}: now the text "${value}"` });
  return String(value);
};

export const flag: Shape = (value, path, tell) =>
  typeof value === "boolean" ? value : without(value, path, "true or false", tell);

/** A number as typed, or bare. */
export const quantity: Shape = (value, path, tell) =>
  typeof value === "string" || isFiniteNumber(value) ? value : without(value, path, "a number or a text", tell);

export const oneOf =
  (words: readonly string[]): Shape =>
  (value, path, tell) =>
    words.includes(value as string) ? value : without(value, path, `one of ${words.join(", ")}`, tell);

const anything: Shape = (value) => value;

const count: Shape = (value, path, tell) => (isFiniteNumber(value) ? value : without(value, path, "a number", tell));

/** A list of which every item has a shape. */
export const listOf =
  (item: Shape): Shape =>
  (value, path, tell) => {
    if (!Array.isArray(value)) return without(value, path, "a list", tell);
    const kept = value.map((entry: Raw, i) => item(entry, `${path}[${i}]`, tell));
    return kept.includes(undefined) ? kept.filter((entry) => entry !== undefined) : sameItems(value, kept) ? value : kept;
  };

/** A record whose known keys have shapes; other keys are kept as they are, or have the shape `others`. */
export const recordOf =
  (known: Readonly<Record<string, Shape>>, others: Shape = anything): Shape =>
  (value, path, tell) => {
    if (!isRecord(value)) return without(value, path, "a record", tell);
    const entries = Object.entries(value).map(([key, entry]) => {
      const shape = Object.hasOwn(known, key) ? known[key]! : others;
      return [key, shape(entry, path === "" ? key : `${path}.${key}`, tell)] as const;
    });
    return entries.every(([key, entry]) => entry === value[key])
      ? value
      : Object.fromEntries(entries.filter(([, entry]) => entry !== undefined));
  };

/** Any of the keys, each with the same shape. */
export const mapOf = (each: Shape): Shape => recordOf({}, each);

const sameItems = (a: readonly Raw[], b: readonly Raw[]): boolean => a.every((item, i) => item === b[i]);

const counts: Shape = (value, path, tell) =>
  typeof value === "string"
    ? value
    : listOf((item, at, tellItem) => (isFiniteNumber(item) ? item : without(item, at, "a number", tellItem)))(value, path, tell);

/** The shape that a parameter's raw value has. */
export function shapeOf(spec: AnySpec): Shape {
  switch (spec.type) {
    case "flag":
      return flag;
    case "text":
      return text;
    case "choice":
      return (value, path, tell) => (typeof value === "string" ? value : without(value, path, "a text", tell));
    case "counts":
      return counts;
    case "records":
      return recordsShape(spec);
    default:
      return quantity;
  }
}

const isShort = (value: Raw): boolean => typeof value === "string" || isFiniteNumber(value);

function recordsShape(spec: Extract<AnySpec, { type: "records" }>): Shape {
  const record = recordOf(shapesOf(spec.of));
  if (spec.short === undefined) return listOf(record);
  const list = listOf((item, path, tell) => (isShort(item) ? item : record(item, path, tell)));
  return (value, path, tell) => (isShort(value) ? value : list(value, path, tell));
}

/** The shape of a record that a table describes. */
export const tableShape = (table: object): Shape => recordOf(shapesOf(table));

/** The shapes of the parameters of a table. */
const shapesOf = (table: object): Readonly<Record<string, Shape>> =>
  Object.fromEntries(Object.entries(table).map(([key, spec]) => [key, shapeOf(spec as AnySpec)]));

/** The shape of what a design says of a part. */
export function partShape(part: AnyPart): Shape {
  const shape = shapes.get(part) ?? tableShape(part.params);
  shapes.set(part, shape);
  return shape;
}
const shapes = new Map<AnyPart, Shape>();

/** The shape of what was measured of a number. */
export const measuredShape: Shape = (value, path, tell) =>
  recordOf({ value: quantity, date: text, how: text, leads: flag, perFace: quantity, faces: count })(value, path, tell);
