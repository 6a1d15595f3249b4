// @vitest-environment jsdom
import * as fc from "fast-check";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { SVGPathData } from "svg-pathdata";
import { describe, expect, it } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import type { Drawing, Shape } from "../../src/drawing/drawing.ts";
import { svgFileOf, svgOfAll } from "../../src/export/job.ts";
import { forMachine } from "../../src/export/svg/machine.ts";
import { pathArea, pathBounds } from "../../src/geometry/measure.ts";
import { circle, cubic, line, polyline, rectangle, segmentPath, type Path } from "../../src/geometry/path.ts";
import { reversePath } from "../../src/geometry/segment.ts";
import { vec } from "../../src/geometry/vec.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { inkBounds } from "../../src/sheets/ink.ts";
import { layOut } from "../../src/sheets/lay-out.ts";
import { templatesOf, type Template } from "../../src/templates/template.ts";
import { bodyHalf, bridge, cut, fingerboard, sheetOptions, templateOf } from "../sheets/synthetic-templates.ts";

const folder = join(import.meta.dirname, "../../examples");
const EXAMPLES = readdirSync(folder).filter((name) => name.endsWith(".json"));
function templatesOfExample(name: string): Template[] {
  const read = readDesign(readFileSync(join(folder, name), "utf8"));
  if (!read.ok) throw new Error(read.message);
  return templatesOf(createDeriver()(read.design));
}

const drawn = (...layers: { name: string; shapes: Shape[] }[]): Drawing => ({ layers, dimensions: [] });
const idsOf = (drawing: Drawing): string[] => drawing.layers.flatMap(({ shapes }) => shapes.map(({ id }) => id));
const read = (svg: string): Document => new DOMParser().parseFromString(svg, "image/svg+xml");

/** Points of a shape of a file, at most a step apart, by an outside reader of path data. */
function outlineIn(element: Element): { x: number; y: number }[] {
  if (element.tagName === "circle") {
    const [cx, cy, r] = ["cx", "cy", "r"].map((name) => Number(element.getAttribute(name)));
    return Array.from({ length: 60 }, (_, i) => ({
      x: cx! + r! * Math.cos((i * Math.PI) / 30),
      y: cy! + r! * Math.sin((i * Math.PI) / 30),
    }));
  }
  // The first subpath: its outer edge.
  const [first] = element.getAttribute("d")!.split(/(?<=Z)\s*/);
  let at = { x: 0, y: 0 };
  return new SVGPathData(first!)
    .toAbs()
    .aToC()
    .commands.flatMap((c) => {
      if (!("x" in c && "y" in c)) return [];
      const from = at;
      at = { x: c.x, y: c.y };
      if (c.type !== SVGPathData.CURVE_TO) return [at];
      return Array.from({ length: 16 }, (_, i) => {
        const t = (i + 1) / 16;
        const u = 1 - t;
        const mix = (p0: number, p1: number, p2: number, p3: number): number =>
          u ** 3 * p0 + 3 * u * u * t * p1 + 3 * u * t * t * p2 + t ** 3 * p3;
        return { x: mix(from.x, c.x1, c.x2, c.x), y: mix(from.y, c.y1, c.y2, c.y) };
      });
    });
}
const areaOf = (points: readonly { x: number; y: number }[]): number =>
  points.reduce((sum, p, i) => {
    const q = points[(i + 1) % points.length]!;
    return sum + (p.x * q.y - p.y * q.x) / 2;
  }, 0);
/** Even-odd, by crossings to the right. */
const isIn = (points: readonly { x: number; y: number }[], { x, y }: { x: number; y: number }): boolean =>
  points.filter((p, i) => {
    const q = points[(i + 1) % points.length]!;
    return p.y > y !== q.y > y && x < p.x + ((q.x - p.x) * (y - p.y)) / (q.y - p.y);
  }).length %
    2 ===
  1;

const CUTS = new Set(["cut", "pocket", "plug", "drill", "slot"]);
const isClosed = (element: Element): boolean => element.tagName === "circle" || element.getAttribute("d")!.includes("Z");

