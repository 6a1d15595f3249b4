/**
 * The only file that knows the clipping library. It counts in whole units on a grid of 10,000 a mm, laid about the middle of what it is
 * given, so that a shape far from the origin comes out as it does near it.
 */
import ClipperLib, { type IntPoint, type Path as IntRing, type PolyNode } from "clipper-lib";
import { GRID, GRID_PER_MM, OFFSET_ARC, SHORT_SIDE } from "./tolerance.ts";
import { ringArea, ringLength, ringsOf, ringWinding, type Polygon, type Region, type Ring } from "./region.ts";
import { distance, lerp, vec, type Vec } from "./vec.ts";

// Left alone, the library calls `alert`, which is absent outside a browser and no answer inside one.
(ClipperLib as unknown as { Error: (message: string) => void }).Error = (message) => {
  throw new Error(`clipping: ${message}`);
};

/** How overlapping rings add up: `nonzero` fills wherever they do not cancel, `evenodd` every second layer. */
export type FillRule = "nonzero" | "evenodd";

/** Joins at corners that an offset opens: rounded at the distance, or carried on to a point however sharp. */
export type Join = "round" | "miter";

/** The region that the rings cover, whatever their winding, order and overlaps. Rings under three points cover nothing. */
export const uniteRings = (rings: readonly Ring[], rule: FillRule = "nonzero"): Region =>
  clip(ClipperLib.ClipType.ctUnion, rings, [], rule);

/** What lies in any of the regions. */
export const union = (...regions: readonly Region[]): Region => uniteRings(regions.flatMap(ringsOf));

/** What lies in `a` and not in `b`. */
export const difference = (a: Region, b: Region): Region => clip(ClipperLib.ClipType.ctDifference, ringsOf(a), ringsOf(b));

/** What lies in both. */
export const intersection = (a: Region, b: Region): Region => clip(ClipperLib.ClipType.ctIntersection, ringsOf(a), ringsOf(b));

/** What lies in one and not in the other. */
export const exclusive = (a: Region, b: Region): Region => clip(ClipperLib.ClipType.ctXor, ringsOf(a), ringsOf(b));

/**
 * The region with its edge moved by `delta` mm: outwards where positive, inwards where negative (empty where nothing is left). Round
 * joins keep within OFFSET_ARC of the true arc; mitred ones are never cut short. Throws where a ring runs the wrong way round, since the
 * library would answer with junk: make regions by `uniteRings`.
 */
export function offsetRings(region: Region, delta: number, join: Join = "round"): Region {
  if (!Number.isFinite(delta)) throw new RangeError(`offset: the distance is ${delta}`);
  for (const { outer, holes } of region) {
    if (!(ringArea(outer) > 0) || !holes.every((hole) => ringArea(hole) < 0))
      throw new RangeError("offset: a ring runs the wrong way round");
  }
  if (delta === 0 || region.length === 0) return region;
  const rings = ringsOf(region).map(withoutShortSides);
  const grid = gridOver(rings);
  // The library rounds the number of steps of a round join down, which lets a step grow by half and its chord's error by 9/4.
  const engine = new ClipperLib.ClipperOffset(
    join === "miter" ? miterLimit(rings, delta) : 2,
    (OFFSET_ARC * GRID_PER_MM * 4) / 9,
  );
  const joinType = join === "miter" ? ClipperLib.JoinType.jtMiter : ClipperLib.JoinType.jtRound;
  engine.AddPaths(rings.map(grid.toInt), joinType, ClipperLib.EndType.etClosedPolygon);
  const tree = new ClipperLib.PolyTree();
  engine.Execute(tree, delta * GRID_PER_MM);
  return toRegion(tree, grid);
}

function withoutShortSides(ring: Ring): Ring {
  const kept: Vec[] = [];
  for (const p of ring) if (kept.length === 0 || distance(kept.at(-1)!, p) >= SHORT_SIDE) kept.push(p);
  while (kept.length > 1 && distance(kept[0]!, kept.at(-1)!) < SHORT_SIDE) kept.pop();
  return kept;
}

function clip(type: number, subject: readonly Ring[], other: readonly Ring[], rule: FillRule = "nonzero"): Region {
  const grid = gridOver([...subject, ...other]);
  const engine = new ClipperLib.Clipper();
  const some = engine.AddPaths(subject.map(grid.toInt), ClipperLib.PolyType.ptSubject, true);
  const others = engine.AddPaths(other.map(grid.toInt), ClipperLib.PolyType.ptClip, true);
  // Rings of no extent are not taken in, and with none at all the library calls it a failure.
  if (!some && !others) return [];
  const tree = new ClipperLib.PolyTree();
  const fill = rule === "nonzero" ? ClipperLib.PolyFillType.pftNonZero : ClipperLib.PolyFillType.pftEvenOdd;
  if (!engine.Execute(type, tree, fill, fill)) throw new Error("clipping: the library gave up");
  return toRegion(tree, grid);
}

