import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pathData } from "../../../src/export/svg/path-data.ts";
import { pathArea } from "../../../src/geometry/measure.ts";
import { readSvg } from "../../../src/geometry/svg/read.ts";
import { vec } from "../../../src/geometry/vec.ts";
import type { MeasuresByKind } from "../../../src/parts/contract.ts";
import { createDeriver } from "../../../src/parts/derive.ts";
import type { DerivedPart, RawRecord } from "../../../src/parts/derived.ts";
import { partOf } from "../../../src/parts/registry.ts";
import { accepted } from "../accepted.ts";
import { findingOf, templateOf } from "../derived-board.ts";
import { expectSound } from "../sound.ts";

function derive(given: RawRecord = {}): { readonly part: DerivedPart; readonly m: MeasuresByKind["shape"] } {
  const derived = createDeriver()({ units: "mm", instrument: {}, parts: { cover: { kind: "shape", ...given } } });
  expect(derived.problems).toEqual([]);
  return { part: derived.parts[0]!, m: derived.parts[0]!.measures as MeasuresByKind["shape"] };
}

describe("a free shape", () => {
  it.each(["rectangle", "oval", "leaf", "wedge", "shield", "bell"])(
    "begins as a sound %s, mirrored or drawn whole alike",
    (start) => {
      const half = derive({ start, length: "80 mm", width: "32 mm" });
      expectSound(half.part);
      expect(half.part.findings().filter(({ severity }) => severity === "stop")).toEqual([]);
      expect(half.m.length).toBeCloseTo(80, 1);
      expect(half.m.width).toBeLessThan(33);
      expect(half.m.width).toBeGreaterThan(31.9);
      expect(derive({ start, length: "80 mm", width: "32 mm", mirrored: false }).m.area).toBeCloseTo(half.m.area, 6);
    },
  );

  it("has the areas of a rectangle and a trapezium", () => {
    expect(derive({ start: "rectangle", length: 80, width: 30 }).m.area).toBeCloseTo(2400, 9);
    // 80 long, 30 and 18 wide.
    expect(derive({ start: "wedge", length: 80, width: 30 }).m.area).toBeCloseTo((80 * (30 + 18)) / 2, 9);
    // An oval of four even points is an ellipse but for the error of its cubics: pi/4 x 80 x 30.
    expect(derive({ start: "oval", length: 80, width: 30 }).m.area / ((Math.PI / 4) * 2400)).toBeCloseTo(1, 1);
  });

  it("is driven by a formula in a point, as typed", () => {
    const { m, part } = derive({
      mirrored: false,
      thickness: "3 mm",
      outline: [
        { x: "0", y: "0" },
        { x: "= thickness * 10", y: "0", rounding: "= thickness" },
        { x: "= thickness * 10", y: "2 cm" },
        { x: 0, y: 20 },
      ],
    });
    expect(m.area).toBeCloseTo(600 - ((4 - Math.PI) / 4) * 9, 9);
    expect(part.fields.find(({ key }) => key === "outline")!.records).toHaveLength(4);
  });

  it("stops where its outline crosses itself, and says where", () => {
    const { part } = derive({
      mirrored: false,
      outline: [
        { x: 0, y: 0 },
        { x: 40, y: 0 },
        { x: 0, y: 30 },
        { x: 40, y: 30 },
      ],
    });
    const finding = findingOf(part, "outline");
    expect(finding.severity).toBe("stop");
    expect(finding.at).toEqual({ x: expect.closeTo(20, 9), y: expect.closeTo(15, 9) });
    expectSound(part);
  });

  it("looks at hollows tighter than the cutter, and at corners without room", () => {
    const notch = [
      { x: 0, y: 0 },
      { x: 40, y: 0 },
      { x: 40, y: 30 },
      { x: 20, y: 12, rounding: 4 },
      { x: 0, y: 30 },
    ];
    expect(findingOf(derive({ mirrored: false, outline: notch }).part, "hollow-bends")).toMatchObject({
      severity: "fine",
      measured: expect.closeTo(4, 9),
    });
    const sharp = notch.map((point) => ({ ...point, rounding: 0 }));
    expect(findingOf(derive({ mirrored: false, outline: sharp }).part, "hollow-bends").severity).toBe("look");
    const wide = notch.map((point) => ({ ...point, rounding: 40 }));
    expect(findingOf(derive({ mirrored: false, outline: wide }).part, "outline/rounding-1").severity).toBe("look");
  });

  it("without an outline says why, and stays sound", () => {
    for (const given of [{ mirrored: false, outline: [] }, { source: "imported" }, { source: "imported", art: "M0 0L9" }]) {
      const { part, m } = derive(given);
      expect(m.host).toBeUndefined();
      expect(findingOf(part, "outline").severity).toBe("stop");
      expect(part.templates()).toEqual([]);
      expectSound(part);
    }
  });

  it("takes over an SVG file's outlines with their holes, at their own size or at a width", () => {
    const file =
      '<svg width="60mm" height="40mm" viewBox="0 0 60 40"><path fill-rule="evenodd" d="M0 0H60V40H0ZM20 20a5 5 0 1 0 10 0a5 5 0 1 0-10 0Z"/></svg>';
    const read = readSvg(file, 25.4);
    if (!read.ok) throw new Error(read.message);
    const art = read.value.outlines
      .flatMap(({ outer, holes }) => [outer, ...holes])
      .map((path) => pathData(path, (p) => vec(p.x, -p.y)))
      .join("");
    const { m, part } = derive({ source: "imported", art });
    expect(m.area).toBeCloseTo(2400 - Math.PI * 25, 3);
    expect(m.host!.holes).toHaveLength(1);
    expect(pathArea(m.host!.holes[0]!)).toBeLessThan(0);
    // The hole lies left of and at the height of the middle, 5 mm from it.
    const box = m.host!.holes[0]!.start;
    expect(Math.hypot(box.x + 5, box.y)).toBeCloseTo(5, 4);
    expect(derive({ source: "imported", art, artWidth: "30 mm" }).m.area).toBeCloseTo((2400 - Math.PI * 25) / 4, 3);
    expect(templateOf(part, "outline").edge).toBe("outline");
    expectSound(part);
  });

  it("measures, draws and checks in finite numbers for every table that is accepted", () => {
    fc.assert(
      fc.property(accepted(partOf("shape")!.params, 0.4), (record) => {
        const derived = createDeriver()({ units: "mm", instrument: {}, parts: { shape: { kind: "shape", ...record } } });
        for (const part of derived.parts) expectSound(part);
      }),
      { numRuns: 150 },
    );
  }, 120_000);
});
