/** What differs between two versions of a design: numbers, drawings, and templates that would have to be cut again. */
import type { Drawing } from "../drawing/drawing.ts";
import type { Derived, DerivedPart, Field } from "../parts/derived.ts";
import { differenceOf, isSame, type Difference } from "./difference.ts";
import type { Template } from "./template.ts";
import { entryName, partName } from "../parts/part-name.ts";

/** A version of a design with its templates as they are made. */
export interface Version {
  readonly derived: Derived;
  readonly templates: readonly Template[];
}

/** A number that differs; undefined where that version has none. */
export interface NumberRow {
  readonly path: string;
  readonly partId: string;
  readonly partLabel: string;
  readonly label: string;
  readonly type: Field["spec"]["type"];
  readonly before: unknown;
  readonly now: unknown;
}

export interface PartRow {
  readonly id: string;
  readonly label: string;
  readonly before: Drawing | undefined;
  readonly now: Drawing | undefined;
}

export interface TemplateRow {
  readonly id: string;
  readonly partId: string;
  readonly title: string;
  /** `new` and `gone`: only the one version has it. */
  readonly change: Difference | "new" | "gone";
}

export interface Comparison {
  readonly numbers: readonly NumberRow[];
  /** Parts whose drawing differs, and those that only one version has. */
  readonly parts: readonly PartRow[];
  /** Templates whose lines to cut have moved, come or gone. */
  readonly templates: readonly TemplateRow[];
}

export const compare = (then: Version, now: Version): Comparison => ({
  numbers: pairsOf(then.derived, now.derived).flatMap(([a, b]) => numberRows(a, b)),
  parts: pairsOf(then.derived, now.derived).flatMap(([a, b]) => partRow(a, b)),
  templates: templateRows(then.templates, now.templates),
});

type Pair = readonly [DerivedPart | undefined, DerivedPart | undefined];

/** The parts of both by id, in the order of the present ones, those that are gone last. */
function pairsOf(then: Derived, now: Derived): Pair[] {
  const before = [then.instrument, ...then.parts];
  const after = [now.instrument, ...now.parts];
  const like = (list: readonly DerivedPart[], part: DerivedPart): DerivedPart | undefined =>
    list.find(({ id, kind }) => id === part.id && kind === part.kind);
  return [
    ...after.map((part): Pair => [like(before, part), part]),
    ...before.filter((part) => !like(after, part)).map((part): Pair => [part, undefined]),
  ];
}

/** Numbers nearer than this, mm or radians, are the same: they say the same on screen. */
const SAME = 1e-6;

const isLike = (a: unknown, b: unknown): boolean =>
  typeof a === "number" && typeof b === "number" ? Math.abs(a - b) <= SAME : JSON.stringify(a) === JSON.stringify(b);

function numberRows(then: DerivedPart | undefined, now: DerivedPart | undefined): NumberRow[] {
  const part = now ?? then;
  // A part that is new or gone differs as a whole.
  if (!part || !then || !now) return [];
  const before = cellsOf(then.fields);
  const after = cellsOf(now.fields);
  const keys = [...new Set([...after.keys(), ...before.keys()])];
  return keys.flatMap((key): NumberRow[] => {
    const [a, b] = [before.get(key), after.get(key)];
    const one = b ?? a;
    const [was, is] = [a?.field.idle ? undefined : a?.field.value, b?.field.idle ? undefined : b?.field.value];
    if (!one || isLike(was, is)) return [];
    return [
      {
        path: one.field.path,
        partId: part.id,
        partLabel: partName(part),
        label: one.label,
        type: one.field.spec.type,
        before: was,
        now: is,
      },
    ];
  });
}

/** Every number of a panel by its key, those of lists by the entry's place: "layer 2: thickness"; its group before a name that stands twice. */
function cellsOf(fields: readonly Field[]): ReadonlyMap<string, { readonly field: Field; readonly label: string }> {
  const cells = new Map<string, { field: Field; label: string }>();
  const labels = fields.map(({ spec }) => spec.label);
  const isTwice = (label: string): boolean => labels.indexOf(label) !== labels.lastIndexOf(label);
  for (const field of fields) {
    if (!field.records) {
      const { label, group } = field.spec;
      cells.set(field.key, { field, label: isTwice(label) ? `${group}: ${lowerFirst(label)}` : label });
      continue;
    }
    const list = field.spec.type === "records" ? field.spec : { item: "entry" };
    field.records.forEach((record, i, { length }) => {
      const entry = entryName(list, i, length);
      for (const one of record)
        cells.set(`${field.key} ${entry} ${one.key}`, { field: one, label: `${entry}: ${lowerFirst(one.spec.label)}` });
    });
  }
  return cells;
}

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

function partRow(then: DerivedPart | undefined, now: DerivedPart | undefined): PartRow[] {
  const part = now ?? then;
  if (!part) return [];
  const [a, b] = [then?.drawing(), now?.drawing()];
  if (a && b && JSON.stringify(a.layers) === JSON.stringify(b.layers)) return [];
  return [{ id: part.id, label: partName(part), before: a, now: b }];
}

function templateRows(then: readonly Template[], now: readonly Template[]): TemplateRow[] {
  const titleOf = ({ partLabel, title }: Template): string => `${partLabel}, ${lowerFirst(title)}`;
  const rows = now.flatMap((template): TemplateRow[] => {
    const before = then.find(({ id }) => id === template.id);
    const row = { id: template.id, partId: template.partId, title: titleOf(template) };
    if (!before) return [{ ...row, change: "new" }];
    const change = differenceOf(before.drawing, template.drawing);
    return isSame(change) ? [] : [{ ...row, change }];
  });
  const gone = then.filter(({ id }) => !now.some((template) => template.id === id));
  return [...rows, ...gone.map((one): TemplateRow => ({ id: one.id, partId: one.partId, title: titleOf(one), change: "gone" }))];
}
