/**
 * How deep a point lies in a piece of wood: the distance to its edge or to the edge of a hole in it, above 0 inside and below 0 outside. Exact
 * for straight sides. The plane is cut into squares; a square remembers the few sides that can be nearest to a point in it.
 */
import { ringsOf, type Region } from "../geometry/region.ts";

export interface DepthField {
  /** The depth of (x, y), mm; beyond the wood's box at most minus the distance to the box. */
  readonly depthAt: (x: number, y: number) => number;
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Squares along the longer side of the wood's box, and squares added round it. */
const SQUARES = 64;
const ROUND = 4;

/** @param wood polygons as clipper.ts gives them: outers counter-clockwise, holes clockwise; at least one */
export function depthField(wood: Region): DepthField {
  const sides = sidesOf(wood);
  const { ax, ay, ux, uy, length, count } = sides;
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < count; i++) {
    minX = Math.min(minX, ax[i]!);
    maxX = Math.max(maxX, ax[i]!);
    minY = Math.min(minY, ay[i]!);
    maxY = Math.max(maxY, ay[i]!);
  }
  if (!(maxX > minX && maxY > minY)) throw new RangeError("depthField: the wood holds no area");
  const size = Math.max(maxX - minX, maxY - minY) / SQUARES;
  const x0 = minX - ROUND * size;
  const y0 = minY - ROUND * size;
  const columns = Math.ceil((maxX - minX) / size) + 2 * ROUND;
  const rows = Math.ceil((maxY - minY) / size) + 2 * ROUND;
  const near = Array.from<Int32Array | undefined>({ length: columns * rows });
  const halfDiagonal = size * Math.SQRT1_2;

  function squareAway(i: number, x: number, y: number): number {
    const dx = x - ax[i]!;
    const dy = y - ay[i]!;
    const t = Math.min(length[i]!, Math.max(0, dx * ux[i]! + dy * uy[i]!));
    const ex = dx - t * ux[i]!;
    const ey = dy - t * uy[i]!;
    return ex * ex + ey * ey;
  }

  function nearestTo(column: number, row: number): Int32Array {
    const cx = x0 + (column + 0.5) * size;
    const cy = y0 + (row + 0.5) * size;
    const squares = new Float64Array(count);
    let least = Infinity;
    for (let i = 0; i < count; i++) {
      squares[i] = squareAway(i, cx, cy);
      least = Math.min(least, squares[i]!);
    }
    // No point of the square is farther than this from its nearest side, nor nearer to a side than its middle less half a diagonal.
    const reach = Math.sqrt(least) + 2 * halfDiagonal + 1e-9;
    const kept: number[] = [];
    for (let i = 0; i < count; i++) if (squares[i]! <= reach * reach) kept.push(i);
    return Int32Array.from(kept);
  }

  function depthAt(x: number, y: number): number {
    const column = Math.floor((x - x0) / size);
    const row = Math.floor((y - y0) / size);
    if (!(column >= 0 && row >= 0 && column < columns && row < rows)) {
      return -Math.hypot(Math.max(0, minX - x, x - maxX), Math.max(0, minY - y, y - maxY));
    }
    const list = (near[row * columns + column] ??= nearestTo(column, row));
    let least = Infinity;
    let best = 0;
    for (let k = 0; k < list.length; k++) {
      const i = list[k]!;
      const square = squareAway(i, x, y);
      if (square < least) {
        least = square;
        best = i;
      }
    }
    return sides.isLeftOf(best, x, y) ? Math.sqrt(least) : -Math.sqrt(least);
  }

  return { depthAt, minX, minY, maxX, maxY };
}

interface Sides {
  readonly count: number;
  readonly ax: Float64Array;
  readonly ay: Float64Array;
  readonly ux: Float64Array;
  readonly uy: Float64Array;
  readonly length: Float64Array;
  /** Whether a point whose nearest side is `i` lies in the wood. */
  readonly isLeftOf: (i: number, x: number, y: number) => boolean;
}

function sidesOf(wood: Region): Sides {
  const rings = ringsOf(wood).map((ring) => ring.filter((p, i) => p.x !== ring.at(i - 1)!.x || p.y !== ring.at(i - 1)!.y));
  const count = rings.reduce((sum, ring) => sum + ring.length, 0);
  const [ax, ay, ux, uy, length] = [0, 0, 0, 0, 0].map(() => new Float64Array(count)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const [before, after] = [new Int32Array(count), new Int32Array(count)];
  let at = 0;
  for (const ring of rings) {
    const first = at;
    for (const [k, a] of ring.entries()) {
      const b = ring[(k + 1) % ring.length]!;
      const long = Math.hypot(b.x - a.x, b.y - a.y);
      ax[at] = a.x;
      ay[at] = a.y;
      ux[at] = (b.x - a.x) / long;
      uy[at] = (b.y - a.y) / long;
      length[at] = long;
      before[at] = first + ((k + ring.length - 1) % ring.length);
      after[at] = first + ((k + 1) % ring.length);
      at++;
    }
  }
  function isLeftOf(i: number, x: number, y: number): boolean {
    const dx = x - ax[i]!;
    const dy = y - ay[i]!;
    const t = dx * ux[i]! + dy * uy[i]!;
    if (t > 0 && t < length[i]!) return ux[i]! * dy - uy[i]! * dx >= 0;
    // At a corner the mean of both sides' normals tells inside from outside.
    const [j, k] = t <= 0 ? [before[i]!, i] : [i, after[i]!];
    const nx = -uy[j]! - uy[k]!;
    const ny = ux[j]! + ux[k]!;
    return (x - ax[k]!) * nx + (y - ay[k]!) * ny >= 0;
  }
  return { count, ax, ay, ux, uy, length, isLeftOf };
}
