/** A part of a design while it is derived, and what is told of it in the end. */
import { EMPTY_DRAWING, type Drawing, type Layer } from "../drawing/drawing.ts";
import type { Affine } from "../geometry/transform.ts";
import type { InPlace, Limits, Words } from "./contract.ts";
import type { DerivedPart } from "./derived.ts";
import { NO_MATERIALS, NOWHERE, type Later } from "./later.ts";
import { besides } from "./on-host.ts";
import type { Reads } from "./reads.ts";
import type { AnyPart } from "./registry.ts";
import type { Settling } from "./resolve.ts";
import { Unsettled } from "./unsettled.ts";

/** One part of a design on its way: its cells, and its measures once asked for. */
export interface Bench {
  readonly id: string;
  readonly path: string;
  readonly part: AnyPart;
  readonly cells: Settling<unknown>;
  result?: Worked;
  busy: boolean;
}

/** What was worked out of a part, kept as long as its numbers and what it reads stay the same. */
export interface Worked extends Later {
  readonly part: AnyPart;
  readonly reads: Reads;
  readonly limits: Limits;
  readonly measures: unknown;
  readonly summary: Words;
  /** Its drawing with what lies on it or beside it, as it was asked for last. */
  shown?: { readonly layers: readonly Layer[]; readonly drawing: Drawing };
  /** Its place on the whole instrument on the part that it lies on, as it was asked for last. */
  placed?: { readonly on: InPlace; readonly place: InPlace };
}

/** What is told of a part: all that was worked out of it, or what it waits for. */
export function finish(bench: Bench, worked: (bench: Bench) => Worked, waiting: ReadonlySet<string>): DerivedPart {
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
  const common = { id, path, kind: part.kind, label: part.label, about: part.about, fields, problems, onHost: () => undefined };
  return result
    ? {
        ...common,
        waiting: waiting.has(path),
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
        waiting: false,
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

/** The drawing with further layers, those beside it in its own frame by `place`; the same for the same layers. */
export function withLayers(part: Worked, layers: readonly Layer[], place?: Affine): Drawing {
  if (layers.length === 0) return part.drawing();
  const before = part.shown;
  if (before?.layers.length === layers.length && layers.every((layer, i) => layer === before.layers[i])) return before.drawing;
  const own = part.drawing();
  const drawing = { ...own, layers: place ? [...besides(layers, place), ...own.layers] : [...own.layers, ...layers] };
  part.shown = { layers, drawing };
  return drawing;
}
