import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import IndexedPointInAreaLocator from "jsts/org/locationtech/jts/algorithm/locate/IndexedPointInAreaLocator.js";
import RelateOp from "jsts/org/locationtech/jts/operation/relate/RelateOp.js";
import DistanceOp from "jsts/org/locationtech/jts/operation/distance/DistanceOp.js";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { difference, uniteRings } from "../../src/geometry/clipper.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { circle, rectangle } from "../../src/geometry/path.ts";
import type { Region } from "../../src/geometry/region.ts";
import { vec } from "../../src/geometry/vec.ts";
import { depthField } from "../../src/lutherie/offcut-distance.ts";
import { laidAt, lieOf, type Pose } from "../../src/lutherie/offcut-fit.ts";
import { findPlace, type Wanted } from "../../src/lutherie/offcut-search.ts";
import { laySequence } from "../../src/lutherie/offcut-sequence.ts";
import { jtsOffset, toJts, type Jts } from "../geometry/jts.ts";
import { seeded } from "../lettering/seeded.ts";

const box = (x0: number, y0: number, x1: number, y1: number): Region => uniteRings([flatten(rectangle(x0, y0, x1, y1))]);
const knot = (x: number, y: number, radius: number): Region => uniteRings([flatten(circle(vec(x, y), radius), 0.01)]);
const ALONG = [{ from: 0, to: 0 }];

/** JTS: whether the second lies wholly within the first. */
const jtsContains = (a: Jts, b: Jts): boolean => (RelateOp as unknown as { contains(a: Jts, b: Jts): boolean }).contains(a, b);

describe("the depth of a point in wood", () => {
  it("is the distance to the edge that JTS finds, below 0 outside of it and in knots", () => {
    const random = seeded(11);
    const wood = difference(uniteRings([[vec(0, 0), vec(200, -10), vec(230, 60), vec(120, 45), vec(20, 90)]]), knot(90, 30, 12));
    const { depthAt } = depthField(wood);
    const edge = toJts(wood).getBoundary();
    const factory = (edge as unknown as { getFactory(): { createPoint(c: unknown): Jts } }).getFactory();
    for (let i = 0; i < 400; i++) {
      const [x, y] = [-20 + 270 * random(), -30 + 140 * random()];
      const point = factory.createPoint(new Coordinate(x, y));
      const distance = (DistanceOp as unknown as { distance(a: Jts, b: Jts): number }).distance(edge, point);
      const inside = jtsContains(toJts(wood), point);
      const depth = depthAt(x, y);
      expect(Math.sign(depth)).toBe(inside ? 1 : -1);
      // Far outside it need only be no less deep than it is.
      if (depth < 0 && (x < -10 || x > 240 || y < -20 || y > 100)) expect(-depth).toBeLessThanOrEqual(distance + 1e-9);
      else expect(Math.abs(depth)).toBeCloseTo(distance, 9);
    }
  });
});

describe("how a piece lies in its wood", () => {
  const wood = difference(box(0, 0, 100, 50), knot(70, 25, 5));

  it("has the least distance to edge and knots to spare", () => {
    expect(lieOf(wood, box(10, 12, 40, 44)).spare).toBeCloseTo(6, 9);
    // The knot's flat sides keep within 0.01 of its circle: 65 - 61 = 4.
    expect(lieOf(wood, box(20, 10, 61, 30)).spare).toBeCloseTo(4, 1);
  });

  it("reaches out by its farthest point, and into a knot that it covers whole", () => {
    expect(lieOf(wood, box(-3, 10, 40, 44)).spare).toBeCloseTo(-3, 9);
    expect(lieOf(wood, box(50, 10, 90, 40)).spare).toBeLessThan(-14);
  });

  it("does not lie inside where it only touches the edge", () => {
    expect(lieOf(wood, box(0, 10, 40, 44)).spare).toBeCloseTo(0, 12);
    expect(findPlace(box(0, 0, 40, 30), { piece: box(0, 0, 40, 30), margin: 0, turns: ALONG, mayFlip: false }).answer).toBe(
      "too-close",
    );
  });
});

