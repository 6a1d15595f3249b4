/** Two index pins on the centre line, at the same places in every template of a part that is drawn on it. */
import type { Shape } from "../drawing/drawing.ts";
import { intersectPaths } from "../geometry/intersect.ts";
import { pathBounds } from "../geometry/measure.ts";
import { circle, segmentPath, type Path } from "../geometry/path.ts";
import type { Vec } from "../geometry/vec.ts";
import type { SharedMaking } from "../parts/making-choices.ts";
import { alongLine, besideLine, centreLineOf, outlineOf, pointOnLine, shapesOf, type CentreLine } from "./edge.ts";
import type { Template } from "./template.ts";

export interface IndexPins {
  readonly line: CentreLine;
  readonly diameter: number;
  readonly at: readonly Vec[];
  readonly cautions: readonly string[];
}

/** Wood kept between a pin and the nearest line, mm. */
const CLEAR = 1;
/** How far in from either end of what all templates have in common. */
const SHARE = 0.1;

/** Whether a template is drawn on the line, so that the pins are its own. */
export function isDrawnOn(template: Template, line: CentreLine): boolean {
  const own = centreLineOf(template.drawing);
  return (
    own !== undefined &&
    [own.from, own.to].every((p) => Math.abs(besideLine(line, p)) < 1e-6) &&
    outlineOf(template) !== undefined
  );
}

/**
 * The pins of a part. Where the maker does not say where, they stand a tenth of the common length in from either end, or at the nearest
 * place that keeps clear of every slot and hole. Undefined where there are none, or no template has a centre line.
 */
export function indexPins(templates: readonly Template[], shared: SharedMaking): IndexPins | undefined {
  const diameter = shared.pin;
  const line = templates.map(({ drawing }) => centreLineOf(drawing)).find(Boolean);
  if (diameter === undefined || !line) return undefined;
  const group = templates.filter((template) => isDrawnOn(template, line));
  const spans = group.map((template) => crossings(outlineOf(template)!.path, line));
  const start = Math.max(...spans.map((along) => along[0] ?? -Infinity));
  const end = Math.min(...spans.map((along) => along.at(-1) ?? Infinity));
  if (!(end > start) || !Number.isFinite(end - start)) return undefined;
  const lines = group.flatMap((template) =>
    shapesOf(template.drawing)
      .filter(({ role }) => role !== "centre")
      .flatMap(({ path }) => crossings(path, line)),
  );
  const room = diameter / 2 + CLEAR;
  const isClear = (along: number): boolean =>
    along - room >= start && along + room <= end && lines.every((other) => Math.abs(other - along) >= room);
  const cautions: string[] = [];
  const placed = (given: number | undefined, wish: number, name: string): number => {
    const along = given ?? nearestClear(wish, start, end, isClear);
    if (!isClear(along))
      cautions.push(`The ${name} index pin meets a line or the edge of a template: move it along the centre line.`);
    return along;
  };
  const along = [
    placed(shared.pinStart, start + SHARE * (end - start), "first"),
    placed(shared.pinEnd, end - SHARE * (end - start), "second"),
  ];
  return { line, diameter, at: along.map((t) => pointOnLine(line, t)), cautions };
}

/** The pins as holes, `index-pin-1` and `index-pin-2`. */
export const pinShapes = ({ at, diameter }: IndexPins): Shape[] =>
  at.map((p, i) => ({
    id: `index-pin-${i + 1}`,
    role: "drill",
    line: "visible",
    path: circle(p, diameter / 2),
    name: `index pin ${i + 1}`,
    says: [{ label: "diameter", value: diameter, quantity: "length" }],
  }));

/** Distances along the line at which the path meets it, rising. */
function crossings(path: Path, line: CentreLine): number[] {
  const { minX, minY, maxX, maxY } = pathBounds(path);
  const corners = [minX, maxX].flatMap((x) => [minY, maxY].map((y) => alongLine(line, { x, y })));
  const ray = segmentPath(pointOnLine(line, Math.min(...corners) - 1), pointOnLine(line, Math.max(...corners) + 1));
  return intersectPaths(ray, path)
    .map(({ point }) => alongLine(line, point))
    .toSorted((a, b) => a - b);
}

/** The clear place nearest to the wish, looked for in steps of a millimetre; the wish itself where there is none. */
function nearestClear(wish: number, start: number, end: number, isClear: (along: number) => boolean): number {
  for (let step = 0; step <= end - start; step++) {
    for (const along of [wish + step, wish - step]) if (isClear(along)) return along;
  }
  return wish;
}
