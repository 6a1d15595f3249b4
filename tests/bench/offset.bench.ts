/**
 * An outline moved in by 2.413, beside the bare call of the clipping library on the same points at 10,000 units a mm. Printed before the
 * table: the ratio of medians, first without and then with the refit to curves. Run by `npx vitest bench --run --project unit
 * tests/bench/offset.bench.ts`.
 */
import ClipperLib, { type Path as IntRing } from "clipper-lib";
import { bench, describe } from "vitest";
import { offsetRings, uniteRings } from "../../src/geometry/clipper.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { offsetPath, offsetRegion } from "../../src/geometry/offset.ts";
import { outlinesOf } from "../../src/geometry/refit.ts";
import type { Region } from "../../src/geometry/region.ts";
import { scaling, transformPath } from "../../src/geometry/transform.ts";
import { bodyPath } from "../geometry/shapes.ts";

const DELTA = -2.413;

/** The library alone, as one would call it: rounding in and out, round joins at 0.001 mm. */
function bare(region: Region): number {
  const rings: IntRing[] = region.map(({ outer }) => outer.map((p) => ({ X: Math.round(p.x * 1e4), Y: Math.round(p.y * 1e4) })));
  const engine = new ClipperLib.ClipperOffset(2, 10);
  engine.AddPaths(rings, ClipperLib.JoinType.jtRound, ClipperLib.EndType.etClosedPolygon);
  const solution: IntRing[] = [];
  engine.Execute(solution, DELTA * 1e4);
  return solution.map((ring) => ring.map((p) => ({ x: p.X / 1e4, y: p.Y / 1e4 }))).length;
}

/** A small body, 205 long, whose chords keep within `tolerance`: 859 points or so at 0.001. */
const bodyOf = (tolerance: number): Region => uniteRings([flatten(transformPath(scaling(0.427), bodyPath()), tolerance)]);

function median(run: () => unknown): number {
  const times = Array.from({ length: 61 }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  });
  return times.slice(20).toSorted((a, b) => a - b)[20]!;
}

for (const tolerance of [0.001, 0.00001]) {
  const body = bodyOf(tolerance);
  const points = body[0]!.outer.length;
  const alone = median(() => bare(body));
  const ratio = (run: () => unknown): string => (median(run) / alone).toFixed(2);
  console.log(
    `body of ${points} points: library alone ${alone.toFixed(2)} ms; ratio without refit ${ratio(() => offsetRegion(body, DELTA))}, ` +
      `with refit ${ratio(() => outlinesOf(offsetRegion(body, DELTA)))}`,
  );
  describe(`body of ${points} points moved in`, () => {
    bench("the library alone", () => void bare(body));
    bench("kernel, no thinning", () => void offsetRings(body, DELTA));
    bench("kernel, thinned", () => void offsetRegion(body, DELTA));
    bench("kernel, thinned and refitted", () => void outlinesOf(offsetRegion(body, DELTA)));
  });
}

describe("a body of eight cubics and a line moved in", () => {
  bench("flattened to 0.001 for the library alone", () => void bare([{ outer: flatten(bodyPath()), holes: [] }]));
  bench("kernel, path to path", () => void offsetPath(bodyPath(), DELTA));
});