/** Pairs of ids of a file where what lies around stands before what lies in it. */
function wrongPairs(doc: Document): string[] {
  const cuts = [...doc.querySelectorAll("[data-role]")].filter(
    (element) => CUTS.has(element.getAttribute("data-role")!) && element.tagName !== "text",
  );
  const outlines = cuts.map(outlineIn);
  return cuts.flatMap((inner, i) => {
    const middle = outlines[i]!.length === 2 ? midpoint(outlines[i]!) : outlines[i]![1]!;
    return cuts.flatMap((outer, j) =>
      j < i &&
      isClosed(outer) &&
      isIn(outlines[j]!, middle) &&
      Math.abs(areaOf(outlines[j]!)) > Math.abs(areaOf(outlines[i]!)) + 1e-6
        ? [`${inner.id} in ${outer.id}`]
        : [],
    );
  });
}
const midpoint = ([a, b]: readonly { x: number; y: number }[]): { x: number; y: number } => ({
  x: (a!.x + b!.x) / 2,
  y: (a!.y + b!.y) / 2,
});

describe("a file for a machine", () => {
  it("cuts what lies inside before what lies around it, whatever the order of the drawing", () => {
    const drawing = drawn(
      { name: "outline", shapes: [cut("outline", rectangle(0, 0, 100, 60))] },
      {
        name: "inlay",
        shapes: [
          { ...cut("pocket", rectangle(10, 10, 40, 40)), role: "pocket" },
          { ...cut("hole", circle(vec(20, 20), 3)), role: "drill" },
        ],
      },
      { name: "centre", shapes: [{ ...cut("centre-line", segmentPath(vec(0, 30), vec(100, 30))), role: "centre" }] },
    );
    expect(idsOf(forMachine(drawing))).toEqual(["centre-line", "hole", "pocket", "outline"]);
  });

  it.each(EXAMPLES)("%s: no cut of any template stands before one that lies in it, by an outside reader of the file", (name) => {
    for (const template of templatesOfExample(name)) {
      const doc = read(svgFileOf(template, sheetOptions()));
      expect(wrongPairs(doc), template.id).toEqual([]);
    }
  });

  it("finds a wrong order when there is one", () => {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg"><path id="a" data-role="cut" d="M0 0L9 0L9 9L0 9Z"/><circle id="b" data-role="drill" cx="4" cy="4" r="1"/></svg>`;
    expect(wrongPairs(read(svg))).toEqual(["b in a"]);
  });

  it("joins lines that meet end to end into one closed cut, whichever way each was drawn, and leaves slots alone", () => {
    const corners = [vec(0, 0), vec(40, 0), vec(40, 30), vec(0, 30)];
    const sides = corners.map((p, i) => segmentPath(p, corners[(i + 1) % 4]!));
    fc.assert(
      fc.property(
        fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 }),
        fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
        (order, flips) => {
          const shapes = order.map((k) => cut(`side-${k}`, flips[k] ? reversePath(sides[k]!) : sides[k]!));
          const slot: Shape = { ...cut("slot", segmentPath(vec(0, 0), vec(-10, 0))), role: "slot" };
          const done = forMachine(drawn({ name: "outline", shapes: [...shapes, slot] })).layers[0]!.shapes;
          const closed = done.filter(({ path }) => path.closed);
          expect(done).toHaveLength(2);
          expect(closed).toHaveLength(1);
          expect(pathArea(closed[0]!.path)).toBeCloseTo(1200, 12);
          expect(done.some(({ id }) => id === "slot")).toBe(true);
        },
      ),
    );
  });

  it("does not join lines of different roles, or ends that miss each other", () => {
    const open = (id: string, ...points: [number, number][]): Shape => cut(id, polyline(points.map(([x, y]) => vec(x, y))));
    const done = forMachine(
      drawn({
        name: "outline",
        shapes: [open("a", [0, 0], [10, 0]), open("b", [10.01, 0], [10, 10]), { ...open("c", [10, 10], [0, 0]), role: "pocket" }],
      }),
    );
    expect(idsOf(done)).toHaveLength(3);
  });

  it("runs outer edges counter-clockwise as seen and edges of holes clockwise, and says so", () => {
    const ring: Path = reversePath(rectangle(0, 0, 50, 50));
    const template = templateOf("ring", "outline", [{ ...cut("outline", ring), holes: [rectangle(10, 10, 40, 40)] }]);
    const svg = svgFileOf(template, sheetOptions());
    const loops = read(svg)
      .getElementById("outline")!
      .getAttribute("d")!
      .split(/(?<=Z)\s+/);
    const [outer, hole] = loops.map((d) =>
      areaOf(new SVGPathData(d).commands.flatMap((c) => ("x" in c && "y" in c ? [{ x: c.x, y: c.y }] : []))),
    );
    // With y down a counter-clockwise loop, as seen, has a negative area by the shoelace formula.
    expect(outer).toBeCloseTo(-2500, 6);
    expect(hole).toBeCloseTo(900, 6);
    expect(svg).toMatch(/<desc>[^<]*counter-clockwise as seen[^<]*<\/desc>/);
    expect(svg).toMatch(/check units and one length in the receiving program/);
  });

  it("tells in its description what the template cannot do", () => {
    const svg = svgFileOf({ ...fingerboard(), cautions: ["4 corners come out round."] }, sheetOptions());
    expect(svg).toMatch(/<desc>[^<]*4 corners come out round\.[^<]*<\/desc>/);
  });

  it("is the same drawing but for order, joints and sense", () => {
    const curved: Path = {
      start: vec(0, 0),
      closed: true,
      segments: [cubic(vec(0, 30), vec(40, 30), vec(40, 0)), line(vec(0, 0))],
    };
    const before = drawn({ name: "outline", shapes: [cut("outline", curved)] });
    const after = forMachine(before).layers[0]!.shapes[0]!;
    expect(pathBounds(after.path)).toEqual(pathBounds(curved));
    expect(Math.abs(pathArea(after.path))).toBeCloseTo(Math.abs(pathArea(curved)), 12);
  });
});

