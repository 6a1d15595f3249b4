import { describe, expect, it } from "vitest";
import { pathArea, pathsBounds } from "../../src/geometry/measure.ts";
import { pathsOf } from "../../src/geometry/outline.ts";
import { countsOf, regionArea, regionPerimeter } from "../../src/geometry/region.ts";
import { transformPoint, rotation } from "../../src/geometry/transform.ts";
import { vec } from "../../src/geometry/vec.ts";
import { BUNDLED_FACES } from "../../src/lettering/faces.ts";
import { joinedCurves, type Lettering } from "../../src/lettering/lettering.ts";
import { jtsUnion } from "../geometry/jts.ts";
import witness from "../data/faces.json" with { type: "json" };
import { faceById, madeFile, mustRead } from "./font-files.ts";
import { nudge, refused, set } from "./spec.ts";

/** Em 1000, capitals 700; every letter 650 wide. H: 50 to 550, 700 high. X: bars from 0 to 600. L: 0 to 200. */
const strokes = mustRead(madeFile("strokes.ttf"));
const cinzel = faceById("cinzel");
const boxes = ({ letters }: Lettering): number[][] =>
  letters.map(({ bounds }) => [bounds.minX, bounds.maxX].map((x) => Math.round(x * 1e6) / 1e6));

describe("the size", () => {
  it("goes by the height of capitals, by the em, or by the width of all that is drawn", () => {
    const byCap = set(strokes, "H", { size: { by: "cap-height", value: 14 } });
    expect(byCap.bounds.maxY).toBeCloseTo(14, 9);
    expect(byCap).toMatchObject({ capHeight: 14, em: 20 });
    expect(set(strokes, "H", { size: { by: "em", value: 20 } }).bounds.maxY).toBeCloseTo(14, 9);
    // H is 500 wide and 700 high.
    const byWidth = set(strokes, "H", { size: { by: "width", value: 10 } });
    expect(byWidth.bounds.maxX - byWidth.bounds.minX).toBeCloseTo(10, 6);
    expect(byWidth.bounds.maxY).toBeCloseTo(14, 6);
  });

  it("holds the width with tracking, slant and kerning, in every arrangement", () => {
    for (const face of [cinzel, faceById("great-vibes")])
      for (const tracking of [-0.4, 0, 1.5])
        for (const slant of [0, 0.3])
          for (const arrangement of [
            { kind: "row" },
            { kind: "arc", radius: 40, side: "outside" },
            { kind: "arc", radius: 40, side: "inside" },
            { kind: "overlapped", overlap: 1 },
            { kind: "stacked", gap: 2 },
          ] as const) {
            const { bounds } = set(face, "AVal", { size: { by: "width", value: 37 }, tracking, slant, arrangement });
            expect(bounds.maxX - bounds.minX, JSON.stringify({ tracking, slant, arrangement })).toBeCloseTo(37, 5);
          }
  });

  it("is refused where no size gives the width", () => {
    expect(refused(cinzel, "ABC", { size: { by: "width", value: 5 }, tracking: 4 }).message).toContain("No size of letter");
    expect(
      refused(cinzel, "ABC", { size: { by: "width", value: 90 }, arrangement: { kind: "arc", radius: 20, side: "inside" } })
        .message,
    ).toContain("on this arc");
  });

  it("is refused where it is beyond all measure, or so small that nothing is left", () => {
    expect(refused(cinzel, "ABC", { size: { by: "em", value: 5000 } }).message).toContain("3 m");
    expect(refused(cinzel, "I", { size: { by: "em", value: 1e-4 } }).message).toContain("nothing is left of I");
  });
});

