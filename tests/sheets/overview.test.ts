import { describe, expect, it } from "vitest";
import type { Drawing, Shape } from "../../src/drawing/drawing.ts";
import { pathBounds } from "../../src/geometry/measure.ts";
import { circle, polyline, rectangle, segmentPath } from "../../src/geometry/path.ts";
import { vec } from "../../src/geometry/vec.ts";
import { withoutCovered } from "../../src/sheets/covered.ts";
import { NOT_FOR_CUTTING, overviewSheet, type OverviewOptions } from "../../src/sheets/overview.ts";
import { PAPERS } from "../../src/sheets/paper.ts";

const OPTIONS: OverviewOptions = {
  paper: PAPERS["a3"]!,
  margin: 8,
  order: { number: "12", title: "Parlour", player: "" },
  date: "2025-02-11",
  fingerprint: "ABC-D12",
  say: (mm) => `${mm.toFixed(1)} mm`,
};

const shape = (id: string, path: Shape["path"], more: Partial<Shape> = {}): Shape => ({
  id,
  role: "cut",
  line: "visible",
  path,
  name: id,
  ...more,
});

const long: Drawing = {
  layers: [{ name: "body", shapes: [shape("body/outline", rectangle(0, -200, 1000, 200), { tint: "wood" })] }],
  dimensions: [
    {
      id: "over",
      from: vec(0, -200),
      to: vec(1000, -200),
      along: "x",
      offset: -16,
      value: 1000,
      quantity: "length",
      after: "over all",
      rank: 1,
    },
    { id: "short", from: vec(0, -200), to: vec(4, -200), along: "x", offset: -32, value: 4, quantity: "length", rank: 1 },
  ],
};

describe("the overview sheet", () => {
  it("draws the instrument at the scale that it names: 1000 by 400 at 1:4 is 250 by 100", () => {
    const made = overviewSheet(long, { ...OPTIONS, reduction: 4 });
    if (!made.ok) throw new Error(made.error.message);
    const [sheet] = made.value.sheets;
    const drawn = sheet!.furniture.layers.find(({ name }) => name === "body")!.shapes[0]!;
    const box = pathBounds(drawn.path);
    expect([box.maxX - box.minX, box.maxY - box.minY]).toEqual([expect.closeTo(250, 9), expect.closeTo(100, 9)]);
    expect([sheet!.width, sheet!.height]).toEqual([420, 297]);
    expect(sheet!.strong.map(({ text }) => text)).toEqual(["General arrangement, 1:4", NOT_FOR_CUTTING]);
  });

  it("takes the largest scale that fits, and keeps everything on the printable part of the sheet", () => {
    for (const paper of ["a5", "a4", "a3", "a2", "a0", "letter", "tabloid"]) {
      const made = overviewSheet(long, { ...OPTIONS, paper: PAPERS[paper]! });
      if (!made.ok) throw new Error(`${paper}: ${made.error.message}`);
      const { furniture, frame } = made.value.sheets[0]!;
      for (const { path } of furniture.layers.filter(({ name }) => name === "body").flatMap((layer) => layer.shapes)) {
        const box = pathBounds(path);
        expect(box.minX).toBeGreaterThanOrEqual(frame.x0);
        expect(box.maxX).toBeLessThanOrEqual(frame.x1);
        expect(box.minY).toBeGreaterThan(frame.y0);
        expect(box.maxY).toBeLessThanOrEqual(frame.y1);
      }
      const larger = overviewSheet(long, { ...OPTIONS, paper: PAPERS[paper]!, reduction: made.reduction / 2 });
      expect(larger.ok).toBe(false);
    }
  });

  it("says which scale would fit where the one asked for does not", () => {
    const made = overviewSheet(long, { ...OPTIONS, reduction: 1 });
    expect(made).toMatchObject({
      ok: false,
      error: { message: "1:1 is too large for A3", mend: "Take a larger paper, or 1:3." },
    });
  });

  it("writes lengths with their words where there is room, and before the line where there is none", () => {
    const made = overviewSheet(long, { ...OPTIONS, reduction: 4 });
    if (!made.ok) throw new Error(made.error.message);
    const { texts } = made.value.sheets[0]!.furniture.layers.find(({ name }) => name === "dimensions")!;
    expect(texts!.map(({ text, align }) => [text, align])).toEqual([
      ["1000.0 mm over all", "middle"],
      ["4.0 mm", "end"],
    ]);
  });

  it("keeps words clear of the lines that lead on to other rows, and says a title in letters of one height at every scale", () => {
    const rows = [
      { id: "whole", from: vec(0, -200), to: vec(1000, -200), offset: -16, after: "over all" },
      { id: "half", from: vec(500, -200), to: vec(1000, -200), offset: -32, after: "half of it" },
    ].map((row) => ({
      ...row,
      along: "x" as const,
      value: row.to.x - row.from.x,
      quantity: "length" as const,
      rank: 1 as const,
    }));
    const title = { id: "title", at: vec(0, -190), text: "From the bass side", height: 9, align: "start" as const };
    for (const reduction of [4, 10]) {
      const made = overviewSheet(
        { layers: [{ ...long.layers[0]!, texts: [title] }], dimensions: rows },
        { ...OPTIONS, reduction },
      );
      if (!made.ok) throw new Error(made.error.message);
      const { layers } = made.value.sheets[0]!.furniture;
      const dimensions = layers.find(({ name }) => name === "dimensions")!;
      const leading = dimensions.shapes.filter(({ name }) => name === "extension line").map(({ path }) => pathBounds(path));
      expect(leading).toHaveLength(4);
      for (const { at, text } of dimensions.texts!) {
        // A letter is 632 of 668 units of a capital wide, 1.8 mm high.
        const half = (text.length * 1.8 * 632) / 668 / 2;
        const crossed = leading.filter(({ minX, minY }) => minY < at.y && Math.abs(minX - at.x) < half);
        expect(crossed, text).toEqual([]);
      }
      const said = layers.flatMap(({ texts = [] }) => texts).find(({ text }) => text === title.text);
      expect(said?.height).toBe(2.5);
    }
  });

  it("has nothing to show of an empty drawing", () => {
    expect(overviewSheet({ layers: [], dimensions: [] }, OPTIONS).ok).toBe(false);
  });
});

