import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { inkOf, type Stroke } from "../../src/sheets/ink.ts";
import { turnStroke } from "../../src/sheets/turn.ts";
import { frameOf, RIM_ROOM, type FrameSize, type Grid } from "../../src/sheets/frames.ts";
import { fewestFrames, inkGridOf, shiftedGrid } from "../../src/sheets/tiling.ts";
import { bodyHalf, fingerboard, ring } from "./synthetic-templates.ts";
import { wobbly } from "./random-outlines.ts";

/**
 * The fewest frames over every shift in steps of `step`, by nothing but the definition: a frame is needed if a point of the ink lies in it
 * and in no frame needed before it. Points are taken every 0.5 mm, so a needed frame may be missed, never invented.
 */
function exhaustive(points: readonly { x: number; y: number }[], { width, height, overlap }: FrameSize, step: number): number {
  const [stepX, stepY] = [width - overlap, height - overlap];
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y);
  const [minX, maxX, minY, maxY] = [
    Math.min(...xs) - RIM_ROOM,
    Math.max(...xs) + RIM_ROOM,
    Math.min(...ys) - RIM_ROOM,
    Math.max(...ys) + RIM_ROOM,
  ];
  let fewest = Infinity;
  for (let left = minX - stepX; left <= minX; left += step) {
    for (let top = maxY; top <= maxY + stepY; top += step) {
      const columns = Math.max(1, Math.ceil((maxX - left - overlap) / stepX - 1e-9));
      const rows = Math.max(1, Math.ceil((top - minY - overlap) / stepY - 1e-9));
      const needed = new Set<number>();
      const doubtful: { left: boolean; upper: boolean; key: number }[] = [];
      for (const { x, y } of points) {
        const c = Math.min(columns - 1, Math.floor((x - left) / stepX));
        const r = Math.min(rows - 1, Math.floor((top - y) / stepY));
        const inLeft = c > 0 && x - left <= c * stepX + overlap;
        const inUpper = r > 0 && top - y <= r * stepY + overlap;
        if (inLeft || inUpper) doubtful.push({ left: inLeft, upper: inUpper, key: r * columns + c });
        else needed.add(r * columns + c);
      }
      for (const { left: inLeft, upper: inUpper, key } of doubtful.toSorted((a, b) => a.key - b.key)) {
        if (!(inLeft && needed.has(key - 1)) && !(inUpper && needed.has(key - columns))) needed.add(key);
      }
      // Sheets that meet at no edge cannot be joined: each further group takes at least one blank sheet to reach it.
      fewest = Math.min(fewest, needed.size + groups(needed, columns) - 1);
    }
  }
  return fewest;
}

/** How many groups the sheets fall into that hang together edge to edge. */
function groups(keys: ReadonlySet<number>, columns: number): number {
  const left = new Set(keys);
  let count = 0;
  for (const start of keys) {
    if (!left.delete(start)) continue;
    count++;
    const group = [start];
    for (const key of group) {
      for (const next of [
        key - columns,
        key + columns,
        ...(key % columns > 0 ? [key - 1] : []),
        ...(key % columns < columns - 1 ? [key + 1] : []),
      ]) {
        if (left.delete(next)) group.push(next);
      }
    }
  }
  return count;
}

/** Points on the strokes, at most 0.5 mm apart. */
function sampled(strokes: readonly Stroke[]): { x: number; y: number }[] {
  return strokes.flatMap(({ points, closed }) =>
    points.flatMap((b, k) => {
      const a = points[k === 0 ? (closed ? points.length - 1 : 0) : k - 1]!;
      const count = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / 0.5));
      return Array.from({ length: count }, (_, i) => ({
        x: a.x + ((b.x - a.x) * (i + 1)) / count,
        y: a.y + ((b.y - a.y) * (i + 1)) / count,
      }));
    }),
  );
}

const covers = (grid: Grid, size: FrameSize, points: readonly { x: number; y: number }[]): boolean => {
  const frames = grid.cells.map((cell) => frameOf(grid, size, cell));
  return points.every(({ x, y }) =>
    frames.some((f) => x >= f.x0 - 1e-6 && x <= f.x1 + 1e-6 && y >= f.y0 - 1e-6 && y <= f.y1 + 1e-6),
  );
};

