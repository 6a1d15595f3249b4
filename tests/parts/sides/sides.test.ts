import { describe, expect, it } from "vitest";
import { flatten } from "../../../src/geometry/flatten.ts";
import { pathArea, pathBounds } from "../../../src/geometry/measure.ts";
import { piecesOf, pointAt } from "../../../src/geometry/segment.ts";
import type { Vec } from "../../../src/geometry/vec.ts";
import type { MeasuresByKind } from "../../../src/parts/contract.ts";
import type { DerivedPart, RawRecord } from "../../../src/parts/derived.ts";
import { findingOf, shapeOf, shapesOf, templateOf } from "../derived-board.ts";
import { SMALL_LENGTHS } from "../../lutherie/small-body.ts";
import { deriveInstrument } from "../derived-body.ts";

const BODY: RawRecord = { ...SMALL_LENGTHS, sideThickness: 2.2 };
const DEEP: RawRecord = { depthNeck: 90, depthTail: 105 };

const sidesOf = (sides: RawRecord, body: RawRecord = {}, instrument: RawRecord = {}): DerivedPart =>
  deriveInstrument({ instrument, fingerboard: {}, body: { ...BODY, ...body }, sides: { ...DEEP, ...sides } }).part("sides");
const measuresOf = (part: DerivedPart): MeasuresByKind["sides"] => part.measures as MeasuresByKind["sides"];

/** How high an unrolled edge stands at each of its flattened points: top edges are the upper of both. */
const outlineOf = (part: DerivedPart, piece: string): readonly Vec[] =>
  flatten(shapeOf(templateOf(part, `side-${piece}`).drawing, "outline").path, 0.001);

/** Height of a sphere that bulges up through two places of one height on the centre line, by its middle: no code of the product's. */
function sphereHeight(radius: number, x0: number, x1: number, at: Vec): number {
  const middle = (x0 + x1) / 2;
  const down = Math.sqrt(radius ** 2 - ((x1 - x0) / 2) ** 2);
  return Math.sqrt(radius ** 2 - (at.x - middle) ** 2 - at.y ** 2) - down;
}

