/** The neck's section, its patterns, and its place against board and head. */
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import DistanceOp from "jsts/org/locationtech/jts/operation/distance/DistanceOp.js";
import { describe, expect, it } from "vitest";
import { flatten } from "../../../src/geometry/flatten.ts";
import { pathBounds } from "../../../src/geometry/measure.ts";
import type { Path } from "../../../src/geometry/path.ts";
import { vec, type Vec } from "../../../src/geometry/vec.ts";
import { fieldOf, findingOf, shapeOf, shapesOf, templateOf } from "../derived-board.ts";
import { deriveNeck, type Given } from "./derived-neck.ts";

const severityOf = (id: string, given: Given): string => findingOf(deriveNeck(given).part, id).severity;
const valueOf = (given: Given, key: string): unknown => fieldOf(deriveNeck(given).part, key).value;

/** 40 wide all along with 20 of wood: half a cylinder. */
const ROUND: Given = {
  instrument: { nutWidth: "40", nutSpread: "34" },
  fingerboard: { widthAtJoin: "40" },
  neck: { firstDepth: "26.35", secondDepth: "26.35" },
};

/** A section as a dense row of points laid out by height; the project's own paths go by angle. */
function byHeight(halfWidth: number, depth: number, p: number, lean = 0): Vec[] {
  const side = (sign: 1 | -1): Vec[] =>
    Array.from({ length: 4001 }, (_, i) => {
      const share = Math.sin((Math.PI / 2) * (i / 4000)) ** 2;
      return vec(lean + sign * (halfWidth - sign * lean) * (1 - share ** p) ** (1 / p), -depth * share);
    });
  return [...side(-1), ...side(1).toReversed()];
}

const factory = new GeometryFactory();
const lineString = (points: readonly Vec[]) => factory.createLineString(points.map(({ x, y }) => new Coordinate(x, y)));
const farthest = (points: readonly Vec[], others: readonly Vec[]): number => {
  const line = lineString(others);
  return Math.max(...points.map(({ x, y }) => DistanceOp.distance(factory.createPoint(new Coordinate(x, y)), line) as number));
};

