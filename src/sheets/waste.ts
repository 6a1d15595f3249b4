/** Which side of a template's edge is waste: a band along it, in grey or hatched as a section is (ISO 128-3: narrow lines at 45 degrees). */
import type { Shape } from "../drawing/drawing.ts";
import { difference } from "../geometry/clipper.ts";
import { offsetRegion } from "../geometry/offset.ts";
import { regionOf } from "../geometry/outline.ts";
import { segmentPath, type Path } from "../geometry/path.ts";
import { ringsOf, type Region } from "../geometry/region.ts";
import type { Template } from "../templates/template.ts";

/** Width of the band, mm. */
export const WASTE_BAND = 4;
/** Its shade where it is grey: 0 is black, 1 white. */
export const WASTE_SHADE = 0.88;
/** Between the lines of a hatching, mm. */
const HATCH = 2.5;
/** Chords of the curves that the lines end on, mm. */
const CHORD = 0.02;

/** The loops of the edge whose outer side is waste, and of what is cut out, whose inner side is. */
export interface WasteEdges {
  readonly outside: readonly Path[];
  readonly inside: readonly Path[];
}

export function wasteEdges({ edge, drawing }: Template): WasteEdges {
  const closed = drawing.layers.flatMap(({ shapes }) => shapes).filter(({ path }) => path.closed);
  // A moved edge may have come apart into several: outline, outline-2 ...
  const isEdge = ({ id }: Shape): boolean =>
    id === edge || (edge !== undefined && id.startsWith(`${edge}-`) && /^\d+$/.test(id.slice(edge.length + 1)));
  const loops = (shapes: readonly Shape[]): Path[] => shapes.flatMap(({ path, holes = [] }) => [path, ...holes]);
  return {
    outside: loops(closed.filter((shape) => shape.tint !== "waste" && isEdge(shape))),
    inside: loops(closed.filter((shape) => shape.tint === "waste")),
  };
}

/** The template with its waste hatched. */
export function hatched(template: Template): Template {
  const { outside, inside } = wasteEdges(template);
  const [wood, cutOut] = [regionOf(outside, CHORD), regionOf(inside, CHORD)];
  const bands = [difference(offsetRegion(wood, WASTE_BAND), wood), difference(cutOut, offsetRegion(cutOut, -WASTE_BAND))].flatMap(
    hatching,
  );
  if (bands.length === 0) return template;
  const shapes = bands.map((path, i): Shape => ({
    id: `waste-${i + 1}`,
    role: "mark",
    line: "narrow",
    path,
    name: "waste",
  }));
  return { ...template, drawing: { ...template.drawing, layers: [{ name: "waste", shapes }, ...template.drawing.layers] } };
}

/** Lines rising to the right across the region, an even distance apart. */
function hatching(region: Region): Path[] {
  // u runs along the lines, v across them.
  const rings = ringsOf(region).map((ring) => ring.map(({ x, y }) => ({ u: (x + y) * Math.SQRT1_2, v: (y - x) * Math.SQRT1_2 })));
  const crossings = new Map<number, number[]>();
  for (const ring of rings) {
    for (const [k, b] of ring.entries()) {
      const a = ring[(k + ring.length - 1) % ring.length]!;
      const [low, high] = a.v < b.v ? [a, b] : [b, a];
      for (let n = Math.ceil(low.v / HATCH); n * HATCH < high.v; n++) {
        const u = low.u + ((high.u - low.u) * (n * HATCH - low.v)) / (high.v - low.v);
        crossings.set(n, [...(crossings.get(n) ?? []), u]);
      }
    }
  }
  const at = (u: number, v: number): { x: number; y: number } => ({ x: (u - v) * Math.SQRT1_2, y: (u + v) * Math.SQRT1_2 });
  return [...crossings]
    .toSorted(([m], [n]) => m - n)
    .flatMap(([n, us]) => {
      const sorted = us.toSorted((a, b) => a - b);
      return sorted.flatMap((u, k) =>
        k % 2 === 1 && u - sorted[k - 1]! > 0.1 ? [segmentPath(at(sorted[k - 1]!, n * HATCH), at(u, n * HATCH))] : [],
      );
    });
}
