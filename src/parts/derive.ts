/**
 * From a design to all that is derived from it. A deriver remembers its last answer and works out again only the parts whose settled
 * numbers, or whose read measures, have changed.
 */
import { EMPTY_DRAWING, type Drawing, type Layer } from "../drawing/drawing.ts";
import type { Face } from "../lettering/face.ts";
import type { Trouble } from "../lettering/trouble.ts";
import type { Result } from "../units/result.ts";
import { nearestName } from "../units/nearest-name.ts";
import type { NamedQuantity } from "../units/read.ts";
import type {
  Answered,
  Finding,
  InPlace,
  Limits,
  Materials,
  MeasuresByKind,
  OnHost,
  PartKind,
  PointOutline,
  Sources,
  TemplateSource,
  Words,
  Work,
} from "./contract.ts";
import { answerAtOnce, type Answerer, type AnyWork } from "./answers.ts";
import { limitsAt } from "./limits.ts";
import type { Derived, DerivedPart, DesignNumbers, Problem, Raw, RawRecord } from "./derived.ts";
import { laidOn, withOwner } from "./on-host.ts";
import { openTable, plain, Unsettled, type Settling } from "./resolve.ts";
import { REGISTRY, type AnyPart } from "./registry.ts";
import { same } from "./same.ts";

/** One part of a design on its way: its cells, and its measures once asked for. */
interface Bench {
  readonly id: string;
  readonly path: string;
  readonly part: AnyPart;
  readonly cells: Settling<unknown>;
  result?: Worked;
  busy: boolean;
}

/** What was worked out of a part, kept as long as its numbers and what it reads stay the same. */
interface Worked {
  readonly part: AnyPart;
  readonly p: unknown;
  readonly reads: Reads;
  readonly limits: string;
  readonly measures: unknown;
  readonly summary: Words;
  readonly drawing: () => Drawing;
  readonly templates: () => readonly TemplateSource[];
  readonly outlines: () => readonly PointOutline[];
  readonly inPlace: () => InPlace;
  readonly materials: () => Materials;
  readonly findings: () => readonly Finding[];
  readonly onHost: () => OnHost | undefined;
  /** Its drawing with what lies on it, as it was asked for last. */
  shown?: { readonly layers: readonly Layer[]; readonly drawing: Drawing };
  /** Its place on the whole instrument on the part that it lies on, as it was asked for last. */
  placed?: { readonly on: InPlace; readonly place: InPlace };
}

/** What a part read besides its own numbers, at the time. */
interface Reads {
  /** By kind and id. */
  readonly measures: Map<string, unknown>;
  readonly faces: Map<string, { readonly wanted: string; readonly face: ReadFace | undefined }>;
  /** By the work's name. */
  readonly answers: Map<
    string,
    { readonly work: AnyWork; readonly question: unknown; readonly answered: Answered<unknown> | undefined }
  >;
}
type ReadFace = Result<Face, Trouble>;

const NOWHERE: InPlace = {};
const NO_MATERIALS: Materials = { blanks: [] };
const NO_FACES: ReadonlyMap<string, ReadFace> = new Map();

/** What comes from outside while a design is derived. A part is worked out anew when something that it asked for has come. */
export interface Outside {
  /** Those read so far, by id. */
  readonly faces?: ReadonlyMap<string, ReadFace>;
  /** Answers heavy questions; absent: they are worked out on the spot. */
  readonly answer?: Answerer;
}

export interface Deriver {
  (design: DesignNumbers, outside?: Outside): Derived;
  /** How many parts have been measured anew since the deriver was made. */
  readonly measured: () => number;
}

/**
 * Makes a deriver.
 * @returns a function from a design to everything derived from it. Total on every design that could be read: what cannot be settled comes
 * as problems of the part that it stops, and the other parts are derived all the same.
 */
