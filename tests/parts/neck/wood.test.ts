/** The checks that keep a neck from being carved into its channels. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sentenceOf } from "../../../src/checks/findings.ts";
import { flatten } from "../../../src/geometry/flatten.ts";
import { pathBounds } from "../../../src/geometry/measure.ts";
import { distance, distanceToSegment, vec, type Vec } from "../../../src/geometry/vec.ts";
import { findingOf, shapeOf, shapesOf, templateOf } from "../derived-board.ts";
import { deriveNeck, type Given } from "./derived-neck.ts";

const severityOf = (id: string, given: Given): string => findingOf(deriveNeck(given).part, id).severity;

describe("wood behind the channels of a neck", () => {
  it("is enough by default, for the rod, its pocket and both bars", () => {
    const { part, m } = deriveNeck();
    expect(m.channels.map(({ id }) => id)).toEqual(["rod", "pocket", "bar-1", "bar-2"]);
    for (const { id } of m.channels) expect(findingOf(part, `wood-behind/${id}`).severity).toBe("fine");
    expect(findingOf(part, "wood-under-entry").severity).toBe("fine");
    // Common practice, no source: rod 6.35 by 9.5, bars 3.2 by 6.35, 3 mm behind.
    expect(m.channels[0]).toMatchObject({ width: 6.35, depthFrom: 9.5 });
    expect(m.channels[2]).toMatchObject({ width: 3.2, depthFrom: 6.35 });
  });

  it("is the distance of the channel's corner from an ellipse, found by brute force on a neck that does not taper", () => {
    // 44 wide all along, 21.35 with a board of 6.35: half an ellipse of 22 by 15.
    const { part, m } = deriveNeck({
      instrument: { nutWidth: "44" },
      fingerboard: { widthAtJoin: "44", thickness: "6.35" },
      neck: {
        firstDepth: "21.35",
        secondDepth: "21.35",
        rod: "body",
        pocketLength: "0",
        rodStart: "60",
        rodLength: "200",
        bars: [],
      },
    });
    let least = Infinity;
    for (let i = 0; i <= 200_000; i++) {
      const angle = (Math.PI * i) / 200_000;
      least = Math.min(least, Math.hypot(22 * Math.cos(angle) - 3.175, 15 * Math.sin(angle) - 9.5));
    }
    expect(m.leastWood!).toBeCloseTo(least, 5);
    expect(findingOf(part, "wood-behind/rod").measured!).toBeCloseTo(least, 5);
    // Not on the centre line, where 5.5 would be left.
    expect(least).toBeLessThan(5.4);
  });

  it("is exact in a round neck: 20 - sqrt(3.175² + 9.5²) = 9.98345", () => {
    const { m } = deriveNeck({
      instrument: { nutWidth: "40", nutSpread: "34" },
      fingerboard: { widthAtJoin: "40" },
      neck: {
        firstDepth: "26.35",
        secondDepth: "26.35",
        rod: "body",
        pocketLength: "0",
        rodStart: "60",
        rodLength: "200",
        bars: [],
      },
    });
    expect(m.leastWood!).toBeCloseTo(20 - Math.hypot(3.175, 9.5), 6);
  });

  it("stops below 3 mm, not at it, at the rod and at a bar alike", () => {
    // The depths just inside and just outside of the limit are looked for from outside the checks, by halving on the measure.
    for (const [id, neck] of [
      ["rod", { bars: [] }],
      ["bar-1", { rod: "none", bars: [{ offset: "11", depth: "9.5" }] }],
    ] as const) {
      const wall = (depth: number): number =>
        deriveNeck({ neck: { ...neck, firstDepth: depth, secondDepth: depth + 2 } }).m.leastWood!;
      let [low, high] = [15, 24];
      for (let i = 0; i < 24; i++) {
        const middle = (low + high) / 2;
        if (wall(middle) < 3) low = middle;
        else high = middle;
      }
      const at = (depth: number): Given => ({ neck: { ...neck, firstDepth: depth, secondDepth: depth + 2 } });
      expect(severityOf(`wood-behind/${id}`, at(high + 0.01)), id).toBe("fine");
      expect(severityOf(`wood-behind/${id}`, at(low - 0.01)), id).toBe("stop");
    }
  });

  it("breaks the rule with bars 9.5 deep in a thin neck, and says so", () => {
    const bars = [-9, 9].map((offset) => ({ offset, depth: "9.5" }));
    expect(severityOf("wood-behind/bar-1", { neck: { firstDepth: "20.5", bars } })).toBe("stop");
    expect(severityOf("wood-behind/bar-2", { neck: { firstDepth: "20.5", bars } })).toBe("stop");
    expect(severityOf("wood-behind/bar-1", { neck: { firstDepth: "20.5" } })).toBe("fine");
  });

  it("names the station and the number, in the section through the least wood on the drawing", () => {
    const { part, m } = deriveNeck({ neck: { secondDepth: "18.6", secondFret: "7", bars: [] } });
    const finding = findingOf(part, "wood-behind/rod");
    expect(finding.severity).toBe("stop");
    expect(finding.shape).toBe("section-least-rod");
    const rod = m.channels[0]!;
    // Half way between a lower corner of the channel and the back.
    const channel = pathBounds(shapeOf(part.drawing(), "section-least-rod").path);
    const corner = [channel.minX, channel.maxX].map((x) => distance(finding.at!, { x, y: channel.minY }));
    expect(Math.min(...corner)).toBeCloseTo(rod.behind!.distance / 2, 6);
    const wood = pathBounds(shapeOf(part.drawing(), "section-least").path);
    expect(finding.at!.y).toBeLessThan(channel.minY);
    expect(finding.at!.y).toBeGreaterThan(wood.minY);
    const said = sentenceOf(finding, (value) => value.toFixed(1));
    // The neck thins towards the body, so the least wood is where the heel begins: 313 is between frets 11 and 12 at 645.16.
    expect(said).toBe(
      `Only ${rod.behind!.distance.toFixed(1)} of wood is left behind the truss-rod channel between frets 11 and 12; carving there can lose the neck.`,
    );
    expect(finding.mend).not.toBe("");
  });

  it("points at the side view for a channel that is not the worst", () => {
    const { part, m } = deriveNeck({ neck: { secondDepth: "18.6", secondFret: "7", bars: [{ y: "12" }] } });
    const [rod, bar] = [m.channels[0]!, m.channels.find(({ id }) => id === "bar-1")!];
    const other = rod.behind!.distance < bar.behind!.distance ? bar : rod;
    const finding = findingOf(part, `wood-behind/${other.id}`);
    expect(finding.at!.x).toBeCloseTo(other.behind!.x, 9);
    const side = pathBounds(shapeOf(part.drawing(), "side-outline").path);
    expect(finding.at!.y).toBeGreaterThan(side.minY);
    expect(finding.at!.y).toBeLessThan(side.maxY);
  });

  it("says that a channel breaks through, with a measure below 0", () => {
    const { part, m } = deriveNeck({ neck: { firstDepth: "15", secondDepth: "16" } });
    const finding = findingOf(part, "wood-behind/rod");
    expect(finding.severity).toBe("stop");
    expect(finding.measured!).toBeLessThan(0);
    expect(finding.says).toContain("breaks through the back");
    expect(part.summary.join(" ")).toContain("breaks through the back");
    expect(m.leastWood!).toBeLessThan(0);
  });

  it("cannot be missed: under the part's name, in a section of its own with its dimension, and on every gauge that would do it", () => {
    const { part, m } = deriveNeck({ neck: { firstDepth: "18", secondDepth: "23" } });
    expect(m.leastWood!).toBeGreaterThan(0);
    expect(m.leastWood!).toBeLessThan(3);
    expect(part.summary.map((word) => (typeof word === "string" ? word : word.value.toFixed(2))).join("")).toContain(
      `Only ${m.leastWood!.toFixed(2)} of wood behind the channels.`,
    );
    const drawing = part.drawing();
    expect(shapeOf(drawing, "section-least").tint).toBe("wood");
    const dimension = drawing.dimensions.find(({ id }) => id === "least-wood")!;
    expect(dimension).toMatchObject({ rank: 1, value: m.leastWood });
    expect(distance(dimension.from, dimension.to)).toBeCloseTo(m.leastWood!, 6);
    const gauges = templateOf(part, "carving-gauges");
    const stops = gauges.drawing.layers.flatMap(({ texts = [] }) => texts).filter(({ text }) => text.startsWith("STOP"));
    expect(stops.map(({ id }) => id)).toEqual(["gauge-1-stop"]);
    const none = templateOf(deriveNeck().part, "carving-gauges").drawing.layers.flatMap(({ texts = [] }) => texts);
    expect(none.filter(({ text }) => text.startsWith("STOP"))).toEqual([]);
  });

  it("follows the maker's own limit", () => {
    const limits = { "neck.wood-behind.least": "6 mm" };
    expect(severityOf("wood-behind/rod", {})).toBe("fine");
    expect(severityOf("wood-behind/rod", { limits })).toBe("stop");
  });

  it("is left alone by numbers that have nothing to do with it", () => {
    const wood = (given: Given): unknown => findingOf(deriveNeck(given).part, "wood-behind/rod");
    const plain = wood({});
    expect(
      wood({ neck: { heelDepth: "95", bridgeThickness: "8", joint: "dovetail", gaugeFrets: "2 4", facetAngles: "30" } }),
    ).toEqual(plain);
    expect(wood({ nut: { spare: "3" }, fingerboard: { markerSize: "5" } })).toEqual(plain);
  });

  it("lies under the rod's end in the head no further than the side view shows, and less with a thinner head", () => {
    const { part, m } = deriveNeck({ neck: { volute: "0" } });
    const drawing = part.drawing();
    // Outside: distance in the side view between the channel's floor and the drawn back of the neck.
    const back = flatten(shapeOf(drawing, "side-outline").path, 1e-3);
    const rod = m.channels[0]!;
    const glue = pathBounds(shapeOf(drawing, "side-board").path).minY;
    const floor = Array.from({ length: 200 }, (_, i) => vec(rod.from + ((m.nutX - rod.from) * i) / 199, glue - rod.depthFrom));
    const below = back.filter(({ y }) => y < glue - rod.depthFrom);
    const onSide = Math.min(...floor.flatMap((p) => below.slice(1).map((q, i) => distanceToSegment(p, below[i]!, q))));
    expect(m.woodUnderEntry!).toBeLessThan(onSide + 1e-3);
    expect(m.woodUnderEntry!).toBeGreaterThan(onSide - 0.6);
    expect(deriveNeck({ neck: { headThickness: "12" } }).m.woodUnderEntry!).toBeLessThan(m.woodUnderEntry!);
    expect(deriveNeck({ neck: { volute: "3" } }).m.woodUnderEntry!).toBeGreaterThan(m.woodUnderEntry!);
    expect(severityOf("wood-under-entry", { neck: { pocketDepth: "13.5" } })).toBe("stop");
    expect(deriveNeck({ neck: { rod: "body" } }).m.woodUnderEntry).toBeUndefined();
  });

  it("agrees at every fret with brute force over the points of the section", () => {
    fc.assert(
      fc.property(
        fc.record({
          firstDepth: fc.double({ min: 19, max: 24, noNaN: true }),
          secondDepth: fc.double({ min: 20, max: 26, noNaN: true }),
          firstFullness: fc.double({ min: 1.4, max: 3.2, noNaN: true }),
          firstLean: fc.double({ min: -3, max: 3, noNaN: true }),
        }),
        (neck) => {
          const { m } = deriveNeck({ neck: { ...neck, pocketLength: "0" } });
          for (const place of m.places.filter(({ x }) => x > m.bendTo && x < m.heelFrom)) {
            const points: Vec[] = [];
            for (const sign of [-1, 1]) {
              const a = place.width / 2 - sign * place.lean;
              const p = sign < 0 ? place.bassFullness : place.trebleFullness;
              for (let i = 0; i <= 3000; i++) {
                const share = Math.sin((Math.PI / 2) * (i / 3000)) ** 2;
                points.push(vec(place.lean + sign * a * (1 - share ** p) ** (1 / p), -place.depth * share));
              }
            }
            const corners = m.channels
              .filter(({ from, to }) => place.x >= from && place.x <= to)
              .flatMap(({ middleFrom, width, depthFrom }) =>
                [-0.5, 0.5].map((side) => vec(middleFrom + side * width, -depthFrom)),
              );
            const least = Math.min(...corners.flatMap((corner) => points.map((point) => distance(corner, point))));
            if (place.behind! > 0) expect(Math.abs(place.behind! - least)).toBeLessThan(2e-3);
          }
        },
      ),
      { numRuns: 8 },
    );
  });
});

describe("the place of a stop", () => {
  const thin = { neck: { firstDepth: "18", secondDepth: "23" } };

  it("is marked on the plan, the side view and every sheet of them, from where the wood is short to where it suffices", () => {
    const { part, m } = deriveNeck(thin);
    const ids = (name: string): string[] => shapesOf(templateOf(part, name).drawing).map(({ id }) => id);
    for (const name of ["plan", "channels", "side-profile"]) expect(ids(name), name).toContain("stop-rod-1");
    for (const name of ["plan", "channels"]) expect(ids(name), name).toContain("stop-rod-1-sign");
    expect(ids("side-profile")).toContain("stop-sign");
    // Said in the title of each, so that it stands in every list and in the strip of every sheet.
    for (const name of ["plan", "channels", "side-profile", "carving-gauges", "facets-side"])
      expect(templateOf(part, name).title, name).toMatch(/^STOP: /);
    const drawing = part.drawing();
    for (const id of ["stop-rod-1", "stop-rod-1-sign", "side-stop-rod-1", "side-stop-sign"])
      expect(shapesOf(drawing).map((s) => s.id)).toContain(id);
    const words = drawing.layers.flatMap(({ texts = [] }) => texts).map(({ text }) => text);
    expect(words.filter((text) => text === "STOP: too little wood behind the truss-rod channel")).toHaveLength(2);
    // The sections say it just where the wall behind the rod is under 3, as measured at their places.
    const said = drawing.layers.flatMap(({ texts = [] }) => texts.map(({ id }) => id));
    const warned = said.flatMap((id) => /^section-(\d+)-stop$/.exec(id)?.[1] ?? []);
    const drawn = said.flatMap((id) => /^section-(\d+)-label$/.exec(id)?.[1] ?? []);
    const thinAt = new Set(m.places.filter(({ behind }) => behind !== undefined && behind < 3).map(({ fret }) => `${fret}`));
    expect(warned).toEqual(drawn.filter((fret) => thinAt.has(fret)));
    expect(warned.length).toBeGreaterThan(0);
    expect(warned.length).toBeLessThan(drawn.length);
    expect(said).toContain("section-least-stop");
    expect(shapeOf(drawing, "section-least-rod").tint).toBe("stop");
    // Outside: the wall at the places themselves, by the measure of necks whose rod is a short piece there.
    const box = pathBounds(shapeOf(drawing, "stop-rod-1").path);
    const wallNear = (x: number): number =>
      deriveNeck({ neck: { ...thin.neck, rod: "body", rodStart: x, rodLength: "60", pocketLength: "0", bars: [] } }).m
        .channels[0]!.behind!.distance;
    expect(box.minX).toBeLessThan(m.channels[0]!.behind!.x);
    expect(wallNear(box.maxX - 0.5)).toBeLessThan(3);
    expect(wallNear(box.maxX + 0.5)).toBeGreaterThan(3);
    const sign = pathBounds(shapeOf(drawing, "stop-rod-1-sign").path);
    expect((sign.minX + sign.maxX) / 2).toBeCloseTo(m.channels[0]!.behind!.x, 6);
  });

  it("says so where the back breaks into the channel", () => {
    const { part, m } = deriveNeck({ neck: { firstDepth: "15", secondDepth: "16" } });
    const words = part.drawing().layers.flatMap(({ texts = [] }) => texts.map(({ text }) => text));
    // In the words of the channel that stands out farthest, with the count of the others.
    const thin = m.channels.filter(({ behind }) => behind && behind.distance < 3);
    const [worst] = thin.toSorted((a, b) => a.behind!.distance - b.behind!.distance);
    expect(words).toContain(`STOP: the back breaks into the ${worst!.name}, and ${thin.length - 1} more`);
    expect(shapeOf(part.drawing(), "stop-rod-1").name).toBe("the back breaks into the truss-rod channel");
  });

  it("is nowhere where the wood suffices, and follows the maker's own limit", () => {
    const marks = (given: Given): string[] => {
      const { part } = deriveNeck(given);
      const drawings = [part.drawing(), ...part.templates().map(({ drawing }) => drawing)];
      return drawings.flatMap(shapesOf).flatMap(({ id }) => (id.includes("stop-") ? [id] : []));
    };
    expect(marks({})).toEqual([]);
    expect(marks({ limits: { "neck.wood-behind.least": "6 mm" } }).length).toBeGreaterThan(0);
    expect(marks({ ...thin, limits: { "neck.wood-behind.least": "0.1 mm" } })).toEqual([]);
  });

  it("is marked for every channel that comes too near, by brute force along the neck", () => {
    fc.assert(
      fc.property(fc.double({ min: 15, max: 22, noNaN: true }), fc.double({ min: 15, max: 24, noNaN: true }), (first, second) => {
        const { part, m } = deriveNeck({ neck: { firstDepth: first, secondDepth: second } });
        const marked = new Set(shapesOf(part.drawing()).flatMap(({ id }) => /^stop-(.+)-\d+$/.exec(id)?.[1] ?? []));
        expect([...marked].toSorted()).toEqual(
          m.channels
            .filter(({ behind }) => behind && behind.distance < 3 - 1e-9)
            .map(({ id }) => id)
            .toSorted(),
        );
      }),
      { numRuns: 12 },
    );
  });
});

describe("a channel that runs on into the tongue", () => {
  const body = (more: Given["neck"] = {}): Given => ({
    neck: { rod: "body", rodWidth: "6.35", pocketLength: "0", bars: [], tenonWidth: "16", tenonLength: "15", bit: "6", ...more },
  });
  const reach = (given: Given, to: number): Given => {
    const { m } = deriveNeck(given);
    return { neck: { ...given.neck, rodStart: "60", rodLength: m.joinX + to - 60 } };
  };

  it("has (16 - 6.35)/2 = 4.825 of a tenon beside it, and what is over its floor behind it", () => {
    const { m, part } = deriveNeck(reach(body(), 10));
    expect(m.channels[0]!.beside!.distance).toBeCloseTo(4.825, 9);
    expect(m.channels[0]!.beside!.x).toBeGreaterThanOrEqual(m.joinX - 1e-6);
    expect(findingOf(part, "wood-beside/rod").says).toContain("at the join");
    // A tenon no deeper than 11 under a rod of 9.5: 1.5 left.
    expect(deriveNeck(reach(body({ tenonDepth: "11" }), 10)).m.leastWood!).toBeCloseTo(1.5, 9);
    expect(severityOf("wood-behind/rod", reach(body({ tenonDepth: "12.6" }), 10))).toBe("fine");
    expect(severityOf("wood-behind/rod", reach(body({ tenonDepth: "12.4" }), 10))).toBe("stop");
  });

  it("is not asked about it where it ends at the join", () => {
    expect(deriveNeck(reach(body(), 0)).m.channels[0]!.beside!.distance).toBeGreaterThan(10);
    expect(severityOf("wood-behind/rod", reach(body({ tenonDepth: "11" }), 0))).toBe("fine");
  });

  it("leaves 3 mm beside it or is looked at, and stops under 1", () => {
    const beside = (tenonWidth: string): string => severityOf("wood-beside/rod", reach(body({ tenonWidth }), 10));
    expect(beside("12.4")).toBe("fine");
    expect(beside("12.3")).toBe("look");
    expect(beside("8.4")).toBe("look");
    expect(beside("8.3")).toBe("stop");
  });

  it("loses what a dovetail closes by: at the root 32/2 - 18 tan 10°, at its foot less the taper", () => {
    const given = body({
      joint: "dovetail",
      tenonWidth: "32",
      tenonLength: "18",
      tenonDepth: "60",
      flare: "10°",
      dovetailTaper: "3°",
    });
    const { m } = deriveNeck(reach(given, 10));
    const taper = Math.tan((3 * Math.PI) / 180);
    const root = 16 - 18 * Math.tan((10 * Math.PI) / 180);
    // At the floor, 9.5 down, the side has come in by 9.5 tan 3°, and lies square to a line that leans 3°.
    const least = (root - 9.5 * taper - 3.175) * Math.cos((3 * Math.PI) / 180);
    expect(m.channels[0]!.beside!.distance).toBeCloseTo(least, 6);
  });
});

describe("wood beside and between the channels", () => {
  it("is looked at where it is short and stops where there is none", () => {
    const bar = (offset: number): Given => ({ neck: { bars: [{ offset, depth: "3" }] } });
    expect(severityOf("wood-beside/bar-1", bar(16))).toBe("fine");
    // Half of 44.45 is 22.2: a bar from 17.4 to 20.6 leaves 1.7 or so at the nut.
    expect(severityOf("wood-beside/bar-1", bar(19))).toBe("look");
    expect(severityOf("wood-beside/bar-1", bar(21.5))).toBe("stop");
  });

  it("stands between rod and bars: 9 - 3.175 - 1.6 = 4.225", () => {
    expect(deriveNeck().m.between!.distance).toBeCloseTo(4.225, 9);
    const bar = (offset: number): Given => ({ neck: { bars: [{ offset }] } });
    expect(severityOf("wood-between", bar(6.8))).toBe("fine");
    expect(severityOf("wood-between", bar(6.7))).toBe("look");
    expect(severityOf("wood-between", bar(4.7))).toBe("stop");
  });

  it("tells a channel that ends before it begins or leaves the neck", () => {
    expect(severityOf("channel-places/bar-1", { neck: { bars: [{ start: "300", stop: "100" }] } })).toBe("stop");
    expect(severityOf("channel-places/rod-end", { neck: { rodLength: "420" } })).toBe("stop");
    expect(severityOf("channel-places/rod-end", { neck: { rod: "body", rodLength: "500" } })).toBe("look");
    expect(severityOf("channel-places", {})).toBe("fine");
  });
});

describe("channels", () => {
  it("are drawn in plan and in every section that they pass through", () => {
    const { part } = deriveNeck({ neck: { gaugeFrets: "5" } });
    const drawing = part.drawing();
    const box = pathBounds(shapeOf(drawing, "bar-2").path);
    expect([box.minY, box.maxY]).toEqual([expect.closeTo(7.4, 9), expect.closeTo(10.6, 9)]);
    expect(box.minX).toBeCloseTo(10, 9);
    const ids = shapesOf(drawing).map(({ id }) => id);
    for (const id of ["section-5-rod", "section-5-bar-1", "section-5-bar-2", "section-nut-rod"]) expect(ids).toContain(id);
    expect(ids).not.toContain("section-nut-bar-1");
    const floor = pathBounds(shapeOf(drawing, "section-5-rod").path);
    expect(floor.maxY - floor.minY).toBeCloseTo(9.5, 9);
  });

  it("start in the head or end in the body with the pocket at the adjuster", () => {
    const head = deriveNeck().m;
    const [rod, pocket] = head.channels;
    // The nut is 5.5 thick: the channel begins 15 behind that.
    expect(rod!.from).toBeCloseTo(-20.5, 9);
    expect([pocket!.from, pocket!.to]).toEqual([expect.closeTo(-20.5, 9), expect.closeTo(-8.5, 9)]);
    const body = deriveNeck({ neck: { rod: "body" } }).m;
    expect(body.channels[0]!.from).toBeCloseTo(8, 9);
    expect(body.channels[1]!.to).toBeCloseTo(body.joinX + 20, 9);
    expect(deriveNeck({ neck: { rod: "none", bars: [] } }).m.leastWood).toBeUndefined();
  });

  it("slope and splay as given, and keep the hand of a left-handed neck", () => {
    const neck = { bars: [{ offset: "9", endOffset: "11", depth: "6.35", endDepth: "9.5" }] };
    const right = deriveNeck({ neck });
    const left = deriveNeck({ neck, instrument: { handed: "left" } });
    const boxOf = ({ part }: ReturnType<typeof deriveNeck>) => pathBounds(shapeOf(part.drawing(), "bar-1").path);
    expect(boxOf(right).maxY).toBeCloseTo(11 + 1.6, 9);
    expect(boxOf(left).minY).toBeCloseTo(-12.6, 9);
    expect(left.m.leastWood!).toBeCloseTo(right.m.leastWood!, 9);
    const table = templateOf(right.part, "channels").table!.rows;
    expect(table).toContainEqual({ label: "bar 1: depth, end", value: 9.5 });
  });
});