describe("all templates in one file", () => {
  const templates = [fingerboard(), bodyHalf(), bridge()];

  it("lie side by side without touching, each at its own true size, in layers of their own names", () => {
    const doc = read(svgOfAll(templates, sheetOptions()));
    const boxes = templates.map((template) => {
      const groups = [...doc.querySelectorAll("g[data-layer]")].filter((g) =>
        g.getAttribute("data-layer")!.startsWith(`${template.partId}-${template.name}/`),
      );
      expect(groups.length).toBeGreaterThan(0);
      const points = groups.flatMap((g) => [...g.children].flatMap(outlineIn));
      const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
      return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
    });
    for (const [i, a] of boxes.entries()) {
      const ink = inkBounds(templates[i]!);
      expect(a.x1 - a.x0).toBeLessThanOrEqual(ink.maxX - ink.minX + 1e-3);
      expect(a.x1 - a.x0).toBeGreaterThan(ink.maxX - ink.minX - 0.5);
      for (const b of boxes.slice(0, i)) expect(a.x0 > b.x1 || b.x0 > a.x1 || a.y0 > b.y1 || b.y0 > a.y1).toBe(true);
    }
  });

  it("have ids of their own and keep the order of cuts", () => {
    const doc = read(svgOfAll(templates, sheetOptions()));
    const ids = [...doc.querySelectorAll("[id]")].map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(wrongPairs(doc)).toEqual([]);
  });
});

describe("clearing passes", () => {
  const passes = [
    { name: "first", diameter: 3, paths: [circle(vec(20, 20), 8), circle(vec(20, 20), 5)] },
    { name: "corners", diameter: 0.5, paths: [polyline([vec(10, 10), vec(12, 10)])] },
  ];
  const pocket = templateOf("inlay", "pocket", [{ ...cut("outline", circle(vec(20, 20), 9.5)), role: "pocket" }], {
    edge: "outline",
    passes,
  });

  it("stand in a layer a cutter before the cuts, in the order given, open ways open, and are no cuts", () => {
    const doc = read(svgFileOf(pocket, sheetOptions()));
    const layers = [...doc.querySelectorAll("g[data-layer]")];
    expect(layers.map((g) => g.getAttribute("data-layer"))).toEqual(["passes-first", "passes-corners", "outline"]);
    expect([...layers[0]!.children].map(({ id }) => id)).toEqual(["pass-first-1", "pass-first-2"]);
    expect([...layers[0]!.children].map((one) => one.getAttribute("r"))).toEqual(["8", "5"]);
    const roles = layers.slice(0, 2).flatMap((g) => [...g.children].map((one) => one.getAttribute("data-role")));
    expect(new Set(roles)).toEqual(new Set(["guide"]));
    expect(layers[1]!.children[0]!.getAttribute("d")).not.toMatch(/Z/);
    expect(doc.querySelector("desc")!.textContent).toContain("Layer passes-first: 2 ways of the centre of a 3 mm cutter");
  });

  it("are in the file of all templates under their owner's name, and on no sheet of paper", () => {
    const doc = read(svgOfAll([pocket, bridge()], sheetOptions()));
    expect(doc.querySelector('g[data-layer="inlay-pocket/passes-corners"]')).not.toBeNull();
    const placed = layOut([pocket], sheetOptions()).sheets.flatMap((sheet) => sheet.placed);
    const names = placed.flatMap(({ template }) => template.drawing.layers.map(({ name }) => name));
    expect(names.filter((name) => name.startsWith("passes"))).toEqual([]);
  });
});
