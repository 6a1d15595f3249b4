import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pathArea, pathBounds } from "../../../src/geometry/measure.ts";
import { nearestOnPath } from "../../../src/geometry/nearest.ts";
import { vec } from "../../../src/geometry/vec.ts";
import type { MeasuresByKind } from "../../../src/parts/contract.ts";
import { createDeriver } from "../../../src/parts/derive.ts";
import type { DerivedPart, Problem, RawRecord } from "../../../src/parts/derived.ts";
import { partOf } from "../../../src/parts/registry.ts";
import { accepted } from "../accepted.ts";
import { findingOf, shapeOf, templateOf } from "../derived-board.ts";
import { expectSound } from "../sound.ts";

interface Derived {
  readonly part: DerivedPart;
  readonly m: MeasuresByKind["bridge"];
  readonly problems: readonly Problem[];
}

function derive(given: RawRecord = {}, instrument: RawRecord = {}): Derived {
  const derived = createDeriver()({ units: "mm", instrument, parts: { bridge: { kind: "bridge", ...given } } });
  const part = derived.parts[0]!;
  return { part, m: part.measures as Derived["m"], problems: derived.problems };
}

const LIGHT_SET = {
  scale: "25.4 in",
  strings: [
    { gauge: "0.053 in", wound: true, note: "E2" },
    { gauge: "0.042 in", wound: true, note: "A2" },
    { gauge: "0.032 in", wound: true, note: "D3" },
    { gauge: "0.024 in", wound: true, note: "G3" },
    { gauge: "0.016 in", note: "B3" },
    { gauge: "0.012 in", note: "E4" },
  ],
};

describe("the saddle of a bridge", () => {
  it("reproduces the setbacks worked for a light steel set on 25.4 in within 0.1 mm, with their band", () => {
    // Worked with the full path of the string and retuning (tests/lutherie/saddle-compensation.test.ts says how); nut 0.4 over the frets,
    // E = 200 GPa. Each row: the action at fret 12, then the setback with 0, 1 and 2 clamped ends.
    const worked = [
      [2.5, 2.13, 3.64, 5.15],
      [2.3, 1.41, 2.67, 3.93],
      [2.2, 1.07, 2.15, 3.23],
      [2.1, 0.82, 1.75, 2.67],
      [2.05, 1.57, 3.16, 4.74],
      [2.0, 0.83, 1.72, 2.62],
    ] as const;
    worked.forEach(([action, ...columns], i) => {
      const { m, problems } = derive({ actionTreble: action, actionBass: action }, LIGHT_SET);
      expect(problems).toEqual([]);
      const { least, setback, most } = m.strings[i]!;
      for (const [k, value] of [least, setback, most].entries()) expect(Math.abs(value! - columns[k]!)).toBeLessThan(0.1);
    });
    const { m } = derive({}, LIGHT_SET);
    expect(m.strings.map(({ coreAssumed }) => coreAssumed)).toEqual([true, true, true, true, false, false]);
  });

  it("is the least-squares line through the strings' points, its residuals worked by hand", () => {
    // Setbacks typed at both ends lie on a line: nothing is left over; the saddle turns by (4.5 - 2) over the spread of 55.5625.
    const { m } = derive(
      { saddleBy: "hand", setbackTreble: 2, setbackBass: 4.5 },
      { spacing: "equal-centre", saddleSpread: 55.5625 },
    );
    expect(m.saddle.spread).toBeLessThan(0.01);
    expect(m.saddle.angleRad).toBeCloseTo(-Math.atan(2.5 / 55.5625), 3);
    expect(m.saddleX).toBeCloseTo(645.16 + 3.25, 1);
    expect(m.saddle.points).toHaveLength(6);
  });

  it("has a slot with ends of the cutter's radius, as long as the strings and what is beyond them", () => {
    const { m, part } = derive({ saddleThickness: 3, saddleBeyond: 9 }, LIGHT_SET);
    const slot = shapeOf(part.drawing(), "saddle").path;
    const length = m.saddle.length;
    expect(pathArea(slot)).toBeCloseTo((length - 3) * 3 + Math.PI * 2.25, 9);
    for (const end of m.saddle.ends) expect(nearestOnPath(slot, vec(...end)).distance).toBeLessThan(1e-9);
  });

  it("mirrors for a left-handed instrument", () => {
    const right = derive({}, LIGHT_SET).m;
    const left = derive({}, { ...LIGHT_SET, handed: "left" }).m;
    expect(left.saddle.angleRad).toBeCloseTo(right.saddle.angleRad, 9);
    left.saddle.ends.forEach(([x, y], i) => {
      expect(x).toBeCloseTo(right.saddle.ends[i]![0], 9);
      expect(y).toBeCloseTo(-right.saddle.ends[i]![1], 9);
    });
  });

  it("says which strings have no setback, and goes by the others", () => {
    const strings = LIGHT_SET.strings.with(1, { gauge: "0.042 in", wound: true, note: "" });
    const { m, part } = derive({}, { ...LIGHT_SET, strings });
    expect(m.strings[1]!.setback).toBeUndefined();
    expect(findingOf(part, "setback-known").says).toContain("string 5");
    expectSound(part);
  });
});

