import { describe, expect, it } from "vitest";
import { instrument } from "../../../src/parts/instrument/index.ts";
import { deriveBoard, fieldOf, findingOf, shapesOf } from "../derived-board.ts";
import { expectSound } from "../sound.ts";

const gauges = (...list: readonly string[]): { gauge: string }[] => list.map((gauge) => ({ gauge }));

const nutOf = (given: Record<string, string>): Record<string, [number, string]> => {
  const { parts } = deriveBoard({ instrument: given });
  return Object.fromEntries(
    ["nutWidth", "nutSpread", "nutMargin"].map((key) => {
      const field = fieldOf(parts.instrument, key);
      return [key, [field.value as number, field.state]];
    }),
  );
};

describe("the three numbers at the nut", () => {
  it("give the third from any two: 1 11/16 in (42.8625 mm), 36.4625 and 3.2", () => {
    const given = "given";
    const follows = "follows";
    const expected = { nutWidth: 42.8625, nutSpread: 36.4625, nutMargin: 3.2 };
    for (const [third, two] of [
      ["nutMargin", { nutWidth: "1 11/16 in", nutSpread: "36.4625" }],
      ["nutSpread", { nutWidth: "1 11/16 in", nutMargin: "3.2" }],
      ["nutWidth", { nutSpread: "36.4625", nutMargin: "3.2" }],
    ] as const) {
      const settled = nutOf(two);
      for (const [key, value] of Object.entries(expected)) {
        expect(settled[key]![0], `${key} where ${third} follows`).toBeCloseTo(value, 9);
        expect(settled[key]![1]).toBe(key === third ? follows : given);
      }
    }
  });

  it("stand on usual numbers where none or one is given", () => {
    expect(nutOf({})).toEqual({
      nutWidth: [44.45, "follows"],
      nutMargin: [3.2, "follows"],
      nutSpread: [expect.closeTo(38.05, 9), "follows"],
    });
    expect(nutOf({ nutSpread: "36" })["nutWidth"]).toEqual([expect.closeTo(42.4, 9), "follows"]);
  });

  it("leave 3 mm outside both outer strings where margins run to their edges", () => {
    const { instrument: m } = deriveBoard({
      instrument: { nutWidth: "44.45", nutMargin: "3", marginTo: "edge" },
    });
    const bass = m.strings[0]!;
    const treble = m.strings.at(-1)!;
    expect(bass.nut.y - bass.gauge / 2 + 44.45 / 2).toBeCloseTo(3, 9);
    expect(44.45 / 2 - treble.nut.y - treble.gauge / 2).toBeCloseTo(3, 9);
  });

  it("that leave no room are refused in words that name the place", () => {
    const { problems } = deriveBoard({ instrument: { nutWidth: "40", nutSpread: "43" } });
    expect(problems[0]?.path).toBe("instrument.nutMargin");
    expect(problems[0]?.message).toBe("Margin at the nut comes out at -1.5 mm");
  });

  it("given all three in a file, are found to disagree", () => {
    const { parts } = deriveBoard({ instrument: { nutWidth: "43", nutSpread: "36", nutMargin: "3" } });
    const finding = findingOf(parts.instrument, "nut-numbers");
    expect([finding.severity, finding.measured, finding.needed]).toEqual(["stop", 36, 37]);
  });
});

describe("the spread at saddle and join", () => {
  it("follow each other on straight strings", () => {
    // At fret 12 the strings stand half way: (36 + 56) / 2 = 46, and back.
    const nut = { nutWidth: "42", nutSpread: "36", joinFret: 12 };
    expect(deriveBoard({ instrument: { ...nut, saddleSpread: "56" } }).instrument.joinSpread).toBeCloseTo(46, 9);
    expect(deriveBoard({ instrument: { ...nut, joinSpread: "46" } }).instrument.saddleSpread).toBeCloseTo(56, 9);
  });
});

