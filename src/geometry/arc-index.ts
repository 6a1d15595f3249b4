import { boxOf, isNearer, type Edge } from "./arc-edge.ts";

/** Sorts edges into square cells and gives the test whether a point has no edge nearer than `d` mm. */
export function clearOf(edges: readonly Edge[], d: number): (x: number, y: number) => boolean {
  const boxes = edges.map(boxOf);
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const box of boxes) {
    minX = Math.min(minX, box[0] - d);
    minY = Math.min(minY, box[1] - d);
    maxX = Math.max(maxX, box[2] + d);
    maxY = Math.max(maxY, box[3] + d);
  }
  // About two cells for each edge, but none smaller than the question.
  const cell = Math.max(d, Math.sqrt(((maxX - minX) * (maxY - minY)) / (2 * edges.length)));
  const columns = Math.floor((maxX - minX) / cell) + 1;
  const rows = Math.floor((maxY - minY) / cell) + 1;
  const cells: Edge[][] = Array.from({ length: columns * rows }, () => []);
  for (const [n, edge] of edges.entries()) {
    const box = boxes[n]!;
    const i1 = Math.floor((box[2] + d - minX) / cell);
    const j1 = Math.floor((box[3] + d - minY) / cell);
    for (let i = Math.floor((box[0] - d - minX) / cell); i <= i1; i++)
      for (let j = Math.floor((box[1] - d - minY) / cell); j <= j1; j++) cells[i * rows + j]!.push(edge);
  }
  return (x, y) => {
    const i = Math.floor((x - minX) / cell);
    const j = Math.floor((y - minY) / cell);
    const here = i >= 0 && j >= 0 && i < columns && j < rows ? cells[i * rows + j]! : [];
    for (const edge of here) if (isNearer(edge, x, y, d)) return false;
    return true;
  };
}