describe("the sides", () => {
  it("are a plain taper under flat plates: at the waist 90 + 15 x 190 / 490 = 95.816 deep", () => {
    const { pieces } = measuresOf(sidesOf({}));
    const waist = pieces[0]!.marks.find(({ name }) => name === "waist")!;
    expect(waist.depth).toBeCloseTo(95.8163, 4);
    expect(pieces.map(({ marks }) => [marks[0]!.depth, marks.at(-1)!.depth])).toEqual([
      [expect.closeTo(105, 9), expect.closeTo(90, 9)],
      [expect.closeTo(105, 9), expect.closeTo(90, 9)],
    ]);
  });

  it("stand under a domed top as high as its sphere there, and as far along as a walk round the outline in 0.01 mm chords", () => {
    const part = sidesOf({}, { topRadius: 8534 });
    const { pieces, top } = measuresOf(part);
    const [treble] = pieces;
    const walk = flatten(treble!.plan, 0.00001);
    const edge = outlineOf(part, "treble");
    let along = 0;
    for (let i = 1; i < walk.length; i++) {
      const [a, b] = [walk[i - 1]!, walk[i]!];
      along += Math.hypot(b.x - a.x, b.y - a.y);
      if (i % 97 !== 0) continue;
      const high = sphereHeight(8534, top.neck.x, top.tail.x, b);
      const near = heightOf(edge, along);
      expect(Math.abs(near - high)).toBeLessThan(0.01);
    }
    expect(along).toBeCloseTo(treble!.outer, 3);
  });

  it("tend to the plain taper as both domes grow flat, the difference falling with 1 / R", () => {
    const waistDepth = (radius: number | undefined): number =>
      measuresOf(
        sidesOf(radius === undefined ? {} : { backRadius: radius }, radius === undefined ? {} : { topRadius: radius }),
      ).pieces[0]!.marks.find(({ name }) => name === "waist")!.depth;
    const flat = waistDepth(undefined);
    const [near, far] = [10_000, 100_000].map((radius) => Math.abs(waistDepth(radius) - flat));
    expect(far!).toBeLessThan(0.5);
    expect(near! / far!).toBeCloseTo(10, 1);
  });

  it("are pi t / 2 = 3.456 shorter along the middle of 2.2 mm wood than on the outer face, and pi t = 6.912 on the inner", () => {
    const { pieces } = measuresOf(sidesOf({}, { sideThickness: 2.2 }));
    for (const { outer, middle, inner } of pieces) {
      expect(outer - middle).toBeCloseTo((Math.PI * 2.2) / 2, 6);
      expect(outer - inner).toBeCloseTo(Math.PI * 2.2, 6);
    }
    const alongMiddle = measuresOf(sidesOf({ face: "middle" }, { sideThickness: 2.2 }));
    expect(alongMiddle.trebleLength).toBeCloseTo(pieces[0]!.middle, 9);
    expect(pathBounds(shapeOf(templateOf(sidesOf({ face: "middle" }), "side-treble").drawing, "outline").path).maxX).toBeCloseTo(
      pieces[0]!.middle,
      6,
    );
  });

  it("show their outer face with the top up: the tail at the left on the treble side, at the right on the bass, left-handed the other way", () => {
    const tailEnd = (part: DerivedPart, piece: string): number => {
      const { drawing } = templateOf(part, `side-${piece}`);
      const word = drawing.layers.flatMap((layer) => layer.texts ?? []).find(({ text }) => text === "tail")!;
      const box = pathBounds(shapeOf(drawing, "outline").path);
      return Math.sign(word.at.x - (box.minX + box.maxX) / 2);
    };
    const right = sidesOf({});
    const left = sidesOf({}, {}, { handed: "left" });
    expect([tailEnd(right, "treble"), tailEnd(right, "bass")]).toEqual([-1, 1]);
    expect([tailEnd(left, "treble"), tailEnd(left, "bass")]).toEqual([1, -1]);
  });

  it("measure the linings between the blocks along the inner face", () => {
    const { pieces } = measuresOf(sidesOf({ neckBlockWidth: 58, tailBlockWidth: 80 }));
    const [treble] = pieces;
    const [tail, neck] = ["tail-block", "neck-block"].map((id) => treble!.marks.find((mark) => mark.id === id)!);
    expect(tail!.at.y).toBeCloseTo(40, 6);
    expect(neck!.at.y).toBeCloseTo(29, 6);
    // Near the neck the outline is straight; near the tail it turns a little, which the inner face feels.
    expect(treble!.lining).toBeGreaterThan(treble!.inner - tail!.alongOuter - 29 - 0.1);
    expect(treble!.lining).toBeLessThan(treble!.inner - tail!.alongOuter - 29 + 2.2);
  });
});

/** Height of the upper edge of an outline at `along`, between its flattened points. */
function heightOf(outline: readonly Vec[], along: number): number {
  let best = -Infinity;
  for (let i = 0; i < outline.length; i++) {
    const [a, b] = [outline[i]!, outline[(i + 1) % outline.length]!];
    const [low, high] = a.x <= b.x ? [a, b] : [b, a];
    if (along < low.x - 1e-9 || along > high.x + 1e-9 || high.x - low.x < 1e-9) continue;
    best = Math.max(best, low.y + ((high.y - low.y) * (along - low.x)) / (high.x - low.x));
  }
  return best;
}

