/** An instrument with its board and nut, derived from what a maker gives. */
import type { MeasuresByKind, Finding, TemplateSource } from "../../src/parts/contract.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { DerivedPart, Field, Problem, RawRecord } from "../../src/parts/derived.ts";
import type { Drawing, Shape } from "../../src/drawing/drawing.ts";

export interface Given {
  readonly units?: "in" | "mm";
  readonly instrument?: RawRecord;
  readonly fingerboard?: RawRecord;
  readonly nut?: RawRecord;
}

export interface DerivedBoard {
  readonly problems: readonly Problem[];
  readonly instrument: MeasuresByKind["instrument"];
  readonly fingerboard: MeasuresByKind["fingerboard"];
  readonly nut: MeasuresByKind["nut"];
  readonly parts: Readonly<Record<"instrument" | "fingerboard" | "nut", DerivedPart>>;
}

export function deriveBoard({ units = "mm", instrument = {}, fingerboard = {}, nut = {} }: Given = {}): DerivedBoard {
  const derived = createDeriver()({
    units,
    instrument,
    parts: { fingerboard: { kind: "fingerboard", ...fingerboard }, nut: { kind: "nut", ...nut } },
  });
  const [board, bar] = derived.parts;
  const parts = { instrument: derived.instrument, fingerboard: board!, nut: bar! };
  return {
    problems: derived.problems,
    instrument: parts.instrument.measures as MeasuresByKind["instrument"],
    fingerboard: parts.fingerboard.measures as MeasuresByKind["fingerboard"],
    nut: parts.nut.measures as MeasuresByKind["nut"],
    parts,
  };
}

export const fieldOf = (part: DerivedPart, key: string): Field => {
  const field = part.fields.find((entry) => entry.key === key);
  if (!field) throw new Error(`no field ${key}`);
  return field;
};

export const shapesOf = (drawing: Drawing): readonly Shape[] => drawing.layers.flatMap((layer) => layer.shapes);

export const shapeOf = (drawing: Drawing, id: string): Shape => {
  const shape = shapesOf(drawing).find((entry) => entry.id === id);
  if (!shape) throw new Error(`no shape ${id}`);
  return shape;
};

export const templateOf = (part: DerivedPart, name: string): TemplateSource => {
  const template = part.templates().find((entry) => entry.name === name);
  if (!template) throw new Error(`no template ${name}`);
  return template;
};

export const findingOf = (part: DerivedPart, id: string): Finding => {
  const finding = part.findings().find((entry) => entry.id === id);
  if (!finding)
    throw new Error(
      `no finding ${id}: ${part
        .findings()
        .map((entry) => entry.id)
        .join(" ")}`,
    );
  return finding;
};
