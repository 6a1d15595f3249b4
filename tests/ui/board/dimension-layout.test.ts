import * as fc from "fast-check";
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import DistanceOp from "jsts/org/locationtech/jts/operation/distance/DistanceOp.js";
import { describe, expect, it } from "vitest";
import type { Dimension } from "../../../src/drawing/drawing.ts";
import { vec } from "../../../src/geometry/vec.ts";
import { layOut, type Measure, type Placed } from "../../../src/ui/board/dimension-layout.ts";
import { cornersOf, type Room } from "../../../src/ui/board/label-box.ts";
import type { View } from "../../../src/ui/board/viewport.ts";

const view: View = { camera: { centre: vec(100, 0), pxPerMm: 3 }, width: 900, height: 600 };
const room: Room = { left: 28, top: 28, right: 896, bottom: 548 };
const measure: Measure = (d) => ({ text: d.id, width: 40 + (d.value % 120), height: d.edits === undefined ? 18 : 24 });

const base: Dimension = {
  id: "a",
  from: vec(0, 0),
  to: vec(100, 0),
  along: "x",
  offset: 12,
  value: 60,
  quantity: "length",
  rank: 1,
};
const one = (change: Partial<Dimension>): Placed => {
  const [placed] = layOut([{ ...base, ...change }], view, room, measure);
  if (!placed) throw new Error("left out");
  return placed;
};

const point = fc.record({
  x: fc.double({ min: -80, max: 280, noNaN: true }),
  y: fc.double({ min: -120, max: 120, noNaN: true }),
});
const dimensions = fc
  .array(
    fc.record({
      from: point,
      to: point,
      along: fc.constantFrom("x" as const, "y" as const, "straight" as const),
      offset: fc.oneof(fc.constant(0), fc.double({ min: -40, max: 40, noNaN: true })),
      value: fc.double({ min: 0, max: 500, noNaN: true }),
      rank: fc.constantFrom(1 as const, 2 as const, 3 as const),
      field: fc.boolean(),
    }),
    { maxLength: 25 },
  )
  .map((list) =>
    list.map(({ field, ...rest }, i): Dimension => ({
      ...rest,
      id: `d${i}`,
      quantity: "length",
      ...(field ? { edits: `x${i}` } : {}),
    })),
  );

/** The JTS Topology Suite (jsts), which knows nothing of our boxes, tells how far apart they are. */
const factory = new GeometryFactory();
const polygon = (placed: Pick<Placed, "box">) => {
  const ring = cornersOf(placed.box);
  return factory.createPolygon(factory.createLinearRing([...ring, ring[0]!].map((p) => new Coordinate(p.x, p.y))));
};
const lineOf = (placed: Placed) => factory.createLineString(placed.line.map((p) => new Coordinate(p.x, p.y)));
const apart = (a: unknown, b: unknown): number =>
  (DistanceOp as unknown as { distance(a: unknown, b: unknown): number }).distance(a, b);

