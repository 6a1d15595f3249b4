import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nearestName } from "../../src/units/nearest-name.ts";

const KNOWN = [
  "nutWidth",
  "nutSpread",
  "saddleSpread",
  "fingerboard.overhang",
  "fingerboard.thickness",
  "neck.thickness",
  "frets",
];

describe("the nearest known name", () => {
  it.each([
    ["nutWidht", "nutWidth"], // two letters swapped
    ["nutwidth", "nutWidth"], // capitals
    ["nutWith", "nutWidth"], // a letter left out
    ["nuttWidth", "nutWidth"], // a letter too many
    ["nutSpraed", "nutSpread"],
    ["fret", "frets"],
    ["overhang", "fingerboard.overhang"], // the last link for the whole
    ["overhagn", "fingerboard.overhang"],
    ["fingerbord.overhang", "fingerboard.overhang"],
    ["thickness", "fingerboard.thickness"], // the first of equals
  ])("to %s is %s", (name, near) => {
    expect(nearestName(name, KNOWN)).toBe(near);
  });

  it.each(["tuners", "x", "", "width of the nut", "a".repeat(5000)])("to %j is none", (name) => {
    expect(nearestName(name, KNOWN)).toBeUndefined();
  });

  it("takes a name of one letter only as it stands", () => {
    expect(nearestName("m", ["n", "cut.m"])).toBe("cut.m");
    expect(nearestName("m", ["n", "mm"])).toBeUndefined();
  });

  it("is at the distance that the definition gives, up to a third of the letters", () => {
    const word = fc.string({ unit: fc.constantFrom("a", "b", "c"), minLength: 1, maxLength: 7 });
    fc.assert(
      fc.property(word, fc.array(word, { minLength: 1, maxLength: 4 }), (name, known) => {
        const most = name.length < 2 ? 0 : Math.max(1, Math.floor(name.length / 3));
        const near = known.map((other) => ({ other, steps: byDefinition(name, other) })).filter(({ steps }) => steps <= most);
        const least = Math.min(...near.map(({ steps }) => steps));
        expect(nearestName(name, known)).toBe(near.find(({ steps }) => steps === least)?.other);
      }),
      { numRuns: 500 },
    );
  });
});

/** Optimal string alignment distance as its recursive definition reads. */
function byDefinition(a: string, b: string): number {
  if (a === "" || b === "") return a.length + b.length;
  const [restA, restB] = [a.slice(0, -1), b.slice(0, -1)];
  const ways = [
    byDefinition(restA, b) + 1,
    byDefinition(a, restB) + 1,
    byDefinition(restA, restB) + (a.at(-1) === b.at(-1) ? 0 : 1),
  ];
  if (a.length > 1 && b.length > 1 && a.at(-1) === b.at(-2) && a.at(-2) === b.at(-1)) {
    ways.push(byDefinition(a.slice(0, -2), b.slice(0, -2)) + 1);
  }
  return Math.min(...ways);
}
