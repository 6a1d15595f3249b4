import { describe, expect, it } from "vitest";
import { flatten } from "../../src/geometry/flatten.ts";
import { pathLength, stationAt } from "../../src/geometry/measure.ts";
import { arc, line, type Path } from "../../src/geometry/path.ts";
import { piecesOf } from "../../src/geometry/segment.ts";
import { vec, type Vec } from "../../src/geometry/vec.ts";
import { halfOutline } from "../../src/lutherie/body-outline.ts";
import { domeHeight, type Dome } from "../../src/lutherie/dome.ts";
import { unrollSide } from "../../src/lutherie/unrolled-side.ts";
import { SMALL } from "./small-body.ts";

const ZERO = (): number => 0;
/** Half a circle of radius r round (cx, 0), from the tail over the treble side to the neck. */
const halfCircle = (r: number, cx = r): Path => ({
  start: vec(cx + r, 0),
  segments: [arc(vec(cx, r), vec(cx, 0), true), arc(vec(cx - r, 0), vec(cx, 0), true)],
  closed: false,
});
const HALF = halfOutline(SMALL);

const domeOf = (radius: number): Dome => ({ radius, first: { x: 0, height: 85 }, second: { x: 490, height: 104 } });
/** Height of an edge's polyline at s. */
function heightOn(edge: readonly Vec[], s: number): number {
  const i = edge.findIndex(({ x }) => x >= s);
  const [a, b] = [edge[Math.max(i - 1, 0)]!, edge[Math.max(i, 0)]!];
  return b.x === a.x ? b.y : a.y + ((b.y - a.y) * (s - a.x)) / (b.x - a.x);
}

describe("unrollSide", () => {
  it("unrolls a cylinder between two flat plates to a rectangle exactly", () => {
    const { length, top, back } = unrollSide({ outline: halfCircle(150), inset: 0, top: ZERO, back: () => 95 });
    expect(length).toBeCloseTo(Math.PI * 150, 10);
    for (const p of flatten(back, 1e-3)) expect(p.y).toBeCloseTo(95, 9);
    for (const p of flatten(top, 1e-3)) expect(p.y).toBeCloseTo(0, 9);
    expect(back.segments.at(-1)!.to.x).toBeCloseTo(Math.PI * 150, 10);
  });

  it("unrolls a cylinder under a slanting plane to the cosine that it is: 90 + 0.05 x, x = 150 + 150 cos(s/150)", () => {
    const { back } = unrollSide({ outline: halfCircle(150), inset: 0, top: ZERO, back: ({ x }) => 90 + 0.05 * x });
    for (const p of flatten(back, 1e-3))
      expect(Math.abs(p.y - (90 + 0.05 * (150 + 150 * Math.cos(p.x / 150))))).toBeLessThan(6e-3);
  });

  it("stands level under a dome whose top lies over the circle's middle", () => {
    const back: Dome = { radius: 5000, first: { x: 0, height: 95 }, second: { x: 300, height: 95 } };
    const { back: edge } = unrollSide({ outline: halfCircle(150), inset: 0, top: ZERO, back: (at) => domeHeight(back, at) });
    for (const p of flatten(edge, 1e-3)) expect(p.y).toBeCloseTo(95, 6);
  });

  it("is pi t / 2 = 3.456 shorter along the middle of a side 2.2 thick than on its outer face, over a half outline", () => {
    const outer = unrollSide({ outline: HALF, inset: 0, top: ZERO, back: () => 100 });
    const middle = unrollSide({ outline: HALF, inset: 1.1, top: ZERO, back: () => 100 });
    expect(outer.length).toBeCloseTo(pathLength(HALF), 9);
    expect(outer.length - middle.length).toBeCloseTo((Math.PI * 2.2) / 2, 9);
    expect(outer.length - middle.length).toBeCloseTo(3.456, 3);
  });

  it("agrees with a polyline walk round a guitar body under two domes: length so far and both heights (walked here in 0.02 mm steps)", () => {
    const backDome: Dome = { radius: 4600, first: { x: 0, height: 85 }, second: { x: 490, height: 104 } };
    const topDome: Dome = { radius: 7600, first: { x: 0, height: 0 }, second: { x: 490, height: 0 } };
    const back = (at: Vec): number => domeHeight(backDome, at);
    const top = (at: Vec): number => -domeHeight(topDome, at);
    const side = unrollSide({ outline: HALF, inset: 0, top, back });
    const walk = flatten(HALF, 1e-5);
    let along = 0;
    const heights = new Map<"top" | "back", Vec[]>([
      ["top", flatten(side.top, 1e-3)],
      ["back", flatten(side.back, 1e-3)],
    ]);
    walk.forEach((p, i) => {
      const before = walk[i - 1] ?? p;
      along += Math.hypot(p.x - before.x, p.y - before.y);
      if (i % 97 !== 0 || i === 0) return;
      expect(Math.abs(heightOn(heights.get("back")!, along) - back(p))).toBeLessThan(0.01);
      expect(Math.abs(heightOn(heights.get("top")!, along) - top(p))).toBeLessThan(0.01);
    });
    expect(side.length).toBeCloseTo(along, 3);
    expect(side.back.segments.length).toBeLessThan(40);
  });

  it("tends to the plain taper as the dome flattens", () => {
    const edges = [1e5, 1e7, Infinity].map(
      (radius) => unrollSide({ outline: HALF, inset: 0, top: ZERO, back: (at) => domeHeight(domeOf(radius), at) }).back,
    );
    const waist = edges.map((edge) => edge.segments.map(({ to }) => to).find(({ x }) => x > 300)!.y);
    expect(Math.abs(waist[1]! - waist[2]!)).toBeLessThan(0.01);
    for (const p of flatten(edges[2]!, 1e-3).filter((_, i) => i % 10 === 0)) {
      const at = stationAt(HALF, Math.min(p.x, pathLength(HALF)))!.point;
      expect(Math.abs(p.y - (85 + (19 * at.x) / 490))).toBeLessThan(6e-3);
    }
  });

  it("tells the length to every joint of the outline: bouts, waist and blocks", () => {
    const { joints, length } = unrollSide({ outline: HALF, inset: 0, top: ZERO, back: () => 100 });
    expect(joints).toHaveLength(HALF.segments.length);
    expect(joints.at(-1)).toBe(length);
    const lowerBout = stationAt(HALF, joints[0]!)!.point;
    expect([lowerBout.x, lowerBout.y]).toEqual([expect.closeTo(360, 6), expect.closeTo(195, 6)]);
    expect(piecesOf(HALF)).toHaveLength(joints.length);
  });

  it("refuses a corner, an inset below 0, one that a tight curve has no room for, and an outline without length", () => {
    const square: Path = { start: vec(10, 0), segments: [line(vec(10, 10)), line(vec(0, 10))], closed: false };
    expect(() => unrollSide({ outline: square, inset: 0, top: ZERO, back: ZERO })).toThrow(RangeError);
    expect(() => unrollSide({ outline: halfCircle(50), inset: -1, top: ZERO, back: ZERO })).toThrow(RangeError);
    expect(() => unrollSide({ outline: halfCircle(5), inset: 6, top: ZERO, back: ZERO })).toThrow(RangeError);
    expect(() =>
      unrollSide({ outline: { start: vec(0, 0), segments: [], closed: false }, inset: 0, top: ZERO, back: ZERO }),
    ).toThrow(RangeError);
  });
});
