import { describe, expect, it } from "vitest";
import { pathBounds } from "../../../src/geometry/measure.ts";
import { createDeriver } from "../../../src/parts/derive.ts";
import { deriveBoard, findingOf, shapeOf, templateOf } from "../derived-board.ts";
import { expectSound } from "../sound.ts";

/** Numbers of board and nut about frets that are not asked for. */
const idleKeys = (zeroFret: boolean): string[] =>
  ["nut", "fingerboard"].flatMap((id) =>
    deriveBoard({ instrument: { zeroFret } })
      .parts[id as "nut" | "fingerboard"].fields.filter((field) => field.idle && /fret/i.test(field.key))
      .map((field) => field.key),
  );

describe("slots of a nut", () => {
  it("stand under the strings, listed from bass to treble and counted from the treble", () => {
    const { nut: m, instrument } = deriveBoard();
    expect(m.slots.map((slot) => slot.string)).toEqual([6, 5, 4, 3, 2, 1]);
    expect(m.slots.map((slot) => slot.y)).toEqual(instrument.strings.map((string) => expect.closeTo(string.nut.y, 9)));
    expect(m.slots[0]!.y).toBeCloseTo(-19.025, 9);
    expect(m.slots[0]!.gauge).toBeCloseTo(1.3462, 9);
  });

  it("are 1.177 above the board for crowns of 1.1 and a clearance of 0.05", () => {
    // Worked in tests/lutherie/nut-slots.test.ts.
    const { nut: m } = deriveBoard({ instrument: { scale: "25.4 in" } });
    for (const slot of m.slots) expect(slot.height).toBeCloseTo(1.177, 3);
  });

  it("share the difference between the clearances of bass and treble", () => {
    const { nut: m } = deriveBoard({ nut: { fretClearance: "0.05", bassFretClearance: "0.15" } });
    // 1.1 + c x 1.5450: bass 1.33175, treble 1.17725, in equal steps between.
    expect(m.slots[0]!.height).toBeCloseTo(1.33176, 4);
    expect(m.slots[5]!.height).toBeCloseTo(1.17725, 4);
    expect(m.slots[1]!.height - m.slots[0]!.height).toBeCloseTo((1.17725 - 1.33176) / 5, 4);
  });

  it("follow the arch of the board, worked by hand", () => {
    // R 305 at y = 19.025: 305 - sqrt(93025 - 361.950625) = 305 - 304.406060 = 0.593940 lower than the middle.
    const { nut: m } = deriveBoard({ fingerboard: { radius: "305" } });
    expect(m.slots[0]!.height - m.slots[0]!.level).toBeCloseTo(0.59394, 4);
    expect(m.slots[5]!.height - m.slots[5]!.level).toBeCloseTo(0.59394, 4);
  });

  it("lie below the top of a zero fret, behind it", () => {
    const { nut: m, instrument } = deriveBoard({
      instrument: { zeroFret: true, nutWidth: "44", nutSpread: "37" },
      fingerboard: { zeroFretSetback: "4" },
    });
    expect(m.faceX).toBe(-4);
    for (const slot of m.slots) expect(slot.height).toBeCloseTo(0.8, 9);
    // 4 mm behind the zero fret the strings stand closer: 18.5 - 4 x (27.78125 - 18.5) / 645.16.
    expect(m.slots[5]!.y).toBeCloseTo(18.5 - (4 * (27.78125 - 18.5)) / 645.16, 9);
    expect(instrument.frets[0]!.fromNut).toBe(0);
  });

  it("ask only for the numbers that count, with a zero fret or without", () => {
    expect(idleKeys(false)).toEqual(["zeroFretDrop", "zeroFretSetback"]);
    expect(idleKeys(true)).toEqual(["fretClearance", "bassFretClearance"]);
  });

  it("of a fretless instrument clear the board itself", () => {
    const { nut: m } = deriveBoard({ instrument: { frets: 0 }, nut: { fretClearance: "0.1" } });
    expect(m.slots[0]!.height).toBeCloseTo(0.1545, 4);
  });
});

