/** The pickguard: its shape from the rosette, its weight, what it keeps clear of and what it hides. */
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { flatten } from "../../../src/geometry/flatten.ts";
import { pathBounds, pathCentroid } from "../../../src/geometry/measure.ts";
import type { Path } from "../../../src/geometry/path.ts";
import { vec, type Vec } from "../../../src/geometry/vec.ts";
import { pathWinding } from "../../../src/geometry/winding.ts";
import { partOf } from "../../../src/parts/registry.ts";
import { accepted } from "../accepted.ts";
import { fieldOf, findingOf, shapeOf, shapesOf, templateOf } from "../derived-board.ts";
import { deriveParts, type GivenParts } from "../derived-part.ts";
import { expectSound } from "../sound.ts";

type Guard = GivenParts["parts"][string];
const on = (pickguard: Guard, more: Partial<GivenParts> = {}) =>
  deriveParts({
    ...more,
    parts: { fingerboard: {}, nut: {}, body: {}, bridge: {}, soundhole: {}, ...more.parts, pickguard },
  });
const severity = (id: string, pickguard: Guard, more: Partial<GivenParts> = {}): string =>
  findingOf(on(pickguard, more).part("pickguard"), id).severity;

/** Area by the shoelace formula over dense points. */
const shoelace = (path: Path): number => {
  const points = flatten(path, 1e-4);
  return Math.abs(
    points.reduce((sum, a, i) => {
      const b = points[(i + 1) % points.length]!;
      return sum + (a.x * b.y - b.x * a.y) / 2;
    }, 0),
  );
};
const rectangle = (x0: number, y0: number, x1: number, y1: number) => [
  { x: x0, y: y0 },
  { x: x1, y: y0 },
  { x: x1, y: y1 },
  { x: x0, y: y1 },
];

