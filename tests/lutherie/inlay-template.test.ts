import { describe, expect, it } from "vitest";
import { arcOutlinesOf } from "../../src/geometry/arc-ring.ts";
import { roundedPolygon } from "../../src/geometry/arc.ts";
import { pathBounds } from "../../src/geometry/measure.ts";
import { pathsOf, regionOf, type Outline } from "../../src/geometry/outline.ts";
import { circle, polygon, rectangle, type Path } from "../../src/geometry/path.ts";
import { countsOf, type Region } from "../../src/geometry/region.ts";
import { piecesOf, curvatureAt } from "../../src/geometry/segment.ts";
import { vec } from "../../src/geometry/vec.ts";
import { pairFit } from "../../src/lutherie/inlay-fit.ts";
import { cutAlong, guidedPair, type GuidedInlay, type GuidedPair, type TemplateWay } from "../../src/lutherie/inlay-template.ts";
import type { GuidedCutter } from "../../src/lutherie/template-offset.ts";
import { FRAMES, placeRegion } from "../geometry/frames.ts";

const bush = (guide: number, bit: number): GuidedCutter => ({ by: "bush", guide, bit });
const INLAY: GuidedInlay = {
  way: "one-inside",
  pocket: bush(15.9, 3),
  piece: bush(10, 3),
  gap: 0.05,
  share: 0.5,
  mend: "cut",
  through: false,
};
const made = (shape: Region, over: Partial<GuidedInlay> = {}): GuidedPair => {
  const result = guidedPair(shape, { ...INLAY, ...over });
  if (!result.ok) throw new Error(result.why);
  return result;
};
const refused = (shape: Region, over: Partial<GuidedInlay>) => {
  const result = guidedPair(shape, { ...INLAY, ...over });
  if (result.ok) throw new Error("not refused");
  return result;
};
const width = (outlines: readonly Outline[]): number => {
  const { minX, maxX } = pathBounds(outlines[0]!.outer);
  return maxX - minX;
};

/** Shapes with corners of both kinds, and an island. */
const SHAPES: readonly (readonly [string, readonly Path[]])[] = [
  ["a square", [rectangle(-20, -20, 20, 20)]],
  ["an L", [polygon([vec(0, 0), vec(80, 0), vec(80, 30), vec(30, 30), vec(30, 70), vec(0, 70)])]],
  ["a lozenge", [polygon([vec(40, 0), vec(0, 18), vec(-40, 0), vec(0, -18)])]],
  ["two discs that touch", [circle(vec(0, 0), 15), circle(vec(28, 0), 15)]],
];
/** Bushes and bits that give 0.05 each way: 2 near = C - D, 2 far = C + D. */
const WAYS: readonly (readonly [TemplateWay, GuidedCutter, GuidedCutter, boolean])[] = [
  ["one-inside", bush(15.9, 3), bush(10, 3), false],
  ["one-outside", bush(10, 3), bush(15.9, 3), true],
  ["inside-and-outside", bush(8, 3), bush(12, 6), false],
  ["two-inside", bush(12, 3), bush(8, 3), false],
];

describe.each(FRAMES)("pocket and piece by guide bushes %s", (_, frame) => {
  describe.each(WAYS)("%s", (way, pocket, piece, through) => {
    it.each(SHAPES)("what the router cuts along the templates is the pair, with the gap all round: %s", (__, paths) => {
      const shape = placeRegion(frame, regionOf(paths));
      const { pair, templates, gap, off } = made(shape, { way, pocket, piece, through });
      expect(gap).toBeCloseTo(0.05, 9);
      expect(off).toBeCloseTo(0, 9);
      const forPocket = templates.find(({ cuts }) => cuts !== "piece")!;
      const forPiece = templates.find(({ cuts }) => cuts !== "pocket")!;
      // The bush is led along the template by rolling it, without a look at what was wanted.
      const cut = { pocket: cutAlong(forPocket, pocket, "pocket"), piece: cutAlong(forPiece, piece, "piece") };
      const fit = pairFit(cut.pocket, cut.piece, 5)!;
      for (const found of [fit.minGap, fit.maxGap]) expect(Math.abs(found - 0.05)).toBeLessThan(0.0005);
      expect(fit.overlap).toBe(0);
      for (const [a, b] of [
        [cut.pocket, pair.curves.pocket],
        [cut.piece, pair.curves.piece],
      ] as const)
        expect(pairFit(a, b, 5)!.maxGap).toBeLessThan(0.0005);
      // The bush turns in every corner of the template that it must run into.
      for (const { edge, kind, leastCorner } of templates)
        for (const path of edge.flatMap(pathsOf))
          for (const segment of piecesOf(path)) {
            const bend = curvatureAt(segment, 0.5) * (kind === "inside" ? 1 : -1);
            if (bend > 0) expect(1 / bend).toBeGreaterThan(leastCorner - 0.001);
          }
    });
  });
});

