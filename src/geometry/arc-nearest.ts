import { cellsOf } from "./arc-cells.ts";
import { distanceTo, nearestOn, type Edge } from "./arc-edge.ts";
import type { Vec } from "./vec.ts";

/** The nearest place on many edges. */
export interface NearestEdge {
  readonly edge: Edge;
  readonly point: Vec;
  readonly distance: number;
}

/** Finds the nearest of many sides and arcs without looking at all of them. */
export interface EdgeIndex {
  /** The nearest place to p if it is nearer than `within` mm. */
  readonly nearest: (p: Vec, within: number) => NearestEdge | undefined;
}

/** Sorts the edges into square cells. */
export function edgeIndex(edges: readonly Edge[]): EdgeIndex {
  const { minX, minY, cell, columns, rows, starts, items, boxes } = cellsOf(edges, 0, 0);
  if (edges.length === 0) return { nearest: () => undefined };
  /** Number of the question by which an edge was last looked at, so that none is looked at twice. */
  const seen = new Float64Array(edges.length);
  let question = 0;
  let [x, y, best, found] = [0, 0, 0, -1];

  /** Looks at column i from row j0 to row j1, as far as its cells come nearer than the best so far. */
  function lookAlong(i: number, j0: number, j1: number): void {
    const dx = Math.max(0, minX + i * cell - x, x - minX - (i + 1) * cell);
    if (dx >= best) return;
    const first = Math.max(j0, 0, Math.floor((y - best - minY) / cell));
    const last = Math.min(j1, rows - 1, Math.floor((y + best - minY) / cell));
    if (first > last) return;
    const end = starts[i * rows + last + 1]!;
    for (let k = starts[i * rows + first]!; k < end; k++) {
      const n = items[k]!;
      if (seen[n] === question) continue;
      seen[n] = question;
      const b = 4 * n;
      if (boxes[b]! - x >= best || x - boxes[b + 2]! >= best || boxes[b + 1]! - y >= best || y - boxes[b + 3]! >= best) continue;
      const away = distanceTo(edges[n]!, x, y);
      if (away < best) {
        best = away;
        found = n;
      }
    }
  }

  return {
    nearest: (p, within) => {
      question++;
      x = p.x;
      y = p.y;
      best = within;
      found = -1;
      const ci = Math.min(columns - 1, Math.max(0, Math.floor((x - minX) / cell)));
      const cj = Math.min(rows - 1, Math.max(0, Math.floor((y - minY) / cell)));
      // Rings of cells outwards; from p in its cell what lies in ring k is k - 1 whole cells off and the way to the cell's nearest side.
      const left = x - minX - ci * cell;
      const below = y - minY - cj * cell;
      const toSide = Math.max(0, Math.min(left, cell - left, below, cell - below));
      const most = Math.max(ci, columns - 1 - ci, cj, rows - 1 - cj);
      lookAlong(ci, cj, cj);
      for (let k = 1; k <= most && (k - 1) * cell + toSide <= best; k++) {
        if (ci - k >= 0) lookAlong(ci - k, cj - k, cj + k);
        if (ci + k < columns) lookAlong(ci + k, cj - k, cj + k);
        const i1 = Math.min(columns - 1, ci + k - 1);
        for (let i = Math.max(0, ci - k + 1); i <= i1; i++) {
          if (cj - k >= 0) lookAlong(i, cj - k, cj - k);
          if (cj + k < rows) lookAlong(i, cj + k, cj + k);
        }
      }
      if (found < 0) return undefined;
      const edge = edges[found]!;
      return { edge, point: nearestOn(edge, x, y), distance: best };
    },
  };
}
