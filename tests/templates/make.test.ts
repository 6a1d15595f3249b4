import { describe, expect, it } from "vitest";
import { asCircle, circle, cubic, line, polygon, segmentPath, type Path } from "../../src/geometry/path.ts";
import { pathArea, pathBounds, pathLength } from "../../src/geometry/measure.ts";
import { regionOf } from "../../src/geometry/outline.ts";
import { roundedPolygon } from "../../src/geometry/arc.ts";
import { vec, type Vec } from "../../src/geometry/vec.ts";
import { settle } from "../../src/parts/resolve.ts";
import { makingTable } from "../../src/parts/making.ts";
import type { Making } from "../../src/parts/making-choices.ts";
import type { Shape } from "../../src/drawing/drawing.ts";
import { madeFrom, shapesOf } from "../../src/templates/edge.ts";
import { makeTemplate, type Made } from "../../src/templates/make.ts";
import type { Template } from "../../src/templates/template.ts";
import { jtsOffset, toJts, type Jts } from "../geometry/jts.ts";
import { bodyPath } from "../geometry/shapes.ts";
import { cut, fingerboard, templateOf } from "../sheets/synthetic-templates.ts";

const CONTEXT = { say: (mm: number) => `${Number(mm.toFixed(3))} mm`, number: "14", fingerprint: "7F3-A2C" };

function makingOf(template: Template, raw: Record<string, unknown>): Making {
  const settled = settle(makingTable(madeFrom(template)), raw);
  if (!settled.ok) throw new Error(settled.error[0]!.message);
  return settled.value;
}
const make = (template: Template, raw: Record<string, unknown>): Made => makeTemplate(template, makingOf(template, raw), CONTEXT);
function made(template: Template, raw: Record<string, unknown>): Template {
  const result = make(template, raw);
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
}
const shape = ({ drawing }: Template, id: string): Shape => {
  const found = shapesOf(drawing).find((one) => one.id === id);
  if (!found) throw new Error(`no shape ${id}`);
  return found;
};
const layer = ({ drawing }: Template, name: string): readonly Shape[] =>
  drawing.layers.find((one) => one.name === name)?.shapes ?? [];

const square = (side: number, corner: number): Path =>
  roundedPolygon([vec(0, 0), vec(side, 0), vec(side, side), vec(0, side)], [corner, corner, corner, corner])!;
const plate = (path: Path, role: Shape["role"] = "cut"): Template =>
  templateOf("plate", "outline", [{ ...cut("outline", path), role }], { edge: "outline" });
const sideOf = (path: Path): number => pathBounds(path).maxX - pathBounds(path).minX;
/** Radii of the arcs of a path. */
const radii = (path: Path): number[] => {
  let from = path.start;
  return path.segments.flatMap((segment) => {
    const at = from;
    from = segment.to;
    return segment.kind === "arc" ? [Math.hypot(at.x - segment.centre.x, at.y - segment.centre.y)] : [];
  });
};

