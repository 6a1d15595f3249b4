import { describe, expect, it } from "vitest";
import { flatten } from "../../../src/geometry/flatten.ts";
import { pathArea, pathBounds, pathLength } from "../../../src/geometry/measure.ts";
import { nearestOnPath } from "../../../src/geometry/nearest.ts";
import { piecesOf, pointAt } from "../../../src/geometry/segment.ts";
import { vec, type Vec } from "../../../src/geometry/vec.ts";
import type { MeasuresByKind } from "../../../src/parts/contract.ts";
import type { RawRecord } from "../../../src/parts/derived.ts";
import { jtsOffset } from "../../geometry/jts.ts";
import { SMALL_LENGTHS } from "../../lutherie/small-body.ts";
import { deriveInstrument } from "../derived-body.ts";
import { findingOf, shapeOf, shapesOf, templateOf } from "../derived-board.ts";

const SMALL: RawRecord = { ...SMALL_LENGTHS, sideThickness: 2.2 };

const bodyOf = (body: RawRecord, instrument: RawRecord = {}): MeasuresByKind["body"] =>
  deriveInstrument({ instrument, fingerboard: {}, body }).measures("body");
const partOf = (body: RawRecord, instrument: RawRecord = {}) =>
  deriveInstrument({ instrument, fingerboard: {}, body }).part("body");

/** Area and length of a polygon by the shoelace formula, worked here and nowhere else. */
function shoelace(points: readonly Vec[]): { readonly area: number; readonly length: number } {
  let [twice, length] = [0, 0];
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length]!;
    twice += a.x * b.y - b.x * a.y;
    length += Math.hypot(b.x - a.x, b.y - a.y);
  });
  return { area: twice / 2, length };
}

describe("a body from its measures", () => {
  const body = bodyOf(SMALL);

  it("begins at the join and ends its length beyond: 25.4 in joined at fret 14 is 645.16 (1 - 2^(-14/12)) = 357.774", () => {
    const join = 645.16 * (1 - 2 ** (-14 / 12));
    expect(bodyOf(SMALL, { scale: 645.16, joinFret: 14 }).neckX).toBeCloseTo(join, 9);
    expect(bodyOf(SMALL, { scale: 645.16, joinFret: 14 }).tailX).toBeCloseTo(join + 490, 9);
  });

  it("has its bouts and its waist where they were asked, level there", () => {
    expect(body.treble!.levels.map(({ what }) => what)).toEqual(["bout", "waist", "bout"]);
    expect(body.treble!.levels.map(({ at }) => [at.x - body.neckX, 2 * at.y])).toEqual([
      [expect.closeTo(90, 6), expect.closeTo(285, 6)],
      [expect.closeTo(190, 6), expect.closeTo(240, 6)],
      [expect.closeTo(360, 6), expect.closeTo(390, 6)],
    ]);
  });

  it("has the area and the perimeter of the polygon of its points 0.0005 mm beside the curve, by the shoelace formula", () => {
    const { area, length } = shoelace(flatten(body.outline!, 0.0005));
    expect(Math.abs(body.area - area)).toBeLessThan(0.0005 * length);
    expect(Math.abs(body.perimeter - length) / length).toBeLessThan(1e-5);
    expect(body.trebleSide + body.bassSide).toBeCloseTo(body.perimeter, 6);
  });

  it("leaves a hollow that lies the thickness of the sides inside everywhere", () => {
    for (const piece of piecesOf(body.inside!))
      for (const t of [0, 0.3, 0.7]) expect(nearestOnPath(body.outline!, pointAt(piece, t)).distance).toBeCloseTo(2.2, 2);
    // Steiner's formula for parallel curves: A' = A - t L + pi t² round a smooth outline; the wall lies within 0.002 of it.
    const steiner = body.area - 2.2 * body.perimeter + Math.PI * 2.2 ** 2;
    expect(Math.abs(pathArea(body.inside!) - steiner)).toBeLessThan(0.002 * body.perimeter);
  });

  it("says what is wrong where the measures make no body, and draws nothing", () => {
    const part = partOf({ ...SMALL, waist: 300 });
    expect(findingOf(part, "outline").severity).toBe("stop");
    expect(findingOf(part, "outline").says).toContain("the waist must be narrower than both bouts");
    expect(part.drawing().layers).toEqual([]);
    expect(part.templates()).toEqual([]);
  });

  it("lies on its left side for a left-handed player: the cutaway is at falling y", () => {
    const cut = { ...SMALL, cutaway: "rounded" };
    const right = bodyOf(cut);
    const left = bodyOf(cut, { handed: "left" });
    expect(left.area).toBeCloseTo(right.area, 6);
    expect(left.trebleSide).toBeCloseTo(right.trebleSide, 6);
    const inside = (outline: NonNullable<typeof right.outline>, y: number): number =>
      flatten(outline).filter((p) => p.x < right.neckX + 1 && Math.sign(p.y) === Math.sign(y)).length;
    expect(right.outline!.segments.length).toBe(left.outline!.segments.length);
    expect(inside(left.outline!, 1)).toBe(inside(right.outline!, -1));
  });
});

