import { describe, expect, it } from "vitest";
import { circle, rectangle, type Path } from "../../src/geometry/path.ts";
import { difference, intersection, union } from "../../src/geometry/clipper.ts";
import { regionOf } from "../../src/geometry/outline.ts";
import { countsOf, regionArea, type Region } from "../../src/geometry/region.ts";
import { vec } from "../../src/geometry/vec.ts";
import { interlace, type Weave } from "../../src/lettering/interlace.ts";
import { edgesNearest } from "./edges-nearest.ts";
import { faceById } from "./font-files.ts";
import { set } from "./spec.ts";

const region = (...paths: Path[]): Region => regionOf(paths);
const weave = (over: Partial<Weave> = {}): Weave => ({ gap: 0.5, begins: "earlier", turned: [], ...over });
const ringAt = (x: number): Region => difference(region(circle(vec(x, 0), 10)), region(circle(vec(x, 0), 8)));

const level = region(rectangle(-10, -1, 10, 1));
const upright = region(rectangle(-1, -10, 1, 10));

describe("two bars laid across", () => {
  it("keep the upper whole and cut the lower back by the gap on both sides", () => {
    const { letters, crossings } = interlace([level, upright], weave());
    expect(letters[0]).toEqual(level);
    // The upright loses 2 mm of its width over 2 mm and twice the gap: 40 - 2 * 3.
    expect(countsOf(letters[1]!)).toEqual({ parts: 2, holes: 0 });
    expect(regionArea(letters[1]!)).toBeCloseTo(34, 2);
    expect(crossings).toEqual([{ letters: [0, 1], over: 0, at: { x: expect.closeTo(0, 6), y: expect.closeTo(0, 6) } }]);
  });

  it("change places if asked", () => {
    for (const change of [{ begins: "later" }, { turned: [0] }] as const) {
      const { letters, crossings } = interlace([level, upright], weave(change));
      expect(letters[1]).toEqual(upright);
      expect(regionArea(letters[0]!)).toBeCloseTo(34, 2);
      expect(crossings[0]!.over).toBe(1);
    }
  });
});

describe("two rings", () => {
  it("become links of a chain: each passes over once and under once", () => {
    const { letters, crossings } = interlace([ringAt(0), ringAt(11)], weave());
    expect(crossings.map(({ over }) => over).toSorted()).toEqual([0, 1]);
    for (const letter of letters) expect(countsOf(letter)).toEqual({ parts: 1, holes: 0 });
    // They cross on the middle line between the centres.
    for (const { at } of crossings) expect(at.x).toBeCloseTo(5.5, 2);
    expect(intersection(letters[0]!, letters[1]!)).toEqual([]);
    expect(edgesNearest(letters[0]!, letters[1]!)).toBeCloseTo(0.5, 2);
  });
});

describe("a bar across two strokes", () => {
  const strokes = union(region(rectangle(-6, -5, -4, 5)), region(rectangle(4, -5, 6, 5)));
  it("goes over the one and under the other", () => {
    const { letters, crossings } = interlace([level, strokes], weave());
    expect(crossings.map(({ over }) => over)).toEqual([0, 1]);
    // Each loses one cut of 2 by 3: 40 - 6 of both.
    expect(letters.map(regionArea)).toEqual([expect.closeTo(34, 2), expect.closeTo(34, 2)]);
  });

  it("has one crossing where the strokes stand nearer than the gaps between them", () => {
    const near = union(region(rectangle(-2.2, -5, -0.2, 5)), region(rectangle(0.2, -5, 2.2, 5)));
    expect(interlace([level, near], weave()).crossings).toHaveLength(1);
    expect(interlace([level, near], weave({ gap: 0.1 })).crossings).toHaveLength(2);
  });
});

describe("letters", () => {
  it("of a monogram come apart by the gap, and only where they crossed", () => {
    const { letters } = set(faceById("cinzel"), "AV", {
      size: { by: "cap-height", value: 20 },
      arrangement: { kind: "overlapped", overlap: 12 },
    });
    const regions = letters.map((letter) => letter.region);
    const woven = interlace(regions, weave({ gap: 0.3 }));
    expect(woven.crossings.length).toBeGreaterThan(1);
    expect(intersection(woven.letters[0]!, woven.letters[1]!)).toEqual([]);
    expect(edgesNearest(woven.letters[0]!, woven.letters[1]!)).toBeGreaterThan(0.295);
    for (const [i, letter] of woven.letters.entries()) expect(regionArea(difference(letter, regions[i]!))).toBe(0);
  });

  it("that do not cross come back as they are", () => {
    const apart = [level, region(rectangle(-1, 3, 1, 10))];
    expect(interlace(apart, weave())).toEqual({ letters: apart, crossings: [] });
  });
});
