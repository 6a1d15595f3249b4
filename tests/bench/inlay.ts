/**
 * An inlay while its numbers are dragged: a monogram of two interlaced script letters, and a row of 24 letters. The very work that a maker waits for
 * is done, step by step (src/parts/inlay/work.ts), from typed text on: the coarse answer; the final pocket and piece; the report on them;
 * gap and walls measured; advice on sizes; all without clearing and coupon. First cutter, gap and size change with every run, so that nothing is known from
 * the run before; then the cutter alone and the gap alone, as in a drag. Times are by the clock, as a maker waits, on a machine that does nothing else;
 * processor time, which also counts what other threads collect and compile meanwhile, stands beside them. Last, how long the offsets of the pair take
 * beside the same six done directly by the clipping library on the same points (10,000 units a mm) and by JTS.
 * Run by `npx tsx tests/bench/inlay.ts`.
 */
import ClipperLib, { type Path as IntRing } from "clipper-lib";
import { closeArcsApart, openArcs } from "../../src/geometry/arc-morphology.ts";
import { offsetArcs } from "../../src/geometry/arc-offset.ts";
import { arcOutlinesOf } from "../../src/geometry/arc-ring.ts";
import { ringsOf, type Region } from "../../src/geometry/region.ts";
import { fewLetters } from "../../src/lettering/few-letters.ts";
import type { PairCutting } from "../../src/lutherie/inlay-pair.ts";
import type { InlayQuestion } from "../../src/parts/inlay/question.ts";
import { drawShape } from "../../src/parts/inlay/shape.ts";
import { inlayWork } from "../../src/parts/inlay/work.ts";
import { jtsOffset, type Jts } from "../geometry/jts.ts";
import BufferOp from "jsts/org/locationtech/jts/operation/buffer/BufferOp.js";
import { faceById } from "../lettering/font-files.ts";
import { specOf } from "../lettering/spec.ts";
import { NO_FIGURES } from "../parts/inlay/no-figures.ts";
import { wholeStep } from "../parts/inlay/whole-steps.ts";

const face = faceById("great-vibes");

/** The n-th stand of the dragged cutters, both of one radius, and the m-th of the gap. */
function cuttingAt(n: number, m: number): PairCutting {
  const radius = 0.2 + 0.005 * (n % 15);
  return {
    pocketRadius: radius,
    pieceRadius: radius,
    gap: 0.02 + 0.004 * (m % 10),
    share: 0.5,
    pieces: "apart",
    mend: "cut",
  };
}

const MONOGRAM = { text: "RH", arrangement: { kind: "overlapped", overlap: 4 } } as const;
const ROW = { text: "Made by hand for the player", arrangement: { kind: "row" } } as const;
type Text = typeof MONOGRAM | typeof ROW;

/** Stands of the three numbers that are dragged. */
interface Stands {
  readonly cutter: number;
  readonly gap: number;
  readonly size: number;
}

/** All three at their n-th stand. */
const allAt = (n: number): Stands => ({ cutter: n, gap: n, size: n });

/** What the part asks for at these stands. */
const questionAt = ({ text, arrangement }: Text, { cutter, gap, size }: Stands): InlayQuestion => ({
  letters: {
    spec: specOf(text, { size: { by: "cap-height", value: 10 + 0.1 * (size % 20) }, arrangement }),
    face: fewLetters(face, text),
    ...(text === "RH" ? { weave: { gap: 0.5, begins: "earlier", turned: [] } } : {}),
  },
  figures: NO_FIGURES,
  cutting: cuttingAt(cutter, gap),
  coupon: false,
});

function shapeAt(text: Text, n: number): Region {
  const { letters, figures } = questionAt(text, allAt(n));
  const shape = drawShape(letters, figures);
  if (!shape.ok) throw new Error(shape.error.message);
  return shape.value.region;
}

/** The six moves of a pair in which nothing disagrees: opened, closed and opened again, then the two edges. */
const chain = ({ pocketRadius, gap }: PairCutting): readonly number[] => {
  const a = pocketRadius - gap / 2;
  return [-a, 2 * a, -2 * a, a];
};

function byArcs(shape: Region, cutting: PairCutting): void {
  const a = cutting.pocketRadius - cutting.gap / 2;
  const common = openArcs(closeArcsApart(openArcs(arcOutlinesOf(shape), a), 0, a, []).closed, a);
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

/** Of a run, ms. */
interface Time {
  readonly clock: number;
  readonly processor: number;
}

function timeOf(run: () => unknown): Time {
  const [began, before] = [performance.now(), process.cpuUsage()];
  run();
  const { user, system } = process.cpuUsage(before);
  return { clock: performance.now() - began, processor: (user + system) / 1000 };
}

/** Times of `count` runs, the first ten left out. */
const timesOf = (count: number, run: (n: number) => unknown): Time[] =>
  Array.from({ length: count + 10 }, (_, n) => timeOf(() => run(n))).slice(10);

/** For each run the time of each step, the first ten runs left out. */
const stepsOf = (count: number, question: (n: number) => InlayQuestion): Time[][] =>
  Array.from({ length: count + 10 }, (_, n) => inlayWork.steps(question(n)).map((step) => timeOf(() => wholeStep(step)))).slice(
    10,
  );

const at = (times: readonly number[], share: number): number =>
  times.toSorted((a, b) => a - b)[Math.floor((times.length - 1) * share)]!;
const ms = (time: number): string => time.toFixed(0);

const STEPS = ["coarse", "final", "reported", "measured", "advised on sizes"];

for (const [name, text, runs] of [
  ["monogram", MONOGRAM, 100],
  ["24 letters", ROW, 20],
] as const) {
  for (const [what, question] of [
    ["cutter, gap and size dragged", (n: number) => questionAt(text, allAt(n))],
    ["cutter dragged", (n: number) => questionAt(text, { ...allAt(0), cutter: n })],
    ["gap dragged", (n: number) => questionAt(text, { ...allAt(0), gap: n })],
  ] as const) {
    const steps = stepsOf(runs, question);
    const rows = STEPS.map((step, k) => {
      const until = (of: keyof Time): number[] =>
        steps.map((times) => times.slice(0, k + 1).reduce((sum, time) => sum + time[of], 0));
      return {
        [`${name}, ${what}, until`]: step,
        "p50, ms": ms(at(until("clock"), 0.5)),
        "p95, ms": ms(at(until("clock"), 0.95)),
        "p95 of the step alone": ms(
          at(
            steps.map((times) => times[k]!.clock),
            0.95,
          ),
        ),
        "p95, processor": ms(at(until("processor"), 0.95)),
      };
    });
    console.table(rows);
  }
  const shapes = Array.from({ length: 20 }, (_, n) => shapeAt(text, n));
  const shape = (n: number): Region => shapes[n % 20]!;
  // The clipping library starts from points, so that arcs are fitted to them anew here, too.
  const fresh = (n: number): Region =>
    shape(n).map(({ outer, holes }) => ({ outer: [...outer], holes: holes.map((hole) => [...hole]) }));
  const [ours, clipper, jts] = [byArcs, byClipper, byJts].map((way) =>
    at(
      timesOf(runs / 2, (n) => way(fresh(n), cuttingAt(n, n))).map(({ clock }) => clock),
      0.5,
    ),
  );
  console.log(
    `${name}: six offsets ${ours!.toFixed(1)} ms; ratio to the clipping library ${(ours! / clipper!).toFixed(2)}, ` +
      `to JTS ${(ours! / jts!).toFixed(2)}`,
  );
}
