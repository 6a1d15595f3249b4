// @vitest-environment jsdom
import * as fc from "fast-check";
import { Resvg } from "@resvg/resvg-js";
import { SVGPathData } from "svg-pathdata";
import { describe, expect, it } from "vitest";
import type { Drawing, LineType, Shape } from "../../src/drawing/drawing.ts";
import { svgOf } from "../../src/export/svg/write.ts";
import { arc, circle, cubic, line, polygon, polyline, rectangle, type Path } from "../../src/geometry/path.ts";
import { pathBounds } from "../../src/geometry/measure.ts";
import { polar, vec } from "../../src/geometry/vec.ts";
import { bodyHalf, bridge, fingerboard } from "../sheets/synthetic-templates.ts";

const META = { title: "Board", desc: "Edge of the board" };
const shape = (id: string, path: Path, more: Partial<Shape> = {}): Shape => ({
  id,
  role: "cut",
  line: "visible",
  path,
  name: id,
  ...more,
});
const drawing = (shapes: readonly Shape[], texts: Drawing["layers"][number]["texts"] = []): Drawing => ({
  layers: [{ name: "outline", shapes, texts: texts ?? [] }],
  dimensions: [],
});
const read = (svg: string): Document => new DOMParser().parseFromString(svg, "image/svg+xml");
const pathOf = (svg: string): string => /\sd="([^"]*)"/.exec(svg)![1]!;

describe("an SVG file is at true size", () => {
  it("one user unit is 1 mm: width and height in mm are the viewBox's own numbers, read by a browser's parser", () => {
    for (const template of [fingerboard(), bodyHalf(), bridge()]) {
      const root = read(svgOf(template.drawing, META)).documentElement;
      const [width, height] = [root.getAttribute("width")!, root.getAttribute("height")!];
      expect(width).toMatch(/^\d+(\.\d+)?mm$/);
      expect(root.getAttribute("viewBox")).toBe(`0 0 ${width.slice(0, -2)} ${height.slice(0, -2)}`);
    }
  });

  it("a square of 100 mm drawn at 254 dpi is 1000 dots wide, by an outside renderer", () => {
    // 254 dots an inch are 10 dots a mm; at that resolution a CSS px is 254/96 dots.
    const svg = svgOf(drawing([shape("square", rectangle(0, 0, 100, 100))]), META);
    const image = new Resvg(svg, { dpi: 254, background: "white", fitTo: { mode: "zoom", value: 254 / 96 } }).render();
    const { width, pixels } = image;
    // The file is 104 mm wide; width and height in mm are taken at 96 px an inch or at the dpi given, by the renderer's rules.
    const perMm = width / 104;
    const row = Math.round(image.height / 2);
    const dark = Array.from({ length: width }, (_, x) => x).filter((x) => pixels[(row * width + x) * 4]! < 128);
    const [left, right] = [dark.filter((x) => x < width / 2), dark.filter((x) => x > width / 2)].map(
      (xs) => xs.reduce((s, x) => s + x, 0) / xs.length,
    );
    expect((right! - left!) / perMm).toBeCloseTo(100, 1);
  });

  it("fret 12 of a 645.16 mm scale lies 322.58 mm from the nut", () => {
    const doc = read(svgOf(fingerboard().drawing, META));
    const x = (id: string): number => new SVGPathData(doc.getElementById(id)!.getAttribute("d")!).toAbs().getBounds().minX;
    expect(x("fret-12") - x("outline")).toBeCloseTo(322.58, 4);
  });
});

describe("an SVG file looks the same, not mirrored", () => {
  it("what is up and to the right in the drawing is up and to the right in the file", () => {
    // An F on its side would pass for neither its mirror image nor itself turned over.
    const f = polyline([vec(0, 0), vec(0, 30), vec(20, 30), vec(0, 30), vec(0, 18), vec(14, 18)]);
    const d = read(svgOf(drawing([shape("f", f)]), META))
      .getElementById("f")!
      .getAttribute("d")!;
    expect(d).toBe("M2 32L2 2L22 2L2 2L2 14L16 14");
  });

  it("arcs run the same way round as in the drawing", () => {
    // Counter-clockwise from east to north about (0, 0), radius 10: through (7.07, 7.07), which is up and right of the middle.
    const quarter: Path = { start: vec(10, 0), closed: false, segments: [arc(vec(0, 10), vec(0, 0), true)] };
    const d = read(svgOf(drawing([shape("quarter", quarter)]), META))
      .getElementById("quarter")!
      .getAttribute("d")!;
    expect(d).toBe("M12 12A10 10 0 0 0 2 2");
    const box = new SVGPathData(d).toAbs().getBounds();
    expect([box.minX, box.maxX, box.minY, box.maxY]).toEqual([2, 12, 2, 12]);
  });
});

