import { boxOf, distanceTo, nearestOn, type Edge } from "./arc-edge.ts";
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

/** Cells along either side of the box round all edges, at most. */
const MOST_CELLS = 256;

/** Sorts the edges into square cells. */
export function edgeIndex(edges: readonly Edge[]): EdgeIndex {
  const boxes = edges.map(boxOf);
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const box of boxes) {
    minX = Math.min(minX, box[0]);
    minY = Math.min(minY, box[1]);
    maxX = Math.max(maxX, box[2]);
    maxY = Math.max(maxY, box[3]);
  }
  if (edges.length === 0) return { nearest: () => undefined };
  // About two cells for each edge.
  const extent = Math.max(maxX - minX, maxY - minY, 1e-9);
  const cell = Math.max(extent / MOST_CELLS, Math.sqrt(((maxX - minX) * (maxY - minY)) / (2 * edges.length)));
  const columns = Math.floor((maxX - minX) / cell) + 1;
  const rows = Math.floor((maxY - minY) / cell) + 1;
  const cells: number[][] = Array.from({ length: columns * rows }, () => []);
  for (const [n, box] of boxes.entries()) {
    const i1 = Math.floor((box[2] - minX) / cell);
    const j1 = Math.floor((box[3] - minY) / cell);
    for (let i = Math.floor((box[0] - minX) / cell); i <= i1; i++)
      for (let j = Math.floor((box[1] - minY) / cell); j <= j1; j++) cells[i * rows + j]!.push(n);
  }
  /** Number of the question by which an edge was last looked at, so that none is looked at twice. */
  const seen = new Float64Array(edges.length);
  let question = 0;
  return {
    nearest: ({ x, y }, within) => {
      question++;
      let best = within;
      let found: Edge | undefined;
      const look = (i: number, j: number): void => {
        for (const n of cells[i * rows + j]!) {
          if (seen[n] === question) continue;
          seen[n] = question;
          const box = boxes[n]!;
          if (box[0] - x >= best || x - box[2] >= best || box[1] - y >= best || y - box[3] >= best) continue;
          const away = distanceTo(edges[n]!, x, y);
          if (away < best) {
            best = away;
            found = edges[n]!;
          }
        }
      };
      const clamp = (value: number, count: number): number => Math.min(count - 1, Math.max(0, value));
      const ci = clamp(Math.floor((x - minX) / cell), columns);
      const cj = clamp(Math.floor((y - minY) / cell), rows);
      // Rings of cells outwards; from p in its cell what lies in ring k is k - 1 whole cells off and the way to the cell's nearest side.
      const [left, below] = [x - minX - ci * cell, y - minY - cj * cell];
      const toSide = Math.max(0, Math.min(left, cell - left, below, cell - below));
      for (let k = 0; k <= Math.max(columns, rows); k++) {
        if (k > 0 && (k - 1) * cell + toSide > best) break;
        const [i0, i1, j0, j1] = [ci - k, ci + k, cj - k, cj + k];
        for (let i = Math.max(0, i0); i <= Math.min(columns - 1, i1); i++) {
          if (j0 >= 0) look(i, j0);
          if (k > 0 && j1 < rows) look(i, j1);
        }
        for (let j = Math.max(0, j0 + 1); j <= Math.min(rows - 1, j1 - 1); j++) {
          if (i0 >= 0) look(i0, j);
          if (k > 0 && i1 < columns) look(i1, j);
        }
      }
      return found ? { edge: found, point: nearestOn(found, x, y), distance: best } : undefined;
    },
  };
}