describe("finding a place", () => {
  const want = (piece: Region, more: Partial<Wanted> = {}): Wanted => ({
    piece,
    margin: 0,
    turns: ALONG,
    mayFlip: false,
    ...more,
  });

  it("knows rectangles in rectangles by hand: 40 x 30 with 2 all round needs 44 x 34", () => {
    const piece = box(-20, -15, 20, 15);
    const fits = findPlace(box(0, 0, 44.2, 34.2), want(piece, { margin: 2 }));
    expect(fits.answer).toBe("fits");
    expect(fits.spare).toBeCloseTo(0.1, 2);
    expect(findPlace(box(0, 0, 43.9, 60), want(piece, { margin: 2 })).answer).toBe("does-not-fit");
  });

  it("turns a strip into the diagonal only as far as its grain may turn", () => {
    // 100 x 4 in 90 x 60: the box round it turned by a is 100 cos a + 4 sin a by 100 sin a + 4 cos a; at 30 degrees 88.6 x 53.5.
    const strip = box(-50, -2, 50, 2);
    const wood = box(0, 0, 90, 60);
    expect(findPlace(wood, want(strip)).answer).toBe("does-not-fit");
    expect(findPlace(wood, want(strip, { turns: [{ from: 0, to: 0.2 }] })).answer).toBe("does-not-fit");
    expect(findPlace(wood, want(strip, { turns: [{ from: 0, to: 0.6 }] })).answer).toBe("fits");
  });

  it("turns a piece over only where it may", () => {
    // A step that fits its own print, which a mirrored one does not.
    const print = uniteRings([[vec(0, 0), vec(40, 0), vec(40, 10), vec(10, 10), vec(10, 30), vec(0, 30)]]);
    const mirrored = laidAt(print, { x: 0, y: 0, turn: 0, flipped: true });
    const wood = jtsRegion(jtsOffset(print, 0.3, "miter"));
    expect(findPlace(wood, want(print)).answer).toBe("fits");
    expect(findPlace(wood, want(mirrored)).answer).toBe("does-not-fit");
    const flipped = findPlace(wood, want(mirrored, { mayFlip: true }));
    expect(flipped).toMatchObject({ answer: "fits", pose: { flipped: true } });
  });

  it("never lays a piece over a knot, however small", () => {
    const piece = box(-30, -20, 30, 20);
    for (const radius of [0.05, 0.5, 3]) {
      const wood = difference(box(0, 0, 70, 46), knot(35, 23, radius));
      expect(findPlace(wood, want(piece)).answer).not.toBe("fits");
    }
  });

  it("says too close to call within a few hundredths, and is sure a tenth away", () => {
    const piece = box(-20, -15, 20, 15);
    expect(findPlace(box(0, 0, 40.1, 30.1), want(piece)).answer).toBe("fits");
    expect(findPlace(box(0, 0, 39.8, 50), want(piece)).answer).toBe("does-not-fit");
  });

  it("answers alike wherever the wood lies, turned and mirrored", () => {
    const wood = difference(box(0, 0, 120, 60), knot(100, 30, 8));
    const piece = uniteRings([[vec(0, 0), vec(70, 5), vec(55, 30), vec(5, 25)]]);
    const turns = [{ from: -0.1, to: 0.1 }];
    const plain = findPlace(wood, want(piece, { turns, margin: 1 }));
    expect(plain.answer).toBe("fits");
    for (const pose of [
      { x: 1000, y: -2000, turn: 0, flipped: false },
      { x: 0, y: 0, turn: 2.1, flipped: false },
      { x: 5, y: 5, turn: 0.4, flipped: true },
    ] as const) {
      const k = pose.flipped ? -1 : 1;
      const moved = findPlace(
        laidAt(wood, pose),
        want(pose.flipped ? laidAt(piece, { x: 0, y: 0, turn: 0, flipped: true }) : piece, {
          turns: turns.map(({ from, to }) =>
            k === 1 ? { from: from + pose.turn, to: to + pose.turn } : { from: pose.turn - to, to: pose.turn - from },
          ),
          margin: 1,
        }),
      );
      expect(moved.answer).toBe("fits");
    }
  });
});

/** The region of a JTS polygon without holes. */
function jtsRegion(g: Jts): Region {
  return uniteRings([
    g
      .getCoordinates()
      .slice(1)
      .map(({ x, y }) => vec(x, y)),
  ]);
}

interface Case {
  readonly wood: Region;
  readonly piece: Region;
  readonly margin: number;
}

function randomCase(random: () => number): Case {
  const [width, height] = [50 + 40 * random(), 30 + 25 * random()];
  const corner = (x: number, y: number) => vec(x + 8 * (random() - 0.5), y + 8 * (random() - 0.5));
  let wood = uniteRings([
    [corner(0, 0), corner(width / 2, 0), corner(width, 0), corner(width, height), corner(width / 3, height), corner(0, height)],
  ]);
  for (let k = 0; k < 3; k++) wood = difference(wood, knot(width * random(), height * random(), 1 + 4 * random()));
  const size = 16 + 22 * random();
  const count = 5 + Math.floor(6 * random());
  const piece = uniteRings([
    Array.from({ length: count }, (_, i) => {
      const r = size * (0.5 + 0.5 * random());
      const a = (i / count) * 2 * Math.PI;
      return vec(r * Math.cos(a), 0.8 * r * Math.sin(a));
    }),
  ]);
  return { wood: [wood.toSorted((a, b) => b.outer.length - a.outer.length)[0]!], piece, margin: random() < 0.5 ? 0 : 1 };
}

/** Grain either way along the board, 6 degrees of slant allowed. */
const SLANT = 0.1;
const TURNS = [
  { from: -SLANT, to: SLANT },
  { from: Math.PI - SLANT, to: Math.PI + SLANT },
];

