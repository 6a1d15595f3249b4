/** Expected figures of tests/data/inlay-cases.json: an independent computation by unions of capsules along the edges. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { difference, exclusive, uniteRings } from "../../src/geometry/clipper.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { close, open } from "../../src/geometry/morphology.ts";
import { circle } from "../../src/geometry/path.ts";
import { countsOf, regionArea, type Region, type Ring } from "../../src/geometry/region.ts";
import { vec, type Vec } from "../../src/geometry/vec.ts";
import { pairFit, thinnestWall } from "../../src/lutherie/inlay-fit.ts";
import { inlayPair } from "../../src/lutherie/inlay-pair.ts";

interface Case {
  readonly id: string;
  readonly op: string;
  readonly input: {
    readonly contours?: readonly (readonly [number, number])[][];
    readonly discs?: readonly [number, number, number][];
  };
  readonly params: {
    readonly rp: number;
    readonly rq?: number;
    readonly g: number;
    readonly share: number;
    readonly parts?: boolean;
    readonly mode?: "cut";
    readonly r: number;
  };
  readonly expect: Readonly<Record<string, readonly [number | boolean, number]>>;
}
const { cases } = JSON.parse(readFileSync(new URL("../data/inlay-cases.json", import.meta.url), "utf8")) as { cases: Case[] };

const MOVES: readonly (readonly [string, (p: Vec) => Vec])[] = [
  ["as given", (p) => p],
  [
    "turned by 37 degrees",
    (p) => vec(p.x * Math.cos(0.6458) - p.y * Math.sin(0.6458), p.x * Math.sin(0.6458) + p.y * Math.cos(0.6458)),
  ],
  ["mirrored", (p) => vec(-p.x, p.y)],
  ["300 mm away", (p) => vec(p.x + 300, p.y - 300)],
];

function shapeOf({ input }: Case, move: (p: Vec) => Vec): Region {
  const rings: Ring[] = [
    ...(input.contours ?? []).map((ring) => ring.map(([x, y]) => move(vec(x, y)))),
    ...(input.discs ?? []).map(([x, y, r]) => flatten(circle(vec(x, y), r)).map(move)),
  ];
  return uniteRings(rings);
}

/** A mirrored shape keeps its rings' sense of nesting: all rings turn round together, which nonzero filling does not mind. */
describe.each(MOVES)("pairs of the reference cases, %s", (_, move) => {
  it.each(cases.filter((c) => c.op === "pair").map((c) => [c.id, c] as const))("%s", (__, given) => {
    const { rp, rq = rp, g, share, parts = true, mode = "cut" } = given.params;
    const shape = shapeOf(given, move);
    const pair = inlayPair(shape, {
      pocketRadius: rp,
      pieceRadius: rq,
      gap: g,
      share,
      pieces: parts ? "apart" : "joined",
      mend: mode,
    });
    const fit = pairFit(pair.curves.pocket, pair.curves.piece, 1)!;
    const found: Record<string, number | boolean | undefined> = {
      area_S: regionArea(shape),
      area_M: regionArea(pair.common),
      area_pocket: regionArea(pair.pocket),
      area_plug: regionArea(pair.piece),
      lost: regionArea(difference(shape, pair.common)),
      added: regionArea(difference(pair.common, shape)),
      parts_S: countsOf(shape).parts,
      holes_S: countsOf(shape).holes,
      parts_pocket: countsOf(pair.pocket).parts,
      holes_pocket: countsOf(pair.pocket).holes,
      parts_plug: countsOf(pair.piece).parts,
      holes_plug: countsOf(pair.piece).holes,
      ok: pair.followed,
      gap_min: fit.minGap,
      gap_max: fit.maxGap,
      overlap: fit.overlap,
      pocket_uncut: regionArea(difference(pair.pocket, open(pair.pocket, rp))),
      plug_left_over: parts
        ? Math.max(...pair.piece.map((polygon) => regionArea(difference(close([polygon], rq), [polygon]))))
        : regionArea(difference(close(pair.piece, rq), pair.piece)),
      wall_min: thinnestWall(pair.curves.pocket)?.width,
    };
    for (const [key, [value, tolerance]] of Object.entries(given.expect)) {
      expect(found, key).toHaveProperty(key);
      if (typeof value === "boolean") expect(found[key], key).toBe(value);
      else
        expect(Math.abs((found[key] as number) - value), `${key}: ${String(found[key])} for ${value}`).toBeLessThanOrEqual(
          tolerance,
        );
    }
  });
});

describe("the filters alone", () => {
  it("13b: neither order of opening and closing is both open and closed", () => {
    const given = cases.find((c) => c.op === "filters")!;
    const shape = shapeOf(given, (p) => p);
    const r = given.params.r;
    const opened = open(shape, r);
    const closed = close(shape, r);
    const ok = open(closed, r);
    const ko = close(opened, r);
    const found: Record<string, number> = {
      S_area: regionArea(shape),
      ...countsAs("open", opened),
      ...countsAs("close", closed),
      ...countsAs("open_of_close", ok),
      ...countsAs("close_of_open", ko),
      differ: regionArea(exclusive(ok, ko)),
      ok_then_close_adds: regionArea(difference(close(ok, r), ok)),
      ko_then_open_drops: regionArea(difference(ko, open(ko, r))),
    };
    for (const [key, [value, tolerance]] of Object.entries(given.expect))
      expect(Math.abs(found[key]! - (value as number)), key).toBeLessThanOrEqual(tolerance);
  });
});

function countsAs(name: string, region: Region): Record<string, number> {
  const { parts, holes } = countsOf(region);
  return { [`${name}_area`]: regionArea(region), [`${name}_parts`]: parts, [`${name}_holes`]: holes };
}