describe("a template for a guide bush", () => {
  it("works a pocket of 40 with corners of 1.5 through 15.9/3 and 10/3: window 52.9 with corners of 7.95, plug 39.9", () => {
    // By hand: near side (15.9 - 3)/2 = 6.45, so 40 + 12.9 and 1.5 + 6.45; far side (10 + 3)/2 = 6.5, so 52.9 - 13.
    const template = made(plate(square(40, 1.5), "pocket"), {
      follow: "bush",
      bush: 15.9,
      bit: 3,
      partnerBush: 10,
    });
    const window = shape(template, "outline");
    expect(sideOf(window.path)).toBeCloseTo(52.9, 9);
    expect(radii(window.path)).toHaveLength(4);
    for (const radius of radii(window.path)) expect(radius).toBeCloseTo(7.95, 9);
    expect(sideOf(shape(template, "other-half").path)).toBeCloseTo(39.9, 9);
    expect(sideOf(shape(template, "part-edge").path)).toBe(40);
    expect(template.cautions).toBeUndefined();
    expect(template.lineIs).toContain("leaves a gap of 0.05 mm");
  });

  it("jams by 0.5 with 17/3 and 10/3, fits without a gap with 14.2875/3.175 and 7.9375/3.175", () => {
    const pocket = plate(square(40, 2), "pocket");
    const jams = made(pocket, { follow: "bush", bush: 17, bit: 3, partnerBush: 10 });
    expect(jams.cautions?.join()).toContain("jam by 0.5 mm");
    const fits = made(pocket, { follow: "bush", bush: 14.2875, bit: 3.175, partnerBush: 7.9375 });
    expect(fits.lineIs).toContain("fits without a gap");
    expect(fits.cautions).toBeUndefined();
  });

  it("keeps 2.38125 off with 7.9375/3.175, by whichever side of the template", () => {
    const disc = plate(circle(vec(0, 0), 30));
    const radius = (raw: Record<string, unknown>): number =>
      asCircle(shape(made(disc, { follow: "bush", bush: 7.9375, bit: 3.175, ...raw }), "outline").path)!.radius;
    expect(radius({ template: "outside", cut: "piece" })).toBeCloseTo(30 - 2.38125, 12);
    expect(radius({ template: "inside", cut: "opening" })).toBeCloseTo(30 + 2.38125, 12);
    expect(radius({ template: "inside", cut: "piece" })).toBeCloseTo(30 + 5.55625, 12);
    expect(radius({ template: "outside", cut: "opening" })).toBeCloseTo(30 - 5.55625, 12);
  });

  it("refuses an outside template for a blind recess, and a bit as wide as its bush", () => {
    const pocket = plate(square(40, 2), "pocket");
    expect(make(pocket, { follow: "bush", template: "outside" })).toMatchObject({
      ok: false,
      error: { message: expect.stringMatching(/cover the wood/), mend: expect.stringMatching(/inside template/) },
    });
    expect(make(pocket, { follow: "bearing", template: "outside" })).toMatchObject({
      ok: false,
      error: { message: expect.stringMatching(/cover the wood/), mend: expect.stringMatching(/inside template/) },
    });
    expect(make(pocket, { follow: "bearing" })).toMatchObject({ ok: true });
    expect(make(pocket, { follow: "bush", bush: 6, bit: 6.35 })).toMatchObject({ ok: false });
    expect(make(pocket, { follow: "bush", template: "outside", cut: "opening", bush: 10, bit: 3 })).toMatchObject({ ok: true });
  });

  it("refuses what leaves nothing", () => {
    expect(make(plate(circle(vec(0, 0), 4)), { follow: "bush", bush: 15, bit: 3 })).toMatchObject({ ok: false });
  });

  it("tells and draws each corner that is too tight for the bit, with the wood that stays in it", () => {
    // A sharp right angle cut by a bit of radius r keeps r² (1 - pi/4): 9 x 0.2146 = 1.9314 mm² each at r = 3.
    const template = made(plate(square(40, 0), "pocket"), { follow: "bush", bush: 20, bit: 6 });
    const corners = layer(template, "lost-corners");
    expect(corners).toHaveLength(4);
    for (const { path } of corners) expect(Math.abs(pathArea(path))).toBeCloseTo(9 * (1 - Math.PI / 4), 2);
    expect(template.cautions?.[0]).toMatch(/4 outward corners sharper than 3 mm/);
    expect(template.cautions?.join()).toMatch(/no corner under a radius of 10 mm/);
  });

  it("shows the bush and the bit at true size, with the smallest corner that the bush enters", () => {
    const template = made(plate(square(80, 12)), { follow: "bush", bush: 15.9, bit: 3 });
    expect(asCircle(shape(template, "cutter-guide").path)!.radius).toBeCloseTo(7.95, 12);
    expect(asCircle(shape(template, "cutter-bit").path)!.radius).toBeCloseTo(1.5, 12);
    const words = template.drawing.layers.find(({ name }) => name === "cutter")!.texts!.map(({ text }) => text);
    expect(words).toEqual(["bush Ø 15.9 mm, bit Ø 3 mm", "smallest corner R 7.95 mm"]);
  });
});

