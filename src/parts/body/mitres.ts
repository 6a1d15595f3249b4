/** Where binding and purfling turn a corner of the body: the points of horns, and a pointed tail. */
import { add, distance, scale, sub, unit, type Vec } from "../../geometry/vec.ts";
import { SAME_POINT } from "../../geometry/tolerance.ts";
import type { Path } from "../../geometry/path.ts";
import { mitreOf } from "../../lutherie/mitre.ts";
import type { PlacedMitre } from "../mitre-mark.ts";
import type { BodyCorner } from "./corners.ts";
import type { Ledge } from "./measure.ts";

/** Every layer is as thick on both sides of the corner, so that one line through it mitres them all. */
export function mitresOf(corners: readonly BodyCorner[], ledges: readonly Ledge[]): PlacedMitre[] {
  const inmost = ledges.findLast(({ path }) => path);
  if (!inmost || !(inmost.inset > 0)) return [];
  return corners.flatMap(({ id, name, at, along: [a, b], angleRad }): PlacedMitre[] => {
    const mitre = mitreOf(inmost.inset, inmost.inset, angleRad);
    const straight = add(at, scale(unit(add(a, b)), mitre.length));
    // Edges that bend away from the corner bring the inner one beside that of straight edges.
    const inner = cornerNear(inmost.path!, straight, inmost.inset) ?? straight;
    if (!(distance(at, inner) > SAME_POINT)) return [];
    return [
      {
        id: `mitre-${id}`,
        name: `mitre of binding and purfling at the ${name}`,
        at,
        way: unit(sub(inner, at)),
        mitre: { ...mitre, length: distance(at, inner) },
        edges: ["one edge", "other edge"],
      },
    ];
  });
}

/** The end of a segment nearest to a place, within `reach`. */
function cornerNear(path: Path, place: Vec, reach: number): Vec | undefined {
  const [best] = path.segments.map(({ to }) => to).toSorted((p, q) => distance(p, place) - distance(q, place));
  return best && distance(best, place) <= reach ? best : undefined;
}

/** How long each layer is along its mitres, for a table. */
export const mitreRows = (
  corners: readonly BodyCorner[],
  ledges: readonly Ledge[],
): { readonly label: string; readonly value: number }[] =>
  corners.flatMap(({ name, angleRad }) =>
    ledges.map((ledge) => ({
      label: `${ledge.name}, along its mitre at the ${name}`,
      value: mitreOf(ledge.thickness, ledge.thickness, angleRad).length,
    })),
  );
