import { describe, expect, it } from "vitest";
import { flatten } from "../../../src/geometry/flatten.ts";
import { pathArea, pathBounds } from "../../../src/geometry/measure.ts";
import type { Vec } from "../../../src/geometry/vec.ts";
import type { MeasuresByKind } from "../../../src/parts/contract.ts";
import type { DerivedPart, RawRecord } from "../../../src/parts/derived.ts";
import { findingOf, shapeOf, shapesOf, templateOf } from "../derived-board.ts";
import { deriveInstrument, WHOLE_INSTRUMENT } from "../derived-body.ts";

const bracingOf = (bracing: RawRecord, others: Readonly<Record<string, RawRecord>> = {}): DerivedPart =>
  deriveInstrument({ ...WHOLE_INSTRUMENT, ...others, bracing }).part("bracing");
const measuresOf = (part: DerivedPart): MeasuresByKind["bracing"] => part.measures as MeasuresByKind["bracing"];

const brace = (fromAlong: number, fromAcross: number, toAlong: number, toAcross: number, more: RawRecord = {}): RawRecord => ({
  fromAlong,
  fromAcross,
  toAlong,
  toAcross,
  width: 8,
  height: 14,
  endHeight: 2,
  scoop: 50,
  ...more,
});

describe("a brace", () => {
  it("is as long as its ends are apart and as broad as asked: 3-4-5, 500 by 8", () => {
    const part = bracingOf({ top: [brace(0, 0, 300, 400)], back: [] });
    const [one] = measuresOf(part).braces;
    expect(one!.length).toBeCloseTo(500, 9);
    expect(pathArea(one!.outline)).toBeCloseTo(4000, 6);
    expect(one!.from.x).toBeCloseTo(deriveInstrument(WHOLE_INSTRUMENT).measures("body").joinX, 9);
  });

  it("is refused in a solid body, which gives no plan", () => {
    const part = bracingOf({}, { body: { build: "solid" } });
    expect(findingOf(part, "in-body")).toMatchObject({ severity: "stop", says: "A solid body has no bracing." });
    expect(part.templates().map(({ name }) => name)).not.toContain("top-plan");
  });

  it("lies on the other side for a left-handed player", () => {
    const given = { top: [brace(100, 10, 100, 50)], back: [] };
    expect(measuresOf(bracingOf(given)).braces[0]!.to.y).toBeCloseTo(50, 9);
    expect(measuresOf(bracingOf(given, { instrument: { handed: "left" } })).braces[0]!.to.y).toBeCloseTo(-50, 9);
  });

  it("crosses another where their middle lines meet, at their angle: two at 45 degrees through (150, 0)", () => {
    const part = bracingOf({ top: [brace(50, -100, 250, 100), brace(50, 100, 250, -100)], back: [] });
    const { crossings, braces } = measuresOf(part);
    expect(crossings).toHaveLength(1);
    expect(crossings[0]!.angleRad).toBeCloseTo(Math.PI / 2, 9);
    expect(crossings[0]!.alongFirst).toBeCloseTo(braces[0]!.length / 2, 9);
    expect(crossings[0]!.at.y).toBeCloseTo(0, 9);
  });

  it("is glued along the circle in which its upright plane cuts the dome: sqrt(R² - d²), here 8000 and 200 beside the top of the dome", () => {
    const { body } = { body: { topRadius: 8000, length: 490 } };
    const across = brace(245 + 200, -100, 245 + 200, 100);
    const part = bracingOf({ top: [across], back: [] }, { body });
    expect(measuresOf(part).braces[0]!.radius).toBeCloseTo(Math.sqrt(8000 ** 2 - 200 ** 2), 6);
  });

  it("has a glued face that rises R - sqrt(R² - 100²) over 200 mm, and scoops down to its ends", () => {
    const part = bracingOf({ top: [brace(245, -100, 245, 100)], back: [] }, { body: { topRadius: 8000, length: 490 } });
    const points = flatten(shapeOf(templateOf(part, "top-braces").drawing, "profile-top-1").path, 0.0005);
    const rise = 8000 - Math.sqrt(8000 ** 2 - 100 ** 2);
    const high = Math.max(...points.map(({ y }) => y));
    expect(high).toBeCloseTo(rise, 3);
    const low = Math.min(...points.map(({ y }) => y));
    expect(high - low).toBeCloseTo(14, 3);
    // Both ends are 2 mm high below the chord.
    const ends = points.filter(({ x }) => Math.abs(x) < 1e-9 || Math.abs(x - 200) < 1e-9).map(({ y }) => y);
    expect([Math.max(...ends), Math.min(...ends)]).toEqual([expect.closeTo(0, 9), expect.closeTo(-2, 9)]);
  });
});

