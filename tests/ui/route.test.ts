import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hashOf, PAGES, PLACES, readRoute } from "../../src/ui/frame/route.ts";

describe("addresses", () => {
  it("lead back to the place that they were made from, whatever a part is called", () => {
    fc.assert(
      fc.property(fc.constantFrom(...PLACES), fc.string({ minLength: 1, unit: "grapheme" }), (place, part) => {
        const route = place === "parts" ? { place, part } : { place };
        expect(readRoute(hashOf(route))).toEqual(route);
      }),
    );
  });

  it("that are not understood lead home, and never fail", () => {
    expect(readRoute("")).toEqual({ place: "parts" });
    expect(readRoute("#/nowhere/at/all")).toEqual({ place: "parts" });
    fc.assert(
      fc.property(fc.string(), (text) => {
        expect([...PAGES, ...PLACES]).toContain(readRoute(`#/${text}`).place);
      }),
    );
  });
});