describe("cutaways", () => {
  const ys = (body: MeasuresByKind["body"]) => flatten(body.outline!).map(({ x, y }) => [x, y] as const);
  const mirrored = (body: MeasuresByKind["body"]) => ys(body).map(([x, y]) => [x, -y] as const);
  /** As many points, and each of the one within a millionth of one of the other. */
  function expectAlike(a: readonly (readonly [number, number])[], b: readonly (readonly [number, number])[]): void {
    expect(a.length).toBe(b.length);
    expect(a.filter(([x, y]) => !b.some((other) => Math.hypot(other[0] - x, other[1] - y) < 1e-6))).toEqual([]);
  }

  it.each(["rounded", "pointed"])("on the bass side alone are the image of one on the treble side (%s)", (cutaway) => {
    const treble = bodyOf({ ...SMALL, cutaway });
    const bass = bodyOf({ ...SMALL, bassCutaway: cutaway });
    expectAlike(ys(bass), mirrored(treble));
    expect(bass.bassSide).toBeCloseTo(treble.trebleSide, 9);
    expect(bass.trebleSide).toBeCloseTo(treble.bassSide, 9);
    expect(bass.bass!.bent.length).toBe(treble.treble!.bent.length);
    // On a left-handed instrument the bass side is where the treble side of a right-handed one is.
    expectAlike(ys(bodyOf({ ...SMALL, bassCutaway: cutaway }, { handed: "left" })), ys(treble));
  });

  it("on both sides are alike until the bass side has numbers of its own, each taking as much as it takes alone", () => {
    const whole = bodyOf(SMALL);
    const one = bodyOf({ ...SMALL, cutaway: "rounded" });
    const both = bodyOf({ ...SMALL, cutaway: "rounded", bassCutaway: "rounded" });
    expect(both.symmetric).toBe(true);
    expect(whole.area - both.area).toBeCloseTo(2 * (whole.area - one.area), 6);
    const other = partOf({ ...SMALL, cutaway: "rounded", bassCutaway: "pointed", bassCutDepth: 40 });
    const unlike = other.measures as MeasuresByKind["body"];
    expect(unlike.symmetric).toBe(false);
    const alone = bodyOf({ ...SMALL, bassCutaway: "pointed", bassCutDepth: 40 });
    expect(whole.area - unlike.area).toBeCloseTo(whole.area - one.area + (whole.area - alone.area), 6);
    // Half and mould of each side are templates of their own, together the whole.
    const halves = ["half-treble", "half-bass"].map((name) =>
      Math.abs(pathArea(shapeOf(templateOf(other, name).drawing, "outline").path)),
    );
    expect(halves[0]! + halves[1]!).toBeCloseTo(unlike.area, 6);
    expect(templateOf(other, "mould-outside-bass").drawing.layers.length).toBeGreaterThan(0);
  });

  it("on the bass side that do not fit are told of it", () => {
    const finding = findingOf(partOf({ ...SMALL, bassCutaway: "rounded", bassHornAt: 400 }), "outline");
    expect(finding.severity).toBe("stop");
    expect(finding.says).toContain("on the bass side, the horn must lie between the neck end and the upper bout");
  });
});

describe("a body drawn by points", () => {
  it.each([
    ["none", "none"],
    ["rounded", "none"],
    ["pointed", "none"],
    ["none", "rounded"],
    ["rounded", "rounded"],
    ["pointed", "rounded"],
  ])("begins as the measures give it (cutaway: %s, on the bass side %s)", (cutaway, bassCutaway) => {
    const measured = bodyOf({ ...SMALL, cutaway, bassCutaway });
    const drawn = bodyOf({ ...SMALL, cutaway, bassCutaway, outlineBy: "points" });
    expect(drawn.area).toBeCloseTo(measured.area, 4);
    expect(drawn.perimeter).toBeCloseTo(measured.perimeter, 4);
    expect(drawn.trebleSide).toBeCloseTo(measured.trebleSide, 4);
  });

  it("is told where it does not begin at the join", () => {
    const outline = [
      { x: 3, y: 0 },
      { x: 3, y: 100, side: "curve" },
      { x: 400, y: 0 },
    ];
    const finding = findingOf(partOf({ outlineBy: "points", outline }), "at-join");
    expect(finding.severity).toBe("stop");
    expect(finding.measured).toBeCloseTo(3, 9);
  });

  it("is told where it crosses itself", () => {
    const outline = [
      { x: 0, y: 0 },
      { x: 0, y: 100 },
      { x: 300, y: -100 },
      { x: 300, y: 100 },
    ];
    expect(findingOf(partOf({ outlineBy: "points", mirrored: false, outline }), "outline").severity).toBe("stop");
  });
});