describe("the starting pattern", () => {
  const part = bracingOf({ pattern: "cross", crossAngle: 100, behindHole: 25 });
  const { soundhole, body } = (() => {
    const all = deriveInstrument(WHOLE_INSTRUMENT);
    return { soundhole: all.measures("soundhole"), body: all.measures("body") };
  })();

  it("crosses as far behind the soundhole and at the angle that are asked", () => {
    const legs = measuresOf(part).crossings.find(({ first, second }) => first === "top-2" && second === "top-3")!;
    expect(legs.at.x - pathBounds(soundhole.outline!).maxX).toBeCloseTo(25, 6);
    const [a, b] = [legs.angleRad, Math.PI - legs.angleRad].toSorted((p, q) => p - q);
    expect([(a! * 180) / Math.PI, (b! * 180) / Math.PI]).toEqual([expect.closeTo(80, 6), expect.closeTo(100, 6)]);
  });

  it("keeps every end inside the sides, and every check of a new design finds nothing to look at", () => {
    for (const pattern of ["cross", "fan", "ladder"]) {
      const finding = findingOf(bracingOf({ pattern }), "in-body");
      expect(finding.severity).toBe("fine");
    }
    expect(
      bracingOf({})
        .findings()
        .filter(({ severity }) => severity !== "fine"),
    ).toEqual([]);
  });

  it("moves with the join and the scale, its ends staying in the body", () => {
    for (const scale of [400, 580, 725]) {
      const moved = bracingOf({}, { instrument: { scale } });
      expect(findingOf(moved, "in-body").severity).toBe("fine");
    }
    expect(body.build).toBe("hollow");
  });
});

describe("the checks of the bracing", () => {
  const bridge = deriveInstrument(WHOLE_INSTRUMENT).measures("bridge");
  const join = deriveInstrument(WHOLE_INSTRUMENT).measures("body").joinX;
  const [x, y] = bridge.pins[2]!.at;

  it("stop at a brace under a pin, and count the air beside one: 20 beside the middle less 4 of brace and 2.5 of hole", () => {
    const across = (along: number): RawRecord => brace(along, -100, along, 100);
    const on = findingOf(bracingOf({ top: [across(x - join)], back: [] }), "pins-clear");
    expect(on.severity).toBe("stop");
    const farthest = Math.max(...bridge.pins.map(({ at }) => at[0]));
    const beside = findingOf(bracingOf({ top: [across(farthest - join + 20)], back: [] }), "pins-clear");
    expect(beside.severity).toBe("fine");
    expect(beside.measured).toBeCloseTo(20 - 4 - 2.5, 4);
    expect(Math.abs(y)).toBeLessThan(100);
  });

  it("stop at a pin outside the bridge plate, and look at a missing plate", () => {
    expect(findingOf(bracingOf({ plateBack: 5 }), "pins-covered").severity).toBe("stop");
    expect(findingOf(bracingOf({ bridgePlate: false }), "pins-covered").severity).toBe("look");
    expect(findingOf(bracingOf({}), "pins-covered").severity).toBe("fine");
  });

  it("look at a plate that leaves an end of the saddle uncovered", () => {
    const finding = findingOf(bracingOf({ plateSpanFront: 30, plateSpanBack: 60 }), "saddle-covered");
    expect(finding.severity).toBe("look");
    expect(finding.measured!).toBeLessThan(0);
  });

  it("stop at a brace across the soundhole", () => {
    const { outline } = deriveInstrument(WHOLE_INSTRUMENT).measures("soundhole");
    const box = pathBounds(outline!);
    const middle = (box.minX + box.maxX) / 2 - join;
    expect(findingOf(bracingOf({ top: [brace(middle, -100, middle, 100)], back: [] }), "soundhole-clear").severity).toBe("stop");
  });

  it("stop at a brace that runs out through the side", () => {
    expect(findingOf(bracingOf({ top: [brace(200, -300, 200, 300)], back: [] }), "in-body").severity).toBe("stop");
  });
});