describe("a pickguard from the rosette", () => {
  it("passes its own checks as it comes, right- and left-handed, alone and on a whole instrument", () => {
    for (const instrument of [{}, { handed: "left" }]) {
      const { part, problems } = on({}, { instrument });
      expect(problems).toEqual([]);
      expect(
        part("pickguard")
          .findings()
          .filter(({ severity: s }) => s !== "fine"),
      ).toEqual([]);
      expectSound(part("pickguard"));
    }
    const alone = deriveParts({ parts: { pickguard: {} } });
    expect(
      alone
        .part("pickguard")
        .findings()
        .every(({ severity: s }) => s === "fine"),
    ).toBe(true);
  });

  it("follows the ring at its gap, and stands out by its band, by the distances of its points from the middle", () => {
    const { m, part } = on(
      { ringGap: "2", band: "45", tailAngle: "20°", boardAngle: "120°", end: "8", corner: "0" },
      {
        parts: { soundhole: { diameter: "100", middle: "500", rings: [{ distance: "10", width: "10", depth: "1" }] } },
      },
    );
    const points = flatten(shapeOf(part("pickguard").drawing(), "outline").path, 1e-3);
    const away = (p: Vec): number => Math.hypot(p.x - 500, p.y);
    // Hole 50, ring to 70, gap 2: nothing nearer than 72; farthest 72 + 45 = 117, half way between the ends at 70 degrees.
    expect(Math.min(...points.map(away))).toBeCloseTo(72, 2);
    const far = points.reduce((a, b) => (away(b) > away(a) ? b : a));
    expect(away(far)).toBeCloseTo(117, 3);
    expect((Math.atan2(far.y, far.x - 500) * 180) / Math.PI).toBeCloseTo(70, 0);
    expect(m("pickguard").atRosette!.distance).toBeCloseTo(2, 2);
    // Its ends: at 20 and 120 degrees, from 72 straight out to 80.
    for (const [degrees, r] of [
      [20, 72],
      [20, 80],
      [120, 72],
      [120, 80],
    ] as const) {
      const angle = (degrees * Math.PI) / 180;
      const corner = { x: 500 + r * Math.cos(angle), y: r * Math.sin(angle) };
      expect(Math.min(...points.map((p) => Math.hypot(p.x - corner.x, p.y - corner.y)))).toBeLessThan(1e-6);
    }
  });

  it("runs into its belly along tangents: no corner where side and belly meet", () => {
    const { part } = on({ corner: "0" });
    const { path } = shapeOf(part("pickguard").drawing(), "outline");
    const corners: number[] = [];
    const ring = flatten(path, 1e-4);
    ring.forEach((p, i) => {
      const [a, b] = [ring.at(i - 1)!, ring[(i + 1) % ring.length]!];
      const turn = Math.atan2(
        (p.x - a.x) * (b.y - p.y) - (p.y - a.y) * (b.x - p.x),
        (p.x - a.x) * (b.x - p.x) + (p.y - a.y) * (b.y - p.y),
      );
      if (Math.abs(turn) > 0.1) corners.push(turn);
    });
    // Only the two corners at either end.
    expect(corners).toHaveLength(4);
  });

  it("lies on the treble side, mirrored for a left-handed instrument", () => {
    const right = pathBounds(shapeOf(on({}).part("pickguard").drawing(), "outline").path);
    const left = pathBounds(
      shapeOf(
        on({}, { instrument: { handed: "left" } })
          .part("pickguard")
          .drawing(),
        "outline",
      ).path,
    );
    expect(right.minY).toBeGreaterThan(0);
    expect(left.maxY).toBeCloseTo(-right.minY, 6);
    expect(left.minX).toBeCloseTo(right.minX, 6);
  });

  it("follows an oval hole too, at its gap all along", () => {
    const soundhole = { shape: "oval", length: "70", width: "110", rings: [{ distance: "4", width: "10", depth: "1" }] };
    const { m, part } = on({ ringGap: "3", tailAngle: "25°", boardAngle: "110°" }, { parts: { soundhole } });
    expect(m("pickguard").atRosette!.distance).toBeGreaterThan(2.99);
    expect(findingOf(part("pickguard"), "guard-rosette").severity).toBe("fine");
    expect(m("pickguard").atRosette!.distance).toBeLessThan(3.01);
    expect(findingOf(part("pickguard"), "outline").severity).toBe("fine");
  });

  it("shows its grain on its wood, a narrow one too, and none in plastic", () => {
    const narrow = { band: "14", belly: "20", end: "8", boardAngle: "100°" };
    const grainOf = (guard: Guard) => {
      const part = on(guard).part("pickguard");
      const grain = shapesOf(part.drawing()).find(({ id }) => id === "grain");
      return grain && { box: pathBounds(grain.path), outline: shapeOf(part.drawing(), "outline").path };
    };
    const { box, outline } = grainOf(narrow)!;
    const middle = vec((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);
    // The middle of the area of so narrow an arc lies in its hollow.
    expect(pathWinding(outline, pathCentroid(outline))).toBe(0);
    expect(pathWinding(outline, middle)).not.toBe(0);
    expect(grainOf({ ...narrow, material: "plastic" })).toBeUndefined();
  });

  it("moves with the hole until its points are typed, and then with them", () => {
    const boxOf = (guard: Guard, middle: string) =>
      pathBounds(
        shapeOf(
          on(guard, { parts: { soundhole: { middle } } })
            .part("pickguard")
            .drawing(),
          "outline",
        ).path,
      );
    expect(boxOf({}, "510").minX - boxOf({}, "500").minX).toBeCloseTo(10, 6);
    const drawn = { outline: rectangle(-20, 80, 40, 110) };
    expect([boxOf(drawn, "500").minX, boxOf(drawn, "500").maxX, boxOf(drawn, "510").minX]).toEqual([480, 540, 490]);
  });
});

describe("the weight of a pickguard", () => {
  it("is area by thickness by density, by hand: 60 by 50 by 1.2 mm of 900 kg/m³ is 3.24 g", () => {
    const { m } = on({ outline: rectangle(-20, 80, 40, 130), thickness: "1.2", density: "900", material: "other" });
    expect(m("pickguard").area).toBeCloseTo(3000, 9);
    expect(m("pickguard").massG).toBeCloseTo(3.24, 9);
  });

  it("takes the density of its wood from the table, and the area by the shoelace formula", () => {
    const { m, part } = on({ material: "maple-sugar", thickness: "1.5" });
    // Hard maple at 12 %: 0.63 specific gravity, 705 kg/m³ in the species table's own row.
    const density = fieldOf(part("pickguard"), "density").value as number;
    expect(density).toBeGreaterThan(650);
    expect(density).toBeLessThan(760);
    const area = shoelace(shapeOf(part("pickguard").drawing(), "outline").path);
    expect(m("pickguard").area).toBeCloseTo(area, 1);
    expect(m("pickguard").massG).toBeCloseTo((area * 1.5 * density) / 1e6, 3);
  });
});

describe("the checks of a pickguard", () => {
  const more = (bridge: GivenParts["parts"][string] = {}) => ({ parts: { bridge, body: {} } });

  it("keep it from board, bridge, rosette and edge by the typed gaps, just inside and just outside", () => {
    for (const [id, gap, room] of [
      ["guard-board", "boardGap", "atBoard"],
      ["guard-bridge", "bridgeGap", "atBridge"],
      ["guard-body", "edgeGap", "inBody"],
    ] as const) {
      const { distance } = on({}, more()).m("pickguard")[room]!;
      expect(severity(id, { [gap]: distance - 0.02 }, more()), id).toBe("fine");
      expect(severity(id, { [gap]: distance + 0.02 }, more()), id).toBe("look");
    }
    // Typed points do not follow the rosette: 75 from its middle is 5 from a ring of 70.
    const soundhole = { diameter: "100", middle: "500", rings: [{ distance: "10", width: "10", depth: "1" }] };
    const typed = (y: number): Guard => ({ outline: rectangle(-1, y, 1, y + 20), ringGap: "5" });
    expect(severity("guard-rosette", typed(75.1), { parts: { soundhole } })).toBe("fine");
    expect(severity("guard-rosette", typed(74.9), { parts: { soundhole } })).toBe("look");
    expect(severity("guard-rosette", typed(69.9), { parts: { soundhole } })).toBe("stop");
  });

  it("stop where it runs under board or bridge or over the edge, and say by how much", () => {
    expect(severity("guard-board", { outline: rectangle(-100, 20, -60, 60) })).toBe("stop");
    expect(severity("guard-bridge", { outline: rectangle(60, 40, 160, 80) })).toBe("stop");
    const wide = findingOf(on({ outline: rectangle(-20, 80, 40, 400) }).part("pickguard"), "guard-body");
    expect(wide.severity).toBe("stop");
    expect(wide.measured!).toBeGreaterThan(100);
  });

  it("stop at an outline that crosses itself or is none", () => {
    const [a, b, c, d] = rectangle(-20, 80, 40, 130);
    expect(severity("outline", { outline: [a, c, b, d] })).toBe("stop");
    expect(severity("outline", { outline: [a, b] })).toBe("stop");
  });

  it("look at a hollow that the cutter cannot follow", () => {
    const notch = (rounding: number): Guard => ({
      outline: [
        { x: -40, y: 80 },
        { x: 60, y: 80 },
        { x: 60, y: 120 },
        { x: 10, y: 120 },
        { x: 10, y: 100, rounding },
        { x: -40, y: 100 },
      ],
    });
    expect(severity("hollow-bends", notch(3))).toBe("fine");
    expect(severity("hollow-bends", notch(2.9))).toBe("look");
  });

  it("are left alone by numbers that have nothing to do with them", () => {
    const told = (guard: Guard, others: Partial<GivenParts> = {}) =>
      on(guard, others)
        .part("pickguard")
        .findings()
        .map(({ id, severity: s, measured }) => ({ id, s, measured }));
    const plain = told({});
    expect(told({ thickness: "2", grain: "30°", material: "ebony-african" })).toEqual(plain);
    expect(told({}, { parts: { nut: { spare: "3" }, fingerboard: { markerSize: "5" }, bridge: { pinHole: "5.5" } } })).toEqual(
      plain,
    );
  });
});

describe("the adhesive under a pickguard", () => {
  it("lies inside the edge by the typed amount, by brute force over both outlines", () => {
    const { part } = on({ adhesiveInset: "0.8" });
    const sheet = templateOf(part("pickguard"), "adhesive");
    const edge = flatten(shapeOf(sheet.drawing, "guard").path, 1e-3);
    for (const p of flatten(shapeOf(sheet.drawing, "adhesive").path, 0.05)) {
      const away = Math.min(
        ...edge.map((a, i) => {
          const b = edge[(i + 1) % edge.length]!;
          const [dx, dy] = [b.x - a.x, b.y - a.y];
          const t = Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy || 1)));
          return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
        }),
      );
      expect(Math.abs(away - 0.8)).toBeLessThan(0.012);
    }
  });

  it("is the guard's own edge where both are trimmed flush", () => {
    const { part, m } = on({ adhesiveInset: "0" });
    expect(m("pickguard").adhesive).toEqual(m("pickguard").outline);
    const sheet = templateOf(part("pickguard"), "adhesive");
    expect(shapesOf(sheet.drawing).map(({ id }) => id)).toEqual(["adhesive"]);
    expect(sheet.lineIs).toContain("trim both flush");
    expect(findingOf(part("pickguard"), "adhesive").says).toContain("trimmed flush");
  });

  it("is looked at where no whole sheet is left: 20 wide holds one 9.9 inside and none 10.1", () => {
    const bar = (adhesiveInset: string): Guard => ({ outline: rectangle(-20, 80, 60, 100), adhesiveInset });
    expect(severity("adhesive", bar("9.9"))).toBe("fine");
    expect(severity("adhesive", bar("10.1"))).toBe("look");
    expect(
      on(bar("10.1"))
        .part("pickguard")
        .templates()
        .map(({ name }) => name),
    ).not.toContain("adhesive");
  });
});

