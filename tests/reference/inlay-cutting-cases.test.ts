/**
 * The cases of tests/data/inlay-cases.json about clearing, templates and corners: figures from an independent computation, with their tolerances
 * (see the file's note), each as given, turned, mirrored and far away.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { arcOutlinesOf } from "../../src/geometry/arc-ring.ts";
import { uniteRings } from "../../src/geometry/clipper.ts";
import { pathArea, pathLength, pathsBounds } from "../../src/geometry/measure.ts";
import { largestDisc } from "../../src/geometry/narrowest.ts";
import { pathsOf, regionOf, type Outline } from "../../src/geometry/outline.ts";
import { circle, rectangle } from "../../src/geometry/path.ts";
import { regionArea, type Region } from "../../src/geometry/region.ts";
import { inverse, scaling, transformPath } from "../../src/geometry/transform.ts";
import { vec } from "../../src/geometry/vec.ts";
import { clearPocket } from "../../src/lutherie/inlay-clearing.ts";
import { cornerArea, cornerGap, cornerTip } from "../../src/lutherie/inlay-corner.ts";
import { pairFit } from "../../src/lutherie/inlay-fit.ts";
import { inlayPair } from "../../src/lutherie/inlay-pair.ts";
import { cutAlong } from "../../src/lutherie/inlay-template.ts";
import { cutBand, gapFromOneTemplate, type GuidedCutter } from "../../src/lutherie/template-offset.ts";
import { FRAMES, placeRegion } from "../geometry/frames.ts";

interface Case {
  readonly id: string;
  readonly op: string;
  readonly input: {
    readonly contours?: readonly (readonly (readonly [number, number])[])[];
    readonly discs?: readonly (readonly [number, number, number])[];
    readonly boxes?: readonly (readonly [number, number, number, number])[];
    readonly ellipse?: readonly [number, number, number];
  };
  readonly params: Readonly<Record<string, number>> & { readonly args?: readonly number[]; readonly name?: string };
  readonly expect: Readonly<Record<string, readonly [number, number]>>;
}
const { cases } = JSON.parse(readFileSync(new URL("../data/inlay-cases.json", import.meta.url), "utf8")) as { cases: Case[] };
const of = (op: string): (readonly [string, Case])[] => cases.filter((c) => c.op === op).map((c) => [c.id, c]);

function shapeOf({ contours, discs, boxes, ellipse }: Case["input"]): Region {
  if (contours) return uniteRings(contours.map((ring) => ring.map(([x, y]) => vec(x, y))));
  if (ellipse) return regionOf([transformPath(scaling(ellipse[0], ellipse[1]), circle(vec(0, 0), 1))]);
  return regionOf([...(discs ?? []).map(([x, y, r]) => circle(vec(x, y), r)), ...(boxes ?? []).map((box) => rectangle(...box))]);
}

/** Every figure that the case gives is found, and within its tolerance. */
function meetsAll(c: Case, found: Readonly<Record<string, number>>): void {
  expect(Object.keys(found)).toEqual(expect.arrayContaining(Object.keys(c.expect)));
  for (const [name, [wanted, tolerance]] of Object.entries(c.expect))
    expect(Math.abs(found[name]! - wanted), `${c.id}: ${name} is ${String(found[name])}, wanted ${wanted}`).toBeLessThanOrEqual(
      tolerance,
    );
}

const areaOf = (outlines: readonly Outline[]): number => outlines.flatMap(pathsOf).reduce((sum, path) => sum + pathArea(path), 0);