describe("a pointed cutaway", () => {
  const cut = { cutaway: "pointed", tipAngle: 60, tipFall: 35 };
  const part = sidesOf({ accent: 6 }, { ...cut, sideThickness: 2.2 });
  const { pieces, horns } = measuresOf(part);

  it("takes two pieces on its side and one on the other", () => {
    expect(pieces.map(({ id }) => id)).toEqual(["treble", "treble-2", "bass"]);
    expect(horns).toHaveLength(1);
    expect(horns[0]!.angleRad).toBeCloseTo(Math.PI / 3, 6);
  });

  it("cuts both ends at half the point's angle: 6 back outside, and 2.2 / tan 30 = 3.811 more inside", () => {
    for (const cutEnd of [pieces[0]!.mitre.atEnd!, pieces[1]!.mitre.atStart!]) {
      expect(cutEnd.outer).toBe(6);
      expect(cutEnd.inner).toBeCloseTo(6 + 2.2 / Math.tan(Math.PI / 6), 6);
    }
  });

  it("holds a block between them that shows 6 on both sides and lies 2.2 / sin 30 = 4.4 along the ends", () => {
    const { drawing, table } = templateOf(part, "accent-block");
    const [a, b, c] = flatten(shapeOf(drawing, "outline").path) as [Vec, Vec, Vec];
    expect(Math.hypot(b.x - a.x, b.y - a.y)).toBeCloseTo(6, 9);
    expect(Math.hypot(c.x - b.x, c.y - b.y)).toBeCloseTo(4.4, 6);
    expect(table!.rows.map(({ value }) => value)).toContainEqual(expect.closeTo(4.4, 6));
  });

  it("is told where the block takes so much that little is left of a side, and where", () => {
    const usual = measuresOf(sidesOf({ accent: 6 }, { ...cut, sideThickness: 2.2 })).pieces[1]!;
    expect(findingOf(sidesOf({ accent: 6 }, { ...cut, sideThickness: 2.2 }), "accent/treble-2")).toMatchObject({
      severity: "fine",
      // The inner face less 6 and 2.2 / tan 30 at the point.
      measured: expect.closeTo(usual.inner - 6 - 2.2 / Math.tan(Math.PI / 6), 6),
    });
    const sharp = sidesOf({ accent: 60 }, { ...cut, tipAngle: 12, cutDepth: 60, sideThickness: 3 });
    const finding = findingOf(sharp, "accent/treble-2");
    expect(finding.measured!).toBeLessThan(40);
    expect(finding.severity).not.toBe("fine");
    expect(finding.shape).toBe("treble-2-outline");
  });

  it("on both sides takes two pieces and a block on each, the bass side's at its own angle", () => {
    const both = sidesOf({ accent: 6 }, { ...cut, bassCutaway: "pointed", bassTipAngle: 80, sideThickness: 2.2 });
    const all = measuresOf(both);
    expect(all.pieces.map(({ id }) => id)).toEqual(["treble", "treble-2", "bass", "bass-2"]);
    expect(all.horns.map(({ angleRad }) => (angleRad * 180) / Math.PI)).toEqual([expect.closeTo(60, 6), expect.closeTo(80, 6)]);
    expect(all.horns.map(({ at }) => Math.sign(at.y))).toEqual([1, -1]);
    const names = both.templates().map(({ name }) => name);
    for (const name of ["side-bass", "side-bass-2", "accent-block-1", "accent-block-2"]) expect(names).toContain(name);
    // On the bass side alone.
    expect(measuresOf(sidesOf({}, { bassCutaway: "pointed" })).pieces.map(({ id }) => id)).toEqual(["treble", "bass", "bass-2"]);
  });

  it("is one piece to bend up to the neck when rounded", () => {
    expect(measuresOf(sidesOf({}, { cutaway: "rounded" })).pieces.map(({ id }) => id)).toEqual(["treble", "bass"]);
  });
});

