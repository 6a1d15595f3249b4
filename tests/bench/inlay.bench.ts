/**
 * An inlay while its numbers are dragged: a monogram of two interlaced script letters whose cutter, gap and size change with every run, and a
 * row of 24 letters. Printed before the table: p50 and p95, from typed text on, of the coarse answer, of the final pocket and piece, and of these
 * with what is said of them (report and measured gap); and how long the offsets of the pair take beside the same six done directly by the clipping library on the same points (10,000
 * units a mm) and by JTS. Times are processor time of this process. Run by `npx vitest bench --run --project unit tests/bench/inlay.bench.ts`.
 */
import ClipperLib, { type Path as IntRing } from "clipper-lib";
import { bench, describe } from "vitest";
import { closeArcs, openArcs } from "../../src/geometry/arc-morphology.ts";
import { offsetArcs } from "../../src/geometry/arc-offset.ts";
import { arcOutlinesOf } from "../../src/geometry/arc-ring.ts";
import { union } from "../../src/geometry/clipper.ts";
import { ringsOf, type Region } from "../../src/geometry/region.ts";
import { interlace } from "../../src/lettering/interlace.ts";
import { pairFit } from "../../src/lutherie/inlay-fit.ts";
import { inlayPair, type PairCutting } from "../../src/lutherie/inlay-pair.ts";
import { inlayReport } from "../../src/lutherie/inlay-report.ts";
import { jtsOffset, type Jts } from "../geometry/jts.ts";
import BufferOp from "jsts/org/locationtech/jts/operation/buffer/BufferOp.js";
import { faceById } from "../lettering/font-files.ts";
import { set } from "../lettering/spec.ts";

const face = faceById("great-vibes");

/** The n-th stand of the dragged numbers. */
function cuttingAt(n: number): PairCutting {
  const radius = 0.2 + 0.005 * (n % 15);
  return {
    pocketRadius: radius,
    pieceRadius: radius,
    gap: 0.02 + 0.004 * (n % 10),
    share: 0.5,
    pieces: "apart",
    mend: "cut",
  };
}

function monogram(n: number): Region {
  const { letters } = set(face, "RH", {
    size: { by: "cap-height", value: 10 + 0.1 * (n % 20) },
    arrangement: { kind: "overlapped", overlap: 4 },
  });
  return union(...interlace(letters.map(({ region }) => region), { gap: 0.5, begins: "earlier", turned: [] }).letters); // prettier-ignore
}

const row = (n: number): Region =>
  set(face, "Made by hand for the player", { size: { by: "cap-height", value: 10 + 0.1 * (n % 20) } }).region;

/** All that is shown of an inlay but the advice on sizes. */
function answer(shape: Region, cutting: PairCutting): unknown {
  const pair = inlayPair(shape, cutting);
  return [pair, inlayReport(shape, pair), pairFit(pair.curves.pocket, pair.curves.piece, 1)];
}

/** The six moves of a pair in which nothing disagrees: opened, closed and opened again, then the two edges. */
const chain = ({ pocketRadius, gap }: PairCutting): readonly number[] => {
  const a = pocketRadius - gap / 2;
  return [-a, 2 * a, -2 * a, a];
};

function byArcs(shape: Region, cutting: PairCutting): void {
  const a = cutting.pocketRadius - cutting.gap / 2;
  const common = openArcs(closeArcs(openArcs(arcOutlinesOf(shape), a), a), a);
  offsetArcs(common, cutting.gap / 2);
  offsetArcs(common, -cutting.gap / 2);
}

/** As one would call the library: rounding in, round joins at 0.001 mm, its own rings handed on. */
function byClipper(shape: Region, cutting: PairCutting): void {
  const move = (rings: IntRing[], delta: number): IntRing[] => {
    const engine = new ClipperLib.ClipperOffset(2, 10);
    engine.AddPaths(rings, ClipperLib.JoinType.jtRound, ClipperLib.EndType.etClosedPolygon);
    const moved: IntRing[] = [];
    engine.Execute(moved, delta * 1e4);
    return moved;
  };
  const given: IntRing[] = ringsOf(shape).map((ring) =>
    ring.map((p) => ({ X: Math.round(p.x * 1e4), Y: Math.round(p.y * 1e4) })),
  );
  const common = chain(cutting).reduce(move, given);
  move(common, cutting.gap / 2);
  move(common, -cutting.gap / 2);
}

function byJts(shape: Region, cutting: PairCutting): void {
  const move = (g: Jts, delta: number): Jts => BufferOp.bufferOp(g, delta, 16) as unknown as Jts;
  const [first, ...rest] = chain(cutting);
  const common = rest.reduce(move, jtsOffset(shape, first!));
  move(common, cutting.gap / 2);
  move(common, -cutting.gap / 2);
}

/** Processor time of each of `count` runs, ms, the first ten left out. */
function timesOf(count: number, run: (n: number) => unknown): number[] {
  return Array.from({ length: count + 10 }, (_, n) => {
    const before = process.cpuUsage();
    run(n);
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  })
    .slice(10)
    .toSorted((a, b) => a - b);
}

const at = (times: readonly number[], share: number): number => times[Math.floor((times.length - 1) * share)]!;
const told = (times: readonly number[]): string => `p50 ${at(times, 0.5).toFixed(0)} ms, p95 ${at(times, 0.95).toFixed(0)} ms`;

for (const [name, shapeAt, runs] of [
  ["monogram", monogram, 60],
  ["24 letters", row, 20],
] as const) {
  const shapes = Array.from({ length: 20 }, (_, n) => shapeAt(n));
  const shape = (n: number): Region => shapes[n % 20]!;
  console.log(`${name}: coarse ${told(timesOf(runs, (n) => inlayPair(shapeAt(n), cuttingAt(n), "coarse")))}`);
  console.log(`${name}: final ${told(timesOf(runs, (n) => inlayPair(shapeAt(n), cuttingAt(n))))}`);
  console.log(`${name}: final and looked at ${told(timesOf(runs, (n) => answer(shapeAt(n), cuttingAt(n))))}`);
  const [arcs, clipper, jts] = [byArcs, byClipper, byJts].map((way) => timesOf(runs / 2, (n) => way(shape(n), cuttingAt(n))));
  const ours = at(arcs!, 0.5);
  console.log(
    `${name}: six offsets ${ours.toFixed(1)} ms; ratio to the clipping library ${(ours / at(clipper!, 0.5)).toFixed(2)}, ` +
      `to JTS ${(ours / at(jts!, 0.5)).toFixed(2)}`,
  );
}

describe("a monogram while its numbers are dragged", () => {
  let n = 0;
  bench("coarse", () => void inlayPair(monogram(n), cuttingAt(n++), "coarse"));
  bench("final", () => void inlayPair(monogram(n), cuttingAt(n++)));
  bench("final and looked at", () => void answer(monogram(n), cuttingAt(n++)));
});