describe("the places of dimensions", () => {
  it("never lets two texts meet, nor a text the dimension line of another", () => {
    fc.assert(
      fc.property(dimensions, (list) => {
        const placed = layOut(list, view, room, measure);
        placed.forEach((a, i) => {
          placed.forEach((b, j) => {
            if (i < j) expect(apart(polygon(a), polygon(b))).toBeGreaterThan(0);
            if (i !== j) expect(apart(polygon(a), lineOf(b))).toBeGreaterThan(0);
          });
        });
      }),
      { numRuns: 150 },
    );
  });

  it("never lets a text meet the sign or the words of a stop", () => {
    const stop = fc.record({
      centre: fc.record({ x: fc.double({ min: 0, max: 900, noNaN: true }), y: fc.double({ min: 0, max: 600, noNaN: true }) }),
      width: fc.double({ min: 5, max: 400, noNaN: true }),
      height: fc.double({ min: 5, max: 40, noNaN: true }),
      angle: fc.double({ min: -2, max: 2, noNaN: true }),
    });
    fc.assert(
      fc.property(dimensions, fc.array(stop, { maxLength: 4 }), (list, stops) => {
        for (const placed of layOut(list, view, room, measure, { stops, words: [] }))
          for (const box of stops) expect(apart(polygon(placed), polygon({ box }))).toBeGreaterThan(0);
      }),
      { numRuns: 150 },
    );
  });

  it("leads its lines round the words of a stop where it can", () => {
    // One dimension of 100 mm at 3 px a mm, its line 36 px over the points at y = 300: words lie on that line beside its text.
    const { line } = one({});
    const words = { centre: { x: line[0].x + 40, y: line[0].y }, width: 60, height: 12, angle: 0 };
    const [placed] = layOut([base], view, room, measure, { stops: [words], words: [] });
    expect(Math.abs(placed!.line[0].y - line[0].y)).toBeGreaterThan(6);
  });

  it("stands beside other words rather than over them, and over them rather than nowhere", () => {
    const { box } = one({});
    const fret = { centre: box.centre, width: 14, height: 9, angle: 0 };
    const [beside] = layOut([base], view, room, measure, { stops: [], words: [fret] });
    expect(apart(polygon(beside!), polygon({ box: fret }))).toBeGreaterThan(0);
    const everywhere = { centre: { x: 450, y: 300 }, width: 900, height: 600, angle: 0 };
    expect(layOut([base], view, room, measure, { stops: [], words: [everywhere] })).toHaveLength(1);
  });

  it("sets a text beyond the end of a line that runs over the drawing, and in it where there is no room beyond", () => {
    const upright = { to: vec(0, 60), along: "y", offset: -12, beyond: true } as const;
    // 60 mm at 3 px are 180 px of line; a text of 100 px stands wholly above or below.
    const { box, feet } = one(upright);
    const ends = feet.map(({ y }) => y).toSorted((a, b) => a - b);
    expect(box.centre.y + 50 <= ends[0]! || box.centre.y - 50 >= ends[1]!).toBe(true);
    const low = { ...room, top: ends[0]! - 20, bottom: ends[1]! + 20 };
    const [within] = layOut([{ ...base, ...upright }], view, low, measure);
    expect(within!.box.centre.y).toBeCloseTo((ends[0]! + ends[1]!) / 2, 6);
  });

  it("never lets a text leave the room", () => {
    fc.assert(
      fc.property(dimensions, (list) => {
        for (const placed of layOut(list, view, room, measure)) {
          for (const { x, y } of cornersOf(placed.box)) {
            expect(x).toBeGreaterThanOrEqual(room.left);
            expect(x).toBeLessThanOrEqual(room.right);
            expect(y).toBeGreaterThanOrEqual(room.top);
            expect(y).toBeLessThanOrEqual(room.bottom);
          }
        }
      }),
    );
  });

  it("never gives up a dimension for one of a lower rank", () => {
    fc.assert(
      fc.property(dimensions, (list) => {
        const high = layOut(
          list.filter((d) => d.rank === 1),
          view,
          room,
          measure,
        );
        const all = layOut(list, view, room, measure).filter((p) => p.dimension.rank === 1);
        expect(all.map((p) => [p.dimension.id, p.box])).toEqual(high.map((p) => [p.dimension.id, p.box]));
      }),
    );
  });

  it("turns every text so that it reads from the bottom or from the right (ISO 129-1, from memory)", () => {
    fc.assert(
      fc.property(dimensions, (list) => {
        for (const { box } of layOut(list, view, room, measure)) {
          expect(box.angle).toBeGreaterThanOrEqual(-Math.PI / 2 - Math.PI / 18 - 1e-6);
          expect(box.angle).toBeLessThan(Math.PI / 2);
        }
      }),
    );
    expect(one({ to: vec(0, 60), along: "y" }).box.angle).toBeCloseTo(-Math.PI / 2, 9);
    expect(one({ from: vec(0, 60), to: vec(0, 0), along: "y" }).box.angle).toBeCloseTo(-Math.PI / 2, 9);
    expect(one({ from: vec(100, 0), to: vec(0, 0) }).box.angle).toBeCloseTo(0, 9);
  });

  it("reads from the right where it leans a little off upright, to either side", () => {
    for (const lean of [-2, 2]) {
      const { angle } = one({ from: vec(0, -30), to: vec(lean, 30), along: "straight" }).box;
      expect(angle).toBeCloseTo(-Math.PI / 2 + Math.atan(lean / 60), 9);
    }
  });

  it("stands to the left of the direction from -> to where the offset is positive, on the board's px", () => {
    // 12 mm at 3 px a mm: 36 px above the points, which lie at y = 300; x from 450 - 300 to 450.
    const { feet } = one({});
    expect(feet).toEqual([
      { x: 150, y: 264 },
      { x: 450, y: 264 },
    ]);
    expect(one({ offset: -12 }).feet[0].y).toBe(336);
    // Upward, the left is at smaller x: 150 - 36.
    expect(one({ to: vec(0, 60), along: "y" }).feet.map((p) => p.x)).toEqual([114, 114]);
  });

  it("stands off the outer of both points, so that both extension lines run outwards", () => {
    const { feet, extensions } = one({ to: vec(100, 20) });
    // The second point lies at y = 300 - 60; 36 px above it is 204.
    expect(feet.map((p) => p.y)).toEqual([204, 204]);
    for (const [a, b] of extensions) expect(b.y).toBeLessThan(a.y);
    expect(extensions.map(([a]) => a.y)).toEqual([297, 237]);
  });

  it("breaks the line for a text that has room in it, and puts a longer one beside it", () => {
    expect(one({}).box.centre).toEqual({ x: 300, y: 264 });
    const short = one({ to: vec(20, 0) });
    expect(short.box.centre.x).toBeCloseTo(180, 9);
    expect(short.box.centre.y).toBeLessThan(264 - short.box.height / 2);
  });

  it("points its arrows inwards from outside where there is no room between", () => {
    expect(one({}).arrows).toBe("inside");
    expect(one({ to: vec(3, 0) }).arrows).toBe("outside");
  });

  it("staggers dimensions that ask for the same line, the shorter one nearer", () => {
    const placed = layOut([{ ...base, id: "long", to: vec(160, 0) }, base], view, room, measure);
    const level = (id: string): number => placed.find((p) => p.dimension.id === id)!.feet[0].y;
    expect(level("a")).toBe(264);
    expect(level("long")).toBeLessThan(264 - 18);
  });

  it("keeps a text in sight while one end of its dimension is out of it", () => {
    const near = layOut([{ ...base, from: vec(-2000, 0), to: vec(100, 0) }], view, room, measure)[0]!;
    expect(near.box.centre.x).toBeGreaterThan(room.left);
    expect(near.box.centre.x).toBeLessThan(450);
  });

  it("leaves out what has nothing to measure, and what is out of sight", () => {
    expect(layOut([{ ...base, to: base.from }], view, room, measure)).toEqual([]);
    expect(layOut([{ ...base, from: vec(5000, 0), to: vec(5100, 0) }], view, room, measure)).toEqual([]);
  });
});
