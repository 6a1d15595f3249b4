import { describe, expect, it } from "vitest";
import { homographyThrough, projected, reversed, type Corners } from "../../src/geometry/homography.ts";
import { lengthBetween, placedPlane, planeOf, sameSpot } from "../../src/geometry/picture-plane.ts";
import { distance, vec, type Vec } from "../../src/geometry/vec.ts";
import { pinhole, seeded } from "./pinhole.ts";

const DEGREE = Math.PI / 180;

const SIZE = { width: 4000, height: 3000 };
/** ISO 216: A4. */
const [ACROSS, DOWN] = [297, 210];
const SHEET: readonly Vec[] = [
  vec(-ACROSS / 2, DOWN / 2),
  vec(ACROSS / 2, DOWN / 2),
  vec(ACROSS / 2, -DOWN / 2),
  vec(-ACROSS / 2, -DOWN / 2),
];

describe("a photograph flattened by the corners of a sheet", () => {
  it("gives lengths within 0.2 % from 25 degrees off square at 4,000 pixels, corners marked within 1 pixel", () => {
    const random = seeded(1);
    let worst = 0;
    for (let round = 0; round < 24; round++) {
      const look = pinhole(25 * DEGREE, round * 15 * DEGREE, 420, 4200, SIZE);
      for (let trial = 0; trial < 40; trial++) {
        // In the picture all of it, or the maker could not mark it.
        const marked = SHEET.map((p) => {
          const at = look(p);
          expect(at.x > 0 && at.x < SIZE.width && at.y > 0 && at.y < SIZE.height).toBe(true);
          const way = random() * 2 * Math.PI;
          return vec(at.x + Math.cos(way), at.y + Math.sin(way));
        }) as unknown as Corners;
        const plane = planeOf({ by: "rectangle", corners: marked, across: ACROSS, down: DOWN })!;
        // A bridge of 160 by 32 laid on the sheet, and its diagonal.
        for (const [a, b] of [
          [vec(-80, 0), vec(80, 0)],
          [vec(-80, 16), vec(80, -16)],
          [vec(-80, -90), vec(80, -90)],
        ] as const) {
          const found = lengthBetween(plane, look(a), look(b))!;
          worst = Math.max(worst, Math.abs(found / distance(a, b) - 1));
        }
      }
    }
    expect(worst).toBeLessThan(0.002);
    // It does see the noise, so that the bound above is one.
    expect(worst).toBeGreaterThan(0.0001);
  });

  it("is exact to rounding where the corners are, beyond the sheet too", () => {
    const look = pinhole(25 * DEGREE, 0.4, 420, 4200, SIZE);
    const plane = planeOf({
      by: "rectangle",
      corners: SHEET.map(look) as unknown as Corners,
      across: ACROSS,
      down: DOWN,
    })!;
    for (const p of [vec(0, 0), vec(-148, 100), vec(170, 120), vec(33.3, -77.7)]) {
      const at = projected(plane, look(p))!;
      // The first corner is the origin, the first side runs along x.
      expect(at.x).toBeCloseTo(p.x + ACROSS / 2, 8);
      expect(at.y).toBeCloseTo(p.y - DOWN / 2, 8);
    }
  });

  it("shows by a fifth length that the outline lies out of the sheet's plane", () => {
    // Worked by hand: square from 1500 above the sheet, what lies 100 higher looks 1500 / 1400 = 1.0714 times as long: 7.1 % wrong.
    const look = pinhole(0, 0, 1500, 12_000, SIZE);
    const plane = planeOf({ by: "rectangle", corners: SHEET.map(look) as unknown as Corners, across: ACROSS, down: DOWN })!;
    const k = 1500 / 1400;
    const found = lengthBetween(plane, look(vec(-50 * k, 0)), look(vec(50 * k, 0)))!;
    expect(found / 100 - 1).toBeCloseTo(0.0714, 4);
  });

  it("is refused where the corners are no corners of a rectangle seen", () => {
    const [a, b, c, d] = SHEET as unknown as Corners;
    const plane = (corners: Corners) => planeOf({ by: "rectangle", corners, across: ACROSS, down: DOWN });
    expect(plane([a, c, b, d])).toBeUndefined();
    expect(plane([a, b, vec((a.x + b.x) / 2, (a.y + b.y) / 2), d])).toBeUndefined();
    expect(plane([a, a, c, d])).toBeUndefined();
    expect(planeOf({ by: "rectangle", corners: [a, b, c, d], across: 0, down: DOWN })).toBeUndefined();
  });

  it("takes corners marked the other way round for the same sheet", () => {
    const look = pinhole(20 * DEGREE, 1, 500, 4200, SIZE);
    const marked = SHEET.map(look);
    const other = [marked[1]!, marked[0]!, marked[3]!, marked[2]!] as const;
    const plane = planeOf({ by: "rectangle", corners: other, across: ACROSS, down: DOWN })!;
    const [p, q] = [projected(plane, look(vec(0, 0)))!, projected(plane, look(vec(10, 20)))!];
    // Turned by half, never mirrored: what lies to the left of a way stays to its left.
    expect([q.x - p.x, q.y - p.y]).toEqual([expect.closeTo(-10, 8), expect.closeTo(-20, 8)]);
  });
});