describe("figures worked by hand", () => {
  it("a pocket of 40 with corners of 1.5 through 15.9/3 and 10/3: window 52.9 with corners of 7.95, piece 39.9", () => {
    const shape = regionOf([roundedPolygon([vec(0, 0), vec(39.95, 0), vec(39.95, 39.95), vec(0, 39.95)], [2, 2, 2, 2])!]);
    const { pair, templates } = made(shape);
    expect(width(pair.curves.pocket)).toBeCloseTo(40, 6);
    expect(width(pair.curves.piece)).toBeCloseTo(39.9, 6);
    expect(width(templates[0]!.edge)).toBeCloseTo(52.9, 6);
    expect(templates[0]).toMatchObject({ cuts: "both", kind: "inside", leastCorner: 7.95 });
  });

  it("14.2875/3.175 and 7.9375/3.175 give no gap: (7.9375 + 3.175)/2 - (14.2875 - 3.175)/2 = 0", () => {
    const { gap, off } = made(regionOf([rectangle(0, 0, 60, 60)]), { pocket: bush(14.2875, 3.175), piece: bush(7.9375, 3.175) });
    expect(gap).toBeCloseTo(0, 12);
    expect(off).toBeCloseTo(-0.05, 12);
  });
});

describe("what cannot be cut", () => {
  const square = regionOf([rectangle(0, 0, 40, 40)]);

  it("jams by 0.5 with 17/3 and 10/3, and says which bush would do: 17 - 3 + 2 x 0.05 - 3 = 11.1", () => {
    const answer = refused(square, { pocket: bush(17, 3) });
    expect(answer).toMatchObject({ why: "jams" });
    if (answer.why === "jams") {
      expect(answer.by).toBeCloseTo(0.5, 12);
      expect(answer.bush).toBeCloseTo(11.1, 12);
      expect(made(square, { pocket: bush(17, 3), piece: bush(answer.bush!, 3) }).off).toBeCloseTo(0, 9);
    }
  });

  it("refuses one outside template for a blind pocket, which it would cover", () => {
    expect(refused(square, { way: "one-outside", pocket: bush(10, 3), piece: bush(15.9, 3) })).toEqual({
      ok: false,
      why: "blind",
    });
  });

  it("refuses a bit that does not pass through its bush", () => {
    expect(refused(square, { piece: bush(6, 6) })).toEqual({ ok: false, why: "bush", cuts: "piece", bush: 6, bit: 6 });
  });

  it("refuses a gap so wide that it eats the corners of the bit", () => {
    expect(refused(square, { piece: bush(18, 3) })).toMatchObject({ why: "loose" });
  });

  it("refuses a shape of which the bit leaves nothing, with the corners that it needs", () => {
    const answer = refused(regionOf([rectangle(0, 0, 20, 2.5)]), {});
    expect(answer).toMatchObject({ why: "vanishes", outward: 1.5 });
    // The near side of 15.9/3 and the gap.
    if (answer.why === "vanishes") expect(answer.inward).toBeCloseTo(6.5, 9);
  });

  it("fills what lies between parts whose windows would run together, since one template has no wood there", () => {
    const squares = regionOf([rectangle(0, 0, 20, 20), rectangle(25, 0, 45, 20)]);
    expect(countsOf(squares).parts).toBe(2);
    const { pair, templates } = made(squares);
    expect(pair.curves.common).toHaveLength(1);
    expect(templates[0]!.edge).toHaveLength(1);
    expect(arcOutlinesOf(squares)).toHaveLength(2);
  });
});