/** Whether any pose of a grid lies within `room`, by JTS alone. */
function exhaustive(
  room: Jts,
  piece: Region,
  bounds: { readonly x: number; readonly y: number },
  step: number,
): Pose | undefined {
  // 2 is JTS's word for outside.
  const locator = new (IndexedPointInAreaLocator as unknown as new (g: Jts) => { locate(c: unknown): number })(room);
  for (const { from, to } of TURNS)
    for (let turn = from; turn <= to + 1e-9; turn += SLANT / 2) {
      const turned = laidAt(piece, { x: 0, y: 0, turn, flipped: false });
      for (let x = 0; x <= bounds.x; x += step)
        for (let y = 0; y <= bounds.y; y += step) {
          const pose = { x, y, turn, flipped: false };
          if (turned[0]!.outer.some((p) => locator.locate(new Coordinate(p.x + x, p.y + y)) === 2)) continue;
          if (jtsContains(room, toJts(laidAt(turned, { ...pose, turn: 0 })))) return pose;
        }
    }
  return undefined;
}

describe("beside an exhaustive search by JTS over places 1 mm and turns 3 degrees apart", () => {
  it("never says fits where JTS finds the piece outside, nor does-not-fit where the search has a place, in 60 random cases", () => {
    const random = seeded(2026);
    const told = { fits: 0, "does-not-fit": 0, "too-close": 0 };
    for (let i = 0; i < 60; i++) {
      const { wood, piece, margin } = randomCase(random);
      const room = jtsOffset(wood, -margin);
      const answer = findPlace(wood, { piece, margin, turns: TURNS, mayFlip: false });
      told[answer.answer]++;
      const places = exhaustive(room, piece, { x: 95, y: 60 }, 1);
      if (places) expect(answer.answer, `case ${i}: ${JSON.stringify(places)}`).not.toBe("does-not-fit");
      if (answer.answer === "fits") {
        // A hair is taken off the piece, since JTS's own round corners are chords.
        const laid = jtsOffset(laidAt(piece, answer.pose), -1e-4, "miter");
        expect(jtsContains(room, laid), `case ${i}`).toBe(true);
        expect(TURNS.some(({ from, to }) => answer.pose.turn >= from - 1e-9 && answer.pose.turn <= to + 1e-9)).toBe(true);
      } else {
        // Where there is a place, there is one of the grid for a piece smaller by what half a step shifts and turns: 0.71 mm and 0.025 x 38.
        const smaller = exhaustive(jtsOffset(wood, -margin - 1.7), piece, { x: 95, y: 60 }, 1);
        expect(smaller, `case ${i}`).toBeUndefined();
      }
    }
    expect(told.fits).toBeGreaterThan(10);
    expect(told["does-not-fit"]).toBeGreaterThan(10);
    expect(told["too-close"]).toBeLessThanOrEqual(2);
  });
});

describe("pieces in sequence along a board", () => {
  const piece = box(0, 0, 50, 20);
  const one: Wanted = { piece, margin: 1, turns: ALONG, mayFlip: false };

  it("take three of 52 and two saw cuts of 2 from a board of 162, and not from one of 159", () => {
    // 3 x 52 + 2 x 2 = 160.
    const laid = laySequence(box(0, 0, 162, 24), [one, one, one], 2);
    expect(laid.answer).toBe("fits");
    const poses = laid.laid.map(({ pose }) => pose.x);
    expect(poses.toSorted((a, b) => a - b)).toEqual(poses);
    for (const [i, x] of poses.slice(1).entries()) expect(x - poses[i]!).toBeGreaterThanOrEqual(54 - 1e-6);
    expect(laySequence(box(0, 0, 159, 24), [one, one, one], 2)).toMatchObject({ answer: "too-close", stuck: { index: 2 } });
  });

  it("say does-not-fit only where a piece has no place on the whole board", () => {
    const tall: Wanted = { ...one, piece: box(0, 0, 20, 30) };
    expect(laySequence(box(0, 0, 162, 24), [one, tall], 2)).toMatchObject({ answer: "does-not-fit", stuck: { index: 1 } });
  });
});

describe("any piece and any wood", () => {
  it("gives finite answers, and a place that holds, for random quadrilaterals", () => {
    const point = fc.tuple(fc.integer({ min: -40, max: 40 }), fc.integer({ min: -40, max: 40 }));
    fc.assert(
      fc.property(fc.array(point, { minLength: 4, maxLength: 4 }), fc.array(point, { minLength: 4, maxLength: 4 }), (a, b) => {
        const wood = uniteRings([a.map(([x, y]) => vec(3 * x, 3 * y))]);
        const piece = uniteRings([b.map(([x, y]) => vec(x, y))]);
        fc.pre(wood.length > 0 && piece.length > 0);
        const answer = findPlace(wood, { piece, margin: 0.5, turns: TURNS, mayFlip: true });
        if (answer.answer === "fits") expect(lieOf(wood, laidAt(piece, answer.pose)).spare).toBeGreaterThanOrEqual(0.5 - 1e-9);
      }),
      { numRuns: 25, seed: 5 },
    );
  });
});