describe("the section of a neck", () => {
  it("is as wide as the board and as deep as measured with it", () => {
    const { m, instrument } = deriveNeck({ neck: { firstDepth: "21", secondDepth: "23" } });
    const at = (fret: number) => m.places.find((place) => place.fret === fret)!;
    expect([at(1).depthWithBoard, at(10).depthWithBoard]).toEqual([expect.closeTo(21, 9), expect.closeTo(23, 9)]);
    expect(at(1).depth).toBeCloseTo(21 - 6.35, 9);
    // On a straight line between: fret 5 lies (d5 - d1) / (d10 - d1) of the way.
    const d = (n: number): number => 645.16 * (1 - 2 ** (-n / 12));
    expect(at(5).depthWithBoard).toBeCloseTo(21 + (2 * (d(5) - d(1))) / (d(10) - d(1)), 9);
    expect(m.widthAtNut).toBe(44.45);
    expect(at(14).x).toBeCloseTo(instrument.joinX, 9);
    expect(m.places).toHaveLength(15);
  });

  it("has the number that its word stands for, and takes the word nearest to a number", () => {
    expect(valueOf({}, "firstFullness")).toBe(2);
    expect(valueOf({ neck: { firstShape: "u" } }, "firstFullness")).toBe(3);
    expect(valueOf({ neck: { firstFullness: 1.6 } }, "firstShape")).toBe("v");
    expect(valueOf({ neck: { firstShape: "d" } }, "secondFullness")).toBe(2.4);
    expect(valueOf({ neck: { firstShape: "d", secondShape: "soft-v" } }, "secondFullness")).toBe(1.75);
  });

  it("takes its fullness from the width half way down: 0.866 of the width is an ellipse, 0.900 is 2.25", () => {
    // Worked in tests/lutherie/neck-section.test.ts.
    const width = deriveNeck().m.places[1]!.width;
    expect(valueOf({ neck: { firstHalfWayWidth: (width * Math.sqrt(3)) / 2 } }, "firstFullness")).toBeCloseTo(2, 6);
    expect(valueOf({ neck: { firstHalfWayWidth: width * 0.90046 } }, "firstFullness")).toBeCloseTo(2.25, 3);
    expect(severityOf("shoulders/first", { neck: { firstHalfWayWidth: width * 0.9 } })).toBe("fine");
    expect(severityOf("shoulders/first", { neck: { firstHalfWayWidth: width * 0.3 } })).toBe("look");
  });

  it("takes each side's fullness from the points of a contour gauge", () => {
    const { m } = deriveNeck();
    const place = m.places[1]!;
    const points = (sign: 1 | -1, p: number) =>
      [0.2, 0.45, 0.7, 0.9].map((share) => ({
        across: (sign * place.width * (1 - share ** p) ** (1 / p)) / 2,
        down: place.depth * share,
      }));
    const neck = { firstContour: [...points(-1, 2.4), ...points(1, 1.8)] };
    expect(valueOf({ neck }, "firstFullness")).toBeCloseTo(2.4, 3);
    expect(valueOf({ neck }, "firstTrebleFullness")).toBeCloseTo(1.8, 3);
    expect(valueOf({ neck: { firstContour: [] } }, "firstFullness")).toBe(2);
  });

  it("is half a circle in a round neck, drawn as such", () => {
    const { part } = deriveNeck({ ...ROUND, neck: { ...ROUND.neck, gaugeFrets: "5" } });
    const section = shapeOf(part.drawing(), "section-5").path;
    expect(section.segments.map(({ kind }) => kind)).toEqual(["arc", "arc", "line"]);
    const box = pathBounds(section);
    expect([box.maxX - box.minX, box.maxY - box.minY]).toEqual([expect.closeTo(40, 9), expect.closeTo(20, 9)]);
  });

  it("goes on under the nut and into the head, ever fuller", () => {
    const { part, m } = deriveNeck();
    const box = pathBounds(shapeOf(part.drawing(), "section-bend").path);
    const nut = pathBounds(shapeOf(part.drawing(), "section-nut").path);
    // At the corner of taper and head the wood is thicker than the bare head, and nearly square.
    expect(box.maxY - box.minY).toBeGreaterThan(12.5);
    expect(box.maxX - box.minX).toBeLessThan(nut.maxX - nut.minX + 0.1);
    expect(m.places[0]!.bassFullness).toBeGreaterThan(2);
    expect(m.places[2]!.bassFullness).toBe(2);
  });

  it("leans to the treble side, on the other hand in a left-handed neck", () => {
    const neck = { firstLean: "2", gaugeFrets: "5" };
    for (const handed of ["right", "left"] as const) {
      const { part } = deriveNeck({ neck, instrument: { handed } });
      const drawing = part.drawing();
      const points = flatten(shapeOf(drawing, "section-5").path);
      const lowest = points.reduce((a, b) => (b.y < a.y ? b : a));
      const box = pathBounds(shapeOf(drawing, "section-5").path);
      expect(lowest.x - (box.minX + box.maxX) / 2).toBeCloseTo(handed === "right" ? 2 : -2, 6);
    }
  });

  it("is told where it cannot be", () => {
    expect(severityOf("neck-shape/no-depth", { neck: { firstDepth: "6" } })).toBe("stop");
    expect(severityOf("neck-shape/one-fret", { neck: { firstFret: 5, secondFret: 5 } })).toBe("stop");
    expect(severityOf("neck-shape/lean", { neck: { firstLean: "25" } })).toBe("stop");
    expect(severityOf("neck-shape", { neck: { firstDepth: "23", secondDepth: "21" } })).toBe("look");
    expect(severityOf("neck-shape", {})).toBe("fine");
  });

  it("deepens towards the body although the bend of a head of 20 makes it thickest at the nut", () => {
    const neck = { firstDepth: "22", secondDepth: "23.5", headThickness: "20", headTilt: "14°" };
    expect(deriveNeck({ neck }).m.depthAtNut).toBeGreaterThan(23.5 - 6.35);
    expect(severityOf("neck-shape", { neck })).toBe("fine");
  });

  it("accepts what was measured on the finished neck", () => {
    const { m } = deriveNeck({ neck: { firstDepth: "21.5" }, measured: { "parts.neck.firstDepth": { value: "20.9 mm" } } });
    expect(m.places[1]!.depthWithBoard).toBeCloseTo(20.9, 9);
  });
});