describe("the pins of a bridge", () => {
  it("follow the saddle at their distance, over their own spread", () => {
    const { m } = derive({ pinBehindTreble: 14, pinSpread: 58 }, LIGHT_SET);
    const slope = -Math.tan(-m.saddle.angleRad);
    for (const { at } of m.pins) expect(at[0]).toBeCloseTo(m.saddleX + slope * at[1] + 14, 9);
    expect(Math.abs(m.pins[0]!.at[1] - m.pins[5]!.at[1])).toBeCloseTo(58, 9);
  });

  it("stand in a line of their own between the distances at both ends", () => {
    const { m } = derive({ pinLine: "straight", pinBehindTreble: 13, pinBehindBass: 17 }, LIGHT_SET);
    const slope = -Math.tan(-m.saddle.angleRad);
    const behind = m.pins.map(({ at }) => at[0] - m.saddleX - slope * at[1]);
    expect(behind[0]).toBeCloseTo(17, 9);
    expect(behind[5]).toBeCloseTo(13, 9);
  });

  it("are only on a pinned bridge", () => {
    expect(derive({ type: "tied" }).m.pins).toEqual([]);
    expect(derive({ type: "floating" }).m.pins).toEqual([]);
  });
});

describe("a bridge", () => {
  it.each(["pinned", "tied", "floating"])("that is %s begins sound, with nothing to stop it", (type) => {
    for (const handed of ["right", "left"]) {
      const { part, problems, m } = derive({ type, topRadius: "7 m" }, { ...LIGHT_SET, handed });
      expect(problems).toEqual([]);
      expectSound(part);
      expect(part.findings().filter(({ severity }) => severity !== "fine" && severity !== "look")).toEqual([]);
      expect(m.crossings).toEqual([]);
    }
  });

  it("moves with its saddle", () => {
    const near = pathBounds(derive({ saddleBy: "hand", setbackTreble: 2, setbackBass: 4 }).m.outline!);
    const far = pathBounds(derive({ saddleBy: "hand", setbackTreble: 3, setbackBass: 5 }).m.outline!);
    expect(far.minX - near.minX).toBeCloseTo(1, 4);
  });

  it("is located from the nut, fret 12 and the join", () => {
    const { part, m } = derive({ saddleBy: "hand", setbackTreble: 3, setbackBass: 3 }, { scale: 650, joinFret: 12 });
    expect(m.saddleX).toBeCloseTo(653, 9);
    expect(templateOf(part, "locating").table!.rows).toEqual([
      { label: "from the nut", value: expect.closeTo(653, 9) },
      { label: "from fret 12", value: expect.closeTo(328, 9) },
      { label: "from the join", value: expect.closeTo(328, 9) },
    ]);
  });

  it("fits the arch of the top: 150 across on 7 m falls 0.4018 at the wings", () => {
    // 7000 - sqrt(7000^2 - 75^2) = 0.401797.
    const { part } = derive({ span: 150, topRadius: "7 m", thickness: 9 });
    const box = pathBounds(shapeOf(templateOf(part, "foot").drawing, "outline").path);
    expect(box.minY).toBeCloseTo(-0.401797, 4);
    expect(box.maxY).toBeCloseTo(9, 9);
    expect(nearestOnPath(shapeOf(templateOf(part, "foot").drawing, "outline").path, vec(0, 0)).distance).toBeLessThan(1e-6);
  });

  it("is checked just inside and just outside of each limit", () => {
    const box = [
      { x: -12, y: 0 },
      { x: -12, y: 80 },
      { x: 30, y: 80 },
      { x: 30, y: 0 },
    ];
    const hand = { saddleBy: "hand", setbackTreble: 3, setbackBass: 3, outline: box, saddleThickness: 3, pinBehindTreble: 15 };
    const severity = (given: RawRecord, id: string): string => findingOf(derive({ ...hand, ...given }).part, id).severity;
    const frontAt = (x: number): RawRecord => ({ outline: box.map((q) => (q.x === -12 ? { ...q, x } : q)) });
    // The slot's front wall lies 1.5 before the line: 3 more and a hair.
    expect(severity(frontAt(-4.51), "slot-wood")).toBe("fine");
    expect(severity(frontAt(-4.49), "slot-wood")).toBe("look");
    expect(severity(frontAt(-1.4), "slot-wood")).toBe("stop");
    // Behind: 15 + 2.5 to the rim, 4 more.
    const backAt = (x: number): RawRecord => ({ outline: box.map((q) => (q.x === 30 ? { ...q, x } : q)) });
    expect(severity(backAt(21.51), "pin-wood/edge")).toBe("fine");
    expect(severity(backAt(21.49), "pin-wood/edge")).toBe("look");
    // To the slot: distance less 1.5 and 2.5.
    expect(severity({ pinBehindTreble: 9.01 }, "pin-wood/slot")).toBe("fine");
    expect(severity({ pinBehindTreble: 8.99 }, "pin-wood/slot")).toBe("look");
    expect(severity({ thickness: 9, slotDepth: 7 }, "slot-depth")).toBe("fine");
    expect(severity({ thickness: 9, slotDepth: 7.1 }, "slot-depth")).toBe("look");
    const { m } = derive({}, LIGHT_SET);
    const spread = m.saddle.spread;
    expect(findingOf(derive({ saddleThickness: spread + 0.01 }, LIGHT_SET).part, "saddle-residual").severity).toBe("fine");
    expect(findingOf(derive({ saddleThickness: spread - 0.01 }, LIGHT_SET).part, "saddle-residual").severity).toBe("look");
  });

  it("measures, draws and checks in finite numbers for every table that is accepted", () => {
    fc.assert(
      fc.property(accepted(partOf("bridge")!.params, 0.25), accepted(partOf("instrument")!.params, 0.1), (bridge, instrument) => {
        const derived = createDeriver()({ units: "mm", instrument, parts: { bridge: { kind: "bridge", ...bridge } } });
        for (const part of derived.parts) expectSound(part);
      }),
      { numRuns: 150 },
    );
  }, 120_000);

  it("floats on a foot that is fitted to the arch of the top and open between its ends", () => {
    // On a top of 3000: 50 from the middle it has fallen by 3000 - sqrt(3000^2 - 50^2) = 0.41670, 20 from it by 0.06667.
    const { part, m, problems } = derive({ type: "floating", footSpan: 100, footWidth: 12, footOpening: 40, topRadius: 3000 });
    expect(problems).toEqual([]);
    expect(m.feet).toHaveLength(2);
    const boxes = m.feet.map(pathBounds);
    for (const [i, [low, high]] of [
      [-50, -20],
      [20, 50],
    ].entries()) {
      expect([boxes[i]!.minY, boxes[i]!.maxY]).toEqual([expect.closeTo(low!, 6), expect.closeTo(high!, 6)]);
      expect((boxes[i]!.minX + boxes[i]!.maxX) / 2).toBeCloseTo(m.saddleX, 6);
      expect(boxes[i]!.maxX - boxes[i]!.minX).toBeCloseTo(12, 6);
    }
    const arch = shapeOf(templateOf(part, "foot").drawing, "outline").path;
    for (const [x, fall] of [
      [50, 0.4167],
      [-50, 0.4167],
      [20, 0.06667],
      [-20, 0.06667],
    ] as const)
      expect(nearestOnPath(arch, vec(x, -fall)).distance).toBeLessThan(1e-4);
    // Nothing of it touches the top in the opening.
    expect(nearestOnPath(arch, vec(0, 0)).distance).toBeCloseTo(4, 6);
    expect(templateOf(part, "feet").edge).toBe("outline");
    expect(findingOf(part, "saddle-on-foot").severity).toBe("fine");
    expect(findingOf(derive({ type: "floating", footSpan: 60 }).part, "saddle-on-foot").severity).toBe("look");
    expectSound(part);
  });

  it("says how far pins in a line of their own stand behind the saddle at each end", () => {
    const { m, part } = derive({ pinLine: "straight", pinBehindTreble: 13, pinBehindBass: 16 });
    // Strings are listed from the bass.
    expect(m.pinsBehind![0]).toBeCloseTo(16, 9);
    expect(m.pinsBehind![1]).toBeCloseTo(13, 9);
    const told = part.drawing().dimensions.filter(({ id }) => id.startsWith("pins-"));
    expect(told.map(({ id, value }) => [id, value])).toEqual([
      ["pins-bass", expect.closeTo(16, 9)],
      ["pins-treble", expect.closeTo(13, 9)],
    ]);
    expectSound(part);
  });
});
