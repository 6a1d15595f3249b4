import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { NECK_SHAPES, type NeckSection } from "../../src/lutherie/neck-section.ts";
import { channelAt, leastSafeDepth, leastWall, woodBetween, type ChannelRun } from "../../src/lutherie/neck-run.ts";
import { channelWalls } from "../../src/lutherie/neck-walls.ts";

const even = (halfWidth: number, depth: number, exponent: number, lean = 0): NeckSection => ({
  halfWidth,
  depth,
  lean,
  bassExponent: exponent,
  trebleExponent: exponent,
});
const level = (from: number, to: number, width: number, depth: number, middle = 0): ChannelRun => ({
  from,
  to,
  width,
  middleFrom: middle,
  middleTo: middle,
  depthFrom: depth,
  depthTo: depth,
});
const EVERYWHERE = { from: -100, to: 1000 };

/**
 * The least distance between the four long edges of a channel that lie in the wood and the neck's surface in space, by brute force: the
 * surface is laid out by height, |z - lean| = a (1 - (|y|/d)^p)^(1/p), and the distance of each of its points to each edge, a straight
 * piece in space, is taken by projection. Shares no code with the walls.
 */
function bruteForce(run: ChannelRun, sectionAt: (x: number) => NeckSection, from: number, to: number, step: number): number {
  const edges = [-0.5, 0.5].map((side) => ({
    a: [run.from, run.middleFrom + side * run.width, -run.depthFrom] as const,
    b: [run.to, run.middleTo + side * run.width, -run.depthTo] as const,
  }));
  let least = Infinity;
  for (let x = from; x <= to; x += step) {
    const { halfWidth, depth, lean, bassExponent, trebleExponent } = sectionAt(x);
    for (let i = 0; i <= 400; i++) {
      const share = Math.sin((Math.PI / 2) * (i / 400)) ** 2;
      for (const sign of [-1, 1]) {
        const p = sign < 0 ? bassExponent : trebleExponent;
        const z = lean + sign * (halfWidth - sign * lean) * (1 - share ** p) ** (1 / p);
        const point = [x, z, -depth * share] as const;
        for (const { a, b } of edges) {
          const along = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
          const off = [point[0] - a[0], point[1] - a[1], point[2] - a[2]] as const;
          const square = along[0] ** 2 + along[1] ** 2 + along[2] ** 2;
          const t = Math.min(1, Math.max(0, (off[0] * along[0] + off[1] * along[1] + off[2] * along[2]) / square));
          least = Math.min(least, Math.hypot(off[0] - t * along[0], off[1] - t * along[1], off[2] - t * along[2]));
        }
      }
    }
  }
  return least;
}

describe("wood behind a channel along the neck", { timeout: 120_000 }, () => {
  it("is the same all along a plain cylinder: 20 - sqrt(3.175² + 9.5²) = 9.98345", () => {
    const wall = leastWall(level(0, 300, 6.35, 9.5), () => even(20, 20, 2), "behind", EVERYWHERE)!;
    expect(wall.distance).toBeCloseTo(20 - Math.hypot(3.175, 9.5), 9);
    expect(wall.x).toBeGreaterThanOrEqual(0);
    expect(wall.x).toBeLessThanOrEqual(300);
  });

  it("in a cone is square to its surface at the narrow end, the way past the channel's end counted", () => {
    // A corner at the distance r from the axis lies (R(0) - r) cos(alpha) from a cone of radius R(x) = 20 + 0.05 x, tan(alpha) = 0.05.
    const wall = leastWall(level(0, 300, 6.35, 9.5), (x) => even(20 + 0.05 * x, 20 + 0.05 * x, 2), "behind", EVERYWHERE)!;
    expect(wall.distance).toBeCloseTo((20 - Math.hypot(3.175, 9.5)) * Math.cos(Math.atan(0.05)), 3);
  });

  it("over a flat flank is the distance to a plane: (4, -6) is 4.8 from the line of 20 and 15", () => {
    const wall = leastWall(level(0, 100, 8, 6), () => even(20, 15, 1), "behind", EVERYWHERE)!;
    expect(wall.distance).toBeCloseTo(4.8, 9);
  });

  it("agrees with brute force in space on tapered, leaning and bent necks", () => {
    const numbers = fc.record({
      half: fc.tuple(fc.double({ min: 17, max: 24, noNaN: true }), fc.double({ min: 22, max: 30, noNaN: true })),
      depth: fc.tuple(fc.double({ min: 14, max: 18, noNaN: true }), fc.double({ min: 14, max: 20, noNaN: true })),
      exponents: fc.tuple(fc.double({ min: 1.4, max: 3, noNaN: true }), fc.double({ min: 1.4, max: 3, noNaN: true })),
      lean: fc.double({ min: -3, max: 3, noNaN: true }),
      middle: fc.double({ min: -7, max: 7, noNaN: true }),
      dip: fc.double({ min: 0, max: 2, noNaN: true }),
    });
    fc.assert(
      fc.property(numbers, ({ half, depth, exponents, lean, middle, dip }) => {
        const sectionAt = (x: number): NeckSection => ({
          halfWidth: half[0] + ((half[1] - half[0]) * x) / 120,
          // A hollow of the back at x = 50, as behind a bend.
          depth: depth[0] + ((depth[1] - depth[0]) * x) / 120 - dip * Math.exp(-(((x - 50) / 15) ** 2)),
          lean,
          bassExponent: exponents[0],
          trebleExponent: exponents[1],
        });
        const run = level(20, 90, 5, 7, middle);
        const wall = leastWall(run, sectionAt, "behind", { from: 0, to: 120 }, [50])!;
        const outside = bruteForce(run, sectionAt, 5, 105, 0.5);
        expect(wall.distance).toBeLessThan(outside + 0.01);
        expect(wall.distance).toBeGreaterThan(outside - 0.03);
      }),
      { numRuns: 25 },
    );
  });

  it("of a channel whose floor slopes and that splays is right to a hundredth", () => {
    const run: ChannelRun = { from: 10, to: 110, width: 3.2, middleFrom: 7, middleTo: 10, depthFrom: 6.35, depthTo: 9.5 };
    const sectionAt = (x: number): NeckSection => even(21 + 0.02 * x, 15 + 0.01 * x, NECK_SHAPES.C);
    const wall = leastWall(run, sectionAt, "behind", EVERYWHERE)!;
    const outside = bruteForce(run, sectionAt, 0, 120, 0.5);
    expect(Math.abs(wall.distance - outside)).toBeLessThan(0.02);
  });

  it("is below 0 where the channel breaks through", () => {
    expect(leastWall(level(0, 100, 6.35, 21), () => even(20, 20, 2), "behind", EVERYWHERE)!.distance).toBeLessThan(-1);
  });

  it("is told only where the channel lies between the limits", () => {
    const run = level(0, 100, 6, 9);
    expect(leastWall(run, () => even(20, 20, 2), "beside", { from: 100, to: 200 })).toBeUndefined();
    expect(leastWall(run, () => even(20, 20, 2), "beside", { from: 50, to: 200 })!.x).toBeGreaterThanOrEqual(50);
    expect(() => leastWall(level(5, 5, 6, 9), () => even(20, 20, 2), "behind", EVERYWHERE)).toThrow(RangeError);
  });

  it("beside a channel is taken from its mouth", () => {
    // Half circle of 20: the upper corner at 12 lies 8 from the edge.
    expect(leastWall(level(0, 100, 4, 3, 10), () => even(20, 20, 2), "beside", EVERYWHERE)!.distance).toBeCloseTo(8, 6);
  });
});