export function createDeriver(registry: readonly AnyPart[] = REGISTRY): Deriver {
  let before = new Map<string, Worked>();
  let measuredCount = 0;
  const atOnce = answerAtOnce();

  function derive(design: DesignNumbers, { faces = NO_FACES, answer = atOnce }: Outside = {}): Derived {
    const asked = new Map<string, string>();
    let waiting = false;
    const benches = new Map<string, Bench>();
    const settling: string[] = [];
    const unknownKinds: Problem[] = [];

    function place(id: string, path: string, raw: RawRecord, part: AnyPart): void {
      const from = sourcesFor(part, path);
      const cells = openTable(
        part.params,
        withoutRivals(raw, part, (key) => leading(design, `${path}.${key}`) !== undefined),
        {
          path,
          units: design.units,
          from,
          settling,
          measured: (at) => leading(design, at),
          plan: raw,
          outside: (name) => outsideOf(name, id),
        },
      );
      benches.set(id, { id, path, part, cells, busy: false });
    }

    function sourcesFor(reader: AnyPart, path: string, seen?: Reads): Sources {
      return {
        get: <K extends PartKind>(kind: K, id?: string) => {
          if (!reader.reads.includes(kind)) throw new Error(`${reader.kind} reads ${kind} without naming it in reads`);
          const bench = [...benches.values()].find((b) => b.part.kind === kind && (id === undefined || b.id === id));
          const measures = bench ? worked(bench).measures : undefined;
          seen?.measures.set(`${kind}/${id ?? ""}`, measures);
          return measures as MeasuresByKind[K] | undefined;
        },
        face: (id, wanted = "") => {
          asked.set(id, (asked.get(id) ?? "") + wanted);
          const face = faces.get(id);
          if (!face && faces !== NO_FACES) waiting = true;
          seen?.faces.set(id, { wanted, face });
          return face;
        },
        worked: <Q, A>(work: Work<Q, A>, question: Q) => {
          const answered = answer(path, work as AnyWork, question);
          if (answered?.state !== "final") waiting = true;
          seen?.answers.set(work.name, { work: work as AnyWork, question, answered });
          return answered as Answered<A> | undefined;
        },
      };
    }

    /** Works a bench out, or takes over what was worked out before from the same numbers. Throws `Unsettled` where a number is missing. */
    function worked(bench: Bench): Worked {
      if (bench.result) return bench.result;
      if (bench.busy) throw new Unsettled(bench.path);
      bench.busy = true;
      try {
        const p = plain(bench.cells.p);
        const limits = limitsOf(bench.part, design);
        const old = before.get(bench.id);
        bench.result = old && stillHolds(old, bench, p, JSON.stringify(limits)) ? old : workOut(bench, p, limits);
        return bench.result;
      } finally {
        bench.busy = false;
      }
    }

    function stillHolds(old: Worked, { part, path }: Bench, p: unknown, limits: string): boolean {
      if (old.part !== part || old.limits !== limits || !same(old.p, p)) return false;
      const from = sourcesFor(part, path);
      const sameMeasures = [...old.reads.measures].every(([key, measures]) => {
        const [kind = "", id = ""] = key.split("/");
        return from.get(kind as PartKind, id === "" ? undefined : id) === measures;
      });
      // All is asked for again, so that whoever reads faces and answers questions hears of all that is wanted.
      const sameFaces = [...old.reads.faces].map(([id, { wanted, face }]) => from.face(id, wanted) === face);
      if (![...sameFaces, sameMeasures].every(Boolean)) return false;
      const sameAnswers = [...old.reads.answers.values()].map(
        ({ work, question, answered }) => from.worked(work, question) === answered,
      );
      return sameAnswers.every(Boolean);
    }

    function workOut({ part, path, id: own }: Bench, p: unknown, limits: Limits): Worked {
      const reads: Reads = { measures: new Map(), faces: new Map(), answers: new Map() };
      const from = sourcesFor(part, path, reads);
      for (const kind of part.reads) from.get(kind);
      const measures = part.measure(p, from);
      measuredCount += 1;
      // Later calls may come after the next derivation: they keep to what was read now.
      const kept: Sources = {
        get: (kind, id) => {
          const key = `${kind}/${id ?? ""}`;
          return reads.measures.has(key) ? (reads.measures.get(key) as never) : from.get(kind, id);
        },
        face: (id) => reads.faces.get(id)?.face,
        worked: <Q, A>(work: Work<Q, A>) => reads.answers.get(work.name)?.answered as Answered<A> | undefined,
      };
      return {
        part,
        p,
        reads,
        limits: JSON.stringify(limits),
        measures,
        summary: part.summary(p, measures, limits),
        drawing: once(() => withPath(part.draw(p, measures, kept, limits), path)),
        templates: once(() => part.templates(p, measures, kept, limits)),
        outlines: once(() => part.outlines?.(p, measures, kept) ?? []),
        inPlace: once(() => part.inPlace?.(p, measures, kept) ?? NOWHERE),
        materials: once(() => part.materials?.(p, measures, kept) ?? NO_MATERIALS),
        onHost: once(() => withOwner(part.onHost?.(p, measures, kept), own)),
        findings: once(() =>
          part.checks.flatMap((check) => [...check.run({ p, m: measures, from: kept, limits: limits[check.id] ?? {} })]),
        ),
      };
    }

    function outsideOf(name: string, asker: string): Result<NamedQuantity, { message: string; mend: string }> {
      const dot = name.indexOf(".");
      if (dot > 0) {
        const bench = benches.get(name.slice(0, dot));
        const found = bench && namedOn(bench, name.slice(dot + 1));
        return found ?? noSuchName(name, asker);
      }
      const instrument = benches.get("instrument");
      const shared = instrument && namedOn(instrument, name);
      if (shared) return shared;
      const holders = [...benches.values()].filter((b) => b.id !== asker && hasName(b, name));
      if (holders.length > 1) {
        const full = holders.map((b) => `${b.id}.${name}`);
        return { ok: false, error: { message: `several parts have a ${name}`, mend: `Say which: ${full.join(" or ")}.` } };
      }
      return (holders[0] && namedOn(holders[0], name)) ?? noSuchName(name, asker);
    }

    const hasName = (bench: Bench, name: string): boolean =>
      Object.hasOwn(bench.part.params, name) || namesMeasure(bench.part, name);

    /** A parameter of the part, or one of its measures that is a number: a length, or an angle if its name ends in Rad. */
    function namedOn(bench: Bench, name: string): Result<NamedQuantity, { message: string; mend: string }> | undefined {
      const parameter = bench.cells.quantity(name);
      if (parameter) return parameter;
      if (!namesMeasure(bench.part, name)) return undefined;
      if (bench.busy)
        return { ok: false, error: { message: `${bench.id}.${name} needs this number`, mend: "Type a plain number here." } };
      const value = (worked(bench).measures as Record<string, unknown>)[name];
      if (typeof value !== "number")
        return { ok: false, error: { message: `${bench.id}.${name} has no value here`, mend: "Use another number." } };
      return { ok: true, value: { quantity: name.endsWith("Rad") ? "angle" : "length", value } };
    }

    function noSuchName(name: string, asker: string): Result<NamedQuantity, { message: string; mend: string }> {
      const near = nearestName(name, knownNames(asker));
      return {
        ok: false,
        error: {
          message: `there is no dimension named ${name}`,
          mend: near ? `Did you mean ${near}?` : "Use a name shown beside a field.",
        },
      };
    }

    function knownNames(asker: string): string[] {
      return [...benches.values()].flatMap((b) => {
        const own = [...Object.keys(b.part.params), ...(b.part.measureNames ?? [])];
        return b.id === asker || b.id === "instrument" ? own : own.map((n) => `${b.id}.${n}`);
      });
    }

    const instrumentPart = registry[0];
    if (!instrumentPart) throw new Error("the registry has no instrument");
    place("instrument", "instrument", design.instrument, instrumentPart);
    // The registry grows while a deriver lives.
    const rank = new Map(registry.map((part, i) => [part.kind as string, i]));
    const entries = Object.entries(design.parts).toSorted(
      ([a, rawA], [b, rawB]) => (rank.get(String(rawA.kind)) ?? 0) - (rank.get(String(rawB.kind)) ?? 0) || (a < b ? -1 : 1),
    );
    for (const [id, raw] of entries) {
      const part = registry.find((entry) => entry.kind === raw.kind && entry !== instrumentPart);
      if (part) place(id, `parts.${id}`, raw, part);
      else
        unknownKinds.push({
          path: `parts.${id}.kind`,
          label: id,
          message: `This version knows no part of the kind ${JSON.stringify(raw.kind) ?? "undefined"}`,
          mend: "It is kept in the file as it is.",
        });
    }

    const done = [...benches.values()].map((bench) => finish(bench, worked)).map((part) => withHost(withGuests(part)));
    before = new Map([...benches.values()].flatMap((b) => (b.result ? [[b.id, b.result] as const] : [])));
    const [instrument, ...parts] = done;

    /** A part whose drawing shows what other parts lay on it. */
    function withGuests(part: DerivedPart): DerivedPart {
      const host = benches.get(part.id)?.result;
      const guests = [...benches.values()].flatMap(({ part: { onHost }, result }) => (onHost && result ? [result] : []));
      if (!host || guests.length === 0) return part;
      const isFirst = [...benches.values()].find((bench) => bench.part.kind === part.kind)?.id === part.id;
      return {
        ...part,
        drawing: () => {
          const layers = guests.flatMap((guest) => {
            const lies = guest.onHost();
            return lies?.kind === part.kind && (lies.id === undefined ? isFirst : lies.id === part.id) ? lies.layers : [];
          });
          if (layers.length === 0) return host.drawing();
          const before = host.shown;
          if (before?.layers.length === layers.length && layers.every((layer, i) => layer === before.layers[i]))
            return before.drawing;
          const drawing = { ...host.drawing(), layers: [...host.drawing().layers, ...layers] };
          host.shown = { layers, drawing };
          return drawing;
        },
      };
    }

    /** A part that lies on another is seen on the whole instrument where that one is. */
    function withHost(part: DerivedPart): DerivedPart {
      const guest = benches.get(part.id);
      const result = guest?.result;
      if (!guest?.part.onHost || !result) return part;
      return {
        ...part,
        inPlace: () => {
          const lies = result.onHost();
          if (!lies) return NOWHERE;
          const host = [...benches.values()].find(
            (bench) => bench.part.kind === lies.kind && (lies.id === undefined || lies.id === bench.id),
          );
          const on = host?.result?.inPlace() ?? NOWHERE;
          if (result.placed?.on !== on) result.placed = { on, place: laidOn(lies, on) };
          return result.placed.place;
        },
      };
    }
    return {
      instrument: instrument!,
      parts,
      problems: [...done.flatMap((part) => part.problems), ...unknownKinds],
      faces: [...asked].map(([id, wanted]) => ({ id, wanted })),
      waiting,
    };
  }

  return Object.assign(derive, { measured: () => measuredCount });
}

