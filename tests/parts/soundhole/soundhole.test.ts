/** The soundhole, its rosette, and what they keep clear of. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sentenceOf } from "../../../src/checks/findings.ts";
import { flatten } from "../../../src/geometry/flatten.ts";
import { pathBounds } from "../../../src/geometry/measure.ts";
import { asCircle } from "../../../src/geometry/path.ts";
import { partOf } from "../../../src/parts/registry.ts";
import { accepted } from "../accepted.ts";
import { findingOf, shapeOf, shapesOf, templateOf } from "../derived-board.ts";
import { deriveParts, type GivenParts } from "../derived-part.ts";
import { expectSound } from "../sound.ts";

type Hole = GivenParts["parts"][string];
const on = (soundhole: Hole, more: Partial<GivenParts> = {}) =>
  deriveParts({
    ...more,
    parts: { fingerboard: {}, nut: {}, body: {}, bridge: {}, ...more.parts, soundhole },
  });
const severity = (id: string, soundhole: Hole, more: Partial<GivenParts> = {}): string =>
  findingOf(on(soundhole, more).part("soundhole"), id).severity;
const ids = (soundhole: Hole, more: Partial<GivenParts> = {}): string[] =>
  on(soundhole, more)
    .part("soundhole")
    .findings()
    .map(({ id }) => id);

describe("a soundhole", () => {
  it("passes its own checks as it comes, on every kind of place", () => {
    for (const instrument of [
      {},
      { scale: "650", joinFret: "12", frets: "19" },
      { scale: "430", frets: "18" },
      { handed: "left" },
    ]) {
      const { part, problems } = deriveParts({ instrument, parts: { fingerboard: {}, nut: {}, soundhole: {} } });
      expect(problems).toEqual([]);
      expect(
        part("soundhole")
          .findings()
          .filter(({ severity: s }) => s !== "fine"),
      ).toEqual([]);
    }
    const { part, problems } = on({});
    expect(problems).toEqual([]);
    expect(
      part("soundhole")
        .findings()
        .filter(({ severity: s }) => s !== "fine"),
    ).toEqual([]);
    expectSound(part("soundhole"));
  });

  it("is a true circle about its middle on the centre line", () => {
    const { m, part } = on({ diameter: "100", middle: "500" });
    const found = asCircle(shapeOf(part("soundhole").drawing(), "hole").path)!;
    expect([found.centre.x, found.centre.y, found.radius]).toEqual([500, 0, 50]);
    // pi 50² = 7853.98 mm².
    expect(m("soundhole").area).toBeCloseTo(7853.9816, 3);
    expect(m("soundhole").perimeter).toBeCloseTo(314.1593, 3);
  });

  it("lies where one number puts it; the other two follow, and setting them gives the same place back", () => {
    const first = on({ diameter: "100", middle: "505" }).m("soundhole");
    const byBoard = on({ diameter: "100", fromBoard: first.toBoard }).m("soundhole");
    const byBridge = on({ diameter: "100", fromBridge: first.toBridge }).m("soundhole");
    expect(byBoard.middleX).toBeCloseTo(505, 9);
    expect(byBridge.middleX).toBeCloseTo(505, 9);
    const board = on({}).m("fingerboard");
    expect(on({ fromBoard: "6" }).m("soundhole").frontX).toBeCloseTo(board.endX + 6, 9);
  });

  it("measures to the bridge's front edge on the centre line: the saddle less what stands before it", () => {
    const { m } = on(
      { diameter: "100", middle: "505" },
      { parts: { bridge: { saddleBy: "hand", setbackTreble: "3", setbackBass: "3", front: "9.5" } } },
    );
    // Scale 645.16: saddle at 648.16, front edge at 638.66; hole to 555.
    expect(m("bridge").saddleX).toBeCloseTo(648.16, 6);
    expect(m("soundhole").toBridge).toBeCloseTo(83.66, 6);
    expect(m("soundhole").holeAtBridge!.distance).toBeLessThanOrEqual(83.66 + 1e-6);
  });

  it("follows scale, join fret and nut width without overlapping board or bridge", () => {
    fc.assert(
      fc.property(
        fc.record({
          scale: fc.double({ min: 400, max: 720, noNaN: true }),
          joinFret: fc.integer({ min: 12, max: 15 }),
          nutWidth: fc.double({ min: 34, max: 54, noNaN: true }),
        }),
        (instrument) => {
          const { m } = deriveParts({ instrument, parts: { fingerboard: {}, nut: {}, bridge: {}, soundhole: {} } });
          const hole = m("soundhole");
          expect(hole.frontX).toBeCloseTo(m("fingerboard").endX + 4, 6);
          expect(hole.toBridge).toBeGreaterThan(0);
          expect(hole.frontX + hole.length + hole.toBridge).toBeLessThan(m("bridge").saddleX);
        },
      ),
      { numRuns: 25 },
    );
  });

  it("may be oval: an ellipse by its equation, and rings that keep their distance from it by brute force", () => {
    const { part } = on({ shape: "oval", length: "70", width: "110", middle: "500", rings: [{ distance: "6", width: "8" }] });
    const drawing = part("soundhole").drawing();
    const hole = flatten(shapeOf(drawing, "hole").path, 1e-3);
    for (const { x, y } of hole) expect(Math.hypot((x - 500) / 35, y / 55)).toBeCloseTo(1, 4);
    const dense = Array.from({ length: 20_000 }, (_, i) => {
      const s = (2 * Math.PI * i) / 20_000;
      return [500 + 35 * Math.cos(s), 55 * Math.sin(s)] as const;
    });
    const ring = shapeOf(drawing, "ring-1");
    for (const [path, distance] of [
      [ring.holes![0]!, 6],
      [ring.path, 14],
    ] as const)
      for (const p of flatten(path, 0.01)) {
        const away = Math.min(...dense.map(([x, y]) => Math.hypot(p.x - x, p.y - y)));
        expect(Math.abs(away - distance)).toBeLessThan(0.015);
      }
  });

  it("may be drawn by points, and moves with its middle", () => {
    const square = [
      { x: "-30", y: "-40" },
      { x: "30", y: "-40" },
      { x: "30", y: "40" },
      { x: "-30", y: "40" },
    ];
    const { m, part } = on({
      shape: "free",
      mirrored: false,
      outline: square,
      fromBoard: "10",
      rings: [{ distance: "5", width: "2" }],
    });
    const hole = m("soundhole");
    expect(hole.frontX).toBeCloseTo(m("fingerboard").endX + 10, 9);
    expect([hole.length, hole.width, hole.area]).toEqual([expect.closeTo(60, 9), expect.closeTo(80, 9), expect.closeTo(4800, 6)]);
    // Rounded at the corners: 60 + 2 · 7 long.
    const box = pathBounds(hole.rings[0]!.outer!);
    expect(box.maxX - box.minX).toBeCloseTo(74, 2);
    expect(part("soundhole").outlines()[0]!.origin.x).toBeCloseTo(hole.middleX, 9);
    expect(severity("outline", { shape: "free", mirrored: false, outline: square })).toBe("fine");
    const crossed = [square[0]!, square[2]!, square[1]!, square[3]!];
    expect(severity("outline", { shape: "free", mirrored: false, outline: crossed })).toBe("stop");
    expect(severity("outline", { shape: "free", mirrored: false, outline: square.slice(0, 2) })).toBe("stop");
  });

  it("gives the hole with its places, and the channels with their radii and depths", () => {
    const { part } = on({ diameter: "100", rings: [{ name: "shell", distance: "8", width: "9", depth: "1.4" }] });
    const hole = templateOf(part("soundhole"), "hole");
    expect(hole.edge).toBe("hole");
    expect(hole.table!.rows.map(({ label }) => label)).toEqual([
      "middle from the nut",
      "end of the board to the hole",
      "hole to the bridge",
    ]);
    const rosette = templateOf(part("soundhole"), "rosette");
    expect(rosette.table!.rows).toEqual([
      { label: "shell: inner radius", value: 58 },
      { label: "shell: outer radius", value: 67 },
      { label: "shell: depth", value: 1.4 },
    ]);
    const ring = shapeOf(rosette.drawing, "ring-1");
    expect([ring.role, asCircle(ring.path)!.radius, asCircle(ring.holes![0]!)!.radius]).toEqual(["pocket", 67, 58]);
    expect(shapesOf(rosette.drawing).filter(({ role }) => role === "cut")).toEqual([]);
    // The strip for it: 2 pi 62.5 = 392.70.
    expect(part("soundhole").materials().strips![0]!.lengths[0]).toBeCloseTo(392.699, 3);
    expect(
      on({ rings: [] })
        .part("soundhole")
        .templates()
        .map(({ name }) => name),
    ).toEqual(["hole"]);
  });
});

describe("the checks of a soundhole", () => {
  it("want no board in the hole: fine at 0, to be looked at below", () => {
    expect(severity("hole-board", { fromBoard: "0" })).toBe("fine");
    expect(severity("hole-board", { fromBoard: "-0.1" })).toBe("look");
    expect(severity("hole-board", { fromBoard: "-0.1" }, { limits: { "soundhole.hole-board.least": "-1 mm" } })).toBe("fine");
  });

  it("say how far the rosette runs under the board, and look at it beyond 40", () => {
    const ring = (fromBoard: string): Hole => ({ fromBoard, rings: [{ distance: "40", width: "5", depth: "1" }] });
    expect(severity("hole-board/rosette", ring("5"))).toBe("fine");
    expect(severity("hole-board/rosette", ring("4.9"))).toBe("look");
    const finding = findingOf(on(ring("6")).part("soundhole"), "hole-board/rosette");
    expect(sentenceOf(finding, (value) => value.toFixed(1))).toContain("39.0 under the end of the board");
    expect(ids({ rings: [] })).not.toContain("hole-board/rosette");
  });

  it("keep hole and rosette from the bridge: 25 and 5, and no way under it", () => {
    // The bridge's front is straight across the middle: the nearest place lies on the centre line.
    const bridge = { saddleBy: "hand", setbackTreble: "3", setbackBass: "3" };
    const more = { parts: { bridge } };
    expect(severity("hole-bridge", { fromBridge: "25", rings: [] }, more)).toBe("fine");
    expect(severity("hole-bridge", { fromBridge: "24.9", rings: [] }, more)).toBe("look");
    expect(severity("hole-bridge", { fromBridge: "-1", rings: [] }, more)).toBe("stop");
    const ring = (fromBridge: string): Hole => ({ fromBridge, rings: [{ distance: "20", width: "5", depth: "1" }] });
    expect(severity("hole-bridge/rosette", ring("30"), more)).toBe("fine");
    expect(severity("hole-bridge/rosette", ring("29.9"), more)).toBe("look");
    expect(severity("hole-bridge/rosette", ring("24"), more)).toBe("stop");
  });

  it("keep the rosette on the top: 15 from its edge", () => {
    // A body drawn as a rectangle 200 wide: the hole's rosette of 85 about the centre line leaves 15.
    const square = [
      { x: "0", y: "-100" },
      { x: "490", y: "-100" },
      { x: "490", y: "100" },
      { x: "0", y: "100" },
    ];
    const more = { parts: { body: { outlineBy: "points", mirrored: false, outline: square } } };
    const ring = (width: string): Hole => ({ diameter: "100", rings: [{ distance: "25", width, depth: "1" }] });
    expect(severity("hole-body", ring("10"), more)).toBe("fine");
    expect(severity("hole-body", ring("10.1"), more)).toBe("look");
    expect(severity("hole-body", ring("25.1"), more)).toBe("stop");
    expect(severity("hole-body", { aside: "80", rings: [] }, more)).toBe("stop");
  });

  it("want wood between the channels, or none at all", () => {
    const two = (distance: string): Hole => ({
      rings: [
        { distance: "5", width: "2" },
        { distance, width: "2" },
      ],
    });
    expect(severity("ring-wood", two("8"))).toBe("fine");
    expect(severity("ring-wood", two("7"))).toBe("fine");
    expect(severity("ring-wood/ring-2", two("7.9"))).toBe("look");
    expect(severity("ring-wood/ring-2", two("6.9"))).toBe("stop");
    // The same whatever the order in which they are listed.
    expect(
      severity("ring-wood/ring-1", {
        rings: [
          { distance: "7.9", width: "2" },
          { distance: "5", width: "2" },
        ],
      }),
    ).toBe("look");
    expect(severity("ring-wood", { rings: [{ distance: "0", width: "2" }] })).toBe("fine");
    expect(severity("ring-wood", { rings: [{ distance: "1.5", width: "2" }] })).toBe("fine");
    expect(severity("ring-wood/ring-1", { rings: [{ distance: "1.4", width: "2" }] })).toBe("look");
  });

  it("want 1 mm of top under every channel, and stop at one that goes through", () => {
    const cut = (depth: string): Hole => ({ topThickness: "2.8", rings: [{ distance: "5", width: "2", depth }] });
    expect(severity("ring-depth", cut("1.8"))).toBe("fine");
    expect(severity("ring-depth", cut("1.9"))).toBe("look");
    expect(severity("ring-depth", cut("2.8"))).toBe("stop");
    expect(ids({ rings: [] })).not.toContain("ring-depth");
  });

  it("stop at a ring that a hollow leaves no line for", () => {
    // A bay 30 wide behind a mouth of 6: a line 4 out closes the mouth and leaves an island in the bay.
    const bay = [
      [-40, -30],
      [40, -30],
      [40, -3],
      [20, -3],
      [20, -15],
      [-20, -15],
      [-20, 15],
      [20, 15],
      [20, 3],
      [40, 3],
      [40, 30],
      [-40, 30],
    ].map(([x, y]) => ({ x, y }));
    const ring = (distance: string): Hole => ({
      shape: "free",
      mirrored: false,
      outline: bay,
      rings: [{ distance, width: "0.5" }],
    });
    expect(severity("ring-lines", ring("2"))).toBe("fine");
    expect(severity("ring-lines/ring-1", ring("4"))).toBe("stop");
  });

  it("stop where a file gives two places that disagree", () => {
    expect(severity("place", { middle: "505" })).toBe("fine");
    expect(severity("place/board", { middle: "505", fromBoard: "20" })).toBe("stop");
  });

  it("are left alone by numbers that have nothing to do with them", () => {
    const strip = (given: Hole, more: Partial<GivenParts> = {}) =>
      on(given, more)
        .part("soundhole")
        .findings()
        .map(({ id, severity: s, measured }) => ({ id, s, measured }));
    const plain = strip({});
    expect(
      strip(
        { rings: undefined },
        { parts: { nut: { spare: "3" }, fingerboard: { markerSize: "5" }, bridge: { pinHole: "5.5" } } },
      ),
    ).toEqual(plain);
    expect(strip({}, { parts: { body: { backThickness: "3" } } })).toEqual(plain);
  });
});

describe("any soundhole", () => {
  it("is drawn and checked in finite numbers for every table that is accepted", () => {
    const table = (kind: string, given: number) => accepted(partOf(kind)!.params, given);
    let whole = 0;
    let runs = 0;
    fc.assert(
      fc.property(table("instrument", 0.1), table("soundhole", 0.4), fc.boolean(), (instrument, soundhole, bare) => {
        const { part, problems } = deriveParts({
          instrument,
          parts: { ...(bare ? {} : { fingerboard: {}, nut: {}, body: {}, bridge: {} }), soundhole },
        });
        expectSound(part("soundhole"));
        runs += 1;
        if (problems.length === 0) whole += 1;
      }),
      { numRuns: 60 },
    );
    expect(whole / runs).toBeGreaterThan(0.2);
  }, 120_000);
});
