/** Whether a piece lies in a piece of wood, and how far from its edge: exact for straight sides. */
import { isInRegion, ringsOf, ringWinding, type Region, type Ring } from "../geometry/region.ts";
import { transformPoint, type Affine } from "../geometry/transform.ts";
import { distanceToSegment, lerp, vec, type Vec } from "../geometry/vec.ts";
import { depthField, type DepthField } from "./offcut-distance.ts";

/** Where a piece is laid: turned over first if `flipped` (its y turned round), then turned about its own origin, then moved. */
export interface Pose {
  readonly x: number;
  readonly y: number;
  /** Radians, counter-clockwise. */
  readonly turn: number;
  readonly flipped: boolean;
}

export function poseMap({ x, y, turn, flipped }: Pose): Affine {
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  const k = flipped ? -1 : 1;
  return { a: c, b: s, c: -s * k, d: c * k, e: x, f: y };
}

/** The region laid at a pose, its rings running the right way round. */
export function laidAt(region: Region, pose: Pose): Region {
  const map = poseMap(pose);
  const carried = (ring: Ring): Ring => {
    const points = ring.map((p) => transformPoint(map, p));
    return pose.flipped ? points.toReversed() : points;
  };
  return region.map(({ outer, holes }) => ({ outer: carried(outer), holes: holes.map(carried) }));
}

/** How a piece lies in its wood. */
export interface Lie {
  /**
   * Inside: the least distance between its edge and the wood's, at least 0. Otherwise below 0: how far it reaches out of the wood, or into
   * a hole, at the sides' corners and points every tenth of a mm or hundredth of a side between them.
   */
  readonly spare: number;
  /** Where on the piece's edge that is. */
  readonly at: Vec;
}

/** How a piece lies in a wood; both of polygons as clipper.ts gives them, neither empty. */
export function lieOf(wood: Region, piece: Region, field: DepthField = depthField(wood)): Lie {
  const inside = containedSpare(wood, piece);
  return inside ?? farthestOut(wood, piece, field);
}

/** The spare margin of a piece that lies wholly in the wood; undefined where it does not. */
export function containedSpare(wood: Region, piece: Region): Lie | undefined {
  const woodRings = ringsOf(wood);
  let best: Lie | undefined;
  for (const { outer } of piece) {
    if (!isInRegion(wood, outer[0]!)) return undefined;
    // A knot wholly within the piece crosses no edge.
    for (const ring of woodRings) if (ringWinding(outer, ring[0]!) !== 0) return undefined;
    for (const ring of woodRings) {
      const near = leastBetween(outer, ring);
      if (near === undefined) return undefined;
      if (best === undefined || near.spare < best.spare) best = near;
    }
  }
  return best;
}

/** The least distance between the edges of two rings; undefined where they touch or cross. */
function leastBetween(ours: Ring, theirs: Ring): Lie | undefined {
  let least = Infinity;
  let at = ours[0]!;
  for (let i = 0; i < ours.length; i++) {
    const a = ours[i]!;
    const b = ours[(i + 1) % ours.length]!;
    const [x0, x1] = a.x < b.x ? [a.x, b.x] : [b.x, a.x];
    const [y0, y1] = a.y < b.y ? [a.y, b.y] : [b.y, a.y];
    let c = theirs.at(-1)!;
    for (const d of theirs) {
      const away = Math.max(x0 - Math.max(c.x, d.x), Math.min(c.x, d.x) - x1, y0 - Math.max(c.y, d.y), Math.min(c.y, d.y) - y1);
      if (away < least) {
        if (away <= 0 && crosses(a, b, c, d)) return undefined;
        for (const [p, distance] of [
          [a, distanceToSegment(a, c, d)],
          [b, distanceToSegment(b, c, d)],
          [foot(c, a, b), distanceToSegment(c, a, b)],
          [foot(d, a, b), distanceToSegment(d, a, b)],
        ] as const) {
          if (distance < least) {
            least = distance;
            at = p;
          }
        }
      }
      c = d;
    }
  }
  return least > 0 ? { spare: least, at } : undefined;
}

const side = (a: Vec, b: Vec, p: Vec): number => (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);

/** Whether the pieces ab and cd share a point; one that only touches counts. */
function crosses(a: Vec, b: Vec, c: Vec, d: Vec): boolean {
  return side(a, b, c) * side(a, b, d) <= 0 && side(c, d, a) * side(c, d, b) <= 0;
}

function foot(p: Vec, a: Vec, b: Vec): Vec {
  const square = (b.x - a.x) ** 2 + (b.y - a.y) ** 2;
  const t = square > 0 ? ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / square : 0;
  return lerp(a, b, Math.min(1, Math.max(0, t)));
}

function farthestOut(wood: Region, piece: Region, { depthAt }: DepthField): Lie {
  let spare = 0;
  let at = piece[0]!.outer[0]!;
  const look = (p: Vec, depth: number): void => {
    if (depth < spare) {
      spare = depth;
      at = p;
    }
  };
  for (const { outer } of piece) {
    for (let i = 0; i < outer.length; i++) {
      const a = outer[i]!;
      const b = outer[(i + 1) % outer.length]!;
      const steps = Math.min(100, Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / 0.1)));
      for (let k = 0; k < steps; k++) {
        const p = lerp(a, b, k / steps);
        look(p, depthAt(p.x, p.y));
      }
    }
    const inPiece = depthField([{ outer, holes: [] }]);
    for (const ring of ringsOf(wood)) {
      for (const p of ring) look(vec(p.x, p.y), -inPiece.depthAt(p.x, p.y));
    }
  }
  return { spare, at };
}
