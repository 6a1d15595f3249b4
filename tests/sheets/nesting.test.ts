import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import DistanceOp from "jsts/org/locationtech/jts/operation/distance/DistanceOp.js";
import { describe, expect, it } from "vitest";
import type { Vec } from "../../src/geometry/vec.ts";
import type { Stroke } from "../../src/sheets/ink.ts";
import { nest, type NestOptions, type Nested } from "../../src/sheets/nesting.ts";
import { turnStroke } from "../../src/sheets/turn.ts";
import { chance, star } from "./random-outlines.ts";

const factory = new GeometryFactory();
const polygonOf = (ring: readonly Vec[]) =>
  factory.createPolygon(factory.createLinearRing([...ring, ring[0]!].map(({ x, y }) => new Coordinate(x, y))));

const piece = (points: readonly Vec[]): Stroke[] => [{ points, closed: true }];
const rect = (w: number, h: number): Stroke[] =>
  piece([
    { x: 0, y: 0 },
    { x: w, y: 0 },
    { x: w, y: h },
    { x: 0, y: h },
  ]);

const placedRing = (strokes: readonly Stroke[], { at }: Nested): Vec[] =>
  turnStroke(strokes[0]!, at.turn).points.map(({ x, y }) => ({ x: x + at.x, y: y + at.y }));

const LETTER: NestOptions = { width: 195, height: 230, gap: 6, taken: [{ x0: 0, y0: 0, x1: 13, y1: 107 }] };

/** Two hundred outlines of the sizes of bridges, plates, gauges and inlays. */
function outlines(seed: number): Stroke[][] {
  const next = chance(seed);
  return Array.from({ length: 200 }, () =>
    piece(star(next, 8 + 60 * next() ** 2, 0.3 + 1.2 * next(), 5 + Math.floor(next() * 12))),
  );
}

describe("small templates sharing sheets", { timeout: 120_000 }, () => {
  it("two hundred random outlines never overlap and keep their gap, checked by JTS", () => {
    const pieces = outlines(1);
    const placed = nest(pieces, LETTER);
    expect(placed.map(({ piece: p }) => p).toSorted((a, b) => a - b)).toEqual(pieces.map((_, i) => i));
    const taken = polygonOf([
      { x: 0, y: 0 },
      { x: 13, y: 0 },
      { x: 13, y: 107 },
      { x: 0, y: 107 },
    ]);
    let closest = Infinity;
    for (const sheet of new Set(placed.map((p) => p.sheet))) {
      const rings = placed.filter((p) => p.sheet === sheet).map((p) => placedRing(pieces[p.piece]!, p));
      const shapes = rings.map(polygonOf);
      for (const { x, y } of rings.flat()) {
        expect(
          x >= LETTER.gap - 1e-9 &&
            y >= LETTER.gap - 1e-9 &&
            x <= LETTER.width - LETTER.gap + 1e-9 &&
            y <= LETTER.height - LETTER.gap + 1e-9,
        ).toBe(true);
      }
      for (const [i, a] of shapes.entries()) {
        expect(DistanceOp.distance(a, taken), "clear of what is taken").toBeGreaterThan(LETTER.gap - 1e-9);
        for (const b of shapes.slice(i + 1)) {
          const apart = DistanceOp.distance(a, b);
          expect(apart).toBeGreaterThan(LETTER.gap - 1e-9);
          closest = Math.min(closest, apart);
        }
      }
    }
    // They are laid close, too: the gap is kept, not some multiple of it.
    expect(closest).toBeLessThan(LETTER.gap + 2);
  });

  it("takes far fewer sheets than one a piece, and no more than a fifth over what area alone would need", () => {
    const pieces = outlines(2);
    const placed = nest(pieces, LETTER);
    const sheets = Math.max(...placed.map((p) => p.sheet)) + 1;
    const area = pieces.reduce((sum, [stroke]) => sum + polygonOf(stroke!.points).getArea(), 0);
    expect(200 / sheets).toBeGreaterThan(12);
    expect(area / (sheets * LETTER.width * LETTER.height)).toBeGreaterThan(0.2);
  });

  it("lays the grain of all that have one the same way on every sheet, and turns the others as it likes", () => {
    const pieces = outlines(4).slice(0, 80);
    const grains = pieces.map((_, i) => ([undefined, "along-x", "along-y"] as const)[i % 3]);
    const placed = nest(pieces, { ...LETTER, grains });
    expect(placed).toHaveLength(80);
    // By the definition: turned a quarter, what ran along x runs along y.
    const lies = placed.flatMap(({ piece: i, at }) => (grains[i] ? [(grains[i] === "along-y") !== (at.turn % 2 === 1)] : []));
    expect(lies.length).toBeGreaterThan(50);
    expect(new Set(lies).size).toBe(1);
    const free = new Set(placed.filter(({ piece: i }) => grains[i] === undefined).map(({ at }) => at.turn % 2));
    expect(free.size).toBe(2);
  });

  it("does not turn a piece against its grain to make it fit beside another", () => {
    const tray = { width: 110, height: 70, gap: 2, taken: [] };
    const both = [rect(100, 20), rect(40, 60)];
    const grains = ["along-x", "along-x"] as const;
    expect(new Set(nest(both, tray).map(({ sheet }) => sheet)).size).toBe(1);
    expect(new Set(nest(both, { ...tray, grains }).map(({ sheet }) => sheet)).size).toBe(2);
  });

  it("turns a piece where that alone makes it fit", () => {
    const [only] = nest([rect(200, 40)], { width: 60, height: 220, gap: 2, taken: [] });
    expect(only!.at.turn % 2).toBe(1);
  });

  it("lays a piece into the bay of another: an L and a square that fills it share a sheet that no two boxes could", () => {
    // The L fills 100 by 100 but for 60 by 60; the sheet is 108 square. Two boxes of 100 and 50 could not both lie on it.
    const l = piece([
      { x: 0, y: 0 },
      { x: 100, y: 0 },
      { x: 100, y: 40 },
      { x: 40, y: 40 },
      { x: 40, y: 100 },
      { x: 0, y: 100 },
    ]);
    const placed = nest([l, rect(50, 50)], { width: 108, height: 108, gap: 3, taken: [] });
    expect(placed.map(({ sheet }) => sheet)).toEqual([0, 0]);
  });

  it("leaves out what fits on no sheet, and lays the rest", () => {
    const placed = nest([rect(50, 50), rect(300, 10), rect(20, 20)], LETTER);
    expect(placed.map((p) => p.piece).toSorted()).toEqual([0, 2]);
  });

  it("gives the same places every time", () => {
    const few = outlines(3).slice(0, 30);
    expect(nest(few, LETTER)).toEqual(nest(few, LETTER));
  });
});
