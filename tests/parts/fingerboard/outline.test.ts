import { describe, expect, it } from "vitest";
import { endOf, type Path } from "../../../src/geometry/path.ts";
import { distance, norm, sub, vec, type Vec } from "../../../src/geometry/vec.ts";
import { flatten } from "../../../src/geometry/flatten.ts";
import { jtsOffset } from "../../geometry/jts.ts";
import { deriveBoard, fieldOf, shapeOf, shapesOf, templateOf, type Given } from "../derived-board.ts";

const corners = (path: Path): Vec[] => [path.start, ...path.segments.slice(0, -1).map((segment) => segment.to)];

/** Distance of p from the line through a and b. */
const squareTo = (p: Vec, a: Vec, b: Vec): number => {
  const along = sub(b, a);
  return Math.abs((p.x - a.x) * along.y - (p.y - a.y) * along.x) / norm(along);
};

describe("widths of a board", () => {
  const at43 = { nutWidth: "43", nutMargin: "3.2" };

  it("43 / 57 / 470 bound with 2.413 has a blank of 38.1735 and 52.1735 at its ends", () => {
    // Worked in tests/lutherie/fingerboard-taper.test.ts.
    const { fingerboard: m, parts } = deriveBoard({
      instrument: at43,
      fingerboard: { length: "470", widthAtEnd: "57", binding: "0.095 in" },
    });
    expect(m.boundWidthAtNut).toBe(43);
    expect(m.blankWidthAtNut).toBeCloseTo(38.1735, 4);
    expect(m.blankWidthAtEnd).toBeCloseTo(52.1735, 4);
    const blank = corners(shapeOf(templateOf(parts.fingerboard, "blank-outline").drawing, "outline").path);
    expect(distance(blank[0]!, blank[3]!)).toBeCloseTo(38.1735, 4);
    expect(distance(blank[1]!, blank[2]!)).toBeCloseTo(52.1735, 4);
    const bound = corners(shapeOf(templateOf(parts.fingerboard, "bound-outline").drawing, "outline").path);
    expect(bound).toEqual([vec(0, -21.5), vec(470, -28.5), vec(470, 28.5), vec(0, 21.5)]);
  });

  it("prints on the blank's template what a rule must read there, and what was asked for with the binding", () => {
    // The same board, 43 with its binding and 38.1735 without; its blank is as long as the board since the end is not bound.
    const given = { instrument: at43, fingerboard: { length: "470", widthAtEnd: "57", binding: "0.095 in" } };
    const rows = templateOf(deriveBoard(given).parts.fingerboard, "blank-outline").table!.rows;
    expect(rows.map(({ label, value }) => `${label} ${value.toFixed(2)}`)).toEqual([
      "blank at the nut 38.17",
      "with binding at the nut 43.00",
      "blank at the end 52.17",
      "with binding at the end 57.00",
      "blank, length over all 470.00",
    ]);
    const plain = deriveBoard({ ...given, fingerboard: { length: "470", widthAtEnd: "57", bindingThickness: "0" } });
    expect(templateOf(plain.parts.fingerboard, "blank-outline").table!.rows).toEqual([
      { label: "width at the nut", value: 43 },
      { label: "width at the end", value: 57 },
      { label: "length over all", value: 470 },
    ]);
  });

  it("loses 2 e tan(alpha) more at an end that is bound too: 52.1016", () => {
    const { fingerboard: m, parts } = deriveBoard({
      instrument: at43,
      fingerboard: { length: "470", widthAtEnd: "57", binding: "2.413", bindEnd: true },
    });
    expect(m.blankWidthAtEnd).toBeCloseTo(52.10159, 4);
    const blank = corners(shapeOf(templateOf(parts.fingerboard, "blank-outline").drawing, "outline").path);
    expect(blank[1]!.x).toBeCloseTo(470 - 2.413, 9);
    expect(distance(blank[1]!, blank[2]!)).toBeCloseTo(52.10159, 4);
  });

  it("follow from one width given at the join, fret 12, the end, or as a margin at the join", () => {
    // 43 at the nut and 56 at the join of fret 14 on 650 mm: d(14) = 360.45792, so the sides open by 13 / 360.45792 a mm.
    const slope = 13 / 360.45792;
    const instrument = { scale: "650", ...at43 };
    const wanted = { widthAtJoin: 56, widthAt12: 43 + slope * 325, widthAtEnd: 43 + slope * 470 };
    const margin = (56 - deriveBoard({ instrument }).instrument.joinSpread) / 2;
    for (const given of [
      { widthAtJoin: wanted.widthAtJoin },
      { widthAt12: wanted.widthAt12 },
      { widthAtEnd: wanted.widthAtEnd },
      { marginAtJoin: margin },
    ]) {
      const { fingerboard: m, parts } = deriveBoard({ instrument, fingerboard: { length: 470, ...given } });
      for (const [key, value] of Object.entries(wanted)) expect(m[key as keyof typeof wanted]).toBeCloseTo(value, 4);
      expect(fieldOf(parts.fingerboard, "marginAtJoin").value).toBeCloseTo(margin, 4);
    }
  });

  it("keep the nut's margin at the join where nothing is given", () => {
    const { fingerboard: m, instrument } = deriveBoard({ instrument: at43 });
    expect(m.widthAtJoin).toBeCloseTo(instrument.joinSpread + 2 * 3.2, 9);
  });

  it("may be a formula of the binding, without a circle", () => {
    const { problems, fingerboard: m } = deriveBoard({
      instrument: { nutWidth: "44", nutMargin: "3.2" },
      fingerboard: { binding: ["1.5", "0.5"], widthAtNut: "= nutWidth - 2 * bindingThickness" },
    });
    expect(problems).toEqual([]);
    expect(m.widthAtNut).toBeCloseTo(40, 9);
  });
});

