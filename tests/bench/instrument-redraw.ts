/** Redraws a whole instrument with one shared number changed, and tells how long that takes: `npx tsx tests/bench/instrument-redraw.ts`. */
import "../every-part.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { DesignNumbers } from "../../src/parts/derived.ts";
import { arrange } from "../../src/parts/general-arrangement.ts";

const PARTS = ["fingerboard", "nut", "body", "neck", "headstock", "bridge", "soundhole", "sides", "bracing"];
const RUNS = 150;
const WARM = 40;

const CHANGES = {
  nutWidth: (i: number) => 43 + (i % 50) * 0.02,
  scale: (i: number) => 640 + (i % 50) * 0.1,
  joinFret: (i: number) => 13 + (i % 2),
  saddleSpread: (i: number) => 54 + (i % 50) * 0.05,
};
export type SharedNumber = keyof typeof CHANGES;

/** A bound steel-string with domed plates; each call changes the number and draws everything. */
export function instrumentRedraw(number: SharedNumber): (i: number) => void {
  const derive = createDeriver();
  const design = (value: number): DesignNumbers => ({
    units: "mm",
    instrument: { [number]: value },
    parts: {
      ...Object.fromEntries(PARTS.map((kind) => [kind, { kind }])),
      body: {
        kind: "body",
        topRadius: 12_000,
        binding: [
          { name: "binding", thickness: 1.524, height: 6 },
          { name: "purfling", thickness: 0.889, height: 2 },
        ],
      },
      sides: { kind: "sides", backRadius: 4572 },
    },
  });
  return (i) => {
    const derived = derive(design(CHANGES[number](i)));
    if (derived.problems.length > 0) throw new Error(derived.problems[0]!.message);
    for (const part of [derived.instrument, ...derived.parts]) part.drawing();
    arrange(derived);
  };
}

function times(work: (i: number) => void): number[] {
  for (let i = 0; i < WARM; i++) work(i);
  return Array.from({ length: RUNS }, (_, i) => {
    const start = performance.now();
    work(WARM + i);
    return performance.now() - start;
  }).toSorted((a, b) => a - b);
}

if (import.meta.filename === process.argv[1])
  console.table(
    Object.fromEntries(
      (Object.keys(CHANGES) as SharedNumber[]).map((number) => {
        const all = times(instrumentRedraw(number));
        const at = (share: number): string => all[Math.min(all.length - 1, Math.floor(share * all.length))]!.toFixed(1);
        return [number, { "p50, ms": at(0.5), "p95, ms": at(0.95) }];
      }),
    ),
  );
