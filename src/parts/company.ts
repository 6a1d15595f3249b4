/** What a part on the top lies between, drawn about it as far as a window reaches, so that the part itself stays large. */
import type { Layer, Shape } from "../drawing/drawing.ts";
import { boundsHold, boundsMeet, boundsOfPoints, type Bounds } from "../geometry/bounds.ts";
import { flatten } from "../geometry/flatten.ts";
import { pathBounds } from "../geometry/measure.ts";
import { polyline, type Path } from "../geometry/path.ts";
import { lerp, vec, type Vec } from "../geometry/vec.ts";
import type { Sources } from "./contract.ts";

/** Guides need no more, mm. */
const COARSE = 0.05;

/** The parts of a closed path that lie in a box, in chords: the path itself where all of it does. */
export function within(path: Path, box: Bounds): Path[] {
  const bounds = pathBounds(path);
  if (!boundsMeet(bounds, box)) return [];
  if (boundsHold(box, vec(bounds.minX, bounds.minY)) && boundsHold(box, vec(bounds.maxX, bounds.maxY))) return [path];
  const points = flatten(path, COARSE);
  const ring = path.closed && points[0] ? [...points, points[0]] : points;
  const runs: Vec[][] = [];
  let open = false;
  ring.slice(1).forEach((b, i) => {
    const span = spanIn(ring[i]!, b, box);
    if (!span) {
      open = false;
      return;
    }
    const [from, to] = span.map((t) => lerp(ring[i]!, b, t)) as [Vec, Vec];
    if (open && span[0] === 0) runs.at(-1)!.push(to);
    else runs.push([from, to]);
    open = span[1] === 1;
  });
  if (runs.length === 1 && runs[0]!.length === ring.length) return [path];
  return runs.map(polyline);
}

/** Where along a straight side it lies in the box, from 0 to 1 (J. Liang and B. Barsky, 1984); undefined where it does not. */
function spanIn(a: Vec, b: Vec, box: Bounds): readonly [number, number] | undefined {
  if (!boundsMeet(boundsOfPoints([a, b]), box)) return undefined;
  let [from, to] = [0, 1];
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const edges = [
    [-dx, a.x - box.minX],
    [dx, box.maxX - a.x],
    [-dy, a.y - box.minY],
    [dy, box.maxY - a.y],
  ] as const;
  for (const [p, q] of edges) {
    if (p === 0) {
      if (q < 0) return undefined;
      continue;
    }
    const t = q / p;
    if (p < 0) from = Math.max(from, t);
    else to = Math.min(to, t);
  }
  return from < to ? [from, to] : undefined;
}

/** Board, bridge, body and, where asked for, the soundhole with its rosette, as guides. */
export function companyLayer(from: Sources, box: Bounds, hole?: { readonly outline?: Path; readonly rosette?: Path }): Layer {
  const guides = (id: string, name: string, path: Path | undefined): Shape[] =>
    path
      ? within(path, box).map((piece, i) => ({
          id: i === 0 ? id : `${id}-${i + 1}`,
          role: "guide",
          line: "adjacent",
          path: piece,
          name,
        }))
      : [];
  return {
    name: "company",
    shapes: [
      ...guides("board", "fingerboard", from.get("fingerboard")?.outline),
      ...guides("bridge", "bridge", from.get("bridge")?.outline),
      ...guides("body", "body", from.get("body")?.outline),
      ...guides("soundhole", "soundhole", hole?.outline),
      ...guides("rosette", "outermost ring of the rosette", hole?.rosette === hole?.outline ? undefined : hole?.rosette),
    ],
  };
}
