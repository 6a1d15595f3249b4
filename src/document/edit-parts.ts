import type { Raw, RawRecord } from "../parts/derived.ts";
import { partOf, REGISTRY } from "../parts/registry.ts";
import { isFormula } from "../units/formula.ts";
import type { Result } from "../units/result.ts";
import { movedBoard } from "./edit-boards.ts";
import type { Design, PartRecord, Trouble } from "./design.ts";
import { isPartId } from "./path.ts";
import { isRecord } from "./shape.ts";

const refuse = (message: string, mend: string, path?: string): { readonly ok: false; readonly error: Trouble } => ({
  ok: false,
  error: { message, mend, ...(path === undefined ? {} : { path }) },
});

/** A part of a kind with nothing said of it. */
export function emptyPart(kind: string): PartRecord {
  const version = partOf(kind)?.version ?? 1;
  return version > 1 ? { kind, version } : { kind };
}

/** The design with one more part. Its id is its kind, with a number from 2 on where that is taken. */
export function addPart(design: Design, kind: string): Result<{ readonly design: Design; readonly id: string }, Trouble> {
  const kinds = REGISTRY.map((part) => part.kind as string).filter((known) => known !== "instrument");
  if (!kinds.includes(kind))
    return refuse(`there is no part of the kind ${JSON.stringify(kind)}`, `Take one of ${kinds.join(", ")}.`);
  let id = kind;
  for (let n = 2; Object.hasOwn(design.parts, id); n++) id = `${kind}${n}`;
  return { ok: true, value: { id, design: { ...design, parts: { ...design.parts, [id]: emptyPart(kind) } } } };
}

/** The design without a part, what was measured of it, how its templates are made and what lies on its board. */
export function removePart(design: Design, id: string): Result<Design, Trouble> {
  if (!Object.hasOwn(design.parts, id)) return noPart(design, id);
  const { [id]: _, ...parts } = design.parts;
  const left = withMakings(movedBoard({ ...design, parts }, id, undefined), (partId) => (partId === id ? undefined : partId));
  return { ok: true, value: withMeasured(left, (path) => (belongsTo(path, id) ? undefined : path)) };
}

/** The design with a part under another id; formulas that name it, what was measured of it and how its templates are made, follow. */
export function renamePart(design: Design, from: string, to: string): Result<Design, Trouble> {
  if (!Object.hasOwn(design.parts, from)) return noPart(design, from);
  if (from === to) return { ok: true, value: design };
  if (!isPartId(to))
    return refuse(
      `a part cannot be called ${JSON.stringify(to)}`,
      "Begin with a letter and use letters, digits, - and _.",
      `parts.${from}`,
    );
  if (Object.hasOwn(design.parts, to))
    return refuse(`there is a part called ${to} already`, "Take another name.", `parts.${from}`);
  const named = new RegExp(`(?<![\\p{L}\\p{N}_.])${from}(?=\\.)`, "gu");
  const inFormulas = (raw: Raw): Raw => {
    if (typeof raw === "string") return isFormula(raw) ? raw.replace(named, to) : raw;
    if (Array.isArray(raw)) return raw.map(inFormulas);
    return isRecord(raw) ? Object.fromEntries(Object.entries(raw).map(([key, value]) => [key, inFormulas(value)])) : raw;
  };
  const parts = Object.entries(design.parts).map(
    ([id, record]) => [id === from ? to : id, inFormulas(record) as PartRecord] as const,
  );
  const moved: Design = { ...design, instrument: inFormulas(design.instrument) as RawRecord, parts: Object.fromEntries(parts) };
  const renamed = withMakings(movedBoard(moved, from, to), (partId) => (partId === from ? to : partId), inFormulas);
  return {
    ok: true,
    value: withMeasured(renamed, (path) => (belongsTo(path, from) ? `parts.${to}${path.slice(`parts.${from}`.length)}` : path)),
  };
}

const noPart = (design: Design, id: string): { readonly ok: false; readonly error: Trouble } =>
  refuse(`there is no part called ${id}`, `The design has ${Object.keys(design.parts).join(", ") || "no parts"}.`);

const belongsTo = (path: string, id: string): boolean => path.startsWith(`parts.${id}.`);

/**
 * The design with the parts changed that records of its `templates` and its `wood` belong to, undefined leaving them out, and with `inside`
 * done to each.
 */
function withMakings(design: Design, partOf: (partId: string) => string | undefined, inside = (raw: Raw): Raw => raw): Design {
  let result = design;
  for (const section of ["templates", "wood"] as const) {
    const { [section]: records, ...others } = result;
    if (!records) continue;
    const kept = Object.entries(records).flatMap(([id, record]) => {
      const [partId = "", ...name] = id.split("/");
      const now = partOf(partId);
      return now === undefined ? [] : [[[now, ...name].join("/"), inside(record) as RawRecord] as const];
    });
    result = kept.length > 0 ? { ...others, [section]: Object.fromEntries(kept) } : others;
  }
  return result;
}

/** The design with the paths of what was measured changed; undefined leaves an entry out. */
function withMeasured(design: Design, change: (path: string) => string | undefined): Design {
  const { measured, ...others } = design;
  if (!measured || Object.keys(measured).every((path) => change(path) === path)) return design;
  const kept = Object.entries(measured).flatMap(([path, entry]) => {
    const now = change(path);
    return now === undefined ? [] : [[now, entry] as const];
  });
  return kept.length > 0 ? { ...others, measured: Object.fromEntries(kept) } : others;
}
