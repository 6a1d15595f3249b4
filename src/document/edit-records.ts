import type { AnySpec, Raw } from "../parts/derived.ts";
import type { Result } from "../units/result.ts";
import type { Design, Trouble } from "./design.ts";
import { placeOf, type TablePlace } from "./place.ts";
import { entriesOf, noEntry, ownerOf, readEntry, setValue } from "./set-value.ts";

interface List {
  readonly path: string;
  readonly spec: Extract<AnySpec, { type: "records" }>;
  readonly entries: readonly Raw[];
}

/** The list at a path, such as `parts.fingerboard.binding` or `instrument.strings`. */
function listAt(design: Design, path: string): Result<List, Trouble> {
  const found = placeOf(design, path);
  if (!found.ok) return found;
  const place = found.value;
  if (place.in !== "table" || place.spec.type !== "records" || typeof place.steps.at(-1) === "number") {
    return { ok: false, error: { path, message: `${path} is no list`, mend: "Name a list, such as parts.fingerboard.binding." } };
  }
  const entries = entriesOf(rawAt(design, place), place.spec, place.path);
  return entries.ok ? { ok: true, value: { path: place.path, spec: place.spec, entries: entries.value } } : entries;
}

const rawAt = (design: Design, place: TablePlace): Raw =>
  place.steps.reduce<Raw>(
    (value, step) => (value as Readonly<Record<string, Raw>> | undefined)?.[step],
    ownerOf(design, place.owner),
  );

/** The design with an entry put before the one at `index`; the list's length puts it at the end. */
export function insertRecord(design: Design, path: string, index: number, record: Raw): Result<Design, Trouble> {
  const list = listAt(design, path);
  if (!list.ok) return list;
  const { spec, entries } = list.value;
  if (!isIndex(index, entries.length + 1)) return noEntry(list.value.path, spec.item, index, entries.length);
  const entry = readEntry(spec, record, `${list.value.path}[${index}]`);
  return entry.ok ? setValue(design, list.value.path, entries.toSpliced(index, 0, entry.value)) : entry;
}

export function removeRecord(design: Design, path: string, index: number): Result<Design, Trouble> {
  const list = listAt(design, path);
  if (!list.ok) return list;
  const { spec, entries } = list.value;
  if (!isIndex(index, entries.length)) return noEntry(list.value.path, spec.item, index, entries.length);
  return setValue(design, list.value.path, entries.toSpliced(index, 1));
}

/** The design with the entry at `from` moved so that it stands at `to`. */
export function moveRecord(design: Design, path: string, from: number, to: number): Result<Design, Trouble> {
  const list = listAt(design, path);
  if (!list.ok) return list;
  const { spec, entries } = list.value;
  for (const index of [from, to])
    if (!isIndex(index, entries.length)) return noEntry(list.value.path, spec.item, index, entries.length);
  if (from === to) return { ok: true, value: design };
  return setValue(design, list.value.path, entries.toSpliced(from, 1).toSpliced(to, 0, entries[from]));
}

const isIndex = (index: number, count: number): boolean => Number.isInteger(index) && index >= 0 && index < count;
