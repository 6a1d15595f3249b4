import { describe, expect, it } from "vitest";
import { distance } from "../../../src/geometry/vec.ts";
import type { Arc } from "../../../src/geometry/path.ts";
import { deriveBoard, findingOf, shapesOf, templateOf, type Given } from "../derived-board.ts";

const severityOf = (id: string, given: Given): string => findingOf(deriveBoard(given).parts.fingerboard, id).severity;

describe("radius gauges", () => {
  it("carry the board's radius, one hollow and one round", () => {
    const { parts } = deriveBoard({ fingerboard: { radius: "16 in" } });
    const gauges = shapesOf(templateOf(parts.fingerboard, "radius-gauges").drawing).filter((shape) => shape.path.closed);
    expect(gauges.map((shape) => shape.id)).toEqual(["gauge-nut-hollow", "gauge-nut-round"]);
    for (const { path } of gauges) {
      const arc = path.segments[0] as Arc;
      expect(distance(path.start, arc.centre)).toBeCloseTo(406.4, 9);
      expect(distance(arc.to, arc.centre)).toBeCloseTo(406.4, 9);
    }
  });

  it("of a compound board come for nut, fret 12 and end", () => {
    const { parts, fingerboard: m } = deriveBoard({ fingerboard: { radius: "254", radiusAtEnd: "406.4" } });
    const template = templateOf(parts.fingerboard, "radius-gauges");
    expect(template.table!.rows).toEqual([
      { label: "nut", value: 254 },
      { label: "fret 12", value: expect.closeTo(m.frets[12]!.radius!, 9) },
      { label: "end", value: 406.4 },
    ]);
  });

  it("are not needed on a flat board", () => {
    expect(
      deriveBoard()
        .parts.fingerboard.templates()
        .map((template) => template.name),
    ).toEqual(["blank-outline", "fret-slots", "markers", "side-markers"]);
  });
});

describe("checks of a board", () => {
  it("find nothing wrong with the defaults", () => {
    for (const finding of deriveBoard({ fingerboard: { radius: "16 in", binding: "0.095 in" } }).parts.fingerboard.findings())
      expect([finding.id, finding.severity]).toEqual([finding.id, "fine"]);
  });

  it("measure the string margin where it is least, on both sides", () => {
    // 43 wide with strings 36 apart at the nut: 3.5. At the end 470 of a 650 mm scale the strings stand 36 + 20 x 470/650 = 50.4615
    // apart on a board of 55: 2.26923 a side.
    const { parts } = deriveBoard({
      instrument: { scale: "650", nutWidth: "43", nutSpread: "36", saddleSpread: "56" },
      fingerboard: { length: "470", widthAtEnd: "55" },
    });
    for (const side of ["bass", "treble"]) {
      const finding = findingOf(parts.fingerboard, `string-margin/${side}`);
      expect(finding.measured).toBeCloseTo(2.26923, 4);
      expect(finding.severity).toBe("stop");
      expect(finding.says).toContain("at the end");
    }
  });

  it("tell each thing that is wrong", () => {
    expect(severityOf("taper", { fingerboard: { widthAtEnd: "40" } })).toBe("look");
    expect(severityOf("string-margin/treble", { instrument: { nutWidth: "44", nutMargin: "2.8" } })).toBe("look");
    expect(severityOf("edge-height/radius", { fingerboard: { radius: "30", widthAtEnd: "62" } })).toBe("stop");
    expect(severityOf("edge-height", { fingerboard: { radius: "150", thickness: "4.5" } })).toBe("look");
    expect(severityOf("slot-depth", { fingerboard: { thickness: "3" } })).toBe("look");
    expect(severityOf("slot-depth", { fingerboard: { thickness: "1.5" } })).toBe("stop");
    expect(severityOf("frets-on-board", { fingerboard: { length: "400" } })).toBe("stop");
    expect(severityOf("frets-on-board", { fingerboard: { overhang: "2" } })).toBe("look");
    expect(severityOf("frets-on-board", { fingerboard: { overhang: "0.5" } })).toBe("stop");
    expect(severityOf("tang-binding", { fingerboard: { binding: "1.5", tangClearance: "0" } })).toBe("look");
    expect(severityOf("tang-binding/tang", { fingerboard: { tangClearance: "20", slots: "stopped", slotStop: "8" } })).toBe(
      "stop",
    );
    expect(severityOf("binding-height", { fingerboard: { binding: "1.5", bindingHeight: "3" } })).toBe("look");
  });

  it("find numbers of which a file gives too many", () => {
    const { parts } = deriveBoard({ fingerboard: { widthAtEnd: "57", widthAtJoin: "60", length: "470", overhang: "40" } });
    expect(findingOf(parts.fingerboard, "numbers-agree/width-at-join").severity).toBe("stop");
    expect(findingOf(parts.fingerboard, "numbers-agree/overhang").severity).toBe("stop");
    const layers = deriveBoard({ fingerboard: { binding: "2", bindingThickness: "3" } });
    expect(findingOf(layers.parts.fingerboard, "numbers-agree/binding")).toMatchObject({ measured: 3, needed: 2 });
  });
});