describe("curves stay curves", () => {
  it("arcs are A, cubics C, a circle a circle; no curve becomes short lines", () => {
    const path: Path = {
      start: vec(0, 0),
      closed: true,
      segments: [
        line(vec(50, 0)),
        arc(vec(50, 20), vec(50, 10), true),
        cubic(vec(30, 40), vec(10, 30), vec(0, 20)),
        line(vec(0, 0)),
      ],
    };
    const doc = read(svgOf(drawing([shape("outline", path), shape("hole", circle(vec(10, 10), 3))]), META));
    const types = new SVGPathData(doc.getElementById("outline")!.getAttribute("d")!).commands.map(({ type }) => type);
    expect(types).toEqual([
      SVGPathData.MOVE_TO,
      SVGPathData.LINE_TO,
      // Half a turn as two arcs, so that rounding the radius cannot move the centre.
      SVGPathData.ARC,
      SVGPathData.ARC,
      SVGPathData.CURVE_TO,
      SVGPathData.CLOSE_PATH,
    ]);
    expect(doc.getElementById("hole")!.tagName).toBe("circle");
  });

  it("arcs of any sweep come back within 0.0005 mm, through an independent reading of A", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 800, noNaN: true }),
        fc.double({ min: -3.1, max: 3.1, noNaN: true }),
        fc.oneof(
          fc.double({ min: 0.01, max: 6.2, noNaN: true }),
          fc.double({ min: Math.PI - 1e-4, max: Math.PI + 1e-4, noNaN: true }),
        ),
        fc.boolean(),
        (radius, from, sweep, ccw) => {
          const centre = vec(31.7, -12.3);
          const end = polar(centre, radius, from + (ccw ? sweep : -sweep));
          const path: Path = { start: polar(centre, radius, from), closed: false, segments: [arc(end, centre, ccw)] };
          const d = read(svgOf(drawing([shape("arc", path)]), META))
            .getElementById("arc")!
            .getAttribute("d")!;
          // The library turns arcs into cubics by its own centre parametrization; their joints lie on the arc.
          const joints = new SVGPathData(d)
            .toAbs()
            .aToC()
            .commands.flatMap((c) => ("x" in c && "y" in c ? [{ x: c.x, y: c.y }] : []));
          const { minX, maxY } = pathBounds(path);
          for (const { x, y } of joints) {
            const away = Math.hypot(x - 2 + minX - centre.x, maxY + 2 - y - centre.y);
            expect(Math.abs(away - radius)).toBeLessThan(0.0005);
          }
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe("what a file says of itself", () => {
  it("has title and desc, no comment, no script, one group a layer, roles and unique ids on every shape", () => {
    for (const template of [fingerboard(), bridge()]) {
      const svg = svgOf(template.drawing, { title: `A "B" & <C>`, desc: "x\u0000y" });
      expect(svg).not.toMatch(/<!--|<script|\bon\w+=/);
      const doc = read(svg);
      expect(doc.querySelector("parsererror")).toBeNull();
      expect(doc.querySelector("title")!.textContent).toBe(`A "B" & <C>`);
      expect(doc.querySelector("desc")!.textContent).toBe("xy");
      const shapes = [...doc.querySelectorAll("path, circle, text")];
      const ids = shapes.map((el) => el.id);
      expect(new Set(ids).size).toBe(ids.length);
      for (const el of shapes) {
        expect(el.id).toMatch(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/);
        expect(el.getAttribute("data-role")).toMatch(/^(cut|pocket|plug|drill|slot|centre|guide|mark|label)$/);
        expect(el.parentElement!.getAttribute("data-layer")).toBeTruthy();
      }
      expect(doc.querySelectorAll("g").length).toBe(template.drawing.layers.length);
    }
  });

  it("letters are in a layer of their own", () => {
    const doc = read(
      svgOf(
        drawing(
          [shape("a", rectangle(0, 0, 9, 9))],
          [{ id: "name", at: vec(1, 1), text: "No. 14 <é>", height: 2, align: "middle", angle: Math.PI / 2 }],
        ),
        META,
      ),
    );
    const text = doc.querySelector("text")!;
    expect(text.textContent).toBe("No. 14 <é>");
    expect(text.parentElement!.getAttribute("data-layer")).toBe("text");
    expect(text.parentElement!.querySelectorAll("path, circle").length).toBe(0);
    // Turned a quarter to the left, as in the drawing.
    expect(text.getAttribute("transform")).toBe(`rotate(-90 ${text.getAttribute("x")} ${text.getAttribute("y")})`);
  });

  it("a warning is in bold letters, and nothing else is", () => {
    const texts = [
      { id: "plain", at: vec(0, 0), text: "nut", height: 3, align: "start" as const },
      { id: "loud", at: vec(0, 9), text: "STOP", height: 3, align: "start" as const, loud: true },
    ];
    const doc = read(svgOf(drawing([], texts), META));
    expect(["plain", "loud"].map((id) => doc.getElementById(id)!.getAttribute("font-weight"))).toEqual([null, "700"]);
  });

  it("ids that clash or start with a digit are told apart", () => {
    const doc = read(svgOf(drawing(["Fret 1", "fret-1", "12", "é!"].map((id) => shape(id, rectangle(0, 0, 1, 1)))), META));
    expect([...doc.querySelectorAll("path")].map(({ id }) => id)).toEqual(["fret-1", "fret-1-2", "n-12", "e"]);
  });

  it("every closed loop is one subpath that ends in Z, holes after their outline", () => {
    const doc = read(
      svgOf(
        drawing([
          shape("plate", rectangle(0, 0, 40, 20), {
            holes: [circle(vec(10, 10), 3), polygon([vec(20, 5), vec(25, 5), vec(22, 9)])],
          }),
        ]),
        META,
      ),
    );
    const d = doc.getElementById("plate")!.getAttribute("d")!;
    expect(d.match(/M/g)).toHaveLength(3);
    expect(d.match(/Z/g)).toHaveLength(3);
    expect(
      d
        .trim()
        .split(/(?<=Z)/)
        .every((loop) => loop.trim().startsWith("M")),
    ).toBe(true);
  });

  it("line types are told by width and dashes alone, all in black: wide is twice narrow (ISO 128-2)", () => {
    const types: LineType[] = ["visible", "narrow", "hidden", "centre", "adjacent"];
    const svg = svgOf(drawing(types.map((type) => shape(type, rectangle(0, 0, 10, 10), { line: type }))), META);
    expect(
      [...svg.matchAll(/(?:stroke|fill)="(#?\w+)"/g)].map(([, colour]) => colour).filter((c) => c !== "none" && c !== "#000"),
    ).toEqual([]);
    const doc = read(svg);
    const width = (id: string): number => Number(doc.getElementById(id)!.getAttribute("stroke-width"));
    const dashes = types.map((id) => doc.getElementById(id)!.getAttribute("stroke-dasharray")?.split(" ").length ?? 0);
    expect(width("visible") / width("narrow")).toBe(2);
    // Dash and gap; dash, gap, dot, gap; dash, gap, dot, gap, dot, gap.
    expect(dashes).toEqual([0, 0, 2, 4, 6]);
  });

  it("numbers are plain: no exponent, no minus zero, no more than 0.00001 mm", () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.double({ min: -1e4, max: 1e4, noNaN: true }), fc.double({ min: -1e-7, max: 1e-7, noNaN: true })), {
          minLength: 3,
          maxLength: 8,
        }),
        (points) => {
          const svg = svgOf(drawing([shape("p", polyline(points.map(([x, y]) => vec(x, y))))]), META);
          const d = pathOf(svg);
          expect(d).not.toMatch(/e|-0(?![.\d])|NaN|Infinity|\.\d{6}/);
        },
      ),
    );
  });

  it("a drawing that is not finite is our own bug and throws", () => {
    expect(() => svgOf(drawing([shape("p", polyline([vec(0, 0), vec(Number.NaN, 1)]))]), META)).toThrow(RangeError);
  });

  it("the same drawing gives the same text, and an empty one a valid file", () => {
    expect(svgOf(bridge().drawing, META)).toBe(svgOf(bridge().drawing, META));
    expect(read(svgOf({ layers: [], dimensions: [] }, META)).documentElement.getAttribute("viewBox")).toBe("0 0 4 4");
  });
});
