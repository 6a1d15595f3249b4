/** Corners of the body's outline that stand out: the points of horns, and a pointed tail. */
import { cross, dot, scale, vec, type Vec } from "../../geometry/vec.ts";
import { piecesOf, tangentAt } from "../../geometry/segment.ts";
import type { Path } from "../../geometry/path.ts";

/** What is asked of a half of the outline, laid on the side of rising y. */
interface Half {
  /** From the tail to the neck, the body to its left. */
  readonly outline: Path;
  /** Its stretches without corners, from the tail on. */
  readonly bent: readonly Path[];
}

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
export function cornersOf(treble: Half, bass: Half, sign: 1 | -1): BodyCorner[] {
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
  // A run that turns back upon itself leaves no wood for a mitre.
  return angleRad > 0 && angleRad < Math.PI - LEAST_TURN ? [{ id, name, at, along: [a, b], angleRad }] : [];
}
