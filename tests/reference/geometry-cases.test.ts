/** Cases of tests/data/inlay-cases.json: figures from an independent computation, with their tolerances (see the file's note). */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { difference, exclusive, uniteRings } from "../../src/geometry/clipper.ts";
import { close, open } from "../../src/geometry/morphology.ts";
import { offsetRegion } from "../../src/geometry/offset.ts";
import { insetSides } from "../../src/geometry/inset-sides.ts";
import { regionOf } from "../../src/geometry/outline.ts";
import { circle, rectangle } from "../../src/geometry/path.ts";
import { countsOf, regionArea, regionPerimeter, type Region } from "../../src/geometry/region.ts";
import { swallowed } from "../../src/geometry/swallowed.ts";
import { scaling, transformPath } from "../../src/geometry/transform.ts";
import { distance, vec } from "../../src/geometry/vec.ts";
import { FRAMES, placeRegion } from "../geometry/frames.ts";

interface Input {
  readonly contours?: readonly (readonly (readonly [number, number])[])[];
  readonly rule?: "evenodd";
  readonly discs?: readonly (readonly [number, number, number])[];
  readonly boxes?: readonly (readonly [number, number, number, number])[];
  readonly ellipse?: readonly [number, number, number];
}
interface Case {
  readonly id: string;
  readonly op: string;
  readonly input: Input;
  readonly params: Readonly<Record<string, number>> & { readonly args?: readonly number[]; readonly name?: string };
  readonly expect: Readonly<Record<string, readonly [number, number]>>;
}
const { cases } = JSON.parse(readFileSync(new URL("../data/inlay-cases.json", import.meta.url), "utf8")) as { cases: Case[] };
const of = (op: string): Case[] => cases.filter((c) => c.op === op);

function regionFrom({ contours, rule, discs, boxes, ellipse }: Input): Region {
  if (contours)
    return uniteRings(
      contours.map((ring) => ring.map(([x, y]) => vec(x, y))),
      rule,
    );
  if (ellipse) return regionOf([transformPath(scaling(ellipse[0], ellipse[1]), circle(vec(0, 0), 1))]);
  return regionOf([...(discs ?? []).map(([x, y, r]) => circle(vec(x, y), r)), ...(boxes ?? []).map((box) => rectangle(...box))]);
}

function meets(c: Case, found: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(found)) {
    const [wanted, tolerance] = c.expect[name] ?? [];
    if (wanted === undefined || tolerance === undefined) throw new Error(`${c.id} expects no ${name}`);
    expect(Math.abs(value - wanted), `${c.id}: ${name} is ${value}, wanted ${wanted}`).toBeLessThanOrEqual(tolerance);
  }
}

describe.each(FRAMES)("reference cases %s", (_, frame) => {
  it.each(of("region").map((c) => [c.id, c] as const))("region: %s", (_, c) => {
    const region = placeRegion(frame, regionFrom(c.input));
    meets(c, { area: regionArea(region), length: regionPerimeter(region), ...countsOf(region) });
  });

  it.each(of("offset").map((c) => [c.id, c] as const))("offset: %s", (_, c) => {
    const region = placeRegion(frame, regionFrom(c.input));
    const d = c.params["d"]!;
    const moved = offsetRegion(region, -d);
    const told = swallowed(region, -d, moved);
    const length = (kind: string): number =>
      told.runs.filter((run) => run.kind === kind).reduce((sum, run) => sum + run.length, 0);
    meets(c, {
      area: regionArea(moved),
      parts: told.partsAfter,
      holes: told.holesAfter,
      parts_before: told.partsBefore,
      holes_before: told.holesBefore,
      steiner: regionArea(region) - d * regionPerimeter(region) + Math.PI * d * d * (told.partsBefore - told.holesBefore),
      unreached: regionArea(difference(region, offsetRegion(moved, d))),
      swallowed_tight: length("tight"),
      swallowed_narrow: length("narrow"),
    });
  });

  it.each(of("filters").map((c) => [c.id, c] as const))("filters: %s", (_, c) => {
    const region = placeRegion(frame, regionFrom(c.input));
    const r = c.params["r"]!;
    const [opened, closed] = [open(region, r), close(region, r)];
    const [both, other] = [open(closed, r), close(opened, r)];
    const counted = (name: string, of: Region): Record<string, number> => ({
      [`${name}_area`]: regionArea(of),
      [`${name}_parts`]: countsOf(of).parts,
      [`${name}_holes`]: countsOf(of).holes,
    });
    meets(c, {
      S_area: regionArea(region),
      ...counted("open", opened),
      ...counted("close", closed),
      ...counted("open_of_close", both),
      ...counted("close_of_open", other),
      differ: regionArea(exclusive(both, other)),
      ok_then_close_adds: regionArea(difference(close(both, r), both)),
      ko_then_open_drops: regionArea(difference(other, open(other, r))),
    });
  });
});

describe("reference formulas", () => {
  it.each(
    of("formula")
      .filter((c) => c.params.name === "board_inset")
      .map((c) => [c.id, c] as const),
  )("board inset: %s", (_, c) => {
    const [nut, end, length, t] = c.params.args as [number, number, number, number];
    const moved = insetSides([vec(0, nut / 2), vec(0, -nut / 2), vec(length, -end / 2), vec(length, end / 2)], [0, t, 0, t]);
    if (!moved.ok) throw new Error(moved.reason);
    const [a, b, e, f] = moved.ring as [
      (typeof moved.ring)[0],
      (typeof moved.ring)[0],
      (typeof moved.ring)[0],
      (typeof moved.ring)[0],
    ];
    meets(c, { nut: distance(a!, b!), end: distance(e!, f!), L: e!.x - b!.x });
  });
});
