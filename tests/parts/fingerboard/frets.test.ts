import { describe, expect, it } from "vitest";
import { vec } from "../../../src/geometry/vec.ts";
import { deriveBoard, findingOf, shapeOf, shapesOf, templateOf } from "../derived-board.ts";
import table from "../../data/fret-table.json" with { type: "json" };

describe("frets of a board", () => {
  it("lie where the printed table says, drawn and measured", () => {
    const column = table.scales.find((entry) => entry.name === "25.4 in")!;
    const { parts, fingerboard: m } = deriveBoard({ instrument: { scale: "25.4 in", frets: 24 } });
    column.fromNut.forEach((inches, i) => {
      const fret = m.frets[i + 1]!;
      // Half of the table's last place is 0.00127 mm.
      expect(Math.abs(fret.fromNut - inches * 25.4)).toBeLessThan(0.00128);
      expect(shapeOf(parts.fingerboard.drawing(), `fret-${i + 1}`).path.start.x).toBeCloseTo(fret.fromNut, 9);
    });
    expect(templateOf(parts.fingerboard, "fret-slots").table!.rows[11]).toEqual({ label: "fret 12", value: 322.58 });
  });

  it("have slots across the blank, tangs nipped short and crowns over the whole board, worked by hand", () => {
    // 43 / 57 / 470 bound with 2.413, R 305, scale 650, fret 12 at 325: sides open by 14 / 470 a mm.
    // Bound width 43 + 325 x 0.029787234 = 52.680851; blank 4.826535 less = 47.854316.
    // Tang: 47.854316 - 2 x 0.6 = 46.654316.
    // Crown: s = 26.3404255 / 305 = 0.08636205; asin(s) = s + s^3/6 + 3 s^5/40 = 0.08636205 + 0.00010735 + 0.00000036 = 0.08646976;
    //   610 x 0.08646976 = 52.746554.
    // Depth: fall over 47.854316: h = 23.927158, 305 - sqrt(93025 - 572.508890) = 305 - 304.060012 = 0.939988; 1.6 + 0.3 + that = 2.839988.
    const { fingerboard: m } = deriveBoard({
      instrument: { scale: "650", nutWidth: "43", nutMargin: "3.2" },
      fingerboard: {
        length: "470",
        widthAtEnd: "57",
        binding: "2.413",
        radius: "305",
        tangClearance: "0.6",
        tangDepth: "1.6",
        slotClearance: "0.3",
      },
    });
    const fret = m.frets[12]!;
    expect(fret.slot).toBeCloseTo(47.854316, 5);
    expect(fret.tang).toBeCloseTo(46.654316, 5);
    expect(fret.crown).toBeCloseTo(52.746554, 4);
    expect(fret.slotDepth).toBeCloseTo(2.839988, 5);
    expect(fret.radius).toBe(305);
    // Edge at the nut: fall over 43: 305 - sqrt(93025 - 462.25) = 305 - 304.241269 = 0.758731; 6.35 - that = 5.591269.
    expect(m.edgeHeightAtNut).toBeCloseTo(5.591269, 5);
    expect(m.bindingHeightAtNut).toBeCloseTo(5.591269, 5);
  });

  it("have slots stopped short of the binding by what is left standing", () => {
    const { fingerboard: m } = deriveBoard({
      instrument: { scale: "650", nutWidth: "43", nutMargin: "3.2" },
      fingerboard: { length: "470", widthAtEnd: "57", binding: "2.413", slots: "stopped", slotStop: "1.6" },
    });
    // As above, and 1.6 square to each edge: 2 x 1.6 x 1.000110904 = 3.200355 less.
    expect(m.frets[12]!.slot).toBeCloseTo(47.854316 - 3.200355, 5);
    expect(m.frets[12]!.crown).toBeCloseTo(52.680851, 5);
  });

  it("run to the edges of an unbound board, tangs and all", () => {
    const { fingerboard: m } = deriveBoard();
    const fret = m.frets[5]!;
    expect([fret.tang, fret.crown]).toEqual([fret.slot, fret.slot]);
    expect(fret.slot).toBeCloseTo(m.widthAtNut + ((m.widthAtEnd - m.widthAtNut) * fret.fromNut) / m.endX, 9);
  });

  it("on a compound board meet a radius that grows with the distance from the nut", () => {
    const { fingerboard: m } = deriveBoard({
      instrument: { scale: "650" },
      fingerboard: { length: "480", radius: "254", radiusAtEnd: "406.4" },
    });
    expect(m.frets[12]!.radius).toBeCloseTo(254 + (152.4 * 325) / 480, 9);
    expect([m.radiusAtNut, m.radiusAtEnd]).toEqual([254, 406.4]);
  });

  it("fan out on two scales and reach the edges in a straight line through both outer strings", () => {
    const { fingerboard: m, instrument } = deriveBoard({
      instrument: { scale: "675", bassScale: "710", nutWidth: "46", nutMargin: "3.5" },
      fingerboard: { binding: "1.5" },
    });
    for (const fret of m.frets.slice(1)) {
      const [from, to] = fret.slotEnds!;
      const cross = (p: readonly [number, number]): number =>
        (fret.treble[0] - fret.bass[0]) * (p[1] - fret.bass[1]) - (fret.treble[1] - fret.bass[1]) * (p[0] - fret.bass[0]);
      expect(Math.abs(cross(from)) + Math.abs(cross(to))).toBeLessThan(1e-6);
      expect(from[1]).toBeLessThan(fret.bass[1]);
      expect(to[1]).toBeGreaterThan(fret.treble[1]);
    }
    expect(m.frets[7]!.slotEnds![0][0]).toBeCloseTo(m.frets[7]!.slotEnds![1][0], 9);
    expect(m.frets[12]!.bassFromNut).toBe(355);
    expect(m.frets[12]!.trebleFromNut).toBe(337.5);
    expect(instrument.twoScales).toBe(true);
  });

  it("are tabled on both outer strings of a two-scale board", () => {
    const { parts } = deriveBoard({ instrument: { scale: "675", bassScale: "710" } });
    const rows = templateOf(parts.fingerboard, "fret-slots").table!.rows;
    expect(rows.filter((row) => row.label.startsWith("fret 12,"))).toEqual([
      { label: "fret 12, bass", value: 355 },
      { label: "fret 12, treble", value: 337.5 },
    ]);
  });

  it("are cut off by a slanting last fret's end only where they leave the board", () => {
    // One scale, end cut at 30 degrees just behind fret 20: the bass end of the last fret lies beyond it.
    const { fingerboard: m, parts } = deriveBoard({
      instrument: { scale: "650" },
      fingerboard: { overhang: "2", end: "angled", endAngle: "30 deg" },
    });
    const last = m.frets[20]!;
    const slope = Math.tan((30 * Math.PI) / 180);
    // The cut x = 447.2628 + y tan(30) meets x = 445.2628 at y = -2 / tan(30) = -3.464.
    expect(last.slotEnds![0][1]).toBeCloseTo(-2 / slope, 4);
    expect(findingOf(parts.fingerboard, "frets-on-board").severity).toBe("stop");
  });

  it("up to 36 are drawn, and none on a fretless board, which is three quarters of the scale long", () => {
    const many = deriveBoard({ instrument: { frets: 36 } });
    expect(shapesOf(many.parts.fingerboard.drawing()).filter((shape) => shape.id.startsWith("fret-")).length).toBe(36);
    const none = deriveBoard({ instrument: { frets: 0, scale: "600" } });
    expect(none.problems).toEqual([]);
    expect(none.fingerboard.length).toBe(450);
    expect(none.fingerboard.frets.length).toBe(1);
    expect(none.parts.fingerboard.templates().map((template) => template.name)).toEqual(["blank-outline"]);
  });

  it("of absurd count are refused in one line", () => {
    const { problems } = deriveBoard({ instrument: { frets: 1e9 } });
    expect(problems.filter((problem) => problem.path === "instrument.frets").map((problem) => problem.mend)).toEqual([
      "It must lie between 0 and 36.",
    ]);
  });
});

