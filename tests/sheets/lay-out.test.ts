import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Vec } from "../../src/geometry/vec.ts";
import { pathBounds } from "../../src/geometry/measure.ts";
import { layOut } from "../../src/sheets/lay-out.ts";
import { textWidth } from "../../src/sheets/lettering.ts";
import { PAPERS, parsePaper } from "../../src/sheets/paper.ts";
import { optionsProblem } from "../../src/sheets/rooms.ts";
import type { Rect, Sheet, SheetOptions, SheetSet } from "../../src/sheets/sheet.ts";
import { inkBounds, inkOf, type Stroke } from "../../src/sheets/ink.ts";
import { placementMap } from "../../src/sheets/placement.ts";
import { transformPoint } from "../../src/geometry/transform.ts";
import { InkGrid } from "../../src/sheets/grid.ts";
import { bodyHalf, box, bridge, disc, fingerboard, ring, sheetOptions, templateOf } from "./synthetic-templates.ts";
import { chance, star } from "./random-outlines.ts";

const small = [bridge(), disc("soundhole", 50), box("nut", 45, 9), box("headplate", 80, 190), disc("rosette", 62)];
const words = (sheet: Sheet): string =>
  [...sheet.strong, ...sheet.furniture.layers.flatMap(({ texts }) => texts ?? [])].map(({ text }) => text).join(" ");

/** Boxes of the lettering, and the furniture's lines that are not the frame, marks, landing lines or map. */
function textBoxes(sheet: Sheet): { x0: number; y0: number; x1: number; y1: number; text: string }[] {
  return [...sheet.strong, ...sheet.furniture.layers.flatMap(({ texts }) => texts ?? [])].map(
    ({ at, text, height, align, angle }) => {
      const width = textWidth(text, height);
      const before = align === "start" ? 0 : align === "middle" ? width / 2 : width;
      return angle
        ? { x0: at.x - height, x1: at.x, y0: at.y - before, y1: at.y - before + width, text }
        : { x0: at.x - before, x1: at.x - before + width, y0: at.y, y1: at.y + height, text };
    },
  );
}

/** The part of the piece from `a` to `b` within the box (Liang and Barsky). */
function clipped(a: Vec, b: Vec, { x0, y0, x1, y1 }: Rect): [Vec, Vec] | undefined {
  let [t0, t1] = [0, 1];
  for (const [p, q] of [
    [a.x - b.x, a.x - x0],
    [b.x - a.x, x1 - a.x],
    [a.y - b.y, a.y - y0],
    [b.y - a.y, y1 - a.y],
  ] as const) {
    if (p === 0 && q < 0) return undefined;
    if (p < 0) t0 = Math.max(t0, q / p);
    if (p > 0) t1 = Math.min(t1, q / p);
  }
  const at = (t: number): Vec => ({ x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t });
  return t0 > t1 ? undefined : [at(t0), at(t1)];
}

/** The templates' ink as it lies on the sheet, asked for rectangles. */
function inkOn(sheet: Sheet): InkGrid | undefined {
  const strokes = sheet.placed.flatMap(({ template, at, clip }) => {
    const map = placementMap(at);
    return inkOf(template).flatMap(({ points, closed }) => {
      const placed = points.map((p) => transformPoint(map, p));
      const pairs = placed.map((b, k) => [placed[k === 0 ? placed.length - 1 : k - 1]!, b] as const).slice(closed ? 0 : 1);
      return pairs.flatMap(([a, b]): Stroke[] => {
        const seen = clipped(a, b, clip);
        return seen ? [{ points: seen, closed: false }] : [];
      });
    });
  });
  return strokes.length === 0 ? undefined : new InkGrid(strokes, { minX: -10, minY: -10, maxX: 1200, maxY: 1200 }, 4);
}

const OPTIONS: Partial<SheetOptions>[] = [
  {},
  { paper: PAPERS["a5"]! },
  { paper: PAPERS["a5"]!, orientation: "landscape" },
  { paper: PAPERS["ledger"]!, overlap: 0 },
  { share: false },
  { paper: { kind: "roll", label: "Roll", width: 610 } },
  { paper: { kind: "sheet", label: "Small", width: 140, height: 160 } },
];

