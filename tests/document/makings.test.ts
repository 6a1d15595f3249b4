import { describe, expect, it } from "vitest";
import { addCut, numbersOf, numbersOfCut } from "../../src/document/cuts.ts";
import type { Design } from "../../src/document/design.ts";
import { removePart, renamePart } from "../../src/document/edit-parts.ts";
import { fingerprintOf } from "../../src/document/fingerprint.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { readDesign } from "../../src/document/read.ts";
import { setUnits } from "../../src/document/set-units.ts";
import { setValue } from "../../src/document/set-value.ts";
import { writeDesign } from "../../src/document/write.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { makingsOf } from "../../src/parts/makings.ts";

const BLANK = "fingerboard/blank-outline";
const FROM = { edge: true, centreLine: true, holes: false, recess: false, grain: undefined };

function withValues(values: Readonly<Record<string, unknown>>): Design {
  let design: Design = newDesign("steel-string");
  for (const [path, value] of Object.entries(values)) {
    const set = setValue(design, path, value);
    if (!set.ok) throw new Error(`${path}: ${set.error.message}`);
    design = set.value;
  }
  return design;
}

const settled = (design: Design) => makingsOf(design, createDeriver()(design)).of(BLANK, FROM);

describe("how a template is made, said in the design", () => {
  const design = withValues({
    [`templates.${BLANK}.follow`]: "bush",
    [`templates.${BLANK}.bush`]: "5/8 in",
    [`templates.${BLANK}.bit`]: "1/4",
    "templates.fingerboard.pin": "4 mm",
  });

  it("is kept as typed, read back, and written in the order of its table", () => {
    const text = writeDesign(design);
    expect(text).toContain('"bush": "5/8 in"');
    expect(text.indexOf('"follow"')).toBeLessThan(text.indexOf('"bush"'));
    expect(readDesign(text)).toMatchObject({ ok: true, design, repairs: [] });
  });

  it("settles in mm, what is not said following or falling back", () => {
    const { value, problems } = settled(design);
    expect(problems).toEqual([]);
    expect(value).toMatchObject({
      follow: "bush",
      bush: 15.875,
      bit: 6.35,
      partnerBit: 6.35,
      partnerBush: undefined,
      half: "whole",
    });
  });

  it("takes formulas over the numbers of its own part and of all parts", () => {
    // 1 3/4 in is 44.45 mm.
    const { value } = settled(
      withValues({ [`templates.${BLANK}.follow`]: "moved", [`templates.${BLANK}.moved`]: "= nutWidth / 10" }),
    );
    expect(value?.moved).toBeCloseTo(4.445, 12);
    const own = settled(withValues({ [`templates.${BLANK}.follow`]: "moved", [`templates.${BLANK}.moved`]: "= thickness" }));
    expect(own.value?.moved).toBeCloseTo(6.35, 12);
  });

  it("tells a text that is no length where it stands", () => {
    const { value, problems } = settled(withValues({ [`templates.${BLANK}.bush`]: "wide" }));
    expect(value).toBeUndefined();
    expect(problems[0]?.path).toBe(`templates.${BLANK}.bush`);
  });

  it("refuses a path to no number, and names the nearest", () => {
    expect(setValue(design, `templates.${BLANK}.bushh`, "3 mm")).toMatchObject({
      ok: false,
      error: { mend: "Did you mean bush?" },
    });
    expect(setValue(design, "templates.wing/outline.bush", "3 mm")).toMatchObject({ ok: false });
    expect(setValue(design, `templates.${BLANK}`, "3 mm")).toMatchObject({ ok: false });
  });

  it("is taken back one by one, and an empty record with the last", () => {
    const without = setValue(design, "templates.fingerboard.pin", undefined);
    expect(without.ok && Object.keys(without.value.templates ?? {})).toEqual([BLANK]);
  });

  it("follows its part to another name and goes with it", () => {
    const renamed = renamePart(design, "fingerboard", "board2");
    expect(renamed.ok && Object.keys(renamed.value.templates ?? {}).toSorted()).toEqual(["board2", "board2/blank-outline"]);
    const removed = removePart(design, "fingerboard");
    expect(removed.ok && removed.value.templates).toBeUndefined();
  });

  it("keeps its lengths when the design is shown in other units", () => {
    const metric = setUnits(design, "mm");
    expect(metric.ok && metric.value.templates?.[BLANK]?.bit).toBe("1/4 in");
    expect(metric.ok && settled(metric.value).value?.bit).toBe(6.35);
  });

  it("counts in the fingerprint, whatever the units shown and wherever joints run, and is frozen with a cut", () => {
    const plain = newDesign("steel-string");
    expect(fingerprintOf(design)).not.toBe(fingerprintOf(plain));
    const metric = setUnits(design, "mm");
    expect(metric.ok && fingerprintOf(metric.value)).toBe(fingerprintOf(design));
    const moved = setValue(design, `templates.${BLANK}.jointAcross`, "12 mm");
    expect(moved.ok && fingerprintOf(moved.value)).toBe(fingerprintOf(design));
    const joint = setValue(plain, "templates.nut/blank.jointUp", "12 mm");
    expect(joint.ok && fingerprintOf(joint.value)).toBe(fingerprintOf(plain));
    const cut = addCut(design, { date: "2026-03-09", part: "fingerboard", template: "blank-outline" });
    const later = setValue(cut, `templates.${BLANK}.bush`, "10 mm");
    const back = later.ok ? numbersOfCut(later.value, 0) : later;
    expect(back.ok && numbersOf(back.value)).toEqual(numbersOf(design));
  });
});
