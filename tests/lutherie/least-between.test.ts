import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leastBetween } from "../../src/lutherie/least-between.ts";

describe("leastBetween", () => {
  it("finds the bottom of a valley wherever it lies, in few looks", () => {
    const place = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(place, fc.constantFrom(1, 2, 3, 4), (at, kind) => {
        let looks = 0;
        const f = (t: number): number => {
          looks += 1;
          const d = t - at;
          return kind === 1 ? Math.abs(d) : kind === 2 ? d * d : kind === 3 ? Math.cosh(3 * d) : d ** 4 + d * d;
        };
        expect(Math.abs(leastBetween(f, -1, 1, 1e-6) - at)).toBeLessThan(4e-6);
        expect(looks).toBeLessThan(80);
      }),
    );
  });

  it("finds an end where f only falls or only rises", () => {
    expect(leastBetween((t) => t, 2, 5, 1e-9)).toBe(2);
    expect(leastBetween((t) => -t, 2, 5, 1e-9)).toBe(5);
    expect(leastBetween((t) => t, 3, 3, 1e-9)).toBe(3);
  });

  it("refuses an interval the wrong way round and no width", () => {
    expect(() => leastBetween((t) => t, 1, 0, 1e-9)).toThrow(RangeError);
    expect(() => leastBetween((t) => t, 0, 1, 0)).toThrow(RangeError);
    expect(() => leastBetween((t) => t, Number.NaN, 1, 1e-9)).toThrow(RangeError);
  });
});
