import { describe, expect, it } from "vitest";
import { NO_SOURCES, type ParamTable } from "../../src/parts/contract.ts";
import { openTable, settle } from "../../src/parts/resolve.ts";

interface Layer {
  readonly name: string;
  readonly thickness: number;
}
interface Board {
  readonly width: number;
  readonly margin: number;
  readonly spread: number;
  readonly tilt: number;
  readonly frets: number;
  readonly second: number | undefined;
  readonly end: "square" | "curved";
  readonly bound: boolean;
  readonly markers: readonly number[];
  readonly binding: readonly Layer[];
  readonly bindingThickness: number;
}

const said = { label: "A number", help: "", group: "All" };
const table: ParamTable<Board> = {
  width: { ...said, label: "Width", type: "length", min: 5, max: 200, fallback: 43 },
  margin: { ...said, type: "length", min: 0, max: 50, fallback: 3 },
  spread: {
    ...said,
    type: "length",
    min: 0,
    max: 200,
    follows: { words: "width less both margins", value: (p) => p.width - 2 * p.margin },
  },
  tilt: { ...said, type: "angle", min: 0, max: 1, fallback: 0.25 },
  frets: { ...said, label: "Frets", type: "count", min: 0, max: 36, fallback: 20 },
  second: { ...said, type: "optional-length", min: 100, max: 1000, absent: "one scale" },
  end: {
    ...said,
    type: "choice",
    options: [
      { value: "square", label: "Square" },
      { value: "curved", label: "Curved" },
    ],
    fallback: "square",
  },
  bound: { ...said, type: "flag", fallback: true },
  markers: { ...said, type: "counts", min: 1, max: 36, maxItems: 20, fallback: [3, 5, 7] },
  binding: {
    ...said,
    type: "records",
    item: "layer",
    maxItems: 4,
    short: "thickness",
    fallback: [{ name: "plain", thickness: 1.5 }],
    of: {
      name: { ...said, type: "text", maxLength: 20, fallback: "" },
      thickness: { ...said, type: "length", min: 0.1, max: 10, fallback: 1 },
    },
  },
  bindingThickness: {
    ...said,
    type: "length",
    min: 0,
    max: 40,
    follows: { words: "all layers", value: (p) => p.binding.reduce((t, l) => t + l.thickness, 0) },
  },
};

const settled = (raw: Record<string, unknown>, units: "in" | "mm" = "mm"): Board => {
  const result = settle(table, raw, { path: "parts.board", units });
  if (!result.ok) throw new Error(result.error.map((e) => `${e.path}: ${e.message}`).join("; "));
  return result.value;
};
const wrong = (raw: Record<string, unknown>) => {
  const result = settle(table, raw, { path: "parts.board", units: "mm" });
  return result.ok ? [] : result.error;
};

describe("settling typed numbers", () => {
  it("takes fallbacks and followers where nothing is given", () => {
    expect(settled({})).toMatchObject({
      width: 43,
      spread: 37,
      second: undefined,
      end: "square",
      markers: [3, 5, 7],
      bindingThickness: 1.5,
    });
  });

  it("reads a bare number in a text by the design's unit, and a JSON number as mm", () => {
    expect(settled({ width: "1 11/16" }, "in").width).toBeCloseTo(42.8625, 10);
    expect(settled({ width: "44" }).width).toBe(44);
    expect(settled({ width: 44 }, "in").width).toBe(44);
  });

  it("takes a plain JSON angle as degrees, and leaves a fallback in radians", () => {
    expect(settled({ tilt: 14 }).tilt).toBeCloseTo((14 * Math.PI) / 180, 12);
    expect(settled({}).tilt).toBe(0.25);
  });

  it("evaluates formulas over other dimensions in any order, through lists too", () => {
    const board = settled({
      width: "= 2 * margin + 37 mm",
      margin: "= bindingThickness + 1 mm",
      binding: ["0.060 in", { thickness: "= binding[0].thickness / 2" }],
    });
    expect(board.bindingThickness).toBeCloseTo(1.524 + 0.762, 12);
    expect(board.width).toBeCloseTo(2 * (2.286 + 1) + 37, 12);
    expect(board.spread).toBeCloseTo(37, 12);
  });

  it("reads a single text as one record where the table allows it", () => {
    expect(settled({ binding: "95 thou" }).binding).toEqual([{ name: "", thickness: expect.closeTo(2.413, 12) as number }]);
  });

  it("tells a circle once, with the names on it", () => {
    const problems = wrong({ width: "= margin * 2", margin: "= width / 2" });
    const circle = problems.filter((p) => p.message.includes("need each other"));
    expect(circle).toHaveLength(1);
    expect(circle[0]?.message).toMatch(/board\.width.*board\.margin.*board\.width/);
    expect(circle[0]?.mend).toContain("plain number");
  });

  it("tells a number that needs itself", () => {
    expect(wrong({ width: "= width + 1 mm" })[0]?.message).toContain("need each other");
  });

  it.each([
    ["a number out of range", { width: -3 }, "parts.board.width", /is -3 mm/],
    ["a count with a fraction", { frets: 12.5 }, "parts.board.frets", /whole/],
    ["a thousand million frets", { frets: 1e9 }, "parts.board.frets", /1000000000/],
    ["not a number at all", { width: Number.NaN }, "parts.board.width", /NaN/],
    ["infinity", { width: Number.POSITIVE_INFINITY }, "parts.board.width", /Infinity/],
    ["a list for a length", { width: [1] }, "parts.board.width", /\[1\]/],
    ["an unknown choice", { end: "wavy" }, "parts.board.end", /wavy/],
    ["a text for a flag", { bound: "yes" }, "parts.board.bound", /true nor false/],
    ["a marker that is no fret", { markers: "3 x" }, "parts.board.markers", /NaN|null/],
    ["too many layers", { binding: [1, 1, 1, 1, 1] }, "parts.board.binding", /5 entries/],
    ["a layer out of range", { binding: [1, 50] }, "parts.board.binding[1].thickness", /50 mm/],
    ["an unknown name", { width: "= widht * 2" }, "parts.board.width", /widht/],
    ["a text that is no length", { width: "wide" }, "parts.board.width", /./],
  ])("refuses %s at its place", (_, raw, path, message) => {
    const [first] = wrong(raw);
    expect(first?.path).toBe(path);
    expect(first?.message).toMatch(message);
    expect(first?.mend).not.toBe("");
  });

  it("lets a follower of a bad number wait without a complaint of its own", () => {
    expect(wrong({ width: "wide" }).map((p) => p.path)).toEqual(["parts.board.width"]);
  });

  it("lets a measured value take over and keeps the planned one beside it", () => {
    const opened = openTable(
      table,
      { width: "43" },
      {
        path: "parts.board",
        units: "mm",
        from: NO_SOURCES,
        measured: (path) => (path === "parts.board.width" ? "42.7" : undefined),
      },
    );
    expect(opened.p.spread).toBeCloseTo(36.7, 12);
    expect(opened.fields().find((f) => f.key === "width")).toMatchObject({
      state: "measured",
      value: 42.7,
      planned: 43,
      raw: "43",
    });
  });
});
