import { Resvg } from "@resvg/resvg-js";
import * as fc from "fast-check";
import { SVGPathData } from "svg-pathdata";
import { describe, expect, it } from "vitest";
import { pathArea, pathsBounds } from "../../../src/geometry/measure.ts";
import { readPathData } from "../../../src/geometry/svg/path-data.ts";
import { LONGEST_SVG, readSvg, type SvgOutlines } from "../../../src/geometry/svg/read.ts";

function read(text: string): SvgOutlines {
  const found = readSvg(text, 25.4);
  if (!found.ok) throw new Error(found.message);
  return found.value;
}

function refusal(text: string): string {
  const found = readSvg(text, 25.4);
  if (found.ok) throw new Error("it was read");
  expect(found.mend).not.toBe("");
  return found.message;
}

const areaOf = ({ outlines }: SvgOutlines): number =>
  outlines.reduce((sum, { outer, holes }) => sum + pathArea(outer) + holes.reduce((s, hole) => s + pathArea(hole), 0), 0);

const SIDE = 200;
const file = (inner: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${SIDE}mm" height="${SIDE}mm" viewBox="0 0 ${SIDE} ${SIDE}">${inner}</svg>`;

/** Covered area as resvg paints it, at 10 pixels a unit. */
function paintedArea(svg: string): number {
  const image = new Resvg(svg, { fitTo: { mode: "width", value: SIDE * 10 } }).render();
  const pixels = image.pixels;
  let sum = 0;
  for (let i = 3; i < pixels.length; i += 4) sum += pixels[i]!;
  return sum / 255 / 100;
}

/** Files that trip readers: each is read here and by resvg (a renderer of its own, in Rust), areas and boxes compared. */
const AWKWARD: Readonly<Record<string, string>> = {
  "large and small arcs, both sweeps, tilted ellipses":
    '<path d="M20 80A60 30 25 1 0 120 60A20 45 -40 0 1 140 120A30 30 0 1 1 60 130Z"/>',
  "arcs whose radii are too small": '<path d="M60 100A5 2 30 0 1 140 90L130 150Z"/>',
  "compact flags and numbers": '<path d="m70 80h60.5.5v-.5.5l.5.5a25 25 0 01-50 0a12 20 0 10-12-1.5e0z"/>',
  "relative commands after a closed subpath": '<path d="m30 30l40 0l0 40z m50 50 40 0 0 40z l-20 20 20 0z"/>',
  "smooth cubics and quadratics": '<path d="M10 100C30 20 60 20 80 100S130 180 150 100q15-60 25 0t10 40T20 150z"/>',
  "more coordinates after a move": '<path d="M10 10 90 10 90 60 10 60zM100 100,180 100 180 160"/>',
  "nested transforms": `<g transform="translate(40 30) rotate(20)"><g transform="scale(1.5,.8) skewX(15)">
      <rect x="5" y="5" width="60" height="40" rx="12" ry="6" transform="rotate(-30 35 25)"/></g>
      <ellipse cx="60" cy="90" rx="30" ry="12" transform="matrix(.9 .2 -.3 1.1 4 -5)"/></g>`,
  "even-odd holes": '<path fill-rule="evenodd" d="M20 20H180V180H20ZM40 40H160V160H40ZM60 60H140V140H60Z"/>',
  "nonzero with a hole run the other way": '<path d="M20 20H180V180H20ZM60 60V140H140V60Z"/>',
  "nonzero with one run the same way, which is no hole": '<path d="M20 20H180V180H20ZM60 60H140V140H60Z"/>',
  "a star that crosses itself, even-odd":
    '<polygon style="fill-rule:evenodd" points="100,10 158.8,190.9 4.9,79.1 195.1,79.1 41.2,190.9"/>',
  "a star that crosses itself, nonzero": '<polygon points="100,10 158.8,190.9 4.9,79.1 195.1,79.1 41.2,190.9"/>',
  "circle and polyline":
    '<circle cx="50" cy="60" r="31.4"/><polyline points="120,20 180,30-0,190 120,150" transform="translate(10)"/>',
  "units inside shapes": '<rect x="1cm" y="10mm" width="1in" height="96" rx="auto"/>',
  "a root with a box that is off and of another proportion": "</svg><!-- replaced below -->",
};

describe("outlines read from SVG", () => {
  for (const [name, inner] of Object.entries(AWKWARD)) {
    const svg = inner.startsWith("</svg>")
      ? `<svg xmlns="http://www.w3.org/2000/svg" width="${SIDE}mm" height="${SIDE}mm" viewBox="-50 -20 400 400"><path d="M-40-10H300V340L-40 90Z"/></svg>`
      : file(inner);
    it(`agree with resvg on ${name}`, () => {
      const drawn = read(svg);
      expect(drawn.sized).toBe(true);
      const painted = paintedArea(svg);
      // 10 pixels a mm with 8-bit cover at the edge.
      expect(Math.abs(areaOf(drawn) - painted)).toBeLessThan(0.0005 * painted + 0.5);
      const box = pathsBounds(drawn.outlines.map(({ outer }) => outer));
      const theirs = new Resvg(svg).getBBox()!;
      // resvg's box is in px of 1/96 in or in user units of a file of its own size; ours has y up from the lower edge.
      const mm = SIDE / (inner.startsWith("</svg>") ? 400 : SIDE);
      if (name !== "a root with a box that is off and of another proportion") {
        expect(box.maxX - box.minX).toBeCloseTo(theirs.width * mm, 1);
        expect(box.maxY - box.minY).toBeCloseTo(theirs.height * mm, 1);
      }
    });
  }

  it("read path data as svg-pathdata does", () => {
    for (const d of [
      "M20 80A60 30 25 1 0 120 60A20 45 -40 0 1 140 120A30 30 0 1 1 60 130Z",
      "M10 100C30 20 60 20 80 100S130 180 150 100q15-60 25 0t10 40T20 150z",
      "m20 20h60.5.5v-.5.5l.5.5a25 25 0 01-50 0a12 20 0 10-12-1.5e0z",
    ]) {
      const box = pathsBounds(readPathData(d));
      const theirs = new SVGPathData(d).toAbs().getBounds();
      expect([box.minX, box.minY, box.maxX, box.maxY]).toEqual(
        [theirs.minX, theirs.minY, theirs.maxX, theirs.maxY].map((value) => expect.closeTo(value, 3)),
      );
    }
  });

  it("keep true arcs true", () => {
    const [path] = readPathData("M0 0A10 10 0 0 1 20 0Z");
    expect(path!.segments.map(({ kind }) => kind)).toEqual(["arc", "arc", "line"]);
    expect(Math.abs(pathArea(path!))).toBeCloseTo((Math.PI * 100) / 2, 9);
    // A full circle but for a hair, by ends that a reader must tell apart.
    const [round] = readPathData("M10 0A10 10 0 1 1 9.99999 -0.01Z");
    expect(Math.abs(pathArea(round!))).toBeCloseTo(Math.PI * 100, 2);
  });

  it("take a px for 1/96 in where the file says no size, and say so", () => {
    const plain = read('<svg viewBox="0 0 96 96"><rect width="96" height="48"/></svg>');
    expect(plain.sized).toBe(false);
    expect(areaOf(plain)).toBeCloseTo(25.4 * 12.7, 9);
    expect(areaOf(read('<svg width="2in" viewBox="0 0 4 9"><rect width="4" height="4"/></svg>'))).toBeCloseTo(50.8 ** 2, 9);
  });

  it("leave out and name what is no outline", () => {
    const drawn = read(
      file(`<style>.a{fill:red}</style><script>alert(1)</script><defs><path d="M0 0H9V9Z"/></defs>
        <image href="http://example.invalid/a.png"/><text>A</text><text>B</text><use href="#x"/><foreignObject/>
        <sodipodi:thing a="1"/><a href="http://example.invalid"><rect width="10" height="10"/></a>
        <path d="M0 0L5 5" /><g display="none"><rect width="50" height="50"/></g><title>x</title>`),
    );
    expect(areaOf(drawn)).toBeCloseTo(100, 9);
    expect(drawn.leftOut).toEqual([
      "1 style sheet",
      "1 script",
      "1 definition",
      "1 picture",
      "2 texts",
      "1 copy by link",
      "1 foreignObject",
      "1 thing of another language",
      "1 link",
      "1 open line",
      "1 hidden thing",
    ]);
  });

  it("refuse what is no drawing, with the reason", () => {
    expect(refusal("\u0089PNG\r\n\u001a\n<binary>")).toMatch(/no SVG file/);
    expect(refusal("")).toMatch(/no SVG file/);
    expect(refusal('<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]><svg>&x;</svg>')).toMatch(/entities/);
    expect(refusal('<svg><path d="M0 0H9V9Z" id="&x;"/></svg>')).toMatch(/no entity/);
    expect(refusal("<svg><g></svg>")).toMatch(/closes nothing/);
    expect(refusal('<svg><path d="M0 0H9V9Z"/>')).toMatch(/breaks off/);
    expect(refusal('<svg><path d="M0 0H9V9Q"/></svg>')).toMatch(/path data/);
    expect(refusal('<svg><path d="M0 0H9e99V9Z"/></svg>')).toMatch(/path data/);
    expect(refusal('<svg><rect width="5%" height="4"/></svg>')).toMatch(/no length/);
    expect(refusal('<svg><g transform="turn(5)"/></svg>')).toMatch(/transform/);
    expect(refusal("<svg></svg>")).toMatch(/no closed outline/);
    expect(refusal(`<svg>${"<g>".repeat(80)}${"</g>".repeat(80)}</svg>`)).toMatch(/deep/);
    expect(refusal(`<svg>${" ".repeat(LONGEST_SVG)}</svg>`)).toMatch(/larger/);
    expect(refusal(`<svg>${"<g/>".repeat(50_001)}</svg>`)).toMatch(/elements/);
  });

  it("never throw and never give what is not finite, whatever the text", () => {
    const whole = file(Object.values(AWKWARD)[6]!) + Object.values(AWKWARD).join("");
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: whole.length }),
        fc.integer({ min: 0, max: 40 }),
        fc.string({ maxLength: 6 }),
        (at, cut, put) => {
          const found = readSvg(file(whole.slice(0, at) + put + whole.slice(at + cut)), 25.4);
          if (found.ok) expect(Number.isFinite(areaOf(found.value))).toBe(true);
        },
      ),
      { numRuns: 300 },
    );
  });
});