describe.each(FRAMES)("reference cases %s", (_, frame) => {
  it.each(of("clear"))("clearing: %s", (__, c) => {
    const { r = 0, step = 0 } = c.params;
    const pocket = arcOutlinesOf(placeRegion(frame, shapeOf(c.input)));
    const { passes, length, estimate, missed } = clearPocket(pocket, {
      cutter: { radius: r, step },
      first: undefined,
      travel: "against",
    });
    meetsAll(c, {
      count: passes.length,
      length,
      first: pathLength(passes.find(({ level }) => level === 0)!.path),
      estimate,
      missed: regionArea(missed),
    });
  });

  it.each(of("template"))("inside template: %s", (__, c) => {
    const { C1 = 0, D1 = 0, C2 = 0, D2 = 0 } = c.params;
    const edge = arcOutlinesOf(placeRegion(frame, shapeOf(c.input)));
    const bush = (guide: number, bit: number): GuidedCutter => ({ by: "bush", guide, bit });
    const pocket = cutAlong({ kind: "inside", edge }, bush(C1, D1), "pocket");
    const piece = cutAlong({ kind: "inside", edge }, bush(C2, D2), "piece");
    const fit = pairFit(pocket, piece, 5)!;
    // Widths are taken along the case's own axis.
    const width = (outlines: readonly Outline[]): number => {
      const back = inverse(frame);
      const { minX, maxX } = pathsBounds(outlines.map(({ outer }) => transformPath(back, outer)));
      return maxX - minX;
    };
    meetsAll(c, {
      pocket: areaOf(pocket),
      plug: areaOf(piece),
      gap_min: fit.minGap,
      gap_max: fit.maxGap,
      overlap: fit.overlap,
      pocket_width: width(pocket),
      plug_width: width(piece),
    });
  });

  it.each(of("offset"))("the largest disc: %s", (__, c) => {
    const [wanted, tolerance] = c.expect["inradius"]!;
    const discs = arcOutlinesOf(placeRegion(frame, shapeOf(c.input))).map((outline) => largestDisc(outline, 100)!.width / 2);
    expect(Math.abs(Math.max(...discs) - wanted)).toBeLessThanOrEqual(tolerance);
  });

  it("07c: a stroke exactly as wide as the cutter is kept or dropped, and nothing throws", () => {
    const [, c] = of("region").find(([id]) => id.startsWith("07c"))!;
    for (const share of [0, 0.5, 1])
      for (const gap of [0, 0.05]) {
        const shape = placeRegion(frame, shapeOf(c.input));
        const pair = inlayPair(shape, { pocketRadius: 0.254, pieceRadius: 0.254, gap, share, pieces: "apart", mend: "cut" });
        expect(pair.followed).toBe(true);
        const fit = pairFit(pair.curves.pocket, pair.curves.piece, 1);
        if (!fit) expect([pair.pocket, pair.piece]).toContainEqual([]);
        else for (const found of [fit.minGap, fit.maxGap]) expect(Math.abs(found - gap)).toBeLessThan(0.0001);
        expect(areaOf(arcOutlinesOf(shape)) - areaOf(pair.curves.common)).toBeGreaterThan(0);
      }
  });
});

describe("reference formulas", () => {
  const bush = (guide: number, bit: number): GuidedCutter => ({ by: "bush", guide, bit });
  const angle = (degrees: number): number => (degrees * Math.PI) / 180;
  const FORMULAS: Readonly<Record<string, (...args: number[]) => number>> = {
    corner_gap: (r = 0, degrees = 0) => cornerTip(r, angle(degrees)),
    corner_area: (r = 0, degrees = 0) => cornerArea(r, angle(degrees)),
    corner_fit: (a = 0, b = 0, gap = 0, degrees = 0) => cornerGap(a, b, gap, angle(degrees)),
    near: (guide = 0, bit = 0) => cutBand(bush(guide, bit)).near,
    window_gap: (c1 = 0, d1 = 0, c2 = 0, d2 = 0) => gapFromOneTemplate(bush(c1, d1), bush(c2, d2), "inside"),
    island_gap: (c1 = 0, d1 = 0, c2 = 0, d2 = 0) => gapFromOneTemplate(bush(c1, d1), bush(c2, d2), "outside"),
  };
  it.each(of("formula").filter(([, c]) => c.params.name !== "board_inset"))("%s", (_, c) => {
    meetsAll(c, { value: FORMULAS[c.params.name!]!(...c.params.args!) });
  });
});