describe("a channel at a station", () => {
  const run: ChannelRun = { from: 10, to: 110, width: 3, middleFrom: 8, middleTo: 10, depthFrom: 6, depthTo: 9 };

  it("lies between its ends and is held at them", () => {
    expect(channelAt(run, 60)).toEqual({ middle: 9, width: 3, depth: 7.5 });
    expect(channelAt(run, 0)).toEqual({ middle: 8, width: 3, depth: 6 });
    expect(channelAt(run, 500)).toEqual({ middle: 10, width: 3, depth: 9 });
  });
});

describe("wood between channels", () => {
  it("is the gap of their sides where they pass each other, least at an end", () => {
    const rod = level(-20, 340, 6.35, 9.5);
    expect(woodBetween(rod, level(10, 340, 3.2, 6.35, 9))!.distance).toBeCloseTo(9 - 3.175 - 1.6, 12);
    const splayed: ChannelRun = { ...level(10, 340, 3.2, 6.35), middleFrom: 7, middleTo: 12 };
    expect(woodBetween(rod, splayed)).toEqual({ distance: expect.closeTo(7 - 4.775, 12), x: 10 });
  });

  it("is less than nothing where they cross, and untold where they pass at different places", () => {
    const crossing: ChannelRun = { ...level(0, 100, 3, 6), middleFrom: -5, middleTo: 5 };
    expect(woodBetween(level(0, 100, 5, 9), crossing)).toEqual({ distance: -4, x: expect.closeTo(50, 12) });
    expect(woodBetween(level(0, 50, 5, 9), level(50, 100, 5, 9))).toBeUndefined();
  });
});

describe("the least safe depth", () => {
  it("leaves exactly what must stay behind the channel", () => {
    const channel = { middle: 0, width: 6.35, depth: 9.5 };
    const depth = leastSafeDepth(even(22, 15, 2), [channel], 3)!;
    expect(channelWalls(even(22, depth, 2), channel).behind.distance).toBeCloseTo(3, 3);
    expect(channelWalls(even(22, depth - 0.1, 2), channel).behind.distance).toBeLessThan(3);
  });

  it("under a flat flank solves the distance to a plane, (20 d - 3.175 d - 20 · 9.5)/sqrt(400 + d²) = 3", () => {
    const f = (d: number): number => (16.825 * d - 190) / Math.hypot(20, d) - 3;
    let [low, high] = [11.5, 40];
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (f(middle) < 0) low = middle;
      else high = middle;
    }
    expect(leastSafeDepth(even(20, 15, 1), [{ middle: 0, width: 6.35, depth: 9.5 }], 3)!).toBeCloseTo(high, 3);
  });

  it("is nothing without a channel, and cannot be had where the channel is too near to the side", () => {
    expect(leastSafeDepth(even(22, 15, 2), [], 3)).toBe(0);
    expect(leastSafeDepth(even(22, 15, 2), [{ middle: 20, width: 3, depth: 5 }], 3)).toBeUndefined();
  });
});