describe("a row", () => {
  it("stands on y = 0 with what is drawn evenly about x = 0", () => {
    // Two H, 650 and a kern of 7 apart, at 1 mm for 70 units: 50 to 550 and 707 to 1207, in all 1157 / 70 = 16.5286 wide.
    expect(boxes(set(strokes, "HH"))).toEqual([
      [-8.264286, -1.121429],
      [1.121429, 8.264286],
    ]);
    expect(set(strokes, "HH").bounds.minY).toBe(0);
  });

  it("is spaced by kerning if asked, and by tracking between letters only", () => {
    const width = (over: Parameters<typeof set>[2]) => {
      const { bounds } = set(strokes, "HOH", { size: { by: "em", value: 1000 }, ...over });
      return bounds.maxX - bounds.minX;
    };
    // 2 * 650 from the first H's edge to the second's, and its width of 500; the pairs take 40 and 30.
    expect(width({ kerning: false })).toBeCloseTo(1800, 6);
    expect(width({})).toBeCloseTo(1730, 6);
    expect(width({ tracking: 5 })).toBeCloseTo(1740, 6);
  });

  it("takes a space's width, and no more letters than were typed", () => {
    const { letters, bounds } = set(strokes, "H H", { size: { by: "em", value: 1000 } });
    expect(bounds.maxX - bounds.minX).toBeCloseTo(1800, 6);
    expect(letters.map(({ index, character }) => [index, character])).toEqual([
      [0, "H"],
      [2, "H"],
    ]);
  });

  it("leans by the slant: a point at height h moves by h tan(slant)", () => {
    const upright = set(strokes, "H").bounds;
    const leaning = set(strokes, "H", { slant: 0.2 }).bounds;
    expect(leaning.maxX - leaning.minX).toBeCloseTo(upright.maxX - upright.minX + 10 * Math.tan(0.2), 9);
    expect(leaning.maxY).toBeCloseTo(10, 9);
  });

  it("reads Hebrew from the right, and the numbers in it from the left", () => {
    expect(set(strokes, "אב 12.1").letters.map(({ character }) => character)).toEqual(["1", "2", ".", "1", "ב", "א"]);
    // Pairs are kerned in the order of reading: 50 units a pair, at 1 mm for 70 units. Both boxes are 50 from their origin; bet is 350 wide.
    const [bet, alef] = set(strokes, "אב").letters;
    expect(alef!.bounds.minX - bet!.bounds.minX).toBeCloseTo((650 - 50) / 70, 6);
  });
});

describe("a nudged letter", () => {
  it("moves alone", () => {
    const plain = set(strokes, "HHH");
    const moved = set(strokes, "HHH", { nudges: [nudge(2, { dx: 0.7, dy: -0.3 })] });
    expect(boxes(moved).slice(0, 2)).toEqual(boxes(plain).slice(0, 2));
    expect(moved.letters[2]!.bounds.minX - plain.letters[2]!.bounds.minX).toBeCloseTo(0.7, 9);
    expect(moved.letters[2]!.bounds.minY).toBeCloseTo(-0.3, 9);
  });

  it("turns about the middle of its baseline", () => {
    // H stands from 50 to 550 of 650: its left foot is 275 units = 3.92857 mm left of the middle, 10 mm high.
    const { bounds, letters } = set(strokes, "H", { nudges: [nudge(0, { turn: 0.4 })] });
    const { middle } = letters[0]!;
    const foot = transformPoint(rotation(0.4, middle), vec(middle.x + (550 - 325) / 70, 0));
    const head = transformPoint(rotation(0.4, middle), vec(middle.x + (50 - 325) / 70, 10));
    expect(bounds.maxX).toBeCloseTo(foot.x, 9);
    expect(bounds.minX).toBeCloseTo(head.x, 9);
    expect(letters[0]!.turn).toBeCloseTo(0.4, 12);
  });

  it("of another size stays on the baseline, and its neighbours give way", () => {
    const grown = set(strokes, "HHH", { size: { by: "em", value: 1000 }, kerning: false, nudges: [nudge(1, { scale: 2 })] });
    const [first, second, third] = grown.letters.map(({ bounds }) => bounds);
    expect(second!.minY).toBe(0);
    expect(second!.maxY).toBeCloseTo(1400, 6);
    expect(second!.minX - first!.minX).toBeCloseTo(650 + 100 - 50, 6);
    expect(third!.minX - second!.minX).toBeCloseTo(1300 - 100 + 50, 6);
  });
});

