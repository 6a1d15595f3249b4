/**
 * From a design to all that is derived from it. A deriver remembers its last answer and works out again only the parts whose settled
 * numbers have changed, or one of the numbers that they read of other parts.
 */
import type { Layer } from "../drawing/drawing.ts";
import type { Result } from "../units/result.ts";
import { nearestName } from "../units/nearest-name.ts";
import type { NamedQuantity } from "../units/read.ts";
import type { Answered, Limits, MeasuresByKind, PartKind, Sources, Work } from "./contract.ts";
import { answerAtOnce, type Answerer, type AnyWork } from "./answers.ts";
import { finish, withLayers, type Bench, type Worked } from "./bench.ts";
import { askedOr, laterOf, NOWHERE } from "./later.ts";
import { keptLimits } from "./limits.ts";
import type { Derived, DerivedPart, DesignNumbers, Problem, RawRecord } from "./derived.ts";
import { plain } from "./lazy.ts";
import { leading, withoutRivals } from "./leading.ts";
import { laidOn } from "./on-host.ts";
import { readingNow, readingOf, type ReadFace, type Reading, type Reads } from "./reads.ts";
import { REGISTRY, type AnyPart } from "./registry.ts";
import { openTable } from "./resolve.ts";
import { same } from "./same.ts";
import { Unsettled } from "./unsettled.ts";

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
  const limitsOf = keptLimits();

  function derive(design: DesignNumbers, { faces = NO_FACES, answer = atOnce }: Outside = {}): Derived {
    const asked = new Map<string, string>();
    /** Paths of the parts that wait for a face or an answer. */
    const waiting = new Set<string>();
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

    /** The part of this kind with this id, or the first of its kind. */
    const benchOf = (kind: PartKind, id: string | undefined): Bench | undefined =>
      [...benches.values()].find((bench) => bench.part.kind === kind && (id === undefined || bench.id === id));

    function sourcesFor(reader: AnyPart, path: string, seen?: Reads): Sources {
      return {
        get: <K extends PartKind>(kind: K, id?: string) => {
          if (!reader.reads.includes(kind)) throw new Error(`${reader.kind} reads ${kind} without naming it in reads`);
          const key = `${kind}/${id ?? ""}`;
          const known = seen?.measures.get(key);
          if (known) return known.view as MeasuresByKind[K] | undefined;
          const bench = benchOf(kind, id);
          const measures = bench && (worked(bench).measures as MeasuresByKind[K]);
          if (!seen) return measures;
          const reading = readingOf(measures);
          seen.measures.set(key, reading);
          return reading.view as MeasuresByKind[K] | undefined;
        },
        face: (id, wanted = "") => {
          asked.set(id, (asked.get(id) ?? "") + wanted);
          const face = faces.get(id);
          if (!face && faces !== NO_FACES) waiting.add(path);
          seen?.faces.set(id, { wanted, face });
          return face;
        },
        worked: <Q, A>(work: Work<Q, A>, question: Q) => {
          const answered = answer(path, work as AnyWork, question);
          if (answered?.state !== "final") waiting.add(path);
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
        const p = plain(bench.cells.p) as object;
        const limits = limitsOf(bench.part, design);
        const old = before.get(bench.id);
        bench.result = (old && takenOver(old, bench, p, limits)) ?? workOut(bench, p, limits);
        return bench.result;
      } finally {
        bench.busy = false;
      }
    }

    /** What was worked out before, if it still holds. What has not been asked of it yet will read what there is now. */
    function takenOver(old: Worked, bench: Bench, p: object, limits: Limits): Worked | undefined {
      if (old.part !== bench.part || !same(old.limits, limits)) return undefined;
      const own = same(old.reads.own.numbers, p) ? old.reads.own : readingNow(old.reads.own, p);
      if (!own) return undefined;
      const from = sourcesFor(bench.part, bench.path);
      const measures = measuresNow(old.reads, from);
      // All is asked for again, so that whoever reads faces and answers questions hears of all that is wanted.
      const sameFaces = [...old.reads.faces].map(([id, { wanted, face }]) => from.face(id, wanted) === face);
      if (!measures || !sameFaces.every(Boolean)) return undefined;
      const sameAnswers = [...old.reads.answers.values()].map(
        ({ work, question, answered }) => from.worked(work, question) === answered,
      );
      if (!sameAnswers.every(Boolean)) return undefined;
      if (own === old.reads.own && [...measures].every(([key, reading]) => reading === old.reads.measures.get(key))) return old;
      const reads = { ...old.reads, own, measures };
      return {
        ...old,
        reads,
        ...askedOr(old, laterOf({ ...bench, p: own.view, measures: old.measures, limits }, keptSources(bench, reads))),
      };
    }

    /** The measures that a part reads as they are now; undefined where a number that it has read is another. */
    function measuresNow(reads: Reads, from: Sources): Map<string, Reading> | undefined {
      const readings = new Map<string, Reading>();
      for (const [key, before] of reads.measures) {
        const [kind = "", id = ""] = key.split("/");
        const now = readingNow(before, from.get(kind as PartKind, id === "" ? undefined : id));
        if (!now) return undefined;
        readings.set(key, now);
      }
      return readings;
    }

    function workOut(bench: Bench, numbers: object, limits: Limits): Worked {
      const { part, id, path } = bench;
      const own = readingOf(numbers);
      const reads: Reads = { own, measures: new Map(), faces: new Map(), answers: new Map() };
      const p = own.view;
      const from = sourcesFor(part, path, reads);
      for (const kind of part.reads) from.get(kind);
      const measures = part.measure(p, from);
      measuredCount += 1;
      return {
        part,
        reads,
        limits,
        measures,
        summary: part.summary(p, measures, limits),
        ...laterOf({ part, id, path, p, measures, limits }, keptSources(bench, reads)),
      };
    }

    /** For what may be asked after the next derivation: it keeps to what there is now. */
    const keptSources = ({ part, path }: Bench, reads: Reads): Sources => ({
      get: sourcesFor(part, path, reads).get,
      face: (id) => reads.faces.get(id)?.face,
      worked: <Q, A>(work: Work<Q, A>) => reads.answers.get(work.name)?.answered as Answered<A> | undefined,
    });

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

    const done = [...benches.values()].map((bench) => finish(bench, worked, waiting)).map((part) => withHost(withGuests(part)));
    before = new Map([...benches.values()].flatMap((b) => (b.result ? [[b.id, b.result] as const] : [])));
    const [instrument, ...parts] = done;

    /** What the parts, but `not`, lay on the part with this id. */
    function layersOn(id: string, not?: Worked): Layer[] {
      return [...benches.values()].flatMap(({ part: { onHost }, result }) => {
        const lies = onHost && result && result !== not ? result.onHost() : undefined;
        return lies && benchOf(lies.kind, lies.id)?.id === id ? lies.layers : [];
      });
    }

    /** A part whose drawing shows what other parts lay on it. */
    function withGuests(part: DerivedPart): DerivedPart {
      const host = benches.get(part.id)?.result;
      return host ? { ...part, drawing: () => withLayers(host, layersOn(part.id)) } : part;
    }

    /** A part that lies on another is seen on the whole instrument where that one is, and shows what else lies there. */
    function withHost(part: DerivedPart): DerivedPart {
      const guest = benches.get(part.id);
      const result = guest?.result;
      if (!guest?.part.onHost || !result) return part;
      return {
        ...part,
        drawing: () => {
          const lies = result.onHost();
          const host = lies?.place && benchOf(lies.kind, lies.id);
          return host ? withLayers(result, layersOn(host.id, result), lies.place) : result.drawing();
        },
        onHost: () => {
          const lies = result.onHost();
          const host = lies && benchOf(lies.kind, lies.id);
          return host && { ...lies, id: host.id };
        },
        inPlace: () => {
          const lies = result.onHost();
          if (!lies) return NOWHERE;
          const on = benchOf(lies.kind, lies.id)?.result?.inPlace() ?? NOWHERE;
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
      waiting: done.some((part) => part.waiting),
    };
  }

  return Object.assign(derive, { measured: () => measuredCount });
}

const namesMeasure = (part: AnyPart, name: string): boolean =>
  (part.measureNames as readonly string[] | undefined)?.includes(name) ?? false;
