import { cellsOf } from "./arc-cells.ts";
import { isNearer, type Edge } from "./arc-edge.ts";

/** Sorts edges into square cells and gives the test whether a point has no edge nearer than `d` mm. */
export function clearOf(edges: readonly Edge[], d: number): (x: number, y: number) => boolean {
  // No cell smaller than the question.
  const { minX, minY, cell, columns, rows, starts, items } = cellsOf(edges, d, d);
  return (x, y) => {
    const i = Math.floor((x - minX) / cell);
    const j = Math.floor((y - minY) / cell);
    if (!(i >= 0 && j >= 0 && i < columns && j < rows)) return true;
    const end = starts[i * rows + j + 1]!;
    for (let k = starts[i * rows + j]!; k < end; k++) if (isNearer(edges[items[k]!]!, x, y, d)) return false;
    return true;
  };
}