/** What the cut leaves, rehearsed with JTS: the guide's disc where it fits beside the template, the bit's disc along its way. */
function rehearse(
  window: Path,
  { guide, bit, inside, piece }: { guide: number; bit: number; inside: boolean; piece: boolean },
): Jts {
  const centres = jtsOffset(regionOf([window]), inside ? -guide / 2 : guide / 2);
  return jtsGrown(centres, piece ? -bit / 2 : bit / 2);
}
function jtsGrown(shapeOf: Jts, by: number): Jts {
  const ring = shapeOf.getBoundary().getGeometryN(0).getCoordinates().slice(1);
  return jtsOffset(regionOf([polygon(ring.map(({ x, y }) => vec(x, y)))]), by);
}

describe("the cut that a made template guides, rehearsed with JTS", () => {
  const cases = [
    { template: "inside", cut: "blind-recess", inside: true, piece: false },
    { template: "inside", cut: "piece", inside: true, piece: true },
    { template: "outside", cut: "piece", inside: false, piece: true },
    { template: "outside", cut: "opening", inside: false, piece: false },
  ] as const;
  it.each(cases)("$cut by an $template template gives the body's own area", ({ template, cut: what, inside, piece }) => {
    const body = bodyPath();
    const result = made(plate(body), { follow: "bush", bush: 15.9, bit: 6.35, template, cut: what });
    const left = rehearse(shape(result, "outline").path, { guide: 15.9, bit: 6.35, inside, piece });
    // Within 0.002 mm all round, on average.
    expect(Math.abs(left.getArea() - Math.abs(pathArea(body)))).toBeLessThan(0.002 * pathLength(body));
    expect(Math.abs(toJts(regionOf([body])).getArea() - Math.abs(pathArea(body)))).toBeLessThan(0.001 * pathLength(body));
  });
});

describe("the passes that clear a recess", () => {
  it("stay with the recess as it is drawn, and go where it is moved, mirrored or halved", () => {
    const passes = [{ name: "first", diameter: 3, paths: [circle(vec(20, 20), 5)] }];
    const recess = { ...plate(square(40, 4), "pocket"), passes };
    expect(made(recess, { lettered: true }).passes).toEqual(passes);
    expect(made(recess, { follow: "bush", bush: 10, bit: 3 }).passes).toBeUndefined();
    expect(made(recess, { mirrored: true }).passes).toBeUndefined();
  });
});

