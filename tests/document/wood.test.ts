import { describe, expect, it } from "vitest";
import { addCut, numbersOfCut } from "../../src/document/cuts.ts";
import { removePart, renamePart } from "../../src/document/edit-parts.ts";
import { fingerprintOf } from "../../src/document/fingerprint.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { readDesign } from "../../src/document/read.ts";
import { setUnits } from "../../src/document/set-units.ts";
import { setValue } from "../../src/document/set-value.ts";
import { writeDesign } from "../../src/document/write.ts";
import type { Design } from "../../src/document/design.ts";

function withValues(values: Readonly<Record<string, unknown>>): Design {
  let design: Design = newDesign("steel-string");
  for (const [path, value] of Object.entries(values)) {
    const set = setValue(design, path, value);
    if (!set.ok) throw new Error(`${path}: ${set.error.message}`);
    design = set.value;
  }
  return design;
}

const SAID = {
  "wood.fingerboard/board.species": "rosewood-indian",
  "wood.fingerboard/board.allowance": "1/8",
  "seasons.shopHumidityPct": "42",
};

describe("wood and seasons in a design", () => {
  it("are kept as typed and read back", () => {
    const design = withValues(SAID);
    expect(design.wood).toEqual({ "fingerboard/board": { species: "rosewood-indian", allowance: "1/8" } });
    expect(design.seasons).toEqual({ shopHumidityPct: "42" });
    expect(readDesign(writeDesign(design))).toMatchObject({ ok: true, design, repairs: [] });
  });

  it("are taken back by nothing, leaving no empty records", () => {
    let design = withValues(SAID);
    for (const path of Object.keys(SAID)) {
      const set = setValue(design, path, undefined);
      if (!set.ok) throw new Error(set.error.message);
      design = set.value;
    }
    expect(design).toEqual(newDesign("steel-string"));
  });

  it("keep their lengths when the units are switched", () => {
    const set = setUnits(withValues(SAID), "mm");
    expect(set.ok && set.value.wood).toEqual({ "fingerboard/board": { species: "rosewood-indian", allowance: "1/8 in" } });
  });

  it("go with a part that is renamed or removed, and leave the sign of the drawings alone", () => {
    const design = withValues(SAID);
    const renamed = renamePart(design, "fingerboard", "board");
    expect(renamed.ok && Object.keys(renamed.value.wood ?? {})).toEqual(["board/board"]);
    const removed = removePart(design, "fingerboard");
    expect(removed.ok && removed.value.wood).toBeUndefined();
    expect(fingerprintOf(design)).toBe(fingerprintOf(newDesign("steel-string")));
  });

  it("are frozen with a cut and come back with its numbers", () => {
    const cut = addCut(withValues(SAID), { date: "2025-03-31", part: "fingerboard", template: "blank-outline" });
    const other = setValue(cut, "seasons.shopHumidityPct", 60);
    const back = other.ok ? numbersOfCut(other.value, 0) : other;
    expect(back.ok && back.value.seasons).toEqual({ shopHumidityPct: "42" });
  });

  it.each([
    ["wood.fingerboard/board.colour", /has no colour/],
    ["wood.backboard/board.grain", /has no backboard/],
    ["wood.fingerboard.grain", /has no fingerboard/],
    ["seasons.rain", /the seasons has no rain/],
  ])("refuse %s and say why", (path, message) => {
    const set = setValue(newDesign("steel-string"), path, 1);
    expect(set.ok ? "" : set.error.message).toMatch(message);
  });

  it("lose only what cannot be read in a damaged file", () => {
    const text = writeDesign(withValues(SAID)).replace('"rosewood-indian"', "17").replace('"42"', "true");
    const read = readDesign(text);
    expect(read.ok && read.design.wood).toEqual({ "fingerboard/board": { allowance: "1/8" } });
    expect(read.ok && read.repairs.map(({ path }) => path)).toEqual([
      "wood.fingerboard/board.species",
      "seasons.shopHumidityPct",
    ]);
  });
});