/** What was measured of a number, if what depends on it follows that and not the plan. */
function leading({ measured }: DesignNumbers, path: string): Raw {
  const entry = measured?.[path];
  return entry?.leads === false ? undefined : entry?.value;
}

function finish(bench: Bench, worked: (bench: Bench) => Worked): DerivedPart {
  const { id, path, part, cells } = bench;
  const fields = cells.fields();
  const own = cells.problems();
  let result: Worked | undefined;
  let problems = own;
  if (own.length === 0) {
    try {
      result = worked(bench);
    } catch (error) {
      if (!(error instanceof Unsettled)) throw error;
      const missing = error.path.replace(/^(parts|instrument)\./, "");
      problems = [
        {
          path,
          label: part.label,
          message: `The ${part.label.toLowerCase()} waits for ${missing}`,
          mend: `Mend ${missing} first.`,
        },
      ];
    }
  }
  const common = { id, path, kind: part.kind, label: part.label, about: part.about, fields, problems };
  return result
    ? {
        ...common,
        measures: result.measures,
        summary: result.summary,
        drawing: result.drawing,
        templates: result.templates,
        outlines: result.outlines,
        inPlace: result.inPlace,
        materials: result.materials,
        findings: result.findings,
      }
    : {
        ...common,
        measures: undefined,
        summary: [],
        drawing: () => EMPTY_DRAWING,
        templates: () => [],
        outlines: () => [],
        inPlace: () => NOWHERE,
        materials: () => NO_MATERIALS,
        findings: () => [],
      };
}