describe("channels round the edge", () => {
  const layers = [
    { name: "binding", thickness: 1.524, height: 6 },
    { name: "purfling", thickness: 0.889, height: 2 },
  ];

  it("lie as far in as the layers outside of them and themselves together: 1.524 and 1.524 + 0.889 = 2.413", () => {
    const { topLedges, outline, bindingThickness } = bodyOf({ ...SMALL, binding: layers });
    expect(bindingThickness).toBeCloseTo(2.413, 12);
    expect(topLedges.map(({ inset }) => inset)).toEqual([expect.closeTo(1.524, 12), expect.closeTo(2.413, 12)]);
    for (const { path, inset } of topLedges)
      for (const piece of piecesOf(path!)) expect(nearestOnPath(outline!, pointAt(piece, 0.5)).distance).toBeCloseTo(inset, 2);
  });

  it("are told where a bend is tighter than they are wide", () => {
    const part = partOf({ ...SMALL, cutaway: "rounded", cutFullness: 0.05, binding: [{ thickness: 19, height: 6 }] });
    expect(findingOf(part, "channels").severity).toBe("stop");
  });

  it("lean with a router on the dome by asin(d / R): 195 mm out and 45 along, R 8534 gives 1.3438 degrees", () => {
    // The lower bout lies at 360 of 490, 115 behind the middle of the dome at 245.
    const { treble, greatestLeanRad } = bodyOf({ ...SMALL, topRadius: 8534, binding: layers });
    const bout = treble!.levels[2]!;
    expect(bout.leanRad).toBeCloseTo(Math.asin(Math.hypot(115, 195) / 8534), 9);
    expect(greatestLeanRad).toBeGreaterThanOrEqual(bout.leanRad);
  });

  it("tell the purfling that no iron bends: 4 mm thick round a horn of 20 is under 12 times", () => {
    const part = partOf({ ...SMALL, cutaway: "rounded", binding: [{ thickness: 4, height: 6 }] });
    expect(findingOf(part, "strip-bends").severity).toBe("look");
  });
});

describe("the body's templates", () => {
  it("give the half with its straight side on the centre line: half the area, and the whole on its own", () => {
    const part = partOf(SMALL);
    const { area } = part.measures as MeasuresByKind["body"];
    const half = shapeOf(templateOf(part, "half").drawing, "outline").path;
    expect(Math.abs(pathArea(half))).toBeCloseTo(area / 2, 6);
    expect(Math.abs(pathArea(shapeOf(templateOf(part, "whole").drawing, "outline").path))).toBeCloseTo(area, 6);
  });

  it("give both halves of a body with a cutaway, each on its own side", () => {
    const part = partOf({ ...SMALL, cutaway: "pointed" });
    const areas = ["half-treble", "half-bass"].map((name) =>
      Math.abs(pathArea(shapeOf(templateOf(part, name).drawing, "outline").path)),
    );
    expect(areas[0]! + areas[1]!).toBeCloseTo((part.measures as MeasuresByKind["body"]).area, 6);
    expect(areas[0]!).toBeLessThan(areas[1]!);
  });

  it("take the half out of a block for the outside mould: (490 + 2 x 50) x (195 + 50) less half the body", () => {
    const part = partOf({ ...SMALL, mouldMargin: 50 });
    const { area } = part.measures as MeasuresByKind["body"];
    const mould = shapeOf(templateOf(part, "mould-outside").drawing, "outline").path;
    expect(Math.abs(pathArea(mould))).toBeCloseTo(590 * 245 - area / 2, 5);
  });

  it("show the channels of the back from behind, where they are cut: the cutaway of the treble side lies on the other hand", () => {
    const layer = [{ thickness: 1.5, height: 6 }];
    const part = partOf({ ...SMALL, cutaway: "rounded", binding: layer, backBinding: layer });
    const at = (name: string) => pathBounds(shapeOf(templateOf(part, name).drawing, "outline").path);
    const corner = (name: string, sign: number): boolean => {
      const { path } = shapeOf(templateOf(part, name).drawing, "outline");
      // Before the upper bout the cut side has wood only from the horn inwards: the other reaches farther out there.
      const near = flatten(path).filter(({ x, y }) => x < at(name).minX + 10 && y * sign > 60);
      return near.length > 0;
    };
    expect([corner("top-channels", 1), corner("top-channels", -1)]).toEqual([false, true]);
    expect([corner("back-channels", 1), corner("back-channels", -1)]).toEqual([true, false]);
    expect(templateOf(part, "back-channels").lineIs).toContain("seen from behind");
  });

  it("make the inside mould the outline less the sides", () => {
    const part = partOf(SMALL);
    const inner = shapeOf(templateOf(part, "mould-inside").drawing, "outline").path;
    const { inside } = part.measures as MeasuresByKind["body"];
    expect(Math.abs(pathArea(inner))).toBeCloseTo(pathArea(inside!) / 2, 3);
  });

  it("give a solid body no mould, and its slab from the side", () => {
    const part = partOf({ ...SMALL, build: "solid", depth: 44 });
    expect(part.templates().map(({ name }) => name)).toEqual(["half", "whole"]);
    const slab = shapeOf(part.inPlace().side!, "outline").path;
    expect(Math.abs(pathArea(slab))).toBeCloseTo(44 * 490, 6);
  });
});