describe("a nut", () => {
  it("is as wide as the finished board and stands on what the board stands on", () => {
    const { nut: m } = deriveBoard({ fingerboard: { binding: "2", thickness: "6" } });
    expect(m.width).toBe(44.45);
    expect(m.seatDepth).toBe(6);
    // 6 to the face, 1.17725 to the slots, half of 1.3462 above them, 2 spare.
    expect(m.blankHeight).toBeCloseTo(6 + 1.17725 + 0.6731 + 2, 4);
  });

  it("slants with the nut line of two scales and is longer along its face", () => {
    const { nut: m, instrument } = deriveBoard({ instrument: { scale: "675", bassScale: "710" } });
    // Worked in tests/lutherie/fret-positions.test.ts: 11.640303 over the spread of 38.05.
    const slope = 11.640303 / 38.05;
    expect(m.slantRad).toBeCloseTo(Math.atan(slope), 6);
    expect(m.length).toBeCloseTo(44.45 * Math.hypot(1, slope), 5);
    expect(m.slots[5]!.along).toBeCloseTo(19.025 * Math.hypot(1, slope), 5);
    expect(instrument.twoScales).toBe(true);
    // Mirrored, it leans to the tail on the treble side all the same.
    const left = deriveBoard({ instrument: { scale: "675", bassScale: "710", handed: "left" } });
    expect(left.nut.slantRad).toBeCloseTo(m.slantRad, 9);
    expect(left.nut.slots[5]!.y).toBeCloseTo(-19.025, 9);
  });

  it("is drawn in plan behind the board", () => {
    const { parts } = deriveBoard({ nut: { thickness: "5.5" } });
    expect(pathBounds(shapeOf(parts.nut.drawing(), "outline").path)).toEqual({
      minX: -5.5,
      maxX: 0,
      minY: -22.225,
      maxY: 22.225,
    });
  });

  it("gives a front view with every slot at its height, and a blank", () => {
    const { parts, nut: m } = deriveBoard({ fingerboard: { radius: "16 in" } });
    const view = templateOf(parts.nut, "front-view");
    for (const slot of m.slots) {
      const box = pathBounds(shapeOf(view.drawing, `slot-${slot.string}`).path);
      expect(box.minY).toBeCloseTo(slot.level, 9);
      expect((box.minX + box.maxX) / 2).toBeCloseTo(slot.along, 9);
    }
    const box = pathBounds(shapeOf(view.drawing, "outline").path);
    expect(box.maxY).toBeCloseTo(m.crest, 9);
    expect(box.minY).toBeCloseTo(-m.seatDepth, 9);
    const blank = pathBounds(shapeOf(templateOf(parts.nut, "blank").drawing, "outline").path);
    expect(blank.maxY - blank.minY).toBeCloseTo(m.blankHeight, 9);
  });

  it("tables its slots from the treble end, string 1 first, right- and left-handed alike", () => {
    for (const handed of ["right", "left"]) {
      const { parts } = deriveBoard({ instrument: { handed } });
      const rows = templateOf(parts.nut, "front-view").table!.rows;
      expect(rows[0]).toEqual({ label: "string 1", value: expect.closeTo(3.2, 9) });
      expect(rows.at(-1)).toEqual({ label: "string 6", value: expect.closeTo(44.45 - 3.2, 9) });
    }
  });

  it("stands without a fingerboard too, as wide as the instrument says", () => {
    const derived = createDeriver()({ units: "mm", instrument: { nutWidth: "36" }, parts: { nut: { kind: "nut" } } });
    expect(derived.problems).toEqual([]);
    expect(derived.parts[0]!.measures).toMatchObject({ width: 36, faceX: 0 });
    expectSound(derived.parts[0]!);
  });

  it("is checked for its width, its walls and its margins", () => {
    const { parts } = deriveBoard({ nut: { width: "43" } });
    expect(findingOf(parts.nut, "nut-width").severity).toBe("look");
    expect(findingOf(deriveBoard({ nut: { width: "70" } }).parts.nut, "nut-width").severity).toBe("stop");
    const pairs = deriveBoard({
      instrument: { strings: [{ gauge: "1.3" }, { gauge: "1.3" }, { gauge: "0.4" }], courses: "2 1", courseSpacing: "1.6" },
    });
    expect(findingOf(pairs.parts.nut, "slot-walls/between")).toMatchObject({
      severity: "look",
      measured: expect.closeTo(0.25, 9),
    });
  });
});
