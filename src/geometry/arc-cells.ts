import { boxesOf, type Edge } from "./arc-edge.ts";

/** Edges sorted into square cells: the numbers of those in cell c stand in `items` from `starts[c]` up to `starts[c + 1]`. */
export interface EdgeCells {
  readonly minX: number;
  readonly minY: number;
  readonly cell: number;
  readonly columns: number;
  readonly rows: number;
  readonly starts: Int32Array;
  readonly items: Int32Array;
  /** Box of each edge: minX, minY, maxX, maxY. */
  readonly boxes: Float64Array;
}

/** The edges with room of `reach` mm round each, about two cells for each edge but none smaller than `least` mm. */
export function cellsOf(edges: readonly Edge[], reach: number, least: number): EdgeCells {
  const n = edges.length;
  const boxes = boxesOf(edges);
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let k = 0; k < 4 * n; k += 4) {
    minX = Math.min(minX, boxes[k]!);
    minY = Math.min(minY, boxes[k + 1]!);
    maxX = Math.max(maxX, boxes[k + 2]!);
    maxY = Math.max(maxY, boxes[k + 3]!);
  }
  if (n === 0) [minX, minY, maxX, maxY] = [0, 0, 0, 0];
  minX -= reach;
  minY -= reach;
  maxX += reach;
  maxY += reach;
  const [width, height] = [maxX - minX, maxY - minY];
  // On edges all along one line the area says nothing.
  const cell = Math.max(least, Math.sqrt((width * height) / (2 * n + 1)), Math.max(width, height) / (2 * n + 1), 1e-9);
  const columns = Math.floor(width / cell) + 1;
  const rows = Math.floor(height / cell) + 1;
  const starts = new Int32Array(columns * rows + 1);
  const eachCell = (k: number, tell: (c: number) => void): void => {
    const i1 = Math.floor((boxes[4 * k + 2]! + reach - minX) / cell);
    const j0 = Math.floor((boxes[4 * k + 1]! - reach - minY) / cell);
    const j1 = Math.floor((boxes[4 * k + 3]! + reach - minY) / cell);
    for (let i = Math.floor((boxes[4 * k]! - reach - minX) / cell); i <= i1; i++)
      for (let j = j0; j <= j1; j++) tell(i * rows + j);
  };
  for (let k = 0; k < n; k++) eachCell(k, (c) => starts[c + 1]!++);
  for (let c = 0; c < columns * rows; c++) starts[c + 1]! += starts[c]!;
  const items = new Int32Array(starts[columns * rows]!);
  const filled = starts.slice();
  for (let k = 0; k < n; k++) eachCell(k, (c) => (items[filled[c]!++] = k));
  return { minX, minY, cell, columns, rows, starts, items, boxes };
}