describe("an arc", () => {
  const radius = 30;
  const arc = (side: "inside" | "outside", text = "HOH") => set(strokes, text, { arrangement: { kind: "arc", radius, side } });

  it.each(["outside", "inside"] as const)(
    "carries the middles of baselines on to the circle, letters square to it: %s",
    (side) => {
      const { letters, centre } = arc(side);
      expect(centre).toEqual({ x: 0, y: side === "outside" ? -radius : radius });
      const straight = set(strokes, "HOH");
      for (const [i, { middle, turn }] of letters.entries()) {
        expect(Math.hypot(middle.x - centre!.x, middle.y - centre!.y)).toBeCloseTo(radius, 9);
        // A length along the straight baseline becomes the same length along the circle: angle = x / radius.
        const angle = straight.letters[i]!.middle.x / radius;
        expect(middle.x).toBeCloseTo(radius * Math.sin(angle), 9);
        expect(turn).toBeCloseTo(side === "outside" ? -angle : angle, 9);
      }
    },
  );

  it("has its letters outside the circle, or inside it", () => {
    const radii = (side: "inside" | "outside") => {
      const { letters, centre } = arc(side, "H");
      const points = letters[0]!.region[0]!.outer.map((p) => Math.hypot(p.x - centre!.x, p.y - centre!.y));
      return [Math.min(...points), Math.max(...points)];
    };
    // The feet of an H of 500 by 700 units stand up to 275 units = 3.929 mm from the middle; its head is 10 mm further out.
    const foot = Math.hypot(30, 275 / 70);
    const inner = Math.min(...radii("outside"));
    expect(inner).toBeGreaterThanOrEqual(30);
    expect(radii("outside")[1]).toBeCloseTo(Math.hypot(40, 275 / 70), 3);
    expect(radii("inside")[1]).toBeCloseTo(foot, 3);
    expect(radii("inside")[0]).toBeGreaterThan(19.9);
  });

  it("reads from the left on both sides", () => {
    for (const side of ["outside", "inside"] as const) {
      const xs = arc(side, "HOX").letters.map(({ middle }) => middle.x);
      expect(xs).toEqual(xs.toSorted((a, b) => a - b));
    }
  });

  it("is refused where the letters find no room on the circle", () => {
    // Fifteen letters of 650 / 70 = 9.29 mm are longer than 2 pi 20 = 125.7 mm; 10 mm high ones do not stand inside a radius of 9.
    const long = { arrangement: { kind: "arc", radius: 20, side: "outside" } } as const;
    expect(refused(strokes, "H".repeat(15), long).message).toContain("no room");
    expect(set(strokes, "H".repeat(13), long).letters).toHaveLength(13);
    expect(refused(strokes, "H", { arrangement: { kind: "arc", radius: 9, side: "inside" } }).message).toContain("no room");
  });
});

describe("letters stacked and overlapped", () => {
  it("stack at the typed gap, each in the middle, the stack about the origin", () => {
    // H is 10 mm high, X 600 / 70 = 8.5714: with a gap of 1.5 the stack is 20.0714 high.
    const { letters, bounds } = set(strokes, "H X", { arrangement: { kind: "stacked", gap: 1.5 } });
    const [h, x] = letters.map((letter) => letter.bounds);
    expect(h!.minY - x!.maxY).toBeCloseTo(1.5, 9);
    expect(bounds.maxY).toBeCloseTo((10 + 600 / 70 + 1.5) / 2, 9);
    expect(bounds.minY).toBeCloseTo(-bounds.maxY, 9);
    for (const box of [h!, x!]) expect(box.minX).toBeCloseTo(-box.maxX, 9);
  });

  it("overlap by the typed length, whatever their bearings", () => {
    const { letters, region } = set(strokes, "HXL", { arrangement: { kind: "overlapped", overlap: 0.8 } });
    const [h, x, l] = letters.map((letter) => letter.bounds);
    expect(h!.maxX - x!.minX).toBeCloseTo(0.8, 9);
    expect(x!.maxX - l!.minX).toBeCloseTo(0.8, 9);
    expect(countsOf(region).parts).toBe(1);
  });
});

