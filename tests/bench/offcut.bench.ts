/**
 * Finding a place on an offcut: 100 boards of 300 to 600 by 60 to 120 mm with three knots, an irregular piece of 40 corners each, grain either
 * way within 6 degrees. Printed before the table: median and 95th percentile of one search. Run by `npx vitest bench --run --project unit
 * tests/bench/offcut.bench.ts`.
 */
import { bench, describe } from "vitest";
import { difference, uniteRings } from "../../src/geometry/clipper.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { circle, rectangle } from "../../src/geometry/path.ts";
import type { Region } from "../../src/geometry/region.ts";
import { vec } from "../../src/geometry/vec.ts";
import { findPlace, type Wanted } from "../../src/lutherie/offcut-search.ts";
import { seeded } from "../lettering/seeded.ts";

const random = seeded(7);
const TURNS = [0, Math.PI].map((turn) => ({ from: turn - 0.1, to: turn + 0.1 }));

function randomCase(): { readonly wood: Region; readonly wanted: Wanted } {
  const [length, width] = [300 + 300 * random(), 60 + 60 * random()];
  let wood = uniteRings([flatten(rectangle(0, 0, length, width))]);
  for (let k = 0; k < 3; k++) {
    const knot = circle(vec(length * random(), width * random()), 5 + 10 * random());
    wood = difference(wood, uniteRings([flatten(knot, 0.05)]));
  }
  const size = 60 + 90 * random();
  const ring = Array.from({ length: 40 }, (_, i) => {
    const r = size * (0.6 + 0.4 * random());
    const angle = (i / 40) * 2 * Math.PI;
    return vec(r * Math.cos(angle), 0.5 * r * Math.sin(angle));
  });
  return { wood, wanted: { piece: uniteRings([ring]), margin: 1, turns: TURNS, mayFlip: false } };
}

const cases = Array.from({ length: 100 }, randomCase);
const told: Record<string, number> = {};
const times = cases.map(({ wood, wanted }) => {
  const start = performance.now();
  const { answer } = findPlace(wood, wanted);
  told[answer] = (told[answer] ?? 0) + 1;
  return performance.now() - start;
});
const sorted = times.toSorted((a, b) => a - b);
console.log(
  `place on an offcut, 100 cases: median ${sorted[50]!.toFixed(0)} ms, 95 % within ${sorted[94]!.toFixed(0)} ms, worst ${sorted[99]!.toFixed(0)} ms; ` +
    Object.entries(told)
      .map(([answer, count]) => `${answer} ${count}`)
      .join(", "),
);

describe("a place on an offcut", () => {
  bench(
    "the median case",
    () => void findPlace(cases[times.indexOf(sorted[50]!)]!.wood, cases[times.indexOf(sorted[50]!)]!.wanted),
  );
});
