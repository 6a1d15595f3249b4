import { describe, expect, it } from "vitest";
import { circle } from "../../src/geometry/path.ts";
import { vec } from "../../src/geometry/vec.ts";
import { layOut } from "../../src/sheets/lay-out.ts";
import { hatched, WASTE_BAND, wasteEdges } from "../../src/sheets/waste.ts";
import type { Template } from "../../src/templates/template.ts";
import { box, cut, disc, sheetOptions, templateOf } from "./synthetic-templates.ts";

const lengths = (template: Template): { from: { x: number; y: number }; to: { x: number; y: number } }[] =>
  template.drawing.layers
    .filter(({ name }) => name === "waste")
    .flatMap(({ shapes }) => shapes.map(({ path }) => ({ from: path.start, to: path.segments[0]!.to })));
const sum = (template: Template): number =>
  lengths(template).reduce((all, { from, to }) => all + Math.hypot(to.x - from.x, to.y - from.y), 0);

describe("a hatched waste side", () => {
  it("covers the band: lines 2.5 mm apart are as long together as the band's area over 2.5", () => {
    // A ring of radii 50 and 54: pi (54² - 50²) = 1306.9 mm².
    expect(sum(hatched(disc("soundhole", 50))) * 2.5).toBeGreaterThan(1306.9 * 0.97);
    expect(sum(hatched(disc("soundhole", 50))) * 2.5).toBeLessThan(1306.9 * 1.03);
  });

  it("lies outside of the edge within the band's width, at 45 degrees, and nowhere on the part", () => {
    const lines = lengths(hatched(disc("soundhole", 50)));
    expect(lines.length).toBeGreaterThan(40);
    for (const { from, to } of lines) {
      expect(Math.atan2(to.y - from.y, to.x - from.x)).toBeCloseTo(Math.PI / 4, 6);
      for (const t of [0, 0.25, 0.5, 0.75, 1]) {
        const r = Math.hypot(from.x + (to.x - from.x) * t, from.y + (to.y - from.y) * t);
        expect(r).toBeGreaterThan(50 - 0.03);
        expect(r).toBeLessThan(50 + WASTE_BAND + 0.03);
      }
    }
  });

  it("lies inside of what is marked as waste itself, as a window is", () => {
    const window = templateOf("port", "window", [{ ...cut("outline", circle(vec(0, 0), 50)), tint: "waste" }], {
      edge: "outline",
    });
    for (const { from, to } of lengths(hatched(window)))
      for (const p of [from, to]) {
        expect(Math.hypot(p.x, p.y)).toBeLessThan(50 + 0.03);
        expect(Math.hypot(p.x, p.y)).toBeGreaterThan(50 - WASTE_BAND - 0.03);
      }
  });

  it("follows every piece of an edge that came apart, and no shape of another name", () => {
    const apart = templateOf(
      "inlay",
      "pieces",
      [
        cut("outline", circle(vec(0, 0), 5)),
        cut("outline-2", circle(vec(30, 0), 5)),
        cut("outline-guide", circle(vec(60, 0), 5)),
      ],
      { edge: "outline" },
    );
    expect(wasteEdges(apart).outside).toHaveLength(2);
  });

  it("is laid out with its template and is in no template that is not asked for it", () => {
    const lines = (waste: "none" | "grey" | "hatch"): number =>
      layOut([box("nut", 80, 40)], sheetOptions({ waste })).sheets[0]!.placed.flatMap(({ template }) => lengths(template)).length;
    expect([lines("none"), lines("grey")]).toEqual([0, 0]);
    expect(lines("hatch")).toBeGreaterThan(20);
  });

  it("is none where a template is about no edge", () => {
    const open = templateOf("neck", "lines", [], {});
    expect(hatched(open)).toBe(open);
  });
});