describe("length of a board", () => {
  it("runs to the last fret and beyond it", () => {
    // 650 mm, fret 20: 445.26283 (published table), and 8 more.
    const { fingerboard: m } = deriveBoard({ instrument: { scale: "650", frets: 20 } });
    expect(m.length).toBeCloseTo(453.2628, 4);
  });

  it("given, leaves what is beyond the last fret, also less than nothing", () => {
    const long = deriveBoard({ instrument: { scale: "650", frets: 20 }, fingerboard: { length: "470" } });
    expect(long.fingerboard.overhang).toBeCloseTo(470 - 445.2628, 4);
    const short = deriveBoard({ instrument: { scale: "650", frets: 20 }, fingerboard: { length: "430" } });
    expect(short.problems).toEqual([]);
    expect(short.fingerboard.frets.map((fret) => fret.slot > 0).lastIndexOf(true)).toBe(18);
    expect(short.fingerboard.frets[19]).toMatchObject({ number: 19, slot: 0, tang: 0, crown: 0 });
  });

  it("starts behind a zero fret, from which frets are still counted", () => {
    const { fingerboard: m, parts } = deriveBoard({
      instrument: { scale: "650", zeroFret: true },
      fingerboard: { zeroFretSetback: "4", length: "470" },
    });
    expect([m.startX, m.endX]).toEqual([-4, 466]);
    expect(m.frets[0]!.slot).toBeCloseTo(m.widthAtNut, 9);
    expect(m.frets[12]!.fromNut).toBe(325);
    expect(shapeOf(parts.fingerboard.drawing(), "fret-0").name).toBe("zero fret");
    const { start } = shapeOf(parts.fingerboard.drawing(), "outline").path;
    expect(start.x).toBe(-4);
  });
});

/** Outline of a board of 650 mm scale and 470 mm length. */
const outlineOf = (fingerboard: Given["fingerboard"], instrument: Given["instrument"] = {}): Path =>
  shapeOf(
    deriveBoard({
      instrument: { scale: "650", ...instrument },
      fingerboard: { length: "470", ...fingerboard },
    }).parts.fingerboard.drawing(),
    "outline",
  ).path;