interface Grid {
  readonly toInt: (ring: Ring) => IntRing;
  readonly toRing: (ring: IntRing) => Ring;
}

/** The grid about the middle of the rings. Refuses what is not a number: the library would silently give nothing back. */
function gridOver(rings: readonly Ring[]): Grid {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (const ring of rings)
    for (const { x, y } of ring) {
      if (!Number.isFinite(x) || !Number.isFinite(y)) throw new RangeError(`clipping: a point stands at (${x}, ${y})`);
      if (x < minX) minX = x;
      if (x > maxX) maxX = x;
      if (y < minY) minY = y;
      if (y > maxY) maxY = y;
    }
  const middle = maxX >= minX ? vec((minX + maxX) / 2, (minY + maxY) / 2) : vec(0, 0);
  return {
    toInt: (ring) => {
      const points: IntPoint[] = [];
      for (const p of ring)
        points.push({ X: Math.round((p.x - middle.x) * GRID_PER_MM), Y: Math.round((p.y - middle.y) * GRID_PER_MM) });
      return points;
    },
    toRing: (ring) => {
      const points: Vec[] = [];
      for (const p of ring) points.push(vec(middle.x + p.X * GRID, middle.y + p.Y * GRID));
      return points;
    },
  };
}

function toRegion(tree: PolyNode, grid: Grid): Region {
  const region: Polygon[] = [];
  const collect = (outers: readonly PolyNode[]): void => {
    for (const node of outers) {
      const loops = [node, ...node.Childs()]
        .flatMap((ring) => splitAtPinches(ring.Contour()))
        .map(grid.toRing)
        .filter(holdsArea);
      region.push(...nest(loops));
      for (const hole of node.Childs()) collect(hole.Childs());
    }
  };
  collect(tree.Childs());
  return region;
}

/** Loops of one piece of the library's tree, sorted into outers and the holes in them. */
function nest(loops: readonly Ring[]): Polygon[] {
  const outers = loops.filter((loop) => ringArea(loop) > 0).map((outer) => ({ outer, holes: [] as Ring[] }));
  for (const hole of loops) {
    if (ringArea(hole) > 0) continue;
    // Holes may touch their outer in a corner, so the middle of a side is asked.
    const middle = lerp(hole[0]!, hole[1]!, 0.5);
    const around = outers.length === 1 ? outers : outers.filter(({ outer }) => ringWinding(outer, middle) !== 0);
    around.toSorted((a, b) => ringArea(a.outer) - ringArea(b.outer))[0]?.holes.push(hole);
  }
  return outers;
}

/** A ring that meets itself in single points, cut there into loops that do not; the library hands out pieces that touch as one. */
function splitAtPinches(ring: IntRing): IntRing[] {
  const loops: IntRing[] = [];
  const open: IntPoint[] = [];
  const places = new Map<number, number>();
  for (const p of ring) {
    const at = places.get(keyOf(p));
    const first = at === undefined ? undefined : open[at];
    if (at !== undefined && first?.X === p.X && first.Y === p.Y) {
      const loop = open.splice(at);
      for (const q of loop) places.delete(keyOf(q));
      loops.push(loop);
    }
    places.set(keyOf(p), open.length);
    open.push(p);
  }
  loops.push(open);
  return loops.filter((loop) => loop.length > 2);
}

/** One number for a point, exact and its own on any outline within the library's fast range. */
const keyOf = ({ X, Y }: IntPoint): number => X * 0x8000000 + Y;

/** False for slivers no wider than a cell of the grid: they come from rounding, not from the shape. */
const holdsArea = (ring: Ring): boolean => ring.length > 2 && Math.abs(ringArea(ring)) > (ringLength(ring) / 2) * GRID;

/** The least limit at which no corner is squared off: below its need the library squares a mitred corner without a word. */
function miterLimit(rings: readonly Ring[], delta: number): number {
  let need = 2;
  for (const ring of rings)
    for (let i = 0; i < ring.length; i++) {
      const a = ring[(i + ring.length - 1) % ring.length]!;
      const b = ring[i]!;
      const c = ring[(i + 1) % ring.length]!;
      const ux = b.x - a.x;
      const uy = b.y - a.y;
      const vx = c.x - b.x;
      const vy = c.y - b.y;
      const sine = ux * vy - uy * vx;
      if (sine * delta <= 0) continue;
      // A mitre reaches 1 / cos(half the turn) times the distance.
      const half = Math.atan2(Math.abs(sine), ux * vx + uy * vy) / 2;
      need = Math.max(need, 1 / Math.cos(half));
    }
  return need * 1.001;
}
