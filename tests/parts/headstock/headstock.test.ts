import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { pathBounds } from "../../../src/geometry/measure.ts";
import { nearestOnPath } from "../../../src/geometry/nearest.ts";
import { distance, vec } from "../../../src/geometry/vec.ts";
import { passingClearance, postTangent } from "../../../src/lutherie/string-to-post.ts";
import type { MeasuresByKind } from "../../../src/parts/contract.ts";
import { createDeriver } from "../../../src/parts/derive.ts";
import type { DerivedPart, Problem, RawRecord } from "../../../src/parts/derived.ts";
import { partOf } from "../../../src/parts/registry.ts";
import { accepted } from "../accepted.ts";
import { findingOf, shapesOf, templateOf } from "../derived-board.ts";
import { expectSound } from "../sound.ts";

interface Head {
  readonly part: DerivedPart;
  readonly m: MeasuresByKind["headstock"];
  readonly problems: readonly Problem[];
}

function derive(given: RawRecord = {}, instrument: RawRecord = {}, more: Readonly<Record<string, RawRecord>> = {}): Head {
  const derived = createDeriver()({ units: "mm", instrument, parts: { head: { kind: "headstock", ...given }, ...more } });
  const part = derived.parts.find(({ kind }) => kind === "headstock")!;
  return { part, m: part.measures as Head["m"], problems: derived.problems };
}

/** Nearly parallel strings: three on each side, 10 apart at nut and saddle, straight along the board. */
const PLAIN = {
  nutWidth: 56,
  nutSpread: 50,
  saddleSpread: 50,
  strings: Array.from({ length: 6 }, () => ({ gauge: "1 mm" })),
  spacing: "equal-centre",
};

describe("a string to its post", () => {
  it("meets the tangent of a 3-4-5 triangle", () => {
    // d = 50, r = 30: the line is 40 long and turned by asin(0.6).
    const t = postTangent(vec(0, 0), vec(-50, 0), 30, "left")!;
    expect(Math.hypot(t.x, t.y)).toBeCloseTo(40, 12);
    expect(t).toEqual({ x: expect.closeTo(-32, 12), y: expect.closeTo(-24, 12) });
    expect(postTangent(vec(0, 0), vec(-50, 0), 30, "right")).toEqual({ x: expect.closeTo(-32, 12), y: expect.closeTo(24, 12) });
    expect(postTangent(vec(0, 0), vec(-20, 0), 30, "left")).toBeUndefined();
  });

  it("passes another post by its distance less both half thicknesses", () => {
    expect(passingClearance(vec(0, 0), vec(-100, 0), 1, vec(-40, 5), 3)).toBeCloseTo(1.5, 12);
    expect(passingClearance(vec(0, 0), vec(-100, 0), 1, vec(-103, 4), 3)).toBeCloseTo(1.5, 12);
  });
});

