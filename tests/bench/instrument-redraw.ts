/** Redraws a whole instrument with one shared number changed, and tells how long that takes: `npx tsx tests/bench/instrument-redraw.ts`. */
import { readFileSync } from "node:fs";
import "../every-part.ts";
import { findingsOf } from "../../src/checks/findings.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { Derived, DesignNumbers } from "../../src/parts/derived.ts";
import { arrange } from "../../src/parts/general-arrangement.ts";

const RUNS = 150;
/** What a maker has dragged in the first three seconds or so, while the engine still compiles; told apart. */
const WARM = 100;

const KINDS = ["fingerboard", "nut", "body", "neck", "headstock", "bridge", "soundhole", "sides", "bracing"];

/** A bound steel-string with domed plates, all else as it comes. */
const STEEL_STRING: DesignNumbers = {
  units: "mm",
  instrument: {},
  parts: {
    ...Object.fromEntries(KINDS.map((kind) => [kind, { kind }])),
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
};

/** What is worked out beside the page while the rest is drawn. */
const BESIDE = new Set(["inlay", "offcut"]);

/** The example that has most parts: pointed cutaway, pickguard, port, rod cover, end graft. */
function showpiece(): DesignNumbers {
  const file = new URL("../../examples/showpiece-tenor-guitar.json", import.meta.url);
  const design = JSON.parse(readFileSync(file, "utf8")) as DesignNumbers;
  const parts = Object.entries(design.parts).filter(([, { kind }]) => !BESIDE.has(String(kind)));
  return { ...design, parts: Object.fromEntries(parts) };
}

const SHARED = ["nutWidth", "scale", "joinFret", "saddleSpread"] as const;
export type SharedNumber = (typeof SHARED)[number];
type Changes = Readonly<Record<SharedNumber, (i: number) => number>>;

const INSTRUMENTS = {
  "steel-string": {
    design: () => STEEL_STRING,
    changes: {
      nutWidth: (i) => 43 + (i % 50) * 0.02,
      scale: (i) => 640 + (i % 50) * 0.1,
      joinFret: (i) => 13 + (i % 2),
      saddleSpread: (i) => 54 + (i % 50) * 0.05,
    } satisfies Changes,
  },
  showpiece: {
    design: showpiece,
    changes: {
      nutWidth: (i) => 33 + (i % 50) * 0.02,
      scale: (i) => 582 + (i % 50) * 0.1,
      joinFret: (i) => 14 + (i % 2),
      saddleSpread: (i) => 41 + (i % 50) * 0.05,
    } satisfies Changes,
  },
} as const;
export type BenchInstrument = keyof typeof INSTRUMENTS;

/** Each call changes the number and draws everything: every part by itself, and all of them in their places. */
export function instrumentRedraw(number: SharedNumber, which: BenchInstrument = "steel-string"): (i: number) => void {
  const { next } = redrawing(number, which);
  return (i) => void next(i);
}

function redrawing(
  number: SharedNumber,
  which: BenchInstrument,
): { readonly at: (i: number) => DesignNumbers; readonly next: (i: number) => Derived } {
  const derive = createDeriver();
  const { design, changes } = INSTRUMENTS[which];
  const whole = design();
  const at = (i: number): DesignNumbers => ({ ...whole, instrument: { ...whole.instrument, [number]: changes[number](i) } });
  const next = (i: number): Derived => {
    const derived = derive(at(i));
    if (derived.problems.length > 0) throw new Error(derived.problems[0]!.message);
    for (const part of [derived.instrument, ...derived.parts]) part.drawing();
    arrange(derived);
    return derived;
  };
  return { at, next };
}

/** All checks of what has just been drawn, which the screen makes after it: their templates are made for it too. */
function checksAfter(number: SharedNumber, which: BenchInstrument): (i: number) => () => void {
  const { at, next } = redrawing(number, which);
  return (i) => {
    const derived = next(i);
    return () => void findingsOf(at(i), derived);
  };
}

/** Milliseconds of each run; what `prepare` does is not counted. */
const times = (prepare: (i: number) => () => void): number[] =>
  Array.from({ length: WARM + RUNS }, (_, i) => {
    const work = prepare(i);
    const start = performance.now();
    work();
    return performance.now() - start;
  });

function row(title: string, prepare: (i: number) => () => void): [string, Record<string, string>] {
  const all = times(prepare);
  const at = (part: number[], share: number): string =>
    part.toSorted((a, b) => a - b)[Math.min(part.length - 1, Math.floor(share * part.length))]!.toFixed(1);
  const [first, warm] = [all.slice(0, WARM), all.slice(WARM)];
  return [title, { "p50, ms": at(warm, 0.5), "p95, ms": at(warm, 0.95), [`p95 of the first ${WARM}, ms`]: at(first, 0.95) }];
}

if (import.meta.filename === process.argv[1])
  for (const which of Object.keys(INSTRUMENTS) as BenchInstrument[])
    console.table(
      Object.fromEntries([
        ...SHARED.map((number) => {
          const redraw = instrumentRedraw(number, which);
          return row(`${which}, ${number}`, (i) => () => redraw(i));
        }),
        row(`${which}, checks after nutWidth`, checksAfter("nutWidth", which)),
      ]),
    );
