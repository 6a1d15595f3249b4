/**
 * The whole instrument redrawn after one shared number has changed: every part measured and drawn again where it hangs on it, and all of
 * them put in their places. Wanted: under 50 ms at the 95th percentile on two cores (`npx tsx tests/bench/instrument-redraw.ts` prints it).
 */
import { bench, describe } from "vitest";
import { instrumentRedraw } from "./instrument-redraw.ts";

describe("one shared number changed, the whole instrument drawn", () => {
  for (const number of ["nutWidth", "scale", "joinFret", "saddleSpread"] as const) {
    const redraw = instrumentRedraw(number);
    let i = 0;
    bench(number, () => redraw((i += 1)), { time: 3000, warmupTime: 1000 });
  }
});
