/** Where binding and purfling turn a corner of the body: the points of horns, and a pointed tail. */
import { add, cross, distance, dot, scale, sub, unit, vec, type Vec } from "../../geometry/vec.ts";
import { piecesOf, tangentAt } from "../../geometry/segment.ts";
import { SAME_POINT } from "../../geometry/tolerance.ts";
import type { Path } from "../../geometry/path.ts";
import { mitreOf } from "../../lutherie/mitre.ts";
import type { PlacedMitre } from "../mitre-mark.ts";
import type { BodyHalf, Ledge } from "./measure.ts";

/** A corner of the outline, on the instrument. */
export interface BodyCorner {
  readonly id: string;
  /** "point on the treble side" */
  readonly name: string;
  readonly at: Vec;
  /** Unit directions from it along both edges. */
  readonly along: readonly [Vec, Vec];
  /** Between both edges, in the wood. */
  readonly angleRad: number;
}

/** Less than this off a straight run, radians, is no corner. */
const LEAST_TURN = 0.02;

/** Where two runs of a half meet in a corner that stands out, and the tail where both halves do. `sign` as that of the treble side. */
export function cornersOf(treble: BodyHalf, bass: BodyHalf, sign: 1 | -1): BodyCorner[] {
  const halves = [
    { half: treble, name: "treble", sign },
    { half: bass, name: "bass", sign: -sign },
  ];
  const found = halves.flatMap(({ half, name, sign: to }): BodyCorner[] => {
    const placed = (v: Vec): Vec => vec(v.x, to * v.y);
    return half.bent.slice(1).flatMap((run, i): BodyCorner[] => {
      const [arriving, leaving] = [endWay(half.bent[i]!), startWay(run)];
      // Seen along the half the body lies to the left, and what stands out turns that way.
      if (cross(arriving, leaving) <= 0) return [];
      return cornerAt(name, `point on the ${name} side`, placed(run.start), placed(scale(arriving, -1)), placed(leaving));
    });
  });
  const [a, b] = [startWay(treble.bent[0]!), startWay(bass.bent[0]!)];
  const tail =
    a.x < 0 && b.x < 0 ? cornerAt("tail", "tail", treble.outline.start, vec(a.x, sign * a.y), vec(b.x, -sign * b.y)) : [];
  const count = (id: string): number => found.filter((one) => one.id === id).length;
  return [
    ...found.map((one, i) =>
      count(one.id) > 1 ? { ...one, id: `${one.id}-${found.slice(0, i + 1).filter(({ id }) => id === one.id).length}` } : one,
    ),
    ...tail,
  ];
}

const startWay = (run: Path): Vec => tangentAt(piecesOf(run)[0]!, 0)!;
const endWay = (run: Path): Vec => tangentAt(piecesOf(run).at(-1)!, 1)!;

function cornerAt(id: string, name: string, at: Vec, a: Vec, b: Vec): BodyCorner[] {
  const angleRad = Math.acos(Math.min(1, Math.max(-1, dot(a, b))));
  return angleRad < Math.PI - LEAST_TURN ? [{ id, name, at, along: [a, b], angleRad }] : [];
}

/** Every layer is as thick on both sides of the corner, so that one line through it mitres them all. */
export function mitresOf(corners: readonly BodyCorner[], ledges: readonly Ledge[]): PlacedMitre[] {
  const inmost = ledges.findLast(({ path }) => path);
  if (!inmost || !(inmost.inset > 0)) return [];
  return corners.flatMap(({ id, name, at, along: [a, b], angleRad }): PlacedMitre[] => {
    if (!(angleRad > 0)) return [];
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