describe("the tail", () => {
  it("gets a wedge of its two widths and the depth: (22 + 16.5) / 2 x 105", () => {
    const part = sidesOf({ graft: "graft", graftTop: 22, graftBottom: 16.5 });
    expect(Math.abs(pathArea(shapeOf(templateOf(part, "end-graft").drawing, "outline").path))).toBeCloseTo(
      ((22 + 16.5) / 2) * 105,
      6,
    );
  });

  it("mitres the graft's purfling with the binding's inmost layer by their thicknesses: 0.5 against 1.5 at a square corner, 18.43 degrees", () => {
    const part = sidesOf(
      { graft: "graft", graftTop: 20, graftBottom: 20, graftPurfling: 0.5 },
      { binding: [{ thickness: 1.5, height: 6 }] },
    );
    const { says, path } = shapeOf(templateOf(part, "end-graft").drawing, "mitre");
    // Drawn across the strip beside the graft: from its corner at 10 out by 0.5 and down by 1.5.
    expect([path.start, path.segments[0]!.to]).toEqual([
      { x: 10, y: 0 },
      { x: expect.closeTo(10.5, 9), y: expect.closeTo(-1.5, 9) },
    ]);
    // Of a graft that narrows by 2.75 in 105, the strip's outer edge at 1.5 down: 11 - 1.5 · 2.75 / 105 + 0.5 / cos atan(2.75 / 105).
    const narrowing = sidesOf(
      { graft: "graft", graftTop: 22, graftBottom: 16.5, graftPurfling: 0.5 },
      { binding: [{ thickness: 1.5, height: 6 }] },
    );
    expect(shapeOf(templateOf(narrowing, "end-graft").drawing, "mitre").path.segments[0]!.to).toEqual({
      x: expect.closeTo(11.4609, 4),
      y: expect.closeTo(-1.5, 9),
    });
    expect(says!.slice(0, 2).map(({ value }) => (value * 180) / Math.PI)).toEqual([
      expect.closeTo(18.4349, 3),
      expect.closeTo(71.5651, 3),
    ]);
    expect(says![2]!.value).toBeCloseTo(Math.hypot(0.5, 1.5), 9);
    // At the back against a layer of 2: where the strip's outer edge, 8.25 + 0.5 / cos at the back and 2.75 wider in 105, is 2 up.
    const deep = sidesOf(
      { graft: "graft", graftTop: 22, graftBottom: 16.5, graftPurfling: 0.5, depthTail: 105 },
      { binding: [{ thickness: 1.5, height: 6 }], backBinding: [{ thickness: 2, height: 6 }] },
    );
    const slope = 2.75 / 105;
    expect(shapeOf(templateOf(deep, "end-graft").drawing, "mitre-back").path.segments[0]!.to).toEqual({
      x: expect.closeTo(8.25 + 0.5 * Math.hypot(1, slope) + 2 * slope, 6),
      y: expect.closeTo(-103, 9),
    });
    const words = templateOf(deep, "end-graft").drawing.layers.flatMap(({ texts = [] }) => texts.map(({ text }) => text));
    expect(words).toContainEqual(expect.stringMatching(/^mitre 1[89]\.\d° from the graft,$/));
  });

  it("has its hole told where it comes too near to an edge: 12 mm at 15 down leaves 15 - 6 = 9 of 12", () => {
    const finding = findingOf(sidesOf({ endHole: "jack", endHoleDown: 15 }), "end-hole");
    expect(finding).toMatchObject({ severity: "look", measured: expect.closeTo(9, 9), needed: 12 });
  });
});

describe("the checks of the sides", () => {
  it("stand on the piece that they are about: the heel at the neck's end, the hole at the tail's, a tight bend in the horn", () => {
    const cut = { ...BODY, cutaway: "pointed", tipAngle: 60, tipFall: 35, cutFullness: 0.9 };
    for (const handed of ["right", "left"]) {
      const part = deriveInstrument({
        instrument: { handed },
        fingerboard: {},
        nut: {},
        body: cut,
        neck: { heelDepth: 120 },
        sides: { ...DEEP, endHole: "jack", endHoleDown: 15, graft: "graft", graftTop: 90, tailBlockWidth: 80 },
      }).part("sides");
      const drawing = part.drawing();
      for (const finding of part.findings()) {
        if (finding.at === undefined) continue;
        const { minX, maxX, minY, maxY } = pathBounds(shapeOf(drawing, finding.shape!).path);
        expect(finding.at.x >= minX - 1e-6 && finding.at.x <= maxX + 1e-6, finding.id).toBe(true);
        expect(finding.at.y >= minY - 1e-6 && finding.at.y <= maxY + 1e-6, finding.id).toBe(true);
      }
      const [heel, hole] = [findingOf(part, "heel"), findingOf(part, "end-hole")];
      // The treble side's second piece goes on to the neck; its first begins at the tail, at the left unless all is mirrored.
      expect(heel.shape).toBe("treble-2-outline");
      const first = pathBounds(shapeOf(drawing, "outline").path);
      expect(hole.at!.x).toBeCloseTo(handed === "right" ? first.minX : first.maxX, 6);
      // 80 of block, 90 of graft: 5 too little on each side.
      expect(findingOf(part, "graft")).toMatchObject({ severity: "stop", measured: -5 });
    }
  });

  it("tell of a heel deeper than the side at the neck", () => {
    const part = deriveInstrument({ fingerboard: {}, nut: {}, body: BODY, neck: { heelDepth: 95 }, sides: DEEP }).part("sides");
    expect(findingOf(part, "heel")).toMatchObject({ severity: "look", measured: 90, needed: 95 });
    const deeper = deriveInstrument({ fingerboard: {}, nut: {}, body: BODY, neck: { heelDepth: 95 }, sides: { depthNeck: 96 } });
    expect(findingOf(deeper.part("sides"), "heel").severity).toBe("fine");
  });

  it("count the lining behind a channel: 2.2 of side and 6.5 of lining less 2.413 of binding leave 6.287", () => {
    const binding = [
      { thickness: 1.524, height: 6 },
      { thickness: 0.889, height: 4 },
    ];
    const finding = findingOf(sidesOf({ liningWidth: 6.5 }, { binding, sideThickness: 2.2 }), "channel-lining");
    expect(finding.measured).toBeCloseTo(6.287, 6);
    expect(findingOf(sidesOf({ liningWidth: 0.5 }, { binding, sideThickness: 2.2 }), "channel-lining").severity).toBe("look");
  });

  it("stop where there is no body, and where the body is solid", () => {
    expect(findingOf(deriveInstrument({ sides: {} }).part("sides"), "body").severity).toBe("stop");
    expect(findingOf(sidesOf({}, { build: "solid" }), "body").severity).toBe("stop");
    expect(sidesOf({}, { build: "solid" }).templates()).toEqual([]);
  });

  it("stop at a dome too tight for the back, which is then held at one that spans it", () => {
    const part = sidesOf({ backRadius: 300 });
    expect(findingOf(part, "back-dome").severity).toBe("stop");
    expect(measuresOf(part).backRadius!).toBeGreaterThan(300);
  });
});