const limitsOf = (part: AnyPart, design: DesignNumbers): Limits =>
  Object.fromEntries(part.checks.map((check) => [check.id, limitsAt(design, `${part.kind}.${check.id}`, check.limits)]));

const namesMeasure = (part: AnyPart, name: string): boolean =>
  (part.measureNames as readonly string[] | undefined)?.includes(name) ?? false;

/**
 * What the maker gave, less what a measured value of the same balance takes back: where the end of a board is measured, a planned width at the
 * join gives way.
 */
function withoutRivals(raw: RawRecord, part: AnyPart, isMeasured: (key: string) => boolean): RawRecord {
  const kept = { ...raw };
  for (const { members, given, yields } of part.balances ?? []) {
    const measured = members.filter(isMeasured);
    if (measured.length === 0) continue;
    for (const key of yields) {
      const standing = members.filter((member) => isMeasured(member) || (kept[member] ?? undefined) !== undefined);
      if (standing.length <= given) break;
      if (!isMeasured(key)) delete kept[key];
    }
  }
  return kept;
}

/** A drawing whose dimensions name the numbers of this very part: a part writes its own as `.overhang`. */
const withPath = (drawing: Drawing, path: string): Drawing => ({
  ...drawing,
  dimensions: drawing.dimensions.map((dimension) =>
    dimension.edits?.startsWith(".") ? { ...dimension, edits: `${path}${dimension.edits}` } : dimension,
  ),
});

function once<T>(work: () => T): () => T {
  let done: { value: T } | undefined;
  return () => (done ??= { value: work() }).value;
}