describe("a photograph scaled by two points", () => {
  it("lays the first at its place and the second along the turn", () => {
    const scale = { by: "points", points: [vec(100, 100), vec(400, 500)], length: 250 } as const;
    const plane = placedPlane(scale, { at: vec(7, -3), turn: Math.PI / 2 })!;
    expect(projected(plane, vec(100, 100))).toEqual({ x: expect.closeTo(7, 9), y: expect.closeTo(-3, 9) });
    expect(projected(plane, vec(400, 500))).toEqual({ x: expect.closeTo(7, 9), y: expect.closeTo(247, 9) });
    // 500 px are 250 mm. To the left of the way from one to the other on the picture (y down) is to its left on the drawing.
    expect(projected(plane, vec(100 + 40, 100 - 30))).toEqual({ x: expect.closeTo(7 - 25, 9), y: expect.closeTo(-3, 9) });
  });

  it("stays where it was when it is scaled anew", () => {
    const before = placedPlane({ by: "guess", mmAPixel: 0.1, at: vec(2000, 1500) }, { at: vec(10, 20), turn: 0.3 })!;
    const next = { by: "points", points: [vec(500, 900), vec(3500, 1100)], length: 123 } as const;
    const place = sameSpot(before, next)!;
    const after = placedPlane(next, place)!;
    const middle = vec(2000, 1000);
    expect(distance(projected(after, middle)!, projected(before, middle)!)).toBeLessThan(1e-9);
    const way = (h: NonNullable<typeof after>): number => {
      const [p, q] = next.points.map((mark) => projected(h, mark)!);
      return Math.atan2(q!.y - p!.y, q!.x - p!.x);
    };
    expect(way(after)).toBeCloseTo(way(before), 9);
  });
});

describe("a map of planes", () => {
  it("comes back to where it began", () => {
    const h = homographyThrough(
      [vec(0, 0), vec(10, 1), vec(12, 9), vec(-1, 8)],
      [vec(3, 3), vec(30, 0), vec(25, 20), vec(0, 17)],
    )!;
    for (const p of [vec(2, 3), vec(9, 7), vec(5, 5)]) {
      const back = projected(reversed(h), projected(h, p)!)!;
      expect(distance(back, p)).toBeLessThan(1e-9);
    }
  });

  it("sends nothing from beyond its horizon", () => {
    const h = homographyThrough(
      [vec(0, 0), vec(100, 0), vec(75, 50), vec(25, 50)],
      [vec(0, 0), vec(1, 0), vec(1, 1), vec(0, 1)],
    )!;
    // The two slanted sides meet at (50, 100), through which the horizon runs.
    expect(projected(h, vec(50, 99))).toBeDefined();
    expect(projected(h, vec(50, 101))).toBeUndefined();
  });
});