describe("the gauges", () => {
  it("hold the arc of the dome over the body's length: R - sqrt(R² - 245²) = 3.518 at 8534", () => {
    const part = bracingOf({}, { body: { topRadius: 8534, length: 490 } });
    const { table, drawing } = templateOf(part, "top-dome-gauge");
    const rise = 8534 - Math.sqrt(8534 ** 2 - 245 ** 2);
    expect(table!.rows[1]!.value).toBeCloseTo(rise, 6);
    const arc = flatten(shapeOf(drawing, "outline").path, 0.0005).filter(({ y }: Vec) => y <= rise + 1e-6);
    expect(Math.max(...arc.map(({ y }) => y))).toBeCloseTo(rise, 3);
  });

  it("are none on flat plates", () => {
    expect(
      bracingOf({})
        .templates()
        .map(({ name }) => name),
    ).not.toContain("top-dome-gauge");
  });
});

describe("the plans", () => {
  // Who looks at the inside of the top looks from behind, with the treble of a right-handed instrument below when the neck is at the left; who
  // looks at the inside of the back looks as from the front.
  it.each([
    ["right", "top", -1],
    ["right", "back", 1],
    ["left", "top", 1],
    ["left", "back", -1],
  ] as const)("of a %s-handed instrument show the inside of the %s, both sides named", (handed, plate, treble) => {
    const part = bracingOf({ [plate]: [brace(100, 10, 100, 90)] }, { instrument: { handed } });
    const template = templateOf(part, `${plate}-plan`);
    expect(template.lineIs).toContain("inside face up");
    const stick = pathBounds(shapeOf(template.drawing, `brace-${plate}-1`).path);
    expect(Math.sign(stick.minY)).toBe(treble);
    expect(Math.sign(stick.maxY)).toBe(treble);
    const texts = template.drawing.layers.flatMap((layer) => layer.texts ?? []);
    const word = (text: string): number => Math.sign(texts.find((one) => one.text === text)!.at.y);
    expect([word("treble side"), word("bass side")]).toEqual([treble, -treble]);
    // On the board too, the back beside the top.
    const onBoard = part.drawing().layers.flatMap((layer) => layer.texts ?? []);
    const [side, other] = ["treble", "bass"].map((which) => onBoard.find(({ id }) => id === `${plate}-${which}-side`)!.at.y);
    expect(Math.sign(side! - other!)).toBe(treble);
  });

  it("show a finding where it is drawn: a brace of the back on the back, beside the whole of the top", () => {
    const part = bracingOf({ top: [], back: [brace(200, -300, 200, 300)] });
    const top = pathBounds(shapeOf(part.drawing(), "outline").path);
    expect(findingOf(part, "in-body").at!.x).toBeGreaterThan(top.maxX);
  });
});

describe("the strip over the back's seam", () => {
  it("is broken by every brace that crosses it, as wide as they are", () => {
    const part = bracingOf({ back: [brace(150, -100, 150, 100), brace(300, -100, 300, 100)], seamStrip: 16 });
    const strips = measuresOf(part).patches.filter(({ plate }) => plate === "back");
    expect(strips).toHaveLength(3);
    const [first, second] = strips.map(({ outline }) => pathBounds(outline));
    expect(second!.minX - first!.maxX).toBeCloseTo(8, 6);
    expect(second!.maxY - second!.minY).toBeCloseTo(16, 9);
    expect(shapesOf(part.drawing()).some(({ id }) => id === "back-strip-1" || id === "strip-1")).toBe(true);
  });
});
