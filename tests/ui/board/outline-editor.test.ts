import { describe, expect, it } from "vitest";
import { outlinePoint } from "../../../src/geometry/drawn/point.ts";
import { segmentPath, circle } from "../../../src/geometry/path.ts";
import { ORIGIN, vec } from "../../../src/geometry/vec.ts";
import type { PointOutline } from "../../../src/parts/contract.ts";
import {
  aligned,
  faired,
  insertedAt,
  joined,
  moved,
  ofKind,
  removed,
  scaled,
  start,
} from "../../../src/ui/board/outline-editor/actions.ts";
import { combsOf } from "../../../src/ui/board/outline-editor/fairness.ts";
import { drawnOf, edited, offBoard, pointOnBoard, rawPoints, stepOffBoard } from "../../../src/ui/board/outline-editor/points.ts";
import { snapped, SNAPS, type Snap, type SnapPlaces } from "../../../src/ui/board/outline-editor/snap.ts";

const POINTS = [outlinePoint(0, -10), outlinePoint(40, -12, { kind: "fair", side: "curve" }), outlinePoint(60, 0)];
const OUTLINE: PointOutline = {
  key: "outline",
  title: "Outline",
  origin: ORIGIN,
  mirrored: true,
  points: POINTS,
  before: [],
  after: [],
  guides: [],
};
const TYPED = [
  { x: "0", y: "= -width / 2" },
  { x: "4 cm", y: "-12 mm", kind: "fair", side: "curve" },
  { x: "60", y: "0" },
];

describe("points measured in turned axes", () => {
  // A quarter turn about (100, 5): what lies 10 along lies 10 up.
  const turned = { ...OUTLINE, origin: vec(100, 5), turn: Math.PI / 2 };

  it("stand on the board where the turned axes put them, and are read back from there", () => {
    const at = pointOnBoard(turned, vec(10, 2));
    expect([at.x, at.y]).toEqual([expect.closeTo(98, 9), expect.closeTo(15, 9)]);
    const back = offBoard(turned, at);
    expect([back.x, back.y]).toEqual([expect.closeTo(10, 9), expect.closeTo(2, 9)]);
  });

  it("are moved as one sees it: a step up the board is a step along", () => {
    const step = stepOffBoard(turned, vec(0, 1));
    expect([step.x, step.y]).toEqual([expect.closeTo(1, 9), expect.closeTo(0, 9)]);
  });
});

describe("points written back", () => {
  it("keep the maker's words, formulas too, wherever nothing has moved", () => {
    const { points } = moved(start(OUTLINE, new Set([1])), vec(0.123456, -1));
    expect(rawPoints(TYPED, POINTS, points)).toEqual([TYPED[0], { x: 40.12, y: -13, kind: "fair", side: "curve" }, TYPED[2]]);
  });

  it("are written whole where the list followed a starting shape", () => {
    expect(rawPoints(undefined, POINTS, edited(POINTS))).toEqual([
      { x: 0, y: -10 },
      { x: 40, y: -12, kind: "fair", side: "curve" },
      { x: 60, y: 0 },
    ]);
  });

  it("stay beside the right words when one is put in or taken out", () => {
    const more = insertedAt(OUTLINE, edited(POINTS), 0, 0.5)!;
    expect(more.chosen).toEqual(new Set([1]));
    expect(rawPoints(TYPED, POINTS, more.points)).toEqual([TYPED[0], { x: 20, y: -11 }, TYPED[1], TYPED[2]]);
    const less = removed({ ...start(OUTLINE, new Set([1])) });
    expect(rawPoints(TYPED, POINTS, less.points)).toEqual([TYPED[0], TYPED[2]]);
  });
});