describe("a template for a bearing", () => {
  it("keeps the line where bearing and bit are of one size", () => {
    const template = made(fingerboard(), { follow: "bearing", bit: 12.7 });
    expect(pathArea(shape(template, "outline").path)).toBeCloseTo(pathArea(shape(fingerboard(), "outline").path), 9);
    expect(layer(template, "ledge")).toEqual([]);
    expect(template.lineIs).toMatch(/outside template for a 12\.7 mm bearing/);
  });

  it("shows the ledge of 2.413 that a 19.05 bit on a 14.224 bearing cuts", () => {
    const template = made(plate(square(100, 10)), { follow: "bearing", bearing: 14.224, bit: 19.05 });
    expect(sideOf(shape(template, "outline").path)).toBe(100);
    expect(sideOf(shape(template, "ledge").path)).toBeCloseTo(100 - 2 * 2.413, 9);
    expect(template.lineIs).toContain("ledge 2.413 mm wide");
    // In a window the ledge lies outside of it.
    const window = made(plate(square(100, 10)), { follow: "bearing", bearing: 14.224, bit: 19.05, template: "inside" });
    expect(sideOf(shape(window, "ledge").path)).toBeCloseTo(100 + 2 * 2.413, 9);
  });

  it("names the tight runs of an ellipse 40 x 10 that a ledge of 2.413 swallows, and none of one 40 x 16", () => {
    // Radius of curvature at the long end of an ellipse a x b: b²/a. 10²/40 = 2.5 for half axes 40 and 10 is over 2.413; of axes 40 and 10
    // (half axes 20 and 5) it is 1.25, of axes 40 and 16 (20 and 8) 3.2.
    const ellipse = (a: number, b: number): Path => {
      const k = 0.5522847498307936;
      const at = (x: number, y: number): Vec => vec(x * a, y * b);
      return {
        start: at(1, 0),
        closed: true,
        segments: [
          cubic(at(1, k), at(k, 1), at(0, 1)),
          cubic(at(-k, 1), at(-1, k), at(-1, 0)),
          cubic(at(-1, -k), at(-k, -1), at(0, -1)),
          cubic(at(k, -1), at(1, -k), at(1, 0)),
        ],
      };
    };
    const ledge = { follow: "bearing", bearing: 14.224, bit: 19.05 };
    const tight = made(plate(ellipse(20, 5)), ledge);
    expect(layer(tight, "swallowed").map(({ name }) => name)).toEqual(Array(2).fill(expect.stringMatching(/tighter/)));
    expect(tight.cautions?.[0]).toMatch(/2 bends/);
    expect(layer(made(plate(ellipse(20, 8)), ledge), "swallowed")).toEqual([]);
  });
});

describe("a template with its line moved", () => {
  it("grows a square of 100 to 106 with sharp corners, or with corners of 3", () => {
    const sharp = shape(made(plate(square(100, 0)), { follow: "moved", moved: 3 }), "outline").path;
    expect(pathArea(sharp)).toBeCloseTo(106 * 106, 9);
    const round = shape(made(plate(square(100, 0)), { follow: "moved", moved: 3, corners: "round" }), "outline").path;
    // Area grows by the perimeter times d and pi d² (Steiner's formula).
    expect(pathArea(round)).toBeCloseTo(100 * 100 + 400 * 3 + Math.PI * 9, 6);
    expect(radii(round).every((r) => Math.abs(r - 3) < 1e-9)).toBe(true);
  });

  it("splits a dumbbell with a neck of 4 moved in by 2.413, and names the neck", () => {
    const bell = polygon([
      vec(0, 0),
      vec(30, 0),
      vec(30, 13),
      vec(60, 13),
      vec(60, 0),
      vec(90, 0),
      vec(90, 30),
      vec(60, 30),
      vec(60, 17),
      vec(30, 17),
      vec(30, 30),
      vec(0, 30),
    ]);
    const template = made(plate(bell), { follow: "moved", moved: -2.413 });
    expect(layer(template, "outline").map(({ id }) => id)).toEqual(["outline", "outline-2"]);
    expect(layer(template, "swallowed").some(({ name }) => name.includes("narrower"))).toBe(true);
    expect(template.cautions?.join()).toMatch(/too narrow/);
  });
});

describe("a master", () => {
  it("lies by the copying bush off the working template, on the other side for the reverse", () => {
    // Working: a piece of radius 30 round an outside template of 30 - 2.38125. Copied with 15.9/6: near 4.95, far 10.95.
    const disc = plate(circle(vec(0, 0), 30));
    const working = { follow: "bush", bush: 7.9375, bit: 3.175, template: "outside", cut: "piece" };
    const radius = (raw: Record<string, unknown>): number =>
      asCircle(shape(made(disc, { ...working, masterBush: 15.9, masterBit: 6, ...raw }), "outline").path)!.radius;
    expect(radius({ master: "same" })).toBeCloseTo(30 - 2.38125 - 4.95, 12);
    expect(radius({ master: "reverse" })).toBeCloseTo(30 - 2.38125 + 10.95, 12);
    const copied = made(disc, { ...working, master: "same" });
    expect(asCircle(shape(copied, "outline").path)!.radius).toBeCloseTo(30 - 2.38125, 12);
    expect(
      asCircle(shape(made(disc, { ...working, master: "same", masterBush: 15.9 }), "working-edge").path)!.radius,
    ).toBeCloseTo(30 - 2.38125, 12);
  });
});

