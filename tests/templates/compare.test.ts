import { describe, expect, it } from "vitest";
import type { Design } from "../../src/document/design.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { makingsOf } from "../../src/parts/makings.ts";
import { compare, type Version } from "../../src/templates/compare.ts";
import { makePatterns } from "../../src/templates/patterns.ts";
import { templatesOf } from "../../src/templates/template.ts";
import { designWith } from "../checks/design.ts";

function versionOf(design: Design): Version {
  const derived = createDeriver()(design);
  const patterns = makePatterns(templatesOf(derived), makingsOf(design, derived), { say: String, number: "", fingerprint: "" });
  return { derived, templates: patterns.flatMap(({ made }) => (made.ok ? [made.value] : [])) };
}

const BASE = { "instrument.nutWidth": "43 mm", "fingerboard.widthAtEnd": "57 mm" };

describe("two versions of a design", () => {
  it("differ in nothing when nothing was changed", () => {
    expect(compare(versionOf(designWith([], BASE)), versionOf(designWith([], BASE)))).toEqual({
      numbers: [],
      parts: [],
      templates: [],
    });
  });

  it("differ in a number that was changed and in those that follow it, with both values", () => {
    const { numbers } = compare(
      versionOf(designWith([], BASE)),
      versionOf(designWith([], { ...BASE, "instrument.nutWidth": "44 mm" })),
    );
    expect(numbers.find(({ path }) => path === "instrument.nutWidth")).toMatchObject({
      before: 43,
      now: 44,
      label: "Width at the nut",
    });
    expect(numbers.some(({ partId }) => partId === "fingerboard")).toBe(true);
  });

  it("name strings by their numbers, of a string that was taken out too, and numbers of one name by their group", () => {
    const design = designWith([], BASE);
    const rowsTo = (now: Design): string[] => compare(versionOf(design), versionOf(now)).numbers.map(({ label }) => label);
    // The list runs from the bass: its third string is the fourth of six.
    expect(rowsTo(designWith([], { ...BASE, "instrument.strings[2].gauge": "0.033 in" }))).toContain("string 4: gauge");
    const strings = (design.instrument.strings as readonly unknown[]).slice(1);
    const gone = rowsTo({ ...design, instrument: { ...design.instrument, strings } }).filter((label) => /^string \d/.test(label));
    expect(new Set(gone.map((label) => label.split(":")[0]))).toEqual(new Set(["string 6"]));
    const markers = rowsTo(designWith([], { ...BASE, "fingerboard.markerFrets": "3 5 7" }));
    expect(new Set(markers).size).toBe(markers.length);
  });

  it("name the templates that would have to be cut again and how far their line moved: half a millimetre a side for 1 mm of nut width", () => {
    const { templates, parts } = compare(
      versionOf(designWith([], BASE)),
      versionOf(designWith([], { ...BASE, "instrument.nutWidth": "44 mm" })),
    );
    const blank = templates.find(({ id }) => id === "fingerboard/blank-outline")!;
    if (typeof blank.change === "string") throw new Error(blank.change);
    // The corners move across by 0.5, square to the long side by 0.5 cos 0.9 degrees.
    expect(blank.change.farthest).toBeGreaterThan(0.49);
    expect(blank.change.farthest).toBeLessThan(0.501);
    expect(parts.map(({ id }) => id)).toContain("fingerboard");
  });

  it("leave a template alone that the number has nothing to do with", () => {
    const { templates } = compare(
      versionOf(designWith([], BASE)),
      versionOf(designWith([], { ...BASE, "nut.thickness": "6 mm" })),
    );
    expect(templates.map(({ partId }) => partId)).not.toContain("fingerboard");
    // The head begins behind the nut.
    expect(templates.map(({ partId }) => partId)).toContain("neck");
  });

  it("tell parts that are new or gone, and their templates", () => {
    const [without, bridged] = [versionOf(designWith([], BASE)), versionOf(designWith(["bridge"], BASE))];
    const added = compare(without, bridged);
    expect(added.parts.find(({ id }) => id === "bridge")).toMatchObject({ before: undefined });
    expect(added.templates.filter(({ partId }) => partId === "bridge").every(({ change }) => change === "new")).toBe(true);
    const taken = compare(bridged, without);
    expect(taken.templates.filter(({ partId }) => partId === "bridge").every(({ change }) => change === "gone")).toBe(true);
    expect(taken.numbers.filter(({ partId }) => partId === "bridge")).toEqual([]);
  });

  it("tell an entry of a list by its place", () => {
    const strings = (gauge: string) => ({ ...BASE, "instrument.strings[5].gauge": gauge });
    const { numbers } = compare(versionOf(designWith([], strings("0.012 in"))), versionOf(designWith([], strings("0.011 in"))));
    expect(numbers.find(({ path }) => path === "instrument.strings[5].gauge")!.label).toMatch(/^string 1: /);
  });
});
