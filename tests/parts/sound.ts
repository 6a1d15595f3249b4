/** What every drawing, template and measure must hold, whatever the numbers. */
import { expect } from "vitest";
import type { Drawing } from "../../src/drawing/drawing.ts";
import { endOf, type Path } from "../../src/geometry/path.ts";
import { distance } from "../../src/geometry/vec.ts";
import type { DerivedPart } from "../../src/parts/derived.ts";

/** The first place in plain data that holds a number which is not finite. */
export function notFinite(value: unknown, path = ""): string | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : path;
  if (typeof value !== "object" || value === null) return undefined;
  for (const [key, inner] of Object.entries(value)) {
    const found = notFinite(inner, `${path}.${key}`);
    if (found) return found;
  }
  return undefined;
}

function pathFault(path: Path): string | undefined {
  if (path.segments.length === 0) return "has no segments";
  if (path.closed && distance(path.start, endOf(path)) !== 0) return "is closed and does not end where it starts";
  let from = path.start;
  for (const segment of path.segments) {
    if (segment.kind === "arc") {
      const radius = distance(from, segment.centre);
      if (Math.abs(radius - distance(segment.to, segment.centre)) > 1e-6 * (1 + radius)) return "has an arc off its centre";
    }
    from = segment.to;
  }
  return undefined;
}

/** Finite, ids unique, paths continuous; what is wrong, or undefined. */
export function drawingFault(drawing: Drawing): string | undefined {
  const bad = notFinite(drawing);
  if (bad) return `${bad} is not finite`;
  const ids = drawing.layers.flatMap((layer) => [...layer.shapes, ...(layer.texts ?? [])].map((item) => item.id));
  const twice = ids.find((id, i) => ids.indexOf(id) !== i);
  if (twice) return `two shapes are named ${twice}`;
  for (const shape of drawing.layers.flatMap((layer) => layer.shapes)) {
    const fault = pathFault(shape.path);
    if (fault) return `${shape.id} ${fault}`;
  }
  const dimensions = drawing.dimensions.map((dimension) => dimension.id);
  return dimensions.find((id, i) => dimensions.indexOf(id) !== i);
}

/** Asserts that everything derived of a part is finite and well formed. */
export function expectSound(part: DerivedPart): void {
  expect(notFinite(part.measures), `measures of ${part.id}`).toBeUndefined();
  expect(notFinite(part.summary), `summary of ${part.id}`).toBeUndefined();
  expect(drawingFault(part.drawing()), `drawing of ${part.id}`).toBeUndefined();
  for (const template of part.templates()) {
    expect(drawingFault(template.drawing), `template ${template.name} of ${part.id}`).toBeUndefined();
    expect(notFinite(template.table), `table of ${template.name}`).toBeUndefined();
    const shapes = template.drawing.layers.flatMap((layer) => layer.shapes);
    if (template.edge !== undefined)
      expect(shapes.find((shape) => shape.id === template.edge)?.path.closed, `edge of ${template.name}`).toBe(true);
  }
  const { blanks, strips = [] } = part.materials();
  expect(notFinite(part.materials()), `materials of ${part.id}`).toBeUndefined();
  const names = [...blanks, ...strips].map(({ name }) => name);
  expect(new Set(names).size, `names of materials of ${part.id}: ${names.join(" ")}`).toBe(names.length);
  for (const { name, outline, thickness } of blanks) {
    expect(outline.closed && pathFault(outline) === undefined, `outline of ${part.id}/${name}`).toBe(true);
    expect(thickness, `thickness of ${part.id}/${name}`).toBeGreaterThanOrEqual(0);
  }
  const findings = part.findings();
  expect(notFinite(findings), `findings of ${part.id}`).toBeUndefined();
  const ids = findings.map((finding) => finding.id);
  expect(new Set(ids).size, `ids of findings of ${part.id}: ${ids.join(" ")}`).toBe(ids.length);
  for (const finding of findings) {
    expect(finding.mend === "", `${finding.id} is ${finding.severity} with the mend "${finding.mend}"`).toBe(
      finding.severity === "fine",
    );
    // Whatever else stands in braces is a name that a maker gave.
    for (const name of finding.says.match(/\{(measured|needed)\}/g) ?? [])
      expect(finding[name.slice(1, -1) as "measured" | "needed"], `${finding.id} says ${name}`).toBeTypeOf("number");
  }
}
