import { describe, expect, it } from "vitest";
import { createDeriver } from "../../src/parts/derive.ts";
import type { DerivedPart } from "../../src/parts/derived.ts";
import { setValue } from "../../src/document/set-value.ts";
import type { Design } from "../../src/document/design.ts";
import { beginRepair, readAnswers, REPAIRS } from "../../src/measuring/repairs.ts";
import { SKETCHES } from "../../src/measuring/sketch.ts";
import { partOf } from "../../src/parts/registry.ts";

const repair = (id: string) => REPAIRS.find((one) => one.id === id)!;
const derive = (design: Design) => createDeriver()(design);
const partIn = (design: Design, kind: string): DerivedPart => derive(design).parts.find((part) => part.kind === kind)!;
const valueOf = (design: Design, kind: string, key: string): unknown => {
  const derived = derive(design);
  return [derived.instrument, ...derived.parts].find((part) => part.kind === kind)!.fields.find((field) => field.key === key)!
    .value;
};
const set = (design: Design, path: string, raw: unknown): Design => {
  const result = setValue(design, path, raw);
  if (!result.ok) throw new Error(result.error.message);
  return result.value;
};

describe("repairs as a start", () => {
  it("ask for numbers that parts have, each once and with a drawing", () => {
    for (const { id, asks, parts } of REPAIRS) {
      expect(new Set(asks.map(({ key }) => key)).size, id).toBe(asks.length);
      for (const kind of parts) expect(partOf(kind)?.kind, `${id}: ${kind}`).toBe(kind);
      for (const { key, target, sketch } of asks) {
        expect(SKETCHES[sketch]().layers[0]!.shapes.length, key).toBeGreaterThan(2);
        if (target) expect(Object.keys(partOf(target.kind)!.params), `${id}: ${target.key}`).toContain(target.key);
      }
    }
  });

  it("begin with what was typed, the parts in question and no others, and nothing that cannot be settled", () => {
    const usual: Readonly<Record<string, string>> = {
      saddleSpread: "55",
      slots: "4 11.5 19 26.5 34 41",
      frets: "20",
      joinFret: "14",
      nutWidth: "45",
      nutToFret12: "322.5",
      upperBout: "290",
      waist: "240",
      lowerBout: "390",
      bodyLength: "490",
      widthAtJoin: "56",
      channelWidth: "2",
      channelHeight: "6",
      oldSpan: "150",
      heelLength: "90",
      riseAtSaddle: "5",
    };
    for (const one of REPAIRS) {
      const typed = Object.fromEntries(one.asks.flatMap(({ key }) => (usual[key] === undefined ? [] : [[key, usual[key]]])));
      expect(readAnswers(one, typed, "mm"), one.id).toMatchObject({ wrong: [], missing: [] });
      const design = beginRepair(one, "steel-string", typed, "mm");
      const derived = derive(design);
      expect(derived.problems, one.id).toEqual([]);
      expect(new Set(derived.parts.map(({ kind }) => kind)), one.id).toEqual(new Set(one.parts));
      expect(derived.instrument.fields.find(({ key }) => key === "scale")!.value, one.id).toBeCloseTo(
        one.id === "nut" ? 645 : 645,
        6,
      );
    }
  });

  it("tell what is no number and what is still wanted", () => {
    expect(readAnswers(repair("nut"), { nutWidth: "wide", slots: "4 3 9" }, "mm")).toMatchObject({
      wrong: ["nutWidth", "slots"],
      missing: [],
    });
    expect(readAnswers(repair("reset"), {}, "in").missing).toEqual(["nutToFret12", "joinFret", "heelLength", "riseAtSaddle"]);
  });
});

