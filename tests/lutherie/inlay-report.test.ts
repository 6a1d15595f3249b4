import { describe, expect, it } from "vitest";
import { uniteRings } from "../../src/geometry/clipper.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { circle, rectangle } from "../../src/geometry/path.ts";
import { regionArea, type Region, type Ring } from "../../src/geometry/region.ts";
import { transformPoint } from "../../src/geometry/transform.ts";
import { distance, vec, type Vec } from "../../src/geometry/vec.ts";
import { cornerArea, cornerTip } from "../../src/lutherie/inlay-corner.ts";
import { inlayPair, type PairCutting } from "../../src/lutherie/inlay-pair.ts";
import { inlayReport, type InlayReport } from "../../src/lutherie/inlay-report.ts";
import { FRAMES, placeRegion } from "../geometry/frames.ts";
import { faceById } from "../lettering/font-files.ts";
import { set } from "../lettering/spec.ts";

const CUTTING: PairCutting = { pocketRadius: 0.254, pieceRadius: 0.254, gap: 0.05, share: 0.5, pieces: "apart", mend: "cut" };
const A = 0.254 - 0.025;
const box = (x0: number, y0: number, x1: number, y1: number): Ring => flatten(rectangle(x0, y0, x1, y1));
const reportOf = (shape: Region, over: Partial<PairCutting> = {}): InlayReport =>
  inlayReport(shape, inlayPair(shape, { ...CUTTING, ...over }));

describe.each(FRAMES)("what becomes of a shape %s", (_, frame) => {
  const at = (x: number, y: number): Vec => transformPoint(frame, vec(x, y));
  const shape = (...rings: Ring[]): Region => placeRegion(frame, uniteRings(rings));

  it("is the tip of a 30 degree wedge shortened by (r - g/2)(1/sin 15 - 1) = 0.6558, and less at the other corners", () => {
    const wedge = shape([vec(0, 0), vec(9.659258, -2.58819), vec(9.659258, 2.58819)]);
    const { lost, added, changes } = reportOf(wedge);
    expect(lost).toHaveLength(3);
    expect(lost[0]!.depth).toBeCloseTo(0.6558, 2);
    expect(lost[0]!.depth).toBeCloseTo(cornerTip(A, Math.PI / 6), 2);
    expect(distance(lost[0]!.at, at(0, 0))).toBeLessThan(0.005);
    expect(lost[0]!.area).toBeCloseTo(cornerArea(A, Math.PI / 6), 2);
    expect([added, changes]).toEqual([[], []]);
  });

  it("is one inward corner of an L filled by (r - g/2)^2 (1 - pi/4), five outward ones rounded by as much", () => {
    const report = reportOf(shape([vec(0, 0), vec(6, 0), vec(6, 2), vec(2, 2), vec(2, 6), vec(0, 6)]));
    expect(report.lost).toHaveLength(5);
    expect(report.added).toHaveLength(1);
    // Chords within 0.0004 cut arcs of 0.229 short by half a hundredth.
    expect(Math.abs(report.lostArea / (5 * A * A * (1 - Math.PI / 4)) - 1)).toBeLessThan(0.015);
    expect(Math.abs(report.addedArea / (A * A * (1 - Math.PI / 4)) - 1)).toBeLessThan(0.015);
    // Deepest in the middle of its arc, A (1 - sqrt(1/2)) from either side and A (sqrt(2) - 1) from the corner.
    expect(report.added[0]!.depth).toBeCloseTo(A * (1 - Math.SQRT1_2), 2);
    expect(distance(report.added[0]!.at, at(2, 2))).toBeCloseTo(A * (Math.SQRT2 - 1), 2);
    // In the wood the cutter reaches g/2 further than the outline: the same corner with its own radius, the gap given back along the bisector.
    const standing = 5 * (0.254 ** 2 * (1 - Math.PI / 4) - strip(0.254, 0.025));
    expect(Math.abs(report.unreachedArea / standing - 1)).toBeLessThan(0.03);
  });

  it("is a stroke broken where a neck is thinner than the cutter, both halves told of", () => {
    const dumbbell = shape(flatten(circle(vec(0, 0), 2)), flatten(circle(vec(8, 0), 2)), box(0, -0.2, 8, 0.2));
    const { changes, lost } = reportOf(dumbbell);
    expect(changes).toEqual([{ kind: "broken", piece: 0, into: 2 }]);
    expect(lost[0]!.area).toBeGreaterThan(1);
    // The middle of the neck is the farthest from what is left.
    expect(distance(lost[0]!.at, at(4, 0))).toBeLessThan(0.3);
  });

  it("is a dot that vanishes, a counter filled, a slit closed to a hole, a ring cut open", () => {
    const dot = shape(box(0, 0, 4, 4), flatten(circle(vec(8, 2), 0.2)));
    expect(reportOf(dot).changes).toEqual([{ kind: "vanished", piece: dot.length === 2 ? smaller(dot) : 0 }]);
    const counter = shape(box(0, 0, 4, 4), box(1.9, 1.9, 2.2, 2.2).toReversed());
    expect(reportOf(counter).changes).toMatchObject([{ kind: "filled", piece: 0 }]);
    const mouth = shape(
      [vec(0, 0), vec(6, 0), vec(6, 2.9), vec(3, 2.9), vec(3, 2), vec(1, 2), vec(1, 4), vec(3, 4), vec(3, 3.1), vec(6, 3.1), vec(6, 6), vec(0, 6)], // prettier-ignore
    );
    const [pierced, ...others] = reportOf(mouth).changes;
    expect(others).toEqual([]);
    expect(pierced).toMatchObject({ kind: "pierced", piece: 0 });
    if (pierced?.kind === "pierced") expect(distance(pierced.at, at(2, 3))).toBeLessThan(0.2);
    const thin = shape(flatten(circle(vec(0, 0), 3)), flatten(circle(vec(0.7, 0), 2.1)).toReversed());
    expect(reportOf(thin).changes).toMatchObject([{ kind: "opened", piece: 0 }]);
  });

  it("is pieces joined where the piece is to stay in one and the cutter does not pass between them", () => {
    const squares = shape(box(0, 0, 3, 3), box(3.2, 0, 6.2, 3));
    expect(reportOf(squares).changes).toEqual([]);
    const joined = reportOf(squares, { pieces: "joined" });
    expect(joined.changes).toEqual([{ kind: "joined", pieces: [0, 1] }]);
    expect(joined.addedArea).toBeGreaterThan(0.4);
  });

  it("is nothing lost to a knife", () => {
    const { lost, added, unreached, changes } = reportOf(shape([vec(0, 0), vec(9, -1), vec(9, 1)]), {
      pocketRadius: 0,
      pieceRadius: 0,
    });
    expect([lost, added, unreached, changes]).toEqual([[], [], [], []]);
  });
});