const connected = ({ cells }: Grid): boolean => {
  const seen = new Set([0]);
  for (const i of seen) {
    for (const [j, b] of cells.entries()) {
      const a = cells[i]!;
      if (Math.abs(a.row - b.row) + Math.abs(a.column - b.column) === 1) seen.add(j);
    }
  }
  return seen.size === cells.length;
};

describe("the fewest sheets", () => {
  it(
    "is never more than an exhaustive search over shifts and quarter turns finds, on 50 random outlines",
    { timeout: 300_000 },
    () => {
      let fewerThanFull = 0;
      for (let seed = 1; seed <= 50; seed++) {
        const { points, size } = wobbly(seed);
        const strokes = inkOf(ring("shape", points));
        for (const turn of [0, 1] as const) {
          const turned = strokes.map((stroke) => turnStroke(stroke, turn));
          const grid = fewestFrames(inkGridOf(turned), size);
          const dots = sampled(turned);
          expect(covers(grid, size, dots), `outline ${seed}: every point is on a sheet`).toBe(true);
          expect(connected(grid)).toBe(true);
          expect(grid.cells.length, `outline ${seed}, turn ${turn}`).toBeLessThanOrEqual(exhaustive(dots, size, 8));
          if (grid.cells.length < grid.columns * grid.rows) fewerThanFull++;
        }
      }
      // The search has blank frames to find, or it would prove nothing.
      expect(fewerThanFull).toBeGreaterThan(20);
    },
  );

  it("shows every point of the ink wherever the grid is shifted", { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 51, max: 5000 }),
        fc.double({ min: -300, max: 300, noNaN: true }),
        fc.double({ min: -300, max: 300, noNaN: true }),
        (seed, x, y) => {
          const { points, size } = wobbly(seed);
          const strokes = inkOf(ring("shape", points));
          const ink = inkGridOf(strokes);
          const grid = shiftedGrid(
            ink,
            size,
            { columns: 1, rows: 1, left: ink.box.minX, top: ink.box.maxY, cells: [] },
            { x, y },
          );
          return covers(grid, size, sampled(strokes)) && connected(grid);
        },
      ),
      { numRuns: 60 },
    );
  });

  it("keeps a straight edge that lies exactly on a joint", () => {
    // Worked by hand: frames 100 wide without overlap, an outline 150 wide whose left edge is at -100; a joint at 0 runs along an inner edge.
    const strokes: Stroke[] = [
      {
        points: [
          { x: -100, y: 0 },
          { x: 0, y: 0 },
          { x: 0, y: 90 },
          { x: -100, y: 90 },
        ],
        closed: true,
      },
      {
        points: [
          { x: 50, y: 0 },
          { x: 50, y: 90 },
        ],
        closed: false,
      },
    ];
    const size = { width: 100, height: 100, overlap: 0 };
    const ink = inkGridOf(strokes);
    const grid = shiftedGrid(ink, size, { columns: 2, rows: 1, left: -100, top: 95, cells: [] }, { x: 0, y: 0 });
    expect(covers(grid, size, sampled(strokes))).toBe(true);
  });

  it("is what a hand count gives for a 470 mm board", () => {
    // 480 mm with its centre line. Two frames that overlap by 6 cover 2 w - 6, so w must reach 243; three cover 3 w - 12: 164.
    const ink = inkGridOf(inkOf(fingerboard()));
    const count = (width: number): number => fewestFrames(ink, { width, height: 170, overlap: 6 }).cells.length;
    expect([260, 243.4, 242.8, 164.4, 163.8].map(count)).toEqual([2, 2, 3, 3, 4]);
  });

  it("leaves a blank corner out: half a body on frames that its waist fits beside", () => {
    const ink = inkGridOf(inkOf(bodyHalf()));
    const grid = fewestFrames(ink, { width: 278, height: 172, overlap: 6 });
    expect(grid.columns * grid.rows).toBe(4);
    expect(grid.cells.length).toBe(3);
  });

  it("puts the joint of a board between two frets, not along one", () => {
    const template = fingerboard();
    const size = { width: 260, height: 170, overlap: 6 };
    const grid = fewestFrames(inkGridOf(inkOf(template)), size);
    const joint = grid.left + size.width - size.overlap;
    const frets = template.drawing.layers[0]!.shapes.filter(({ role }) => role === "slot").map(({ path }) => path.start.x);
    expect(Math.min(...frets.map((x) => Math.abs(x - joint)))).toBeGreaterThan(6);
  });
});