describe("neck and board", () => {
  it("agree unless the neck is given a width of its own", () => {
    expect(severityOf("board-width", {})).toBe("fine");
    expect(severityOf("board-width/nut", { neck: { widthAtNut: "44.7" } })).toBe("look");
    expect(severityOf("board-width/nut", { neck: { widthAtNut: "45.6" } })).toBe("stop");
    expect(severityOf("board-width/join", { neck: { widthAtJoin: "50" } })).toBe("stop");
  });

  it("do without each other: a neck takes its widths from the strings where there is no board", () => {
    const { m, problems } = deriveNeck({ fingerboard: undefined });
    expect(problems).toEqual([]);
    expect(m.widthAtNut).toBe(44.45);
    expect(m.places[1]!.depth).toBeCloseTo(21.5 - 6.35, 9);
  });
});

describe("carving gauges", () => {
  it("are inside templates of the section, within 0.002 mm of its formula, with fret, centre line and hands on them", () => {
    const { part, m } = deriveNeck({ neck: { firstShape: "d", firstLean: "1", gaugeFrets: "9 1 1" } });
    const gauges = templateOf(part, "carving-gauges");
    expect(
      shapesOf(gauges.drawing)
        .filter(({ role }) => role === "cut")
        .map(({ id }) => id),
    ).toEqual(["gauge-1", "gauge-9"]);
    const place = m.places[1]!;
    const path = shapeOf(gauges.drawing, "gauge-1").path;
    const inside = flatten(path, 2e-4).filter(
      ({ x, y }) => Math.abs(x) < place.width / 2 + 1e-6 && y < -1e-9 && y > -place.depth - 1e-6,
    );
    expect(inside.length).toBeGreaterThan(100);
    expect(
      farthest(
        inside.filter((_, i) => i % 7 === 0),
        byHeight(place.width / 2, place.depth, 2.4, 1),
      ),
    ).toBeLessThan(2e-3);
    const texts = gauges.drawing.layers.flatMap((layer) => layer.texts ?? []);
    expect(texts.map(({ text }) => text)).toEqual(["fret 1", "bass", "treble", "fret 9", "bass", "treble"]);
    expect(shapeOf(gauges.drawing, "gauge-1-middle").role).toBe("centre");
    expect(gauges.table!.rows).toEqual([
      { label: "fret 1", value: expect.closeTo(place.depthWithBoard, 9) },
      { label: "fret 9", value: expect.closeTo(m.places[9]!.depthWithBoard, 9) },
    ]);
  });

  it("come as a set in steps of depth, with what is still safe to take off", () => {
    const { part, m } = deriveNeck({ neck: { carvingSteps: 2 } });
    const set = templateOf(part, "carving-set");
    const outlines = shapesOf(set.drawing).filter(({ role }) => role === "cut");
    expect(outlines.map(({ id }) => id)).toEqual([
      "gauge-1-a",
      "gauge-10-a",
      "gauge-1-b",
      "gauge-10-b",
      "gauge-1-c",
      "gauge-10-c",
    ]);
    const rows = set.table!.rows;
    const row = (label: string): number => rows.find((entry) => entry.label === label)!.value;
    expect([row("fret 1, A: depth with the board"), row("fret 1, C: depth with the board")]).toEqual([22.5, 21.5]);
    const safe = row("fret 1, C: still safe to take off");
    expect(row("fret 1, A: still safe to take off")).toBeCloseTo(safe + 1, 3);
    // Taken off, exactly 3 mm is left behind the nearest channel.
    const carved = deriveNeck({ neck: { firstDepth: 21.5 - safe, secondDepth: m.places[10]!.depthWithBoard } });
    expect(carved.m.places[1]!.behind!).toBeCloseTo(3, 3);
  });

  it("leave as much behind a channel as the maker's own limit says", () => {
    const limits = { "neck.wood-behind.least": "4 mm" };
    const neck = { firstDepth: "21.5", carvingSteps: "0" };
    const rowsOf = (given: Given) => templateOf(deriveNeck(given).part, "carving-set").table!.rows;
    const row = (given: Given, label: string): number => rowsOf(given).find((entry) => entry.label === label)!.value;
    expect(row({ neck, limits }, "wood to leave behind a channel")).toBe(4);
    const safe = row({ neck, limits }, "fret 1, A: still safe to take off");
    expect(safe).toBeLessThan(row({ neck }, "fret 1, A: still safe to take off"));
    const { m } = deriveNeck({ neck: { ...neck, firstDepth: 21.5 - safe } });
    expect(m.places[1]!.behind!).toBeCloseTo(4, 3);
    const stops = (given: Given) =>
      templateOf(deriveNeck(given).part, "carving-gauges").drawing.layers.flatMap(({ texts = [] }) =>
        texts.filter(({ text }) => text.startsWith("STOP")),
      );
    expect(stops({ neck })).toEqual([]);
    expect(stops({ neck, limits: { "neck.wood-behind.least": "7 mm" } }).length).toBeGreaterThan(0);
  });
});