describe("dimension lines of a board", () => {
  it("say and let be typed what leads", () => {
    const { parts, fingerboard: m } = deriveBoard({ fingerboard: { widthAtJoin: "56" } });
    const byId = new Map(parts.fingerboard.drawing().dimensions.map((dimension) => [dimension.id, dimension]));
    expect(byId.get("width-at-nut")).toMatchObject({ value: 44.45, edits: "instrument.nutWidth", rank: 1 });
    expect(byId.get("width-at-join")).toMatchObject({ value: expect.closeTo(56, 9), edits: "parts.fingerboard.widthAtJoin" });
    expect(byId.get("fret-12")).toMatchObject({ value: 322.58, after: "to fret 12" });
    expect(byId.get("length")?.value).toBeCloseTo(m.length, 9);
  });

  it("name the board's own width where it no longer follows the instrument", () => {
    const { parts } = deriveBoard({ fingerboard: { widthAtNut: "43" } });
    expect(parts.fingerboard.drawing().dimensions.find((dimension) => dimension.id === "width-at-nut")?.edits).toBe(
      "parts.fingerboard.widthAtNut",
    );
  });

  it("say what lies between their feet", () => {
    for (const { from, to, along, value } of deriveBoard({
      instrument: { scale: "650", bassScale: "670" },
    }).parts.fingerboard.drawing().dimensions)
      expect(value).toBeCloseTo(Math.abs(along === "x" ? to.x - from.x : to.y - from.y), 9);
  });

  it("of the same direction stand on different rows where they would meet", () => {
    const { dimensions } = deriveBoard().parts.fingerboard.drawing();
    const along = dimensions.filter((dimension) => dimension.along === "x");
    for (const a of along)
      for (const b of along) {
        const sameRow = a.offset === b.offset && a.from.y === b.from.y;
        const overlap = Math.min(a.to.x, b.to.x) - Math.max(a.from.x, b.from.x);
        if (a !== b && sameRow) expect(overlap, `${a.id} and ${b.id}`).toBeLessThanOrEqual(1e-9);
      }
  });
});

it("has strings that run along the board from the nut", () => {
  const { parts } = deriveBoard();
  const treble = shapeOf(parts.fingerboard.drawing(), "string-1").path;
  expect(treble.start).toEqual(vec(0, expect.closeTo(19.025, 9)));
});
