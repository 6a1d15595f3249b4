import { describe, expect, it } from "vitest";
import { uniteRings } from "../../src/geometry/clipper.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { rectangle } from "../../src/geometry/path.ts";
import { countsOf, type Region, type Ring } from "../../src/geometry/region.ts";
import { scaling, transformPoint } from "../../src/geometry/transform.ts";
import { inlayPair, type PairCutting } from "../../src/lutherie/inlay-pair.ts";
import { inlayReport } from "../../src/lutherie/inlay-report.ts";
import { strokeLimits, whatKeeps } from "../../src/lutherie/inlay-strokes.ts";
import { FRAMES, placeRegion } from "../geometry/frames.ts";
import { jtsCounts, jtsOffset } from "../geometry/jts.ts";
import { faceById } from "../lettering/font-files.ts";
import { set } from "../lettering/spec.ts";

const CUTTING: PairCutting = { pocketRadius: 0.254, pieceRadius: 0.254, gap: 0.05, share: 0.5, pieces: "apart", mend: "cut" };
const box = (x0: number, y0: number, x1: number, y1: number): Ring => flatten(rectangle(x0, y0, x1, y1));

describe.each(FRAMES)("strokes and counters %s", (_, frame) => {
  const shape = (...rings: Ring[]): Region => placeRegion(frame, uniteRings(rings));

  it("a letter of strokes 0.7 and a counter of 0.9: the cutters that keep them by 2 (rp - s g) and 2 (rq - (1 - s) g)", () => {
    // A frame 0.7 wide round a counter of 0.9 by 3.
    const frame0 = shape(box(0, 0, 2.3, 4.4), box(0.7, 0.7, 1.6, 3.7).toReversed());
    const limits = strokeLimits(frame0, "apart")!;
    expect(limits.stroke.width).toBeCloseTo(0.7, 6);
    expect(limits.counter!.width).toBeCloseTo(0.9, 6);
    for (const share of [0, 0.5, 1]) {
      const { strokes } = whatKeeps(limits, { ...CUTTING, share });
      expect(strokes.pocketCutter).toBeCloseTo(0.7 + 2 * share * 0.05, 6);
      expect(strokes.pieceCutter).toBeCloseTo(0.9 + 2 * (1 - share) * 0.05, 6);
      // A hair less than the largest cutter keeps both, a hair more loses.
      const kept = (pocket: number, piece: number): unknown =>
        countsOf(inlayPair(frame0, { ...CUTTING, share, pocketRadius: pocket / 2, pieceRadius: piece / 2 }).common);
      expect(kept(strokes.pocketCutter - 0.004, strokes.pieceCutter - 0.004)).toEqual({ parts: 1, holes: 1 });
      expect(kept(strokes.pocketCutter + 0.004, 0.5)).not.toEqual({ parts: 1, holes: 1 });
      expect(kept(0.5, strokes.pieceCutter + 0.004)).not.toEqual({ parts: 1, holes: 1 });
    }
  });

  it("a counter of 20 limits the corners of 26 that a wide bush leaves, as narrow ones limit bits", () => {
    const wide = shape(box(0, 0, 60, 60), box(20, 20, 40, 40).toReversed());
    const limits = strokeLimits(wide, "joined")!;
    expect(limits.open).toBeCloseTo(20, 2);
    const { strokes, whole } = whatKeeps(limits, { ...CUTTING, pieceRadius: 13, gap: 0, pieces: "joined" });
    expect(whole.pieceCutter).toBeCloseTo(20, 2);
    expect(whole.scale).toBeCloseTo(26 / 20, 2);
    expect(whole.scale).toBeCloseTo(strokes.scale, 2);
  });

  it("the room between pieces counts only where they are to stay joined", () => {
    const squares = shape(box(0, 0, 3, 3), box(3.2, 0, 6.2, 3));
    expect(strokeLimits(squares, "apart")!.counter).toBeUndefined();
    expect(strokeLimits(squares, "joined")!.counter!.width).toBeCloseTo(0.2, 6);
    expect(whatKeeps(strokeLimits(squares, "apart")!, CUTTING).strokes.pieceCutter).toBe(Infinity);
  });
});