describe("a headstock", () => {
  it("places its tuners by distance along and from the edge, the outer strings nearest to the nut", () => {
    const { m, problems } = derive({ first: 40, pitch: 38, fromEdge: 13 }, PLAIN);
    expect(problems).toEqual([]);
    expect(m.tuners.map(({ string, row }) => [string, row])).toEqual([
      [1, 1],
      [2, 1],
      [3, 1],
      [4, -1],
      [5, -1],
      [6, -1],
    ]);
    for (const { string, at, edgeWood } of m.tuners) {
      const place = string <= 3 ? string - 1 : 6 - string;
      expect(at.x).toBeCloseTo(-5.5 - 40 - 38 * place, 9);
      expect(nearestOnPath(m.outline!, at).distance).toBeCloseTo(13, 6);
      expect(edgeWood).toBeCloseTo(13 - 5, 6);
    }
  });

  it("gives strings, angles and clearances that agree with the triangle worked by hand", () => {
    // A straight-sided head 96 wide: the treble hole 36 from the middle, 60 from the nut's back. String 1 leaves the nut at y = 25.
    // From (0, 25) to (-60, 36): d = hypot(60, 11) = 61; r = 3. Line sqrt(3721 - 9) = 60.926185; the way to the middle of the post
    // turns by atan(11 / 60) = 10.38886 degrees, the tangent inside of it lies asin(3 / 61) = 2.81895 degrees nearer: 7.56991 degrees.
    const outline = [
      { x: 0, y: 48 },
      { x: -180, y: 48 },
    ];
    const { m, problems } = derive(
      {
        first: 60,
        pitch: 40,
        fromEdge: 12,
        post: 6,
        outline,
        length: 180,
        tilt: "14 deg",
        faceBelowBoard: "4 mm",
        stringHeight: "6 mm",
      },
      PLAIN,
    );
    expect(problems).toEqual([]);
    const first = m.strings.find(({ string }) => string === 1)!;
    expect(first.from).toEqual({ x: -5.5, y: expect.closeTo(25, 9) });
    expect(m.tuners[0]!.at).toEqual({ x: -65.5, y: expect.closeTo(36, 6) });
    expect(distance(first.from, first.to)).toBeCloseTo(60.926185, 5);
    expect((first.angleAtNutRad * 180) / Math.PI).toBeCloseTo(7.56991, 4);
    // Without a nut the slot is taken 1 above the board, 5 above the head's face: 14 + atan((5 - 6) / 60.926185) = 14 - 0.940342 degrees.
    expect((first.breakRad * 180) / Math.PI).toBeCloseTo(13.059658, 4);
    // String 2 leaves at y = 15 for the post at (-100, 36), inside: the post of string 1 at (-60, 36) is the nearest it passes. The line
    // turns by atan(21 / 100) - asin(3 / hypot(100, 21)) = 11.85977 - 1.68242 = 10.17736 degrees: at x = -60 it is at 15 + 60 tan =
    // 25.77123, so the post's middle is (36 - 25.77123) cos(10.17736) = 10.06783 away; less 3 and 0.5.
    const second = m.strings.find(({ string }) => string === 2)!;
    expect(second.besidePost).toBe(1);
    expect(second.clearance).toBeCloseTo(6.56783, 3);
  });

  it("takes its width behind the nut from the nut, its thickness and the board's taper", () => {
    // 43 at the nut, 57 at the join at 325 mm: 14 / 325 x 6 = 0.258462 less behind a nut of 6.
    const { m } = derive(
      {},
      { scale: 650, joinFret: 12, nutWidth: 43 },
      { fingerboard: { kind: "fingerboard", widthAtJoin: 57 }, nut: { kind: "nut", thickness: 6 } },
    );
    expect(m.widthAtNut).toBeCloseTo(43 - 0.258462, 5);
    expect(m.startX).toBeCloseTo(-6, 9);
    const box = pathBounds(m.outline!);
    expect(box.maxX).toBeCloseTo(-6, 9);
    expect(nearestOnPath(m.outline!, vec(-6, m.widthAtNut / 2)).distance).toBeLessThan(1e-9);
  });

  it.each([true, false])("begins along a slanted nut, mirrored or not (%s)", (mirrored) => {
    // Two scales, 660 on the bass side and 630 on the treble, fret 7 square. Laid off along the centre line's direction: at fret 7 both
    // strings are 1 - 2^(-7/12) of their scale from their nut, so the bass nut stands 30 x 0.332580 = 9.9774 nearer to the head over a
    // spread of 36.
    const instrument = { ...PLAIN, nutWidth: 44, nutSpread: 36, scale: 630, bassScale: 660, squareFret: 7 };
    const { m, problems } = derive({ mirrored }, instrument, {
      fingerboard: { kind: "fingerboard" },
      nut: { kind: "nut", thickness: 6 },
    });
    expect(problems).toEqual([]);
    const slope = 9.9774 / 36;
    // The back is parallel to the face, so that 6 square to it are 6 / cos along the centre line.
    const backX = -6 * Math.hypot(1, slope);
    expect(m.startX).toBeCloseTo(backX, 3);
    const half = m.widthAtNut / 2;
    for (const y of [half, -half]) expect(nearestOnPath(m.outline!, vec(backX + slope * y, y)).distance).toBeLessThan(0.001);
    expect(m.crossings).toEqual([]);
    // Every string leaves at the back of the nut.
    for (const { from } of m.strings) expect(from.x).toBeCloseTo(backX + slope * from.y, 3);
  });

  it("says where its back is flat behind the neck's bend and volute, and sets the machines there", () => {
    const derived = createDeriver()({
      units: "mm",
      instrument: {},
      parts: {
        fingerboard: { kind: "fingerboard" },
        nut: { kind: "nut" },
        neck: { kind: "neck", volute: 3, voluteLength: 44 },
        head: { kind: "headstock" },
      },
    });
    expect(derived.problems).toEqual([]);
    const neck = derived.parts.find(({ kind }) => kind === "neck")!.measures as MeasuresByKind["neck"];
    const part = derived.parts.find(({ kind }) => kind === "headstock")!;
    const m = part.measures as Head["m"];
    // The place on the face from which a square through the head comes out on the back where the bend ends: from the side, x to the tail
    // and z up from the glue plane, the face leaves (headX, 0) along (-cos t, -sin t) and the back's place is h below it square to the face.
    const along = m.startX - m.flatBackX!;
    const [c, s, h] = [Math.cos(neck.tiltRad), Math.sin(neck.tiltRad), neck.headWood];
    const onFace = { x: neck.headX - along * c, z: -along * s };
    const onBack = { x: onFace.x + h * s, z: onFace.z - h * c };
    expect(onBack.x).toBeCloseTo(neck.headFlatX, 9);
    expect(onBack.z).toBeCloseTo(-((neck.headX - neck.headFlatX) * Math.tan(neck.tiltRad) + h / c), 9);
    expect(findingOf(part, "machines-flat").severity).toBe("fine");
    expectSound(part);
  });

  it("takes its pocket from a rod that is adjusted at the head, and the least wood under it through the shelf of the nut", () => {
    const parts = (more: RawRecord) => ({
      fingerboard: { kind: "fingerboard" },
      nut: { kind: "nut" },
      neck: { kind: "neck", rod: "head", ...more },
    });
    const { m, part, problems } = derive({}, {}, parts({}));
    expect(problems).toEqual([]);
    expect(part.fields.find(({ key }) => key === "rodPocket")!.value).toBe(true);
    expect(m.woodUnderPocket).toBeGreaterThan(0);
    expect(derive({}, {}, parts({ rod: "body" })).part.fields.find(({ key }) => key === "rodPocket")!.value).toBe(false);
  });

  it("names both lengths of the scarf: 20 at 15 degrees gives 77.27 along the cut and 74.64 on the blank", () => {
    const { m, part } = derive({ tilt: "15 deg", blankThickness: "20 mm" });
    expect(m.scarfCutFace).toBeCloseTo(77.27, 2);
    expect(m.scarfLayout).toBeCloseTo(74.64, 2);
    expect(templateOf(part, "scarf").table!.rows.map(({ label }) => label)).toEqual(["layout on the blank's face", "cut face"]);
    expect(derive({ tilt: "0 deg" }).m.scarfCutFace).toBeUndefined();
  });

  it("is looked at where it is longer or shorter than its neck by more than 1, just outside and not just inside", () => {
    const severity = (length: number) =>
      findingOf(derive({ length }, {}, { neck: { kind: "neck", headLength: 180 } }).part, "head-length").severity;
    expect([178.9, 179.1, 180.9, 181.1].map(severity)).toEqual(["look", "fine", "fine", "look"]);
  });

  it("is scarfed as its neck is: through the same blank, or not at all in a neck of one piece", () => {
    const behind = (neck: RawRecord) => derive({}, {}, { neck: { kind: "neck", ...neck } });
    const { m } = behind({ blankThickness: "22 mm", headTilt: "15 deg" });
    // 22 / sin 15 and 22 / tan 15.
    expect([m.scarfCutFace, m.scarfLayout]).toEqual([expect.closeTo(85.0015, 3), expect.closeTo(82.1051, 3)]);
    const whole = behind({ scarf: "none" });
    expect(whole.m.scarfCutFace).toBeUndefined();
    expect(whole.part.templates().map(({ name }) => name)).not.toContain("scarf");
  });

  it.each([
    ["two", 3],
    ["two", 4],
    ["one", 0],
    ["slotted", 3],
  ])("with rows %s draws soundly, left-handed too", (rows, trebleTuners) => {
    for (const handed of ["right", "left"]) {
      const { part, m, problems } = derive({ rows, trebleTuners, rodPocket: true }, { handed });
      expect(problems).toEqual([]);
      expectSound(part);
      expect(m.tuners).toHaveLength(6);
      expect(m.crossings).toEqual([]);
      expect(part.findings().filter(({ severity }) => severity === "stop")).toEqual([]);
    }
  });

  it("mirrors a left-handed head exactly", () => {
    const right = derive({ rows: "one" }, { handed: "right" }).m;
    const left = derive({ rows: "one" }, { handed: "left" }).m;
    for (const [i, tuner] of right.tuners.entries()) {
      expect(left.tuners[i]!.at.x).toBeCloseTo(tuner.at.x, 6);
      expect(left.tuners[i]!.at.y).toBeCloseTo(-tuner.at.y, 6);
    }
  });

  it("moves single tuners by their nudges", () => {
    const before = derive().m.tuners[1]!.at;
    const after = derive({ nudges: [{ string: 2, along: "2 mm", across: "-1.5 mm" }] }).m.tuners[1]!.at;
    expect([after.x - before.x, after.y - before.y]).toEqual([expect.closeTo(-2, 9), expect.closeTo(-1.5, 9)]);
  });

  it("is checked just inside and just outside of each limit", () => {
    const severity = (given: RawRecord, id: string): string => findingOf(derive(given, PLAIN).part, id).severity;
    const outline = [
      { x: 0, y: 48 },
      { x: -200, y: 48 },
    ];
    const wide = { outline, first: 60, length: 200 };
    expect(severity({ ...wide, fromEdge: 10.01 }, "tuner-edge")).toBe("fine");
    expect(severity({ ...wide, fromEdge: 9.9 }, "tuner-edge")).toBe("look");
    expect(severity({ ...wide, fromEdge: 4.9 }, "tuner-edge")).toBe("stop");
    expect(severity({ ...wide, pitch: 22.1, footprintLength: 22 }, "tuners-apart")).toBe("fine");
    expect(severity({ ...wide, pitch: 21.9, footprintLength: 22 }, "tuners-apart")).toBe("stop");
    expect(severity({ ...wide, tilt: "14 deg" }, "break-angle")).toBe("fine");
    expect(severity({ ...wide, tilt: "5 deg" }, "break-angle")).toBe("look");
    expect(severity({ ...wide, tilt: "0 deg", stringHeight: 12 }, "break-angle")).toBe("stop");
    expect(severity({ ...wide, rodPocket: true, thickness: 15, pocketDepth: 12 }, "pocket-wood")).toBe("fine");
    expect(severity({ ...wide, rodPocket: true, thickness: 15, pocketDepth: 12.1 }, "pocket-wood")).toBe("look");
    // Posts in the way of the strings behind them.
    expect(
      severity(
        {
          outline: [
            { x: 0, y: 30 },
            { x: -200, y: 30 },
          ],
          first: 60,
          fromEdge: 12,
          post: 6,
        },
        "string-clearance",
      ),
    ).not.toBe("fine");
  });

  it("finds holes that do not take their posts, or that the ferrules do not cover", () => {
    const hole = (given: RawRecord) => findingOf(derive(given).part, "tuner-hole").severity;
    expect([hole({ hole: 6.41, post: 6.2 }), hole({ hole: 6.39, post: 6.2 }), hole({ hole: 6.19, post: 6.2 })]).toEqual([
      "fine",
      "look",
      "stop",
    ]);
    expect([hole({ hole: 10, ferrule: 10.01 }), hole({ hole: 10, ferrule: 9.99 })]).toEqual(["fine", "look"]);
    expect(findingOf(derive({ tilt: 10 }).part, "tuner-hole")).toEqual(findingOf(derive().part, "tuner-hole"));
  });

  it("marks the middle of every hole and tables it from the nut", () => {
    const { part, m } = derive();
    const drilling = templateOf(part, "drilling");
    const ids = shapesOf(drilling.drawing).map(({ id }) => id);
    for (const { string } of m.tuners)
      expect(ids).toEqual(expect.arrayContaining([`tuner-${string}`, `mark-x-${string}`, `mark-y-${string}`]));
    expect(drilling.table!.rows[0]).toEqual({ label: "string 1", value: expect.closeTo(38, 6) });
  });

  it("measures, draws and checks in finite numbers for every table that is accepted", () => {
    fc.assert(
      fc.property(
        accepted(partOf("headstock")!.params, 0.25),
        accepted(partOf("instrument")!.params, 0.1),
        (head, instrument) => {
          const derived = createDeriver()({ units: "mm", instrument, parts: { head: { kind: "headstock", ...head } } });
          for (const part of derived.parts) expectSound(part);
        },
      ),
      { numRuns: 120 },
    );
  }, 120_000);
});