describe("half and mirrored", () => {
  it("gives half of a board: half the area, its straight side on the centre line, the slots cut there", () => {
    const whole = fingerboard();
    const left = made(whole, { half: "left" });
    expect(pathArea(shape(left, "outline").path)).toBeCloseTo(pathArea(shape(whole, "outline").path) / 2, 9);
    expect(pathBounds(shape(left, "outline").path).minY).toBe(0);
    expect(pathBounds(shape(left, "fret-12").path).minY).toBe(0);
    expect(shape(left, "centre-line").path).toEqual(shape(whole, "centre-line").path);
    const right = made(whole, { half: "right" });
    expect(pathBounds(shape(right, "outline").path).maxY).toBe(0);
    expect(pathArea(shape(right, "outline").path)).toBeGreaterThan(0);
  });

  it("halves a curved outline with a hole on the line into one closed edge", () => {
    const body = bodyPath();
    const ring: Shape = { ...cut("outline", body), holes: [circle(vec(330, 0), 50)] };
    const centre: Shape = {
      id: "centre-line",
      role: "centre",
      line: "centre",
      name: "",
      path: segmentPath(vec(-5, 0), vec(490, 0)),
    };
    const template = templateOf("body", "outline", [ring, centre], { edge: "outline" });
    const half = shape(made(template, { half: "left" }), "outline");
    expect(half.holes).toBeUndefined();
    expect(pathArea(half.path)).toBeCloseTo((Math.abs(pathArea(body)) - Math.PI * 2500) / 2, 6);
  });

  it("mirrors shapes about the centre line and keeps lettering readable in its place", () => {
    const board = fingerboard();
    const text = { id: "t", at: vec(100, 8), text: "bass", height: 2.5, align: "middle" as const };
    const lettered = {
      ...board,
      drawing: { ...board.drawing, layers: [...board.drawing.layers, { name: "labels", shapes: [], texts: [text] }] },
    };
    const mirrored = made(lettered, { mirrored: true });
    const outline = shape(mirrored, "outline").path;
    expect(pathArea(outline)).toBeCloseTo(pathArea(shape(board, "outline").path), 9);
    const now = mirrored.drawing.layers.flatMap(({ texts = [] }) => texts)[0]!;
    expect(now.angle ?? 0).toBeCloseTo(0, 12);
    // The capitals stood from 8 to 10.5 with room for descenders below; mirrored the middle of the box lies as far below the line.
    expect(now.at.y).toBeCloseTo(-8 - (1 - 0.32) * 2.5, 9);
    expect(now.at.x).toBeCloseTo(100, 9);
    expect(mirrored.lineIs).toContain("mirrored");
  });

  it("cuts a half that flips into the whole: both halves of a crooked outline together have its area", () => {
    const crooked: Path = {
      start: vec(-20, -10),
      closed: true,
      segments: [
        cubic(vec(0, -40), vec(40, -30), vec(60, -5)),
        cubic(vec(70, 20), vec(20, 45), vec(-10, 20)),
        line(vec(-20, -10)),
      ],
    };
    const centre: Shape = {
      id: "centre-line",
      role: "centre",
      line: "centre",
      name: "",
      path: segmentPath(vec(-50, 0), vec(90, 0)),
    };
    const template = templateOf("head", "outline", [cut("outline", crooked), centre], { edge: "outline" });
    const area = (half: "left" | "right"): number => pathArea(shape(made(template, { half }), "outline").path);
    expect(area("left") + area("right")).toBeCloseTo(pathArea(crooked), 6);
  });
});