describe("shapes", () => {
  it.each(BUNDLED_FACES.map(({ id, file }) => [id, file] as const))(
    "of %s cover what GEOS finds (tests/data/faces.json)",
    (id, file) => {
      const face = faceById(id);
      const k = 12 / face.capHeight!;
      for (const [character, numbers] of Object.entries(witness.faces[file as keyof typeof witness.faces].glyphs)) {
        const { region, letters } = set(face, character, { size: { by: "cap-height", value: 12 } });
        const area = (numbers as number[])[5]! * k * k;
        // Chords within 0.001 mm of the curves.
        expect(Math.abs(regionArea(region) - area), character).toBeLessThan(0.001 * regionPerimeter(region));
        // No contour of these letters runs into another, so each keeps its curves, and nothing else stands among the outlines.
        const curves = face.glyphs.get(character)!.contours.map((path) => path.segments.length);
        const kept = letters[0]!.outlines.flatMap(pathsOf).map((path) => path.segments.length);
        expect(kept.toSorted(), character).toEqual(curves.toSorted());
      }
    },
  );

  it("unite contours that overlap, by the nonzero rule", () => {
    // The cross of two bars 600 by 100: 2 * 60000 - 10000; the square in a square run the same way is no hole.
    const cross = set(strokes, "X", { size: { by: "em", value: 1000 } });
    expect(regionArea(cross.region)).toBeCloseTo(110000, 1);
    expect(countsOf(cross.region)).toEqual({ parts: 1, holes: 0 });
    const square = set(strokes, "P", { size: { by: "em", value: 1000 } });
    expect(regionArea(square.region)).toBeCloseTo(360000, 1);
    expect(countsOf(square.region)).toEqual({ parts: 1, holes: 0 });
    const [outline] = cross.letters[0]!.outlines;
    expect(outline!.outer.segments).toHaveLength(12);
    expect(outline!.outer.segments.every(({ kind }) => kind === "line")).toBe(true);
  });

  it("run counter-clockwise outside and clockwise round holes, however the face runs", () => {
    for (const { outer, holes } of set(cinzel, "BO&").letters.flatMap(({ outlines }) => outlines)) {
      expect(pathArea(outer)).toBeGreaterThan(0);
      expect(holes.every((hole) => pathArea(hole) < 0)).toBe(true);
    }
  });

  it.each(["ma", "an", "ff", "Th"])("of letters that run into each other are united as JTS unites them: %s", (pair) => {
    const lettering = set(faceById("great-vibes"), pair, { size: { by: "cap-height", value: 15 }, tracking: -0.5 });
    const [first, second] = lettering.letters.map(({ region }) => region);
    const area = jtsUnion(first!, second!).getArea();
    expect(area).toBeLessThan(regionArea(first!) + regionArea(second!) - 0.001);
    // The grid of the clipping moves edges by 0.00007 mm at most.
    expect(Math.abs(regionArea(lettering.region) - area)).toBeLessThan(0.00007 * regionPerimeter(lettering.region));
    const curves = joinedCurves(lettering);
    const curved = curves.flatMap(pathsOf).reduce((sum, path) => sum + pathArea(path), 0);
    expect(Math.abs(curved - area)).toBeLessThan(0.003 * regionPerimeter(lettering.region));
    expect(pathsBounds(curves.map(({ outer }) => outer)).maxX).toBeCloseTo(lettering.bounds.maxX, 2);
  });

  it("keep their own curves where letters keep clear of each other", () => {
    const lettering = set(cinzel, "ITI", { tracking: 2 });
    expect(joinedCurves(lettering)).toEqual(lettering.letters.flatMap(({ outlines }) => outlines));
  });
});

describe("numbers outside their domain", () => {
  it("throw", () => {
    expect(() => set(strokes, "H", { size: { by: "em", value: 0 } })).toThrow(RangeError);
    expect(() => set(strokes, "H", { tracking: Number.NaN })).toThrow(RangeError);
    expect(() => set(strokes, "H", { slant: 1.2 })).toThrow(RangeError);
    expect(() => set(strokes, "H", { arrangement: { kind: "arc", radius: -1, side: "inside" } })).toThrow(RangeError);
    expect(() => set(strokes, "H", { nudges: [nudge(0, { scale: 0 })] })).toThrow(RangeError);
  });
});