describe("the drawing of the sides", () => {
  it.each([
    ["a guitar", {}, {}, {}],
    ["a left-handed one with a cutaway", {}, { cutaway: "rounded" }, { handed: "left" }],
    [
      "a small one",
      { depthNeck: 50, depthTail: 56 },
      { length: 260, upperBout: 160, waist: 130, lowerBout: 210 },
      { scale: 430 },
    ],
  ])("keeps the words on the templates of %s apart and on the wood", (_name, sides, body, instrument) => {
    const part = deriveInstrument({
      instrument,
      fingerboard: {},
      body: Object.keys(body).length > 1 ? body : { ...BODY, ...body },
      sides: { ...DEEP, ...sides },
    }).part("sides");
    for (const name of ["side-treble", "side-bass"]) {
      const { drawing } = templateOf(part, name);
      const piece = pathBounds(shapeOf(drawing, "outline").path);
      // A letter is 632 of 668 units of a capital wide; upright words rise from where they begin.
      const boxes = drawing.layers
        .flatMap(({ texts = [] }) => texts)
        .map(({ at, text, height, align, angle }) => {
          const width = (text.length * height * 632) / 668;
          const before = align === "start" ? 0 : align === "end" ? width : width / 2;
          return angle
            ? { text, minX: at.x - height, maxX: at.x, minY: at.y, maxY: at.y + width }
            : { text, minX: at.x - before, maxX: at.x - before + width, minY: at.y, maxY: at.y + height };
        });
      expect(boxes.length).toBeGreaterThan(6);
      for (const [i, a] of boxes.entries()) {
        expect(a.minX > piece.minX && a.maxX < piece.maxX && a.minY > piece.minY && a.maxY < piece.maxY, a.text).toBe(true);
        for (const b of boxes.slice(i + 1)) {
          const apart = a.maxX < b.minX || b.maxX < a.minX || a.maxY < b.minY || b.maxY < a.minY;
          expect(apart, `${a.text} and ${b.text}`).toBe(true);
        }
      }
    }
  });

  it("keeps every piece clear of the next", () => {
    const part = sidesOf({}, { cutaway: "pointed", topRadius: 8000 });
    const boxes = shapesOf(part.drawing())
      .filter(({ tint }) => tint === "wood")
      .map(({ path }) => pathBounds(path));
    expect(boxes).toHaveLength(3);
    for (let i = 1; i < boxes.length; i++) expect(boxes[i]!.maxY).toBeLessThan(boxes[i - 1]!.minY);
    expect(piecesOf(shapesOf(part.drawing())[0]!.path).every((piece) => Number.isFinite(pointAt(piece, 0.5).x))).toBe(true);
  });
});