describe("facets", () => {
  it("of a cylinder run at r tan(22.5°) from the centre line and from the board", () => {
    const { part } = deriveNeck({ ...ROUND, neck: { ...ROUND.neck, facetAngles: "45", gaugeFrets: "3 7" } });
    const expected = 20 * Math.tan(Math.PI / 8);
    for (const name of ["facets-back", "facets-side"]) {
      expect(templateOf(part, name).table!.rows).toEqual([
        { label: "fret 3, 45°", value: expect.closeTo(expected, 9) },
        { label: "fret 7, 45°", value: expect.closeTo(expected, 9) },
      ]);
    }
    const box = pathBounds(shapeOf(templateOf(part, "facets-back").drawing, "facet-45-upper").path);
    expect([box.minY, box.maxY]).toEqual([expect.closeTo(expected, 9), expect.closeTo(expected, 9)]);
  });

  it("lie on tangents: the greatest reach of a dense section in the facet's direction gives the same distances", () => {
    const { part, m } = deriveNeck({ neck: { firstShape: "v", secondShape: "u", facetAngles: "30 60", gaugeFrets: "1 5 9" } });
    for (const fret of [1, 5, 9]) {
      const place = m.places[fret]!;
      const half = place.width / 2;
      const section = byHeight(half, place.depth, place.bassFullness);
      for (const degrees of [30, 60]) {
        const [sine, cosine] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
        const reach = Math.max(...section.map(({ x, y }) => x * sine - y * cosine));
        const row = (name: string): number | undefined =>
          templateOf(part, name).table!.rows.find(({ label }) => label === `fret ${fret}, ${degrees}°`)?.value;
        expect(row("facets-back")!).toBeCloseTo((reach - place.depth * cosine) / sine, 3);
        expect(row("facets-side")!).toBeCloseTo((reach - half * sine) / cosine, 3);
      }
    }
  });

  it("come once for a neck alike on both sides and by hands for one that leans", () => {
    const names = (given: Given): string[] =>
      deriveNeck(given)
        .part.templates()
        .map(({ name }) => name)
        .filter((name) => name.startsWith("facets"));
    expect(names({})).toEqual(["facets-back", "facets-side"]);
    expect(names({ neck: { firstLean: "1" } })).toEqual([
      "facets-back-bass",
      "facets-side-bass",
      "facets-back-treble",
      "facets-side-treble",
    ]);
    expect(names({ neck: { facetAngles: [] } })).toEqual([]);
  });
});