/** Area between the corner of a square and that corner moved out by g along both sides, cut off by the circle of radius r in the moved one. */
function strip(r: number, g: number): number {
  // What of the rounded corner of radius r lies outside of the unmoved sides.
  const full = r * r * (1 - Math.PI / 4);
  const reach = r - g;
  // Inside: the part of the corner square [0, reach]^2 beyond the circle about (reach, reach) of radius r.
  let inside = 0;
  const n = 20000;
  for (let i = 0; i < n; i++) {
    const x = (reach * (i + 0.5)) / n;
    const y = reach - Math.sqrt(r * r - (reach - x) ** 2);
    inside += (Math.max(0, y) * reach) / n;
  }
  return full - inside;
}

const smaller = (region: Region): number => (regionArea([region[0]!]) < regionArea([region[1]!]) ? 0 : 1);

describe("letters", () => {
  it("an H of 10 mm an em breaks into two under a cutter of 0.508, at 20 mm it is whole", () => {
    const broken = set(faceById("cormorant-garamond"), "H", { size: { by: "em", value: 10 } }).region;
    expect(reportOf(broken).changes).toEqual([{ kind: "broken", piece: 0, into: 2 }]);
    const whole = set(faceById("cormorant-garamond"), "H", { size: { by: "em", value: 20 } }).region;
    expect(reportOf(whole).changes).toEqual([]);
  });

  it("what is lost and added agrees with clipping the shape and the outline, slivers apart", () => {
    for (const [id, text] of [
      ["lato", "R"],
      ["cormorant-garamond", "&"],
      ["great-vibes", "B"],
    ] as const) {
      const { region } = set(faceById(id), text, { size: { by: "cap-height", value: 12 } });
      const pair = inlayPair(region, CUTTING);
      const { lostArea, addedArea } = inlayReport(region, pair);
      // Area kept = shape - lost = outline - added.
      expect(Math.abs(regionArea(region) - lostArea - (regionArea(pair.common) - addedArea))).toBeLessThan(0.03);
    }
  });
});