describe("letters", () => {
  const letters = (id: string, text: string, capHeight: number): Region =>
    set(faceById(id), text, { size: { by: "cap-height", value: capHeight } }).region;
  const scaled = (region: Region, k: number): Region =>
    region.map(({ outer, holes }) => ({
      outer: outer.map((p) => transformPoint(scaling(k), p)),
      holes: holes.map((hole) => hole.map((p) => transformPoint(scaling(k), p))),
    }));

  it.each([
    ["cormorant-garamond", "H"],
    ["cormorant-garamond", "e"],
    ["great-vibes", "K"],
    ["pirata-one", "A"],
    ["lato", "8"],
  ])(
    "%s %s is whole at the size said to keep it so; where a stroke is long enough for the bit to part it, not at one a little smaller",
    (id, text) => {
      const region = letters(id, text, 8);
      const { scale } = whatKeeps(strokeLimits(region, "apart")!, CUTTING).whole;
      const changes = (k: number): unknown[] => [
        ...inlayReport(scaled(region, k), inlayPair(scaled(region, k), CUTTING)).changes,
      ];
      expect(changes(scale * 1.01)).toEqual([]);
      // From both sides of a short neck a bit still meets itself.
      if (text === "H" || text === "K") expect(changes(scale * 0.95)).not.toEqual([]);
    },
  );

  it.each([
    ["lato", "R&g"],
    ["cormorant-garamond", "HEg"],
    ["great-vibes", "Am"],
  ])("%s %s: at the size that keeps every stroke nothing is lost or added but points and corners", (id, text) => {
    const region = letters(id, text, 8);
    const { scale } = whatKeeps(strokeLimits(region, "apart")!, CUTTING).strokes;
    const report = inlayReport(scaled(region, scale * 1.01), inlayPair(scaled(region, scale * 1.01), CUTTING));
    expect(report.changes).toEqual([]);
    // No deeper than a point of 20 degrees loses: r (1 / sin 10 - 1) = 4.76 r.
    for (const { depth } of [...report.lost, ...report.added]) expect(depth).toBeLessThan(4.76 * 0.229);
  });

  // "long" and "shut": the thinnest neck is long, the narrowest counter wide enough for a bit 2 % larger to part or shut it. From both sides of a
  // short neck such a bit still meets itself.
  it.each([
    ["great-vibes", "W", "long shut"],
    ["great-vibes", "R", ""],
    ["great-vibes", "K", "long shut"],
    ["great-vibes", "B", "long"],
    ["great-vibes", "H", "long shut"],
    ["cormorant-garamond", "W", "long"],
    ["cormorant-garamond", "e", "long shut"],
    ["cormorant-garamond", "g", "long shut"],
    ["cormorant-garamond", "k", "long"],
    ["pirata-one", "A", ""],
    ["pirata-one", "s", ""],
    ["lato", "8", "shut"],
    ["lato", "R", "shut"],
    ["lato", "e", "long"],
    ["cinzel", "Q", "long"],
    ["cinzel", "G", "long"],
  ])(
    "%s %s of 16 mm: the bit said to keep it whole does, to half a hundredth; for one two hundredths larger no way leads through",
    (id, text, necks) => {
      const region = letters(id, text, 16);
      const limits = strokeLimits(region, "apart")!;
      const { pocketCutter, pieceCutter } = whatKeeps(limits, CUTTING).whole;
      const changes = (pocket: number, piece: number): unknown[] => [
        ...inlayReport(region, inlayPair(region, { ...CUTTING, pocketRadius: pocket / 2, pieceRadius: piece / 2 })).changes,
      ];
      const both = 0.995 * Math.min(pocketCutter, pieceCutter);
      expect(changes(both, both)).toEqual([]);
      const small = 0.12;
      expect(changes(0.995 * pocketCutter, small)).toEqual([]);
      expect(changes(1.02 * pocketCutter, small).length > 0).toBe(necks.includes("long"));
      expect(changes(small, 0.995 * Math.min(9, pieceCutter))).toEqual([]);
      expect(changes(small, 1.02 * Math.min(9, pieceCutter)).length > 0).toBe(necks.includes("shut"));
      // Where the disc's centre may stand, by JTS (the npm package jsts): up to the limit in as many parts and holes, beyond it not.
      const centres = (diameter: number): unknown => jtsCounts(jtsOffset(region, -diameter / 2));
      expect(centres(0.99 * limits.whole)).toEqual(countsOf(region));
      // What falls off may be so small that it vanishes at once.
      expect([1.005, 1.01, 1.02].map((k) => centres(k * limits.whole))).not.toEqual(Array(3).fill(countsOf(region)));
    },
  );

  it("limits turn with the size, and an empty shape has none", () => {
    const [small, large] = [strokeLimits(letters("lato", "R", 6), "apart")!, strokeLimits(letters("lato", "R", 12), "apart")!];
    expect(large.stroke.width / small.stroke.width).toBeCloseTo(2, 2);
    expect(large.counter!.width / small.counter!.width).toBeCloseTo(2, 2);
    expect(strokeLimits([], "apart")).toBeUndefined();
  });

  it("a knife keeps everything", () => {
    const { strokes } = whatKeeps(strokeLimits(letters("great-vibes", "R", 8), "apart")!, {
      ...CUTTING,
      pocketRadius: 0,
      pieceRadius: 0,
    });
    expect(strokes.scale).toBe(0);
  });
});