describe("a neck reset", () => {
  it("takes 90 x 5 / 291 = 1.55 mm off a heel of 90 mm to raise the frets' plane by 5 mm, 291 mm from join to saddle", () => {
    // A scale of 2 x 326.6394 = 653.2788 mm has 653.2788 / 2^(14/12) = 291 mm from fret 14 on.
    const half = (291 * 2 ** (14 / 12)) / 2;
    const { answers } = readAnswers(
      repair("reset"),
      { nutToFret12: String(half), joinFret: "14", heelLength: "90", riseAtSaddle: "5" },
      "mm",
    );
    const works = repair("reset").works!(answers);
    expect(works[0]!.value).toBeCloseTo(291, 9);
    expect(works[1]!.value).toBeCloseTo(1.546, 3);
  });

  it("shows the wedge on the neck's side view, at the foot as wide as the heel's depth has it", () => {
    const design = beginRepair(
      repair("reset"),
      "steel-string",
      { nutToFret12: "322.5", joinFret: "14", heelLength: "90", riseAtSaddle: "5" },
      "mm",
    );
    const { heelDepth, saddleX, joinX, resetAtFoot } = partIn(design, "neck").measures as Record<string, number>;
    expect(resetAtFoot).toBeCloseTo((heelDepth! * 5) / (saddleX! - joinX!), 9);
    const ids = partIn(design, "neck")
      .drawing()
      .layers.flatMap(({ shapes }) => shapes.map(({ id }) => id));
    expect(ids.some((id) => id.endsWith("reset"))).toBe(true);
    const without = set(design, "parts.neck.resetRise", "0");
    expect((partIn(without, "neck").measures as Record<string, number>)["resetAtFoot"]).toBe(0);
  });
});

describe("a nut from the old one's slots", () => {
  it("puts every string where its old slot was", () => {
    // From the bass end of a nut of 44 mm; the fourth slot stands 0.4 mm from where any even spacing has it.
    const slots = [4.2, 11.3, 18.5, 26.1, 32.9, 40.1];
    const design = beginRepair(repair("nut"), "steel-string", { nutWidth: "44", slots: slots.join(" ") }, "mm");
    const { slots: made } = partIn(design, "nut").measures as { slots: readonly { y: number }[] };
    for (const [i, one] of made.entries()) expect(one.y).toBeCloseTo(slots[i]! - 22, 6);
  });

  it("needs no shifts for slots that are evenly spaced", () => {
    const design = beginRepair(repair("nut"), "steel-string", { nutWidth: "44", slots: "4.5 11.5 18.5 25.5 32.5 39.5" }, "mm");
    expect(design.instrument["spacing"]).toBe("equal-centre");
    expect(JSON.stringify(design.instrument["strings"])).not.toContain("nutShift");
  });
});

describe("a replacement bridge", () => {
  const typed = { nutToFret12: "322.5", saddleSpread: "55", oldSpan: "150", oldAlong: "30", oldFront: "305" };
  const begun = beginRepair(repair("bridge"), "steel-string", typed, "mm");
  const findings = (design: Design) =>
    partIn(design, "bridge")
      .findings()
      .filter(({ id }) => id.startsWith("covers-old"));

  it("says where the old footprint shows and by how much", () => {
    // A footprint 20 mm longer than the bridge, along the middle of its wings, stands 10 mm out at both ends.
    const span = valueOf(begun, "bridge", "span") as number;
    const front = valueOf(begun, "bridge", "front") as number;
    const back = valueOf(begun, "bridge", "back") as number;
    const { fromFret12 } = partIn(begun, "bridge").measures as { fromFret12: number };
    const middle = fromFret12 + (back - front) / 2;
    const thin = set(
      set(set(begun, "parts.bridge.oldSpan", `${span + 20} mm`), "parts.bridge.oldAlong", "4 mm"),
      "parts.bridge.oldFrom12",
      `${middle - 2} mm`,
    );
    const found = findings(thin);
    expect(found.map(({ severity }) => severity)).toEqual(["stop", "stop"]);
    for (const { measured } of found) expect(measured).toBeCloseTo(10, 1);
  });

  it("passes just inside and stops just outside", () => {
    const half = (design: Design): string => findings(design)[0]!.severity;
    const narrow = set(set(begun, "parts.bridge.oldAlong", "4 mm"), "parts.bridge.oldFrom12", "325 mm");
    const span = valueOf(narrow, "bridge", "span") as number;
    const { outline } = partIn(narrow, "bridge").measures as { outline?: unknown };
    expect(outline).toBeDefined();
    expect(half(set(narrow, "parts.bridge.oldSpan", `${span / 2} mm`))).toBe("fine");
    expect(half(set(narrow, "parts.bridge.oldSpan", `${span + 2} mm`))).toBe("stop");
    // A number that has nothing to do with it leaves it alone.
    expect(findings(set(narrow, "parts.bridge.slotDepth", "7 mm"))).toEqual(findings(narrow));
  });

  it("has its saddle by the scale that fret 12 gives", () => {
    expect(valueOf(begun, "instrument", "scale")).toBeCloseTo(645, 9);
  });
});