describe("end of a board", () => {
  it("angled by 10 degrees is longer on the treble side, right- and left-handed", () => {
    for (const [handed, side] of [
      ["right", 1],
      ["left", -1],
    ] as const) {
      const [, low, high] = corners(outlineOf({ end: "angled", endAngle: "10 deg" }, { handed }));
      expect((high!.x - low!.x) / (high!.y - low!.y)).toBeCloseTo(side * Math.tan((10 * Math.PI) / 180), 9);
      // The cut crosses the centre line at the given length.
      expect(low!.x - (low!.y * (high!.x - low!.x)) / (high!.y - low!.y)).toBeCloseTo(470, 9);
    }
  });

  it("angled follows the last fret of a two-scale board", () => {
    const given = deriveBoard({
      instrument: { scale: "640", bassScale: "670", squareFret: 5 },
      fingerboard: { end: "angled" },
    });
    const [, low, high] = corners(shapeOf(given.parts.fingerboard.drawing(), "outline").path);
    const last = given.fingerboard.frets.at(-1)!;
    const slant = (last.treble[0] - last.bass[0]) / (last.treble[1] - last.bass[1]);
    expect((high!.x - low!.x) / (high!.y - low!.y)).toBeCloseTo(slant, 9);
  });

  it("curved is an arc of the soundhole's radius whose middle lies at the length", () => {
    const path = outlineOf({ end: "curved", endRadius: "50" });
    const end = path.segments[1]!;
    expect(end).toMatchObject({ kind: "arc", centre: vec(520, 0), ccw: false });
    const [, low] = corners(path);
    expect(distance(low!, vec(520, 0))).toBeCloseTo(50, 9);
    // On the straight side too, which runs through (0, -22.225) and half the width at the end on x = 470.
    const half = deriveBoard({ instrument: { scale: "650" }, fingerboard: { length: "470" } }).fingerboard.widthAtEnd / 2;
    expect(squareTo(low!, vec(0, -22.225), vec(470, -half))).toBeCloseTo(0, 9);
    expect(low!.x).toBeGreaterThan(470);
  });

  it("curved tighter than the board is wide cannot be drawn, and says so", () => {
    const { parts, fingerboard: m } = deriveBoard({ fingerboard: { end: "curved", endRadius: "20" } });
    expect(m.hasOutline).toBe(false);
    expect(parts.fingerboard.findings().find((finding) => finding.id === "board-shape/end")?.severity).toBe("stop");
  });
});

describe("binding of a board", () => {
  const bound = {
    binding: [
      { name: "binding", thickness: "0.060 in" },
      { name: "purfling", thickness: "0.035 in" },
    ],
    bindEnd: true,
  };

  it("is drawn as strips of each layer, every face as far inside as the layers before it", () => {
    const { parts } = deriveBoard({ fingerboard: bound });
    const drawing = parts.fingerboard.drawing();
    const outline = corners(shapeOf(drawing, "outline").path);
    const faces = { "binding-1": [0, 1.524], "binding-2": [1.524, 2.413] } as const;
    for (const [layer, [outer, inner]] of Object.entries(faces)) {
      for (const [where, [a, b]] of Object.entries({ bass: [0, 1], treble: [3, 2], end: [1, 2] } as const)) {
        const off = corners(shapeOf(drawing, `${layer}-${where}`).path).map((p) => squareTo(p, outline[a]!, outline[b]!));
        expect(off).toEqual([outer, outer, inner, inner].map((distance) => expect.closeTo(distance, 9)));
      }
    }
  });

  it("meets in mitres: the corner of each layer is as far from the side as from the end", () => {
    const { parts } = deriveBoard({ fingerboard: { ...bound, end: "angled", endAngle: "12 deg" } });
    const outline = corners(shapeOf(parts.fingerboard.drawing(), "outline").path);
    const inner = corners(shapeOf(templateOf(parts.fingerboard, "blank-outline").drawing, "outline").path);
    for (const [corner, side, end] of [
      [1, [0, 1], [1, 2]],
      [2, [3, 2], [1, 2]],
    ] as const) {
      expect(squareTo(inner[corner]!, outline[side[0]]!, outline[side[1]]!)).toBeCloseTo(2.413, 9);
      expect(squareTo(inner[corner]!, outline[end[0]]!, outline[end[1]]!)).toBeCloseTo(2.413, 9);
    }
  });

  it("round a curved end runs beside it at its thickness", () => {
    const { parts } = deriveBoard({ fingerboard: { ...bound, end: "curved", endRadius: "50" } });
    const outer = shapeOf(parts.fingerboard.drawing(), "outline").path.segments[1]!;
    const inner = shapeOf(templateOf(parts.fingerboard, "blank-outline").drawing, "outline").path;
    const arc = inner.segments[1]!;
    expect(arc.kind === "arc" && outer.kind === "arc" && arc.centre).toEqual(outer.kind === "arc" ? outer.centre : undefined);
    expect(arc.kind === "arc" ? distance(arc.to, arc.centre) : 0).toBeCloseTo(52.413, 9);
  });

  it("typed as one thickness stands for one layer", () => {
    const one = deriveBoard({ fingerboard: { bindingThickness: "95 thou" } });
    expect(one.problems).toEqual([]);
    expect(one.fingerboard.binding).toEqual([
      { name: "binding", thickness: expect.closeTo(2.413, 9), outer: 0, inner: expect.closeTo(2.413, 9) },
    ]);
  });

  it("never makes a board larger, and thicker binding never leaves more", () => {
    let before = Infinity;
    for (const thickness of [0, 0.5, 1, 2, 4, 8, 16]) {
      const { fingerboard: m } = deriveBoard({ fingerboard: { bindingThickness: thickness, bindEnd: true } });
      expect(m.blankWidthAtNut).toBeLessThanOrEqual(before);
      expect(m.blankWidthAtEnd).toBeLessThanOrEqual(m.boundWidthAtEnd);
      before = m.blankWidthAtNut;
    }
  });

  it("thicker than half the board leaves no blank, and says so", () => {
    const { parts, fingerboard: m } = deriveBoard({ fingerboard: { binding: "20 mm", bindEnd: true, widthAtEnd: "38" } });
    expect(m.hasBlank).toBe(false);
    expect(parts.fingerboard.templates().map((template) => template.name)).not.toContain("blank-outline");
    expect(parts.fingerboard.findings().find((finding) => finding.id === "board-shape/blank")?.severity).toBe("stop");
  });
});