describe("head and blank", () => {
  it("label both lengths of a scarf: 20 at 15 degrees is 77.27 along the cut face and 74.64 on the blank's face", () => {
    const { part, m } = deriveNeck({ neck: { blankThickness: "20", headTilt: "15°" } });
    expect([m.scarfCutFace, m.scarfLayout]).toEqual([expect.closeTo(77.274, 3), expect.closeTo(74.641, 3)]);
    const side = templateOf(part, "side-profile");
    expect(side.table!.rows).toContainEqual({ label: "scarf along the cut face", value: expect.closeTo(77.274, 3) });
    expect(side.table!.rows).toContainEqual({ label: "scarf laid out on the blank's face", value: expect.closeTo(74.641, 3) });
    const lengthOf = (id: string): number => {
      const [a, b] = [shapeOf(side.drawing, id).path.start, shapeOf(side.drawing, id).path.segments[0]!.to];
      return Math.hypot(b.x - a.x, b.y - a.y);
    };
    expect(lengthOf("scarf-cut-face")).toBeCloseTo(77.274, 3);
    expect(lengthOf("scarf-layout")).toBeCloseTo(74.641, 3);
    const texts = side.drawing.layers.flatMap((layer) => layer.texts ?? []).map(({ text }) => text);
    expect(texts).toEqual(["scarf: along the cut face", "scarf: laid out on the blank's face"]);
  });

  it("bring the glue line out clear of the nut", () => {
    // 12.5 of head at 15 degrees runs 48.296 along the glue plane, from 5.5 behind the nut.
    expect(deriveNeck().m.scarfFromNut!).toBeCloseTo(48.296 - 5.5, 3);
    expect(severityOf("scarf-nut", {})).toBe("fine");
    expect(severityOf("scarf-nut", { neck: { headTilt: "30°", shelf: "16", headThickness: "14.5" } })).toBe("look");
    expect(severityOf("scarf-nut", { neck: { headTilt: "30°", shelf: "30" } })).toBe("stop");
    expect(deriveNeck({ neck: { scarf: "none" } }).m.scarfFromNut).toBeUndefined();
    expect(deriveNeck({ neck: { scarf: "head" } }).m.scarfFromNut!).toBeCloseTo(77.274 + 5.5, 3);
  });

  it("come out of a blank that is thick enough", () => {
    expect(severityOf("blank", { neck: { blankThickness: "17.4" } })).toBe("fine");
    expect(severityOf("blank", { neck: { blankThickness: "17" } })).toBe("stop");
    expect(severityOf("head-wood", { neck: { headThickness: "9.9" } })).toBe("look");
  });

  it("keep the bend behind the first measured fret", () => {
    expect(severityOf("bend", {})).toBe("fine");
    expect(severityOf("bend", { neck: { bend: "110" } })).toBe("stop");
    expect(severityOf("bend", { neck: { volute: "3", voluteLength: "120" } })).toBe("stop");
  });

  it("stand in the side view: glue plane, tilt, heel and foot where the numbers put them", () => {
    const { part, m } = deriveNeck({ neck: { pitch: "1.5°", saddleHeight: "4" } });
    const path = shapeOf(templateOf(part, "side-profile").drawing, "outline").path;
    const box = pathBounds(path);
    expect(box.maxY).toBeCloseTo(0, 9);
    // The tenon leans with the butt: 15 cos 1.5° = 14.9949.
    expect(m.tongueLength).toBe(15);
    expect(box.maxX).toBeCloseTo(m.joinX + 14.9949, 4);
    const points = flatten(path);
    const foot = points.filter(({ y }) => Math.abs(y + m.heelDepth) < 1e-6).reduce((a, b) => (b.x > a.x ? b : a));
    // Cut back by the depth times the tangent of the pitch: 90.32 · 0.026186 = 2.365.
    expect(foot.x).toBeCloseTo(m.joinX - 2.3652, 3);
    expect(m.heelUndercut).toBeCloseTo(2.3652, 3);
    // The head's top lies at its length down the tilt.
    expect(
      points.some(
        ({ x, y }) =>
          Math.hypot(x - (m.headX - m.headLength * Math.cos(m.tiltRad)), y + m.headLength * Math.sin(m.tiltRad)) < 1e-6,
      ),
    ).toBe(true);
  });
});

