import { describe, expect, it } from "vitest";
import { newDesign } from "../../src/document/new-design.ts";
import { setValue } from "../../src/document/set-value.ts";
import type { Design } from "../../src/document/design.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { differenceOf, isSame } from "../../src/templates/difference.ts";
import { templatesOf } from "../../src/templates/template.ts";

const start = newDesign("steel-string");

function set(design: Design, path: string, raw: unknown): Design {
  const result = setValue(design, path, raw);
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
}

const drawn = (design: Design, id: string) => {
  const found = templatesOf(createDeriver()(design)).find((template) => template.id === id);
  if (!found) throw new Error(`no template ${id}`);
  return found.drawing;
};
const slots = "fingerboard/fret-slots";
const outline = "fingerboard/blank-outline";

describe("what has changed since a template was cut", () => {
  it("is nothing while the numbers that it is made of stay", () => {
    for (const id of [slots, outline]) {
      const difference = differenceOf(drawn(start, id), drawn(set(start, "order.title", "another"), id));
      expect(difference).toEqual({ farthest: 0, gone: [], added: [] });
      expect(isSame(difference)).toBe(true);
    }
  });

  it("is how far the last fret has moved, where the scale is longer by 2 mm", () => {
    // A fret stands at L (1 - 2^(-n/12)) from the nut (equal temperament): fret 20 of a scale longer by 2 moves by 2 (1 - 2^(-20/12)).
    const longer = set(set(start, "scale", "645 mm"), "frets", 20);
    const before = differenceOf(drawn(longer, slots), drawn(set(longer, "scale", "647 mm"), slots));
    const moved = 2 * (1 - 2 ** (-20 / 12));
    // The slot's ends move along the slanted sides too, so a little more than the fret itself.
    expect(before.farthest).toBeGreaterThan(moved - 0.003);
    expect(before.farthest).toBeLessThan(moved * 1.02);
    expect(isSame(before)).toBe(false);
  });

  it("is half of what the nut is wider by, for an outline", () => {
    const given = set(set(start, "nutWidth", "44 mm"), "nutMargin", "3.2 mm");
    const { farthest } = differenceOf(drawn(given, outline), drawn(set(given, "nutWidth", "44.8 mm"), outline));
    expect(Math.abs(farthest - 0.4)).toBeLessThan(0.01);
  });

  it("names the frets that were added, and those that are gone", () => {
    const [few, many] = [set(start, "frets", 20), set(start, "frets", 21)];
    expect(differenceOf(drawn(few, slots), drawn(many, slots)).added).toEqual(["fret 21"]);
    expect(differenceOf(drawn(many, slots), drawn(few, slots)).gone).toEqual(["fret 21"]);
  });
});