it("closes its outline on the point where it starts", () => {
  const { path } = shapeOf(deriveBoard().parts.fingerboard.drawing(), "outline");
  expect(endOf(path)).toEqual(path.start);
});

describe("the binding at the end of a board", () => {
  const bound = { length: "470", widthAtNut: "44", widthAtEnd: "57", binding: "2.4", bindEnd: true };

  it("is mitred at half the corner: sides that spread by 13 in 470 leave 90 - atan(6.5 / 470) = 89.208 degrees, and the mitre 44.604", () => {
    const { parts } = deriveBoard({ fingerboard: bound });
    for (const side of ["bass", "treble"]) {
      const { says } = shapeOf(parts.fingerboard.drawing(), `mitre-${side}`);
      const degrees = says!.slice(0, 2).map(({ value }) => (value * 180) / Math.PI);
      expect(degrees).toEqual([expect.closeTo(44.604, 3), expect.closeTo(44.604, 3)]);
    }
    const { drawing } = templateOf(parts.fingerboard, "bound-outline");
    expect(
      drawing.layers.flatMap(({ texts = [] }) => texts.map(({ text }) => text)).filter((text) => text === "mitre 44.6°"),
    ).toHaveLength(2);
    expect(
      shapesOf(deriveBoard({ fingerboard: { ...bound, bindEnd: false } }).parts.fingerboard.drawing()).some(({ id }) =>
        id.startsWith("mitre"),
      ),
    ).toBe(false);
  });

  it.each([
    ["angled", { end: "angled", endAngle: "8" }],
    ["hollow", { end: "curved", endRadius: "60" }],
  ])("ends where JTS has the corner of the outline mitred in: %s end", (_, end) => {
    const { parts } = deriveBoard({ fingerboard: { ...bound, ...end } });
    const drawing = parts.fingerboard.drawing();
    const outer = flatten(shapeOf(drawing, "outline").path, 0.0002);
    // At the nut the board is not bound: there it is moved in by nothing.
    const moved = jtsOffset([{ outer, holes: [] }], -2.4, "miter").getCoordinates();
    for (const side of ["bass", "treble"]) {
      const mitre = shapeOf(drawing, `mitre-${side}`);
      const at = mitre.path.segments[0]!.to;
      expect(Math.min(...moved.map((p) => Math.hypot(p.x - at.x, p.y - at.y))), side).toBeLessThan(0.002);
      const [first, second] = mitre.says!.map(({ value }) => value);
      // The rule of straight strips alike; a hollow end bends away from its tangent within the strip.
      if (end.end === "angled") expect(first).toBeCloseTo(second!, 9);
    }
  });
});