describe("the side of the neck", () => {
  const shapesOn = (given: Given) => {
    const { part, m } = deriveNeck(given);
    return { shapes: shapesOf(templateOf(part, "side-profile").drawing), m };
  };
  const areaOf = (path: Path): number => {
    const points = flatten(path, 1e-4);
    return Math.abs(points.reduce((sum, a, i) => sum + cross(a, points[(i + 1) % points.length]!), 0) / 2);
  };
  const cross = (a: Vec, b: Vec): number => a.x * b.y - a.y * b.x;

  it("is one line to cut, the tongue within it: larger than a butt by length times depth", () => {
    for (const joint of ["tenon", "dovetail"] as const) {
      const { shapes, m } = shapesOn({ neck: { joint } });
      const cuts = shapes.filter(({ role }) => role === "cut");
      expect(cuts.map(({ id }) => id)).toEqual(["outline"]);
      const butt = shapesOn({ neck: { joint: "butt" } }).shapes.find(({ id }) => id === "outline")!;
      // The tongue is a rectangle that leans by the pitch: its sides measured down the upright are 1 / cos longer, square to it cos shorter.
      expect(areaOf(cuts[0]!.path) - areaOf(butt.path)).toBeCloseTo(m.tongueLength * (m.tongueDepth / Math.cos(m.pitchRad)), 3);
    }
  });

  it("marks the butt beside the tongue, which is no cut, and has none for a butt joint", () => {
    expect(shapesOn({}).shapes.find(({ id }) => id === "butt")).toMatchObject({ role: "mark" });
    expect(shapesOn({ neck: { joint: "butt" } }).shapes.some(({ id }) => id === "butt")).toBe(false);
  });

  it("closes where the tongue is as deep as the heel", () => {
    const { shapes } = shapesOn({ neck: { tenonDepth: "300" } });
    const outline = shapes.find(({ id }) => id === "outline")!.path;
    expect(outline.closed).toBe(true);
    let from = outline.start;
    for (const { to } of outline.segments) {
      expect(Math.hypot(to.x - from.x, to.y - from.y)).toBeGreaterThan(1e-6);
      from = to;
    }
  });
});

describe("the drawing of a neck", () => {
  it("shows plan, side view and sections, and its dimensions can be typed into", () => {
    const { part } = deriveNeck();
    const drawing = part.drawing();
    expect(drawing.layers.map(({ name }) => name)).toEqual([
      "outline",
      "frets",
      "head",
      "channels",
      "centre",
      "side-view",
      "sections",
      "titles",
    ]);
    const keys = new Set(part.fields.map(({ path }) => path));
    const edits = drawing.dimensions.flatMap((dimension) => (dimension.edits ? [dimension.edits] : []));
    expect(edits).toContain("parts.neck.firstDepth");
    expect(edits).toContain("parts.neck.heelDepth");
    for (const path of edits.filter((entry) => entry.startsWith("parts.neck"))) expect(keys).toContain(path);
    for (const { from, to, along, value, id } of drawing.dimensions) {
      const drawn =
        along === "x"
          ? Math.abs(to.x - from.x)
          : along === "y"
            ? Math.abs(to.y - from.y)
            : Math.hypot(to.x - from.x, to.y - from.y);
      expect(drawn, id).toBeCloseTo(Math.abs(value), 6);
    }
  });
});
