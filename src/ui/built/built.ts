/** As built: what was measured of the work, against the plan and against what it was cut from. */
import { cutKey, numbersOfCut } from "../../document/cuts.ts";
import type { Design, Measured } from "../../document/design.ts";
import type { Derived, DeriveOther, Field } from "../../parts/derived.ts";
import { partName } from "../../parts/part-name.ts";
import { plainValue, quantityOf, type Notation, type Quantity } from "../notation.ts";

/** One number that was measured. Lengths mm, angles radians. */
export interface Built {
  readonly path: string;
  readonly name: string;
  readonly quantity: Quantity;
  readonly entry: Measured;
  readonly field: Field;
  /** What the plan says; undefined where that cannot be settled. */
  readonly planned: number | undefined;
  readonly measured: number | undefined;
  /** Measured less planned. */
  readonly off: number | undefined;
  /** How much of that scraping and finish were to take off (below 0) or to add. */
  readonly explained: number;
  /** What a cut of its part was made from, where there is one, and measured less that. */
  readonly cut: { readonly date: string; readonly value: number; readonly off: number } | undefined;
}

/** Faces that a number has where nothing is said: one on each side. */
export const USUAL_FACES = 2;

/** Every field of the design by its path. */
export const fieldAt = (derived: Derived, path: string): Field | undefined =>
  [derived.instrument, ...derived.parts].flatMap(({ fields }) => fields).find((field) => field.path === path);

/** What was measured of the number at `path`; undefined where nothing was, or there is no such number. */
export function builtAt(
  design: Design,
  derived: Derived,
  path: string,
  notation: Notation,
  deriveOther: DeriveOther,
): Built | undefined {
  const entry = design.measured?.[path];
  const part = [derived.instrument, ...derived.parts].find(({ fields }) => fields.some((field) => field.path === path));
  const field = part?.fields.find((one) => one.path === path);
  if (!entry || !part || !field) return undefined;
  const quantity = quantityOf(field.spec.type) ?? "number";
  const leads = entry.leads !== false;
  const asNumber = (value: unknown): number | undefined => (typeof value === "number" ? value : undefined);
  const planned = asNumber(leads ? field.planned : field.value);
  const measured = leads ? asNumber(field.value) : read(entry.value, quantity, notation);
  const perFace = read(entry.perFace, "length", notation) ?? 0;
  return {
    path,
    name: part.id === "instrument" ? field.spec.label : `${partName(part)}: ${field.spec.label.toLowerCase()}`,
    quantity,
    entry,
    field,
    planned,
    measured,
    off: planned === undefined || measured === undefined ? undefined : measured - planned,
    explained: 0 - perFace * (entry.faces ?? USUAL_FACES),
    cut: measured === undefined ? undefined : cutOf(design, part.id, path, measured, deriveOther),
  };
}

/** All that was measured, in the order in which it was written down. */
export const builtOf = (design: Design, derived: Derived, notation: Notation, deriveOther: DeriveOther): readonly Built[] =>
  Object.keys(design.measured ?? {}).flatMap((path) => builtAt(design, derived, path, notation, deriveOther) ?? []);

function read(raw: unknown, quantity: Quantity, notation: Notation): number | undefined {
  if (typeof raw === "number") return raw;
  return typeof raw === "string" ? plainValue(raw, quantity, notation) : undefined;
}

/** The newest cut of a part, and what a number of it, or of the instrument, was then. */
function cutOf(design: Design, partId: string, path: string, measured: number, deriveOther: DeriveOther): Built["cut"] {
  const cuts = design.cuts ?? [];
  const index = cuts.findLastIndex((cut) => cut.part === partId || partId === "instrument");
  const then = index < 0 ? undefined : numbersOfCut(design, index);
  if (!then?.ok) return undefined;
  const value = fieldAt(deriveOther(cutKey(index), then.value), path)?.value;
  return typeof value === "number" ? { date: cuts[index]!.date, value, off: measured - value } : undefined;
}
