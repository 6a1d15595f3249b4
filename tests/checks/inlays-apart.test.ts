/** Pockets of two spots, whose distances are those of circles: middles apart, less the radii. */
import { describe, expect, it } from "vitest";
import { addPart } from "../../src/document/edit-parts.ts";
import { setValue } from "../../src/document/set-value.ts";
import type { Design } from "../../src/document/design.ts";
import { pathBounds } from "../../src/geometry/measure.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { designWith, finding, findingsFor, findingsOnPart } from "./design.ts";

/** A round pocket of 10 drawn, of 10 and the gap of 0.05 cut: share 1 gives the pocket all of the gap. */
const RADIUS = 5.05;
const SPOT = {
  text: "",
  on: "fingerboard",
  placed: "centre",
  ornaments: [{ figure: "spot", size: 10 }],
  gap: 0.05,
  share: 1,
  x: 100,
  y: 0,
};

/** Two inlays of spots on the fingerboard, the second turned by a quarter and `by` mm along from the first. */
function spots(by: number, second: object = {}, values: Readonly<Record<string, unknown>> = {}): Design {
  const added = addPart(designWith(["inlay", "headstock"]), "inlay");
  if (!added.ok) throw new Error(added.error.message);
  let { design } = added.value;
  const all = [
    ...Object.entries({ ...SPOT, turn: 0 }).map(([key, value]) => [`inlay.${key}`, value] as const),
    ...Object.entries({ ...SPOT, turn: "90°", x: 100 + by, ...second }).map(([key, value]) => [`inlay2.${key}`, value] as const),
    ...Object.entries(values),
  ];
  for (const [path, value] of all) {
    const set = setValue(design, path, value);
    if (!set.ok) throw new Error(`${path}: ${set.error.message}`);
    design = set.value;
  }
  return design;
}

const ID = "inlays-apart/inlay";
const between = (by: number, values: Readonly<Record<string, unknown>> = {}) => finding(spots(by, {}, values), "inlay2", ID);
const asked = (design: Design) => findingsFor(design).filter(({ id }) => id.startsWith("inlays-apart"));

describe("two inlays on one part", () => {
  it("leave between them the distance of their middles less both radii, told halfway in the frame of the one it stands on", () => {
    const found = between(12);
    expect(found.measured).toBeCloseTo(12 - 2 * RADIUS, 5);
    expect(found.severity).toBe("fine");
    // Halfway lies 6 before the second's middle along the board; turned by a quarter, its own y runs against the board's x.
    expect(found.at!.x).toBeCloseTo(0, 5);
    expect(found.at!.y).toBeCloseTo(6, 5);
  });

  it("are looked at under 0.8 of wood and stopped under 0.15 (common practice, no source)", () => {
    const wall = (wood: number) => between(2 * RADIUS + wood).severity;
    expect([0.801, 0.799, 0.151, 0.149].map(wall)).toEqual(["fine", "look", "look", "stop"]);
  });

  it("stop where they overlap, by how far the one runs into the other", () => {
    // The second's nearest point is at 9 - 5.05 from the first's middle, 5.05 - 3.95 within its edge.
    const found = between(9);
    expect(found.severity).toBe("stop");
    // Depths are settled to 0.001 (geometry/cover.ts).
    expect(Math.abs(found.measured! - (2 * RADIUS - 9))).toBeLessThan(0.0015);
    expect(found.says).toBe("Its pocket runs {measured} into that of “Inlay”.");
    expect(found.at!.y).toBeCloseTo(RADIUS, 2);
  });

  it("that overlap are told on both, each naming the other, at one place, and count once among all", () => {
    const design = spots(9);
    expect(asked(design)).toHaveLength(1);
    const first = findingsOnPart(design, "inlay").find(({ id }) => id === "inlays-apart/inlay2");
    const second = findingsOnPart(design, "inlay2").find(({ id }) => id === ID);
    expect([first, second].map((one) => [one!.severity, one!.says])).toEqual([
      ["stop", "Its pocket runs {measured} into that of “Inlay 2”."],
      ["stop", "Its pocket runs {measured} into that of “Inlay”."],
    ]);
    expect(first!.measured).toBe(second!.measured);
    // The deepest point, 9 - 5.05 along the board from the first's middle, is seen in either's own frame.
    expect(first!.at!.x).toBeCloseTo(9 - RADIUS, 2);
    expect(first!.at!.y).toBeCloseTo(0, 2);
    expect(second!.at!.y).toBeCloseTo(RADIUS, 2);
  });

  it("stop where one lies wholly in the other, but pass where it lies within a ring", () => {
    expect(finding(spots(0, { ornaments: [{ figure: "spot", size: 2 }] }), "inlay2", ID).severity).toBe("stop");
    // A ring of 16 outside and 1 wide: its pocket begins 7 - 0.05 from the middle.
    const ring = finding(spots(0, { ornaments: [{ figure: "ring", size: 16, stroke: 1 }] }), "inlay2", ID);
    expect(ring.severity).toBe("fine");
    expect(ring.measured).toBeCloseTo(7 - 0.05 - RADIUS, 5);
  });

  it("are measured by the maker's own limit", () => {
    expect(between(12, { "limits.whole.inlays-apart.wall": 2 }).severity).toBe("look");
  });

  it("are each seen thin on the drawing of the other, where it lies in that one's frame", () => {
    const { parts } = createDeriver()(spots(12));
    const beside = (id: string, other: string) => {
      const shapes = parts
        .find((part) => part.id === id)!
        .drawing()
        .layers.flatMap((layer) => layer.shapes);
      const [shape, ...more] = shapes.filter((one) => one.id.startsWith(`${other}-`));
      expect(more).toEqual([]);
      expect([shape!.role, shape!.line]).toEqual(["guide", "adjacent"]);
      const { minX, maxX, minY, maxY } = pathBounds(shape!.path);
      expect(maxX - minX).toBeCloseTo(2 * RADIUS, 5);
      return [(minX + maxX) / 2, (minY + maxY) / 2];
    };
    const [x, y] = beside("inlay", "inlay2");
    expect(x).toBeCloseTo(12, 5);
    expect(y).toBeCloseTo(0, 5);
    // 12 back along the board is 12 along the y of one that is turned by a quarter.
    const [x2, y2] = beside("inlay2", "inlay");
    expect(x2).toBeCloseTo(0, 5);
    expect(y2).toBeCloseTo(12, 5);
  });

  it("are not asked of one inlay, nor of two on different parts", () => {
    expect(asked(designWith(["inlay"]))).toEqual([]);
    expect(asked(spots(12, { on: "none" }))).toEqual([]);
    const onHead = spots(12, { on: "headstock", x: 112 });
    expect(finding(onHead, "inlay2", "host").severity).toBe("fine");
    expect(asked(onHead)).toEqual([]);
  });
});
