import { describe, expect, it } from "vitest";
import { regionOf } from "../../src/geometry/outline.ts";
import { circle, polygon, rectangle } from "../../src/geometry/path.ts";
import { regionArea, type Region } from "../../src/geometry/region.ts";
import { vec } from "../../src/geometry/vec.ts";
import { fitVerdict, pairFit, thinnestWall } from "../../src/lutherie/inlay-fit.ts";
import { inlayPair, inlayPairSteps, type PairCutting } from "../../src/lutherie/inlay-pair.ts";
import { edgesApart, toJts } from "../geometry/jts.ts";
import { faceById } from "../lettering/font-files.ts";
import { set } from "../lettering/spec.ts";

const CUTTING: PairCutting = { pocketRadius: 0.254, pieceRadius: 0.254, gap: 0.05, share: 0.5, pieces: "apart", mend: "cut" };
const letters = (text: string, capHeight = 12, id = "cormorant-garamond"): Region =>
  set(faceById(id), text, { size: { by: "cap-height", value: capHeight } }).region;

describe("a pair worked out step by step", () => {
  it("is the same as at once, and tells how far it has come", () => {
    const shape = letters("Jig no 8");
    const steps = inlayPairSteps(shape, CUTTING, "fine");
    const told: number[] = [];
    for (;;) {
      const step = steps.next();
      if (step.done) {
        expect(step.value).toEqual(inlayPair(shape, CUTTING));
        break;
      }
      told.push(step.value);
    }
    // i and j have dots, so near to their stems that these steps are one.
    expect(told.length).toBeGreaterThan(4);
    expect(told).toEqual(told.toSorted((a, b) => a - b));
    expect(told.at(-1)).toBe(1);
  });

  it("can be given up between steps", () => {
    const steps = inlayPairSteps(letters("AB"), CUTTING, "fine");
    expect(steps.next().done).toBe(false);
    steps.return(undefined as never);
    expect(steps.next().done).toBe(true);
  });

  it("takes pieces one by one only where they cannot have to do with each other: far parts come out as they do alone", () => {
    const [left, right] = [regionOf([rectangle(0, 0, 3, 3)]), regionOf([circle(vec(30, 0), 2)])];
    const both = inlayPair([...left, ...right], CUTTING);
    expect(both.curves.piece).toEqual([...inlayPair(left, CUTTING).curves.piece, ...inlayPair(right, CUTTING).curves.piece]);
  });
});

describe("a coarse pair", () => {
  it.each(["R", "&", "Bg"])("keeps within 0.03 of the fine one where strokes are not about as thin as the cutter: %s", (text) => {
    const shape = letters(text, 20, "lato");
    const [fine, coarse] = [inlayPair(shape, CUTTING), inlayPair(shape, CUTTING, "coarse")];
    expect(coarse.followed).toBe(false);
    expect(edgesApart(coarse.pocket, toJts(fine.pocket))).toBeLessThan(0.03);
    expect(edgesApart(coarse.piece, toJts(fine.piece))).toBeLessThan(0.03);
  });
});

describe("a knife and a chisel", () => {
  it("round nothing: the pocket is the shape grown by its share of the gap, the piece shrunk by the rest", () => {
    const wedge = regionOf([polygon([vec(0, 0), vec(9, -1), vec(9, 1)])]);
    const { common, curves } = inlayPair(wedge, { ...CUTTING, pocketRadius: 0, pieceRadius: 0 });
    expect(regionArea(common)).toBeCloseTo(9, 9);
    const fit = pairFit(curves.pocket, curves.piece, 1)!;
    expect(fit.minGap).toBeCloseTo(0.05, 9);
    // A point of 2 atan(1/9): the piece's own stands back by 0.025 / sin, the pocket's is round.
    expect(fit.maxGap).toBeCloseTo(0.025 + 0.025 / Math.sin(Math.atan(1 / 9)), 6);
  });

  it("take a piece cut by hand into a pocket cut round, whose outward corners it follows", () => {
    const square = regionOf([rectangle(0, 0, 10, 10)]);
    const { curves } = inlayPair(square, { ...CUTTING, pieceRadius: 0 });
    const fit = pairFit(curves.pocket, curves.piece, 1)!;
    expect(fit.minGap).toBeCloseTo(0.05, 9);
    expect(fit.maxGap).toBeCloseTo(0.05, 9);
  });
});

describe("how a piece fits", () => {
  const outlines = (size: number, x = 0): ReturnType<typeof inlayPair>["curves"]["piece"] => [
    { outer: rectangle(x - size / 2, -size / 2, x + size / 2, size / 2), holes: [] },
  ];

  it("is measured at its tightest and its loosest, with the places", () => {
    const fit = pairFit(outlines(10), outlines(9.8, 0.04), 1)!;
    expect(fit.minGap).toBeCloseTo(0.06, 9);
    expect(fit.tightest.x).toBeGreaterThan(4.9);
    // In a corner of squares the diagonal counts: sqrt(0.14^2 + 0.1^2).
    expect(fit.maxGap).toBeCloseTo(Math.hypot(0.14, 0.1), 9);
    expect(fit.loosest.x).toBeLessThan(-4.8);
  });

  it("is a verdict: fits, tight, loose, jams", () => {
    const of = (size: number, gap: number): string => fitVerdict(pairFit(outlines(10), outlines(size), 1)!, gap);
    expect(of(9.9, 0.06)).toBe("tight");
    expect(of(9.9, 0.02)).toBe("loose");
    expect(of(10.02, 0.05)).toBe("jams");
    const { pocket, piece } = inlayPair(letters("R"), CUTTING).curves;
    expect(fitVerdict(pairFit(pocket, piece, 1)!, 0.05)).toBe("fits");
    // A piece that is left as designed jams in the pocket's round corners.
    const sharp = inlayPair(letters("R"), { ...CUTTING, pocketRadius: 0, pieceRadius: 0 }).curves;
    expect(fitVerdict(pairFit(pocket, sharp.piece, 1)!, 0.05)).toBe("jams");
  });

  it("is undefined where there is no piece", () => {
    expect(pairFit(outlines(10), [], 1)).toBeUndefined();
  });

  it("says the thinnest wall between pockets, in a slit, in a counter", () => {
    expect(thinnestWall([...outlines(10), ...outlines(10, 10.4)])!.width).toBeCloseTo(0.4, 9);
    expect(thinnestWall(outlines(10))).toBeUndefined();
  });
});