describe("what holds a template", () => {
  it("adds the area of its tabs at the ends of the board, and leaves the long sides where they were", () => {
    const board = fingerboard();
    const held = shape(made(board, { fixing: "tabs", fixingWidth: 20, fixingReach: 25 }), "outline").path;
    expect(pathArea(held)).toBeCloseTo(pathArea(shape(board, "outline").path) + 2 * 20 * 25, 9);
    const { minX, maxX, maxY } = pathBounds(held);
    expect(minX).toBeCloseTo(-25, 9);
    expect(maxX).toBeCloseTo(495, 9);
    expect(maxY).toBe(pathBounds(shape(board, "outline").path).maxY);
  });

  it("adds ears round a screw hole: a rectangle and half a disc each", () => {
    const board = fingerboard();
    const template = made(board, { fixing: "ears", fixingAt: "start", fixingWidth: 20, fixingReach: 25, screw: 4 });
    const held = shape(template, "outline").path;
    expect(pathArea(held)).toBeCloseTo(pathArea(shape(board, "outline").path) + 20 * 15 + (Math.PI * 100) / 2, 9);
    expect(asCircle(shape(template, "screw-1").path)).toMatchObject({ centre: { x: -15, y: 0 }, radius: 2 });
  });

  it("runs round a tab on a curved end without leaving the curve elsewhere", () => {
    const centre: Shape = {
      id: "centre-line",
      role: "centre",
      line: "centre",
      name: "",
      path: segmentPath(vec(-5, 0), vec(490, 0)),
    };
    const template = templateOf("body", "outline", [cut("outline", bodyPath()), centre], { edge: "outline" });
    const held = shape(made(template, { fixing: "tabs", fixingAt: "end", fixingWidth: 40, fixingReach: 30 }), "outline").path;
    const gained = pathArea(held) - Math.abs(pathArea(bodyPath()));
    // Less than the tab's rectangle from the body's tip, since the shoulders begin behind it, and more by the slivers beside the tip.
    expect(gained).toBeGreaterThan(40 * 30);
    expect(gained).toBeLessThan(40 * 34);
    expect(pathBounds(held).maxX).toBeCloseTo(510, 6);
  });

  it("refuses a tab wider than the end", () => {
    expect(make(fingerboard(), { fixing: "tabs", fixingWidth: 80 })).toMatchObject({ ok: false });
  });

  it("puts a pilot hole in the middle of every hole", () => {
    const hole: Shape = { ...cut("pin-1", circle(vec(20, 10), 2.5)), role: "drill" };
    const template = templateOf("bridge", "outline", [cut("outline", square(60, 3)), hole], { edge: "outline" });
    const pilot = shape(made(template, { pilot: 1.5 }), "pilot-pin-1");
    expect(asCircle(pilot.path)).toMatchObject({ centre: { x: 20, y: 10 }, radius: 0.75 });
    expect(pilot.role).toBe("drill");
  });
});

describe("a template of which nothing is asked", () => {
  it("is the very same template", () => {
    const board = fingerboard();
    expect(made(board, {})).toBe(board);
  });

  it("is the same but for its lettering where only that is asked, which stays within the edge", () => {
    const board = fingerboard();
    const template = made(board, { lettered: true, revision: "B" });
    const texts = template.drawing.layers.at(-1)!.texts!;
    expect(texts.map(({ text }) => text)).toEqual(["Fingerboard: Blank outline", "No. 14", "rev. B"]);
    for (const { at } of texts) expect(at.x > 0 && at.x < 470 && Math.abs(at.y) < 22).toBe(true);
    expect(made(board, { lettered: true }).drawing.layers.at(-1)!.texts!.at(-1)!.text).toBe("rev. 7F3-A2C");
  });
});