describe("what a pickguard must hide", () => {
  const guard = { outline: rectangle(-30, 80, 50, 130) };

  it("is covered by 2 where the old one lies 2 within it, and by how much is told", () => {
    const { part, m } = on({ ...guard, old: "points", oldOutline: rectangle(-28, 82, 48, 128) });
    expect(m("pickguard").cover!.margin).toBeCloseTo(2, 6);
    expect(findingOf(part("pickguard"), "covers-old")).toMatchObject({ severity: "fine" });
    expect(templateOf(part("pickguard"), "over-old").table!.rows).toEqual([
      { label: "covers the old by at least", value: expect.closeTo(2, 6) },
    ]);
    const near = (by: number): Guard => ({ ...guard, old: "points", oldOutline: rectangle(-30 + by, 82, 48, 128) });
    expect(severity("covers-old", near(0.51))).toBe("fine");
    expect(severity("covers-old", near(0.49))).toBe("look");
  });

  it("stands out by 3 at one place and by 1 at another: both are shown, the worse first", () => {
    const cross = [
      { x: -33, y: 100 },
      { x: -10, y: 100 },
      { x: -10, y: 90 },
      { x: 51, y: 90 },
      { x: 51, y: 120 },
      { x: -33, y: 120 },
    ];
    const { part, m } = on({ ...guard, old: "points", oldOutline: cross });
    expect(m("pickguard").cover!.bare.map(({ out }) => out)).toEqual([expect.closeTo(3, 3), expect.closeTo(1, 3)]);
    // 3 by 20 and 1 by 30.
    expect(m("pickguard").cover!.bare.map(({ area }) => area)).toEqual([expect.closeTo(60, 1), expect.closeTo(30, 1)]);
    const findings = part("pickguard")
      .findings()
      .filter(({ id }) => id.startsWith("covers-old/"));
    expect(findings.map(({ severity: s, measured }) => [s, measured])).toEqual([
      ["stop", expect.closeTo(3, 3)],
      ["stop", expect.closeTo(1, 3)],
    ]);
    expect(findings[0]!.at!.x).toBeCloseTo(m("pickguard").origin.x - 33, 3);
    expect(shapesOf(part("pickguard").drawing()).map(({ id }) => id)).toEqual(
      expect.arrayContaining(["old-1", "bare-1", "bare-2"]),
    );
    expect(part("pickguard").summary.join("")).toContain("Does not hide");
  });

  it("may come from a file, turned and put in its place", () => {
    const old = { old: "imported", oldArt: "M0 0h40v20h-40z", oldX: "10", oldY: "105" };
    const flat = on({ ...guard, ...old });
    // 40 by 20 about (10, 105) in 80 by 50 about (10, 105): 15 left above and below.
    expect(flat.m("pickguard").cover!.margin).toBeCloseTo(15, 6);
    // Upright 20 by 40: 5 left.
    expect(on({ ...guard, ...old, oldTurn: "90°" }).m("pickguard").cover!.margin).toBeCloseTo(5, 6);
    expect(on({ ...guard, ...old, oldWidth: "70" }).m("pickguard").cover!.margin).toBeCloseTo(5, 6);
    expect(severity("covers-old", { ...guard, old: "imported" })).toBe("look");
  });

  it("is nothing by default", () => {
    expect(on({}).m("pickguard").cover).toBeUndefined();
    expect(
      on({})
        .part("pickguard")
        .findings()
        .map(({ id }) => id),
    ).not.toContain("covers-old");
    expect(severity("covers-old", { old: "points" })).toBe("fine");
  });
});

describe("any pickguard", () => {
  it("is drawn and checked in finite numbers for every table that is accepted", () => {
    const table = (kind: string, given: number) => accepted(partOf(kind)!.params, given);
    let whole = 0;
    let runs = 0;
    fc.assert(
      fc.property(table("soundhole", 0.2), table("pickguard", 0.3), fc.boolean(), (soundhole, pickguard, bare) => {
        const { part } = deriveParts({
          parts: { ...(bare ? {} : { fingerboard: {}, nut: {}, body: {}, bridge: {}, soundhole }), pickguard },
        });
        expectSound(part("pickguard"));
        runs += 1;
        if (part("pickguard").problems.length === 0) whole += 1;
      }),
      { numRuns: 40 },
    );
    expect(whole / runs).toBeGreaterThan(0.2);
  }, 120_000);
});