describe("lines under wood", () => {
  const board = { name: "board", shapes: [shape("board", rectangle(100, -20, 300, 20), { tint: "wood" as const })] };
  const under = (...shapes: Shape[]): readonly Shape[] =>
    withoutCovered({ layers: [{ name: "under", shapes }, board], dimensions: [] }).layers[0]!.shapes;

  it("are left out where wood of a later layer lies over them: 0 to 400 keeps 0 to 100 and 300 to 400", () => {
    const kept = under(shape("line", segmentPath(vec(0, 0), vec(400, 0)))).map(({ path }) => pathBounds(path));
    expect(kept.map(({ minX, maxX }) => [minX, maxX])).toEqual([
      [expect.closeTo(0, 9), expect.closeTo(100, 9)],
      [expect.closeTo(300, 9), expect.closeTo(400, 9)],
    ]);
  });

  it("stay one line round a corner outside, and stay whole where nothing covers them or they are dashed", () => {
    expect(under(shape("bent", polyline([vec(0, 0), vec(50, 50), vec(50, 90)])))).toHaveLength(1);
    expect(under(shape("ring", circle(vec(50, 0), 20)))[0]!.path.closed).toBe(true);
    const dashed = shape("dashed", segmentPath(vec(0, 0), vec(400, 0)), { line: "hidden" });
    expect(under(dashed)).toEqual([dashed]);
  });

  it("vanish where wood covers them wholly", () => {
    expect(under(shape("hidden", segmentPath(vec(150, 0), vec(250, 5))))).toEqual([]);
  });

  it("are not covered by what lies under them", () => {
    const drawing: Drawing = {
      layers: [board, { name: "over", shapes: [shape("line", segmentPath(vec(0, 0), vec(400, 0)))] }],
      dimensions: [],
    };
    expect(withoutCovered(drawing).layers[1]!.shapes).toHaveLength(1);
  });
});