describe("loose points", () => {
  // A left-handed neck's contour gauge: across runs against x, down against y.
  const loose = {
    x: { key: "across", sign: -1 },
    y: { key: "down", sign: -1 },
    traced: {},
    across: 60,
    finish: "",
    finding: "",
  } as const;
  const gauge: PointOutline = { ...OUTLINE, mirrored: false, points: [outlinePoint(-20, -3), outlinePoint(0, -15)], loose };
  const typed = [
    { across: "2 cm", down: "3 mm" },
    { across: "= 0", down: 15 },
  ];

  it("are written under the record's own keys and signs, words kept where nothing has moved", () => {
    const { points } = moved(start(gauge, new Set([1])), vec(1.5, -0.25));
    expect(rawPoints(typed, gauge.points, points, loose)).toEqual([typed[0], { across: -1.5, down: 15.25 }]);
    expect(rawPoints(undefined, [], [outlinePoint(-4, 2)], loose)).toEqual([{ across: 4, down: -2 }]);
  });

  it("have no outline through them; one is put in half way, or as far on beyond the last", () => {
    expect(drawnOf(gauge, gauge.points)).toBeUndefined();
    expect(insertedAt(gauge, edited(gauge.points), 0, 0.5)!.points[1]).toMatchObject({ x: -10, y: -9 });
    expect(insertedAt(gauge, edited(gauge.points), 1, 0.5)!.points[2]).toMatchObject({ x: 20, y: -27 });
    expect(insertedAt(gauge, edited(gauge.points.slice(0, 1)), 0, 0.5)).toBeUndefined();
  });
});

describe("an action on chosen points", () => {
  it("changes kinds, aligns, scales and joins only those", () => {
    const all = start(OUTLINE, new Set([0, 1]));
    expect(ofKind(all, "even").points.map(({ kind }) => kind)).toEqual(["even", "even", "corner"]);
    expect(aligned(all, "y").points.map(({ y }) => y)).toEqual([-11, -11, 0]);
    expect(scaled(all, 0.5).points.map(({ x }) => x)).toEqual([10, 30, 60]);
    expect(joined(all)!.points.map(({ x }) => x)).toEqual([20, 60]);
  });

  it("puts a point in on the side that crosses the centre line of a mirrored outline too", () => {
    const open = { ...OUTLINE, points: POINTS.with(2, outlinePoint(60, -4)) };
    const more = insertedAt(open, edited(open.points), 2, 0.5)!;
    expect(more.points.at(-1)).toMatchObject({ x: 60, y: 0 });
    expect(drawnOf(open, more.points)).toBeDefined();
  });

  it("fairs within the deviation that was stated", () => {
    const wavy = Array.from({ length: 12 }, (_, i) => outlinePoint(i * 10, i % 2 ? 0.4 : -0.4, { kind: "fair", side: "curve" }));
    const outline = { ...OUTLINE, points: wavy, mirrored: false };
    const { points, moved: reach } = faired(start(outline, new Set()), 0.25);
    expect(reach).toBeLessThanOrEqual(0.25);
    expect(reach).toBeGreaterThan(0.1);
    points.forEach((p, i) => expect(Math.hypot(p.x - wavy[i]!.x, p.y - wavy[i]!.y)).toBeLessThanOrEqual(0.25 + 1e-9));
  });
});

describe("a dragged point", () => {
  const places = (on: readonly Snap[]): SnapPlaces => ({
    on: new Set(on),
    reach: 1,
    grid: 5,
    points: [vec(20, 10)],
    strings: [segmentPath(vec(0, 4), vec(100, 4))],
    tangents: [{ at: vec(0, 0), direction: vec(1, 1) }],
  });

  it.each([
    [vec(20.5, 10.5), "points", vec(20, 10)],
    [vec(51, 4.6), "strings", vec(51, 4)],
    [vec(30.4, 29.8), "tangent", vec(30.1, 30.1)],
    [vec(52, 0.7), "centre", vec(52, 0)],
    [vec(20.8, 47), "level", vec(20, 47)],
    [vec(52, 10.9), "level", vec(52, 10)],
    [vec(52, 47), "grid", vec(50, 45)],
  ] as const)("at %o comes to rest on %s", (at, why, where) => {
    const found = snapped(at, places(SNAPS));
    expect(found.why).toBe(why);
    expect([found.at.x, found.at.y]).toEqual([expect.closeTo(where.x, 9), expect.closeTo(where.y, 9)]);
    // Turned off, that one holds it no more.
    expect(snapped(at, places(SNAPS.filter((snap) => snap !== why))).why).not.toBe(why);
  });

  it("stays where it is let go with everything turned off", () => {
    expect(snapped(vec(20.5, 10.5), places([]))).toEqual({ at: vec(20.5, 10.5), why: undefined });
  });
});

describe("fairness lines", () => {
  it("stand off a circle equally all round, outwards", () => {
    for (const comb of combsOf(circle(vec(0, 0), 50), 5, 1000, 100))
      for (const { foot, tip } of comb) {
        expect(Math.hypot(foot.x, foot.y)).toBeCloseTo(50, 9);
        expect(Math.hypot(tip.x, tip.y)).toBeCloseTo(70, 9);
      }
  });
});