describe("sheets", { timeout: 120_000 }, () => {
  it("furniture never lies on a line of the template: lettering and bars", () => {
    for (const options of OPTIONS) {
      const set = layOut([fingerboard(), bodyHalf(), ...small], sheetOptions(options));
      for (const sheet of set.sheets) {
        const ink = inkOn(sheet);
        if (!ink) continue;
        for (const { x0, y0, x1, y1, text } of textBoxes(sheet))
          expect(ink.touches(x0, y0, x1, y1), `"${text}" on ${sheet.name}, ${set.paper.label}`).toBe(false);
        const bars = sheet.furniture.layers.find(({ name }) => name === "check-bars")!.shapes;
        for (const { path } of bars) {
          const b = pathBounds(path);
          expect(ink.touches(b.minX, b.minY, b.maxX, b.maxY)).toBe(false);
        }
      }
    }
  });

  it("no two pieces of lettering lie on each other", () => {
    for (const options of OPTIONS) {
      const set = layOut(
        [fingerboard(), bodyHalf(), ...small],
        sheetOptions({ ...options, printer: { name: "shop laser", sx: 1.0042, sy: 0.9969 } }),
      );
      for (const sheet of set.sheets) {
        const boxes = textBoxes(sheet);
        for (const [i, a] of boxes.entries()) {
          for (const b of boxes.slice(i + 1)) {
            const apart = a.x1 <= b.x0 + 0.2 || b.x1 <= a.x0 + 0.2 || a.y1 <= b.y0 + 0.2 || b.y1 <= a.y0 + 0.2;
            expect(apart, `"${a.text}" and "${b.text}" on ${sheet.name}, ${set.paper.label}`).toBe(true);
          }
        }
      }
    }
  });

  it("every sheet says what it is, how it is printed, and carries both bars both ways", () => {
    const set = layOut(
      [fingerboard(), bodyHalf(), ...small],
      sheetOptions({ printer: { name: "shop laser", sx: 1.0042, sy: 0.9969 } }),
    );
    for (const sheet of set.sheets) {
      const said = words(sheet).replace(/\s+/g, " ");
      for (const part of [
        "No. 14",
        "Tenor guitar",
        "H. Rowan",
        "2026-03-09",
        "7F3A-C2",
        "Print at 100 %",
        "x 1.0042, y 0.9969",
        "100 mm",
        "4 in",
        "glued down",
      ])
        expect(said).toContain(part);
      if (sheet.placed.length > 0) expect(said).toMatch(/centre of the line/);
      for (const { template } of sheet.placed) expect(said.toLowerCase()).toContain(template.partLabel.toLowerCase());
      const lengths = sheet.furniture.layers
        .find(({ name }) => name === "check-bars")!
        .shapes.map(({ path }) => pathBounds(path))
        .map((b) => [b.maxX - b.minX, b.maxY - b.minY]);
      for (const [w, h] of [
        [100, 0],
        [101.6, 0],
        [0, 100],
        [0, 101.6],
      ]) {
        expect(lengths.filter(([a, b]) => Math.abs(a! - w!) < 1e-9 && Math.abs(b! - h!) < 1e-9)).toHaveLength(1);
      }
    }
  });

  it("cautions are said once, joining once a tiled template, and the distances from the nut once", () => {
    const set = layOut([fingerboard(), bodyHalf(), ...small], sheetOptions());
    const all = set.sheets.map(words);
    const count = (what: string): number => all.filter((said) => said.includes(what)).length;
    expect([count("Before cutting"), count("Joining"), count("Distances from the nut")]).toEqual([1, 2, 1]);
    expect(all.join(" ")).toContain("322.58");
  });

  it("what finds no room beside the templates stands on a sheet of its own at the end", () => {
    const rows = Array.from({ length: 36 }, (_, i) => ({ label: `fret ${i + 1}`, value: 10 * i }));
    // Hatching 5 mm apart leaves no room on the sheet.
    const lines = Array.from({ length: 40 }, (_, i) => box("x", 180, 5 * (i + 1)).drawing.layers[0]!.shapes[0]!);
    const template = templateOf(
      "plate",
      "hatched",
      lines.map((shape, i) => ({ ...shape, id: `line-${i}` })),
      { table: { title: "Distances", rows } },
    );
    const set = layOut([template], sheetOptions({ paper: PAPERS["letter"]! }));
    const last = set.sheets.at(-1)!;
    expect(last.placed).toHaveLength(0);
    expect(words(last)).toContain("350.00");
    expect(words(last)).toContain("Before cutting");
  });

  it("the chosen tiling is the first of the choices and none has fewer sheets", () => {
    for (const template of [fingerboard(), bodyHalf()]) {
      const { tilings } = layOut([template], sheetOptions({ paper: PAPERS["a4"]! }));
      const { choices, sheets } = tilings[0]!;
      expect(choices[0]!.sheets).toBe(sheets.length);
      expect(choices.length).toBe(4);
      expect(Math.min(...choices.map((c) => c.sheets))).toBe(sheets.length);
    }
  });

  it("keeps to the orientation asked for", () => {
    for (const orientation of ["portrait", "landscape"] as const) {
      for (const paper of [PAPERS["letter"]!, PAPERS["ledger"]!]) {
        const { sheets } = layOut([fingerboard(), ...small], sheetOptions({ paper, orientation }));
        for (const { width, height } of sheets) expect(orientation === "portrait" ? width < height : width > height).toBe(true);
      }
    }
  });

  it("small templates share sheets if asked to, each beside its name, and lie alone if not", () => {
    const shared = layOut(small, sheetOptions());
    const alone = layOut(small, sheetOptions({ share: false }));
    expect(alone.sheets).toHaveLength(small.length);
    expect(shared.sheets.length).toBeLessThanOrEqual(2);
    expect(shared.sheets.flatMap(({ placed }) => placed.map(({ template }) => template.id)).toSorted()).toEqual(
      small.map(({ id }) => id).toSorted(),
    );
    for (const { sheets, templateId } of shared.tilings)
      expect(shared.sheets[sheets[0]!]!.placed.map(({ template }) => template.id)).toContain(templateId);
  });

  it("long templates share a row of sheets, so that they are joined once and then cut apart", () => {
    const boards = ["one", "two", "three"].map((name) => ({ ...fingerboard(name), table: { title: "None", rows: [] } }));
    const alone = layOut(boards, sheetOptions({ share: false }));
    const shared = layOut(boards, sheetOptions());
    expect(alone.sheets).toHaveLength(6);
    expect(shared.sheets).toHaveLength(4);
    const rows = shared.tilings.filter(({ shared: with_ }) => with_);
    expect(rows).toHaveLength(2);
    expect(rows[0]!.sheets).toEqual(rows[1]!.sheets);
    // Every board moves by one and the same step from one sheet to the next: the joint is one.
    const [a, b] = rows[0]!.sheets.map((k) => shared.sheets[k]!.placed);
    const steps = a!.map(({ at }, i) => [at.x - b![i]!.at.x, at.y - b![i]!.at.y]);
    expect(new Set(steps.map((step) => JSON.stringify(step.map((v) => Math.round(v * 1e6))))).size).toBe(1);
    // No two lie on each other: their boxes are at least the gap apart up the sheet.
    const tops = a!
      .map(({ template, at }) => [at.y + inkBounds(template).minY, at.y + inkBounds(template).maxY])
      .toSorted((p, q) => p[0]! - q[0]!);
    expect(tops[1]![0]! - tops[0]![1]!).toBeGreaterThan(6);
    for (const k of rows[0]!.sheets.slice(0, 1))
      for (const name of ["one", "two"]) expect(words(shared.sheets[k]!)).toContain(`Fingerboard, ${name}`);
  });

  it("a board whose joint the maker has moved keeps its sheets to itself, unless others are moved as far", () => {
    const boards = ["one", "two"].map((name) => ({ ...fingerboard(name), table: { title: "None", rows: [] } }));
    const joint = { x: 3, y: 0 };
    const apart = layOut(boards, sheetOptions({ joints: { "fingerboard/one": joint } }));
    expect(apart.tilings.map(({ shared }) => shared)).toEqual([false, false]);
    const still = layOut(boards, sheetOptions());
    const together = layOut(boards, sheetOptions({ joints: { "fingerboard/one": joint, "fingerboard/two": joint } }));
    for (const { tilings } of [still, together]) {
      expect(tilings.map(({ shared }) => shared)).toEqual([true, true]);
      expect(tilings.map(({ title }) => title)).toEqual(["Long templates, row 1", "Long templates, row 1"]);
    }
    // Where the second board begins on the second sheet says where the joint is.
    const at = ({ sheets }: SheetSet): number => sheets[1]!.placed[1]!.at.x - sheets[1]!.frame.x0;
    expect(at(still) - at(together)).toBeCloseTo(3, 9);
  });

  it("an arrow says how the grain runs: beside a template that lies alone, and with the name of one that shares its sheet", () => {
    const arrows = (set: SheetSet): string[] =>
      set.sheets.flatMap(({ furniture }) =>
        furniture.layers
          .filter(({ name }) => name === "grain")
          .flatMap(({ shapes }) => shapes.map(({ path }) => ({ a: path.start, b: path.segments[0]!.to })))
          .filter(({ a, b }) => Math.hypot(b.x - a.x, b.y - a.y) > 10)
          .map(({ a, b }) => (Math.abs(a.y - b.y) < 1e-9 ? "level" : Math.abs(a.x - b.x) < 1e-9 ? "upright" : "slanting")),
      );
    const wide = { paper: PAPERS["a4"]!, orientation: "landscape" } as const;
    for (const [grain, turned] of [
      ["along-x", "level"],
      ["along-y", "upright"],
    ] as const) {
      const set = layOut([{ ...fingerboard(), grain }], sheetOptions(wide));
      expect(set.sheets[0]!.placed[0]!.at.turn).toBe(0);
      expect(arrows(set)).toEqual([turned]);
    }
    expect(arrows(layOut([fingerboard(), ...small], sheetOptions()))).toEqual([]);
    const shared = layOut(
      small.map((template, i) => ({ ...template, grain: i % 2 === 0 ? ("along-x" as const) : ("along-y" as const) })),
      sheetOptions(),
    );
    for (const sheet of shared.sheets) expect(new Set(arrows({ ...shared, sheets: [sheet] })).size).toBeLessThan(2);
    expect(arrows(shared)).toHaveLength(small.length);
  });

  it("what could not be made as asked is said on the sheet", () => {
    const template = { ...bridge(), cautions: ["The bush cannot enter two corners."] };
    expect(words(layOut([template], sheetOptions()).sheets[0]!)).toContain("The bush cannot enter two corners.");
  });

  it("a roll is cut as long as the templates need, one sheet for all that fit its width", () => {
    const roll = parsePaper("roll 610");
    if (!roll.ok) throw new Error("this is a roll");
    const { sheets } = layOut([fingerboard(), bodyHalf(), ...small], sheetOptions({ paper: roll.value }));
    expect(sheets).toHaveLength(1);
    expect(sheets[0]!.width).toBe(610);
    expect(sheets[0]!.height).toBeLessThan(620);
  });

  it("a joint moves as far as the maker drags it, and the template is still whole", () => {
    const set = (x: number) => layOut([fingerboard()], sheetOptions({ joints: { "fingerboard/blank-outline": { x, y: 0 } } }));
    const at = (x: number): number => set(x).sheets[1]!.placed[0]!.at.x - set(x).sheets[1]!.frame.x0;
    for (const by of [7.5, -7.5]) {
      expect(set(by).sheets).toHaveLength(2);
      expect(at(0) - at(by)).toBeCloseTo(by, 9);
    }
  });

  it("a template without a line takes no sheet", () => {
    const set = layOut([templateOf("empty", "nothing", [])], sheetOptions());
    expect(set.sheets).toEqual([]);
    expect(set.tilings).toEqual([{ templateId: "empty/nothing", title: "", sheets: [], shared: false, choices: [] }]);
  });

  it("margins, overlaps and corrections that cannot be are named with their mend, and refused", () => {
    const wrong: Partial<SheetOptions>[] = [
      { margin: 60 },
      { margin: -1 },
      { margin: Number.NaN },
      { overlap: 2 },
      { overlap: 99 },
      { printer: { name: "", sx: 2, sy: 1 } },
      { printer: { name: "", sx: 1, sy: Number.NaN } },
    ];
    for (const change of wrong) {
      const problem = optionsProblem(sheetOptions(change));
      expect(problem?.message).toMatch(/\S/);
      expect(problem?.mend).toMatch(/\.$/);
      expect(() => layOut([fingerboard()], sheetOptions(change))).toThrow(RangeError);
    }
    expect(optionsProblem(sheetOptions())).toBeUndefined();
  });

  it("lays any outline on any paper without failing", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        fc.constantFrom(...Object.values(PAPERS)),
        fc.constantFrom(0, 4, 6, 30),
        fc.integer({ min: 0, max: 10 }),
        (seed, reach, paper, overlap, margin) => {
          const set = layOut([ring("any", star(chance(seed), reach, 1, 9))], sheetOptions({ paper, overlap, margin }));
          expect(set.sheets.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 40 },
    );
  });
});