describe("strings", () => {
  it("are listed from bass to treble and counted from the treble", () => {
    const { instrument: m } = deriveBoard();
    expect(m.strings.map((string) => [string.number, string.note])).toEqual([
      [6, "E2"],
      [5, "A2"],
      [4, "D3"],
      [3, "G3"],
      [2, "B3"],
      [1, "E4"],
    ]);
    expect(m.strings[0]!.nut.y).toBeLessThan(0);
  });

  it("leave equal gaps to 0.001 mm at nut and saddle", () => {
    const { instrument: m } = deriveBoard();
    for (const end of ["nut", "saddle"] as const) {
      const gaps = m.strings
        .slice(1)
        .map((string, i) => string[end].y - m.strings[i]![end].y - (string.gauge + m.strings[i]!.gauge) / 2);
      expect(Math.max(...gaps) - Math.min(...gaps)).toBeLessThan(0.001);
    }
  });

  it("are mirrored on a left-handed instrument, and nothing else is", () => {
    const two = { bassScale: "660", scale: "640", nutWidth: "44", nutMargin: "3.2" };
    const right = deriveBoard({ instrument: two });
    const left = deriveBoard({ instrument: { ...two, handed: "left" } });
    left.instrument.strings.forEach((string, i) => {
      const other = right.instrument.strings[i]!;
      expect([string.number, string.nut.x, string.nut.y, string.saddle.y]).toEqual([
        other.number,
        expect.closeTo(other.nut.x, 9),
        expect.closeTo(-other.nut.y, 9),
        expect.closeTo(-other.saddle.y, 9),
      ]);
    });
    left.fingerboard.frets.forEach((fret, i) => {
      const other = right.fingerboard.frets[i]!;
      expect(fret.slot).toBeCloseTo(other.slot, 9);
      expect(fret.fromNut).toBeCloseTo(other.fromNut, 9);
      expect(fret.bass[1]).toBeCloseTo(-other.bass[1], 9);
    });
  });

  it("may be none, one, or twelve in six courses, and never 200", () => {
    for (const strings of [[], gauges("0.4")]) {
      const { problems, parts, instrument: m } = deriveBoard({ instrument: { strings } });
      expect(problems).toEqual([]);
      expect(m.strings.length).toBe(strings.length);
      for (const part of Object.values(parts)) expectSound(part);
    }
    const twelve = gauges("1.2", "0.6", "0.9", "0.4", "0.7", "0.3", "0.55", "0.2", "0.35", "0.35", "0.25", "0.25");
    const board = deriveBoard({ instrument: { strings: twelve, courses: "2 2 2 2 2 2", nutWidth: "47.6", nutMargin: "3.2" } });
    expect(board.instrument.courses).toEqual([2, 2, 2, 2, 2, 2]);
    expect(board.instrument.strings[1]!.nut.y - board.instrument.strings[0]!.nut.y).toBeCloseTo(2.2, 9);
    expect(board.instrument.strings.map((string) => string.course)).toEqual([6, 6, 5, 5, 4, 4, 3, 3, 2, 2, 1, 1]);
    for (const part of Object.values(board.parts)) expectSound(part);

    const refused = deriveBoard({ instrument: { strings: Array.from({ length: 200 }, () => ({ gauge: "0.4" })) } });
    expect(refused.problems[0]?.message).toBe("Strings has 200 entries");
  });

  it("that do not add up to the courses are told", () => {
    const { parts } = deriveBoard({ instrument: { courses: "2 2 1" } });
    expect(findingOf(parts.instrument, "course-sum").severity).toBe("stop");
  });
});

describe("two scales", () => {
  const two = { scale: "675 mm", bassScale: "710 mm", squareFret: 7 };

  it("are those of one scale where both are equal, to the last bit", () => {
    const one = deriveBoard({ instrument: { scale: "650" } });
    const both = deriveBoard({ instrument: { scale: "650", bassScale: "650", squareFret: 9 } });
    expect(both.instrument.frets).toEqual(one.instrument.frets);
    expect(both.fingerboard.frets).toEqual(one.fingerboard.frets);
  });

  it("keep the named fret square", () => {
    const fret = deriveBoard({ instrument: two }).instrument.frets[7]!;
    expect(fret.bass.x).toBeCloseTo(fret.treble.x, 9);
    expect(fret.bass.x).toBeCloseTo(230.3117, 4);
  });

  it("that lie far apart, or the wrong way round, are looked at", () => {
    const { parts } = deriveBoard({ instrument: { scale: "700", bassScale: "600" } });
    expect(findingOf(parts.instrument, "two-scales/slant").severity).toBe("look");
    expect(findingOf(parts.instrument, "two-scales/order").severity).toBe("look");
    expect(findingOf(deriveBoard({ instrument: two }).parts.instrument, "two-scales/slant").severity).toBe("fine");
  });

  it("of a single string are refused by a check and drawn as one scale", () => {
    const { parts, instrument: m } = deriveBoard({
      instrument: { ...two, strings: gauges("0.5"), nutWidth: "30", nutSpread: "0" },
    });
    expect(m.twoScales).toBe(false);
    expect(findingOf(parts.instrument, "two-scales/spread").severity).toBe("stop");
  });
});

/** Which numbers the two scale dimensions edit, and on which side they stand. */
const scaleEdits = (handed: string): [string, number][] =>
  deriveBoard({ instrument: { handed, scale: "640", bassScale: "660" } })
    .parts.instrument.drawing()
    .dimensions.filter((dimension) => dimension.id.endsWith("scale"))
    .map((dimension) => [dimension.edits!, Math.sign(dimension.from.y)]);

describe("the diagram", () => {
  it("shows every string and fret by its number, and lets the shared numbers be typed", () => {
    const drawing = deriveBoard().parts.instrument.drawing();
    const ids = shapesOf(drawing).map((shape) => shape.id);
    for (let n = 1; n <= 20; n++) expect(ids).toContain(`fret-${n}`);
    for (let n = 1; n <= 6; n++) expect(ids).toContain(`string-${n}`);
    expect(drawing.dimensions.flatMap((dimension) => dimension.edits ?? []).toSorted()).toEqual([
      "instrument.nutSpread",
      "instrument.nutWidth",
      "instrument.saddleSpread",
      "instrument.scale",
    ]);
  });

  it("lets both scales be typed on their own side", () => {
    expect(scaleEdits("right")).toEqual([
      ["instrument.scale", 1],
      ["instrument.bassScale", -1],
    ]);
    expect(scaleEdits("left")).toEqual([
      ["instrument.bassScale", 1],
      ["instrument.scale", -1],
    ]);
  });

  it("sums itself up in a line", () => {
    const { parts } = deriveBoard({ instrument: { strings: gauges("0.3", "0.3", "0.4", "0.4"), courses: [2, 2] } });
    expect(parts.instrument.summary).toEqual([
      "4 strings in 2 courses, ",
      { value: 645.16, quantity: "length" },
      " scale, right-handed.",
    ]);
  });
});

describe("the table", () => {
  it("gives what every design file may name", () => {
    for (const key of [
      "handed strings courses scale bassScale squareFret frets joinFret nutWidth nutSpread nutMargin saddleSpread spacing",
      "zeroFret courseSpacing marginTo joinSpread",
    ].flatMap((line) => line.split(" ")))
      expect(Object.keys(instrument.params)).toContain(key);
  });
});