describe("fairness lines", () => {
  it("stand off the edge by the bend: 1500 / radius at the lower bout, outwards", () => {
    const part = partOf({ ...SMALL, fairness: true });
    const { treble } = part.measures as MeasuresByKind["body"];
    const bout = treble!.levels[2]!;
    const ends = shapesOf(part.drawing()).find(({ id }) => id === "fairness-1-ends")!.path;
    const tip = vec(bout.at.x, bout.at.y + 1500 / bout.radius!);
    expect(nearestOnPath(ends, tip).distance).toBeLessThan(0.5);
    expect(pathLength(ends)).toBeGreaterThan(0);
  });
});

describe("binding and purfling at the point of a horn", () => {
  const LAYERS = [
    { name: "binding", thickness: 1.5, height: 6 },
    { name: "purfling", thickness: 0.9, height: 2 },
  ];
  const cut: RawRecord = { ...SMALL, cutaway: "pointed", tipAngle: 60, binding: LAYERS };

  it("are mitred at half the point of 60 degrees: 1.5 / sin 30 = 3 and 0.9 / sin 30 = 1.8 along the mitre", () => {
    const part = partOf(cut);
    const { says } = shapeOf(part.drawing(), "mitre-treble");
    expect(says!.slice(0, 2).map(({ value }) => (value * 180) / Math.PI)).toEqual([expect.closeTo(30, 6), expect.closeTo(30, 6)]);
    const { drawing, table } = templateOf(part, "top-channels");
    expect(shapeOf(drawing, "mitre-treble").role).toBe("guide");
    expect(drawing.layers.flatMap(({ texts = [] }) => texts.map(({ text }) => text))).toContain("mitre 30°");
    expect(table!.rows).toEqual(
      expect.arrayContaining([
        { label: "binding, along its mitre at the point on the treble side", value: expect.closeTo(3, 6) },
        { label: "purfling, along its mitre at the point on the treble side", value: expect.closeTo(1.8, 6) },
      ]),
    );
  });

  it("meet where JTS has the corner of the outline mitred 2.4 in, on either hand and on either side", () => {
    for (const side of [{}, { handed: "left" }])
      for (const which of [cut, { ...SMALL, bassCutaway: "pointed", bassTipAngle: 75, binding: LAYERS }] as const) {
        const part = partOf(which, side);
        const mitre = shapesOf(part.drawing()).find(({ id }) => id.startsWith("mitre-"))!.path;
        const outer = flatten((part.measures as MeasuresByKind["body"]).outline!, 0.0002);
        const moved = jtsOffset([{ outer, holes: [] }], -2.4, "miter").getCoordinates();
        const end = mitre.segments[0]!.to;
        expect(Math.min(...moved.map((p) => Math.hypot(p.x - end.x, p.y - end.y)))).toBeLessThan(0.002);
        expect(Math.min(...outer.map((p) => Math.hypot(p.x - mitre.start.x, p.y - mitre.start.y)))).toBeLessThan(1e-6);
      }
  });

  it("have no mitre without a point: round a rounded horn, and where nothing is bound", () => {
    const ids = (given: RawRecord): string[] => shapesOf(partOf(given).drawing()).map(({ id }) => id);
    for (const given of [
      { ...cut, cutaway: "rounded" },
      { ...cut, binding: [] },
      { ...SMALL, binding: LAYERS },
    ])
      expect(ids(given).filter((id) => id.startsWith("mitre"))).toEqual([]);
  });
});
