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
});
