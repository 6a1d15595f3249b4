/** Heel and joint. */
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import DistanceOp from "jsts/org/locationtech/jts/operation/distance/DistanceOp.js";
import { describe, expect, it } from "vitest";
import { flatten } from "../../../src/geometry/flatten.ts";
import { pathBounds } from "../../../src/geometry/measure.ts";
import type { Path } from "../../../src/geometry/path.ts";
import { findingOf, shapeOf, templateOf } from "../derived-board.ts";
import { deriveNeck, type Given } from "./derived-neck.ts";

const severityOf = (id: string, given: Given): string => findingOf(deriveNeck(given).part, id).severity;
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

const factory = new GeometryFactory();
const points = (path: Path) => flatten(path, 1e-4).map(({ x, y }) => new Coordinate(x, y));
const ring = (path: Path) => {
  const all = points(path);
  return factory.createLineString([...all, all[0]!]);
};

/** Least and greatest distance of the cut's points well below the top from the template's edge. */
function gap(cut: Path, edge: Path): readonly [number, number] {
  const line = ring(edge);
  const away = points(cut)
    .filter(({ y }) => y < -5)
    .map((point) => DistanceOp.distance(factory.createPoint(point), line) as number);
  return [Math.min(...away), Math.max(...away)];
}

describe("one guide bush for both halves of the joint", () => {
  for (const joint of ["tenon", "dovetail"] as const)
    it(`keeps both edges of a ${joint} at (bush - bit)/2 = (16 - 12)/2 = 2 from what is cut`, () => {
      const { part } = deriveNeck({ neck: { joint, bush: "16", bit: "12" } });
      for (const name of ["joint-inside", "joint-outside"]) {
        const { drawing } = templateOf(part, name);
        const [least, most] = gap(shapeOf(drawing, "cut").path, shapeOf(drawing, "outline").path);
        expect(least, name).toBeCloseTo(2, 3);
        expect(most, name).toBeCloseTo(2, 3);
        // The inside template is larger than its mortise, the outside one smaller than its tongue.
        const wide = (id: string): number => pathBounds(shapeOf(drawing, id).path).minY;
        expect(Math.sign(wide("cut") - wide("outline"))).toBe(name === "joint-inside" ? 1 : -1);
      }
    });

  it("rounds the lower corners so that the bit reaches the mortise's and the bush goes round the tongue's", () => {
    const { part } = deriveNeck({ neck: { bush: "16", bit: "12" } });
    const arcs = (name: string, id: string): number[] => {
      const path = shapeOf(templateOf(part, name).drawing, id).path;
      let from = path.start;
      return path.segments.flatMap((segment) => {
        const radius = segment.kind === "arc" ? [Math.hypot(from.x - segment.centre.x, from.y - segment.centre.y)] : [];
        from = segment.to;
        return radius;
      });
    };
    // Half the bit in the wood; half the bush inside its template.
    expect(arcs("joint-inside", "cut")).toEqual([expect.closeTo(6, 9), expect.closeTo(6, 9)]);
    expect(arcs("joint-inside", "outline")).toEqual([expect.closeTo(8, 9), expect.closeTo(8, 9)]);
    expect(arcs("joint-outside", "cut")).toEqual([expect.closeTo(6, 9), expect.closeTo(6, 9)]);
    expect(arcs("joint-outside", "outline")).toEqual([expect.closeTo(4, 9), expect.closeTo(4, 9)]);
  });

  it("gives a tenon the width of its mortise", () => {
    const { part } = deriveNeck({ neck: { tenonWidth: "20" } });
    for (const name of ["joint-inside", "joint-outside"]) {
      const box = pathBounds(shapeOf(templateOf(part, name).drawing, "cut").path);
      expect(box.maxX - box.minX).toBeCloseTo(20, 9);
    }
  });

  it("narrows a dovetail to its root by length · tan(flare) a side and to its foot by depth · tan(taper)", () => {
    const { m } = deriveNeck({
      neck: { joint: "dovetail", tenonWidth: "32", tenonLength: "18", tenonDepth: "60", flare: "10°", dovetailTaper: "3°" },
    });
    expect(m.tongueRootWidth).toBeCloseTo(32 - 2 * 18 * Math.tan(radians(10)), 9);
    expect(m.tongueFootWidth).toBeCloseTo(32 - 2 * 60 * Math.tan(radians(3)), 9);
    expect(m.bolts).toEqual([]);
  });

  it("is refused where the bit is as wide as the bush or wider than the mortise", () => {
    expect(severityOf("joint-bush", {})).toBe("fine");
    expect(severityOf("joint-bush", { neck: { joint: "dovetail" } })).toBe("fine");
    expect(severityOf("joint-bush", { neck: { bush: "12.7" } })).toBe("stop");
    expect(severityOf("joint-bush", { neck: { tenonWidth: "12.6" } })).toBe("stop");
    const none = deriveNeck({ neck: { joint: "butt" } }).part;
    expect(none.templates().map(({ name }) => name)).not.toContain("joint-inside");
    expect(none.findings().map(({ id }) => id)).not.toContain("joint-bush");
  });
});

describe("a heel", () => {
  it("closes from the neck's width to its foot, seen from the body", () => {
    const { part, m } = deriveNeck();
    const sheet = templateOf(part, "heel-front");
    const heel = flatten(shapeOf(sheet.drawing, "outline").path, 1e-3);
    const halfAt = (share: number): number => {
      const y = -share * m.heelDepth;
      const i = heel.findIndex((p, k) => k > 0 && p.x > 0 && (heel[k - 1]!.y - y) * (p.y - y) <= 0);
      const [a, b] = [heel[i - 1]!, heel[i]!];
      return a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y);
    };
    // Half way down a quarter of the way in: half width less a quarter of the difference.
    expect(halfAt(0.5)).toBeCloseTo((m.widthAtJoin - (m.widthAtJoin - m.heelCapWidth) / 4) / 2, 3);
    expect(sheet.table!.rows.map(({ label }) => label)).toEqual(["bolt 1", "bolt 2", "foot", "foot cut back by"]);
  });

  it("has a cap of the foot's size", () => {
    const { part } = deriveNeck({ neck: { heelCapWidth: "30", heelCapLength: "16" } });
    const box = pathBounds(shapeOf(templateOf(part, "heel-cap").drawing, "outline").path);
    expect([box.maxX - box.minX, box.maxY - box.minY]).toEqual([expect.closeTo(30, 9), expect.closeTo(16, 9)]);
  });

  it("is told where it has no shape or carries too little", () => {
    expect(severityOf("heel", {})).toBe("fine");
    expect(severityOf("heel/depth", { neck: { heelDepth: "15" } })).toBe("stop");
    expect(severityOf("heel/length", { neck: { heelLength: "12" } })).toBe("stop");
    expect(severityOf("heel/width", { neck: { heelCapWidth: "60" } })).toBe("look");
    expect(severityOf("heel/width", { neck: { heelCapWidth: "11" } })).toBe("look");
    expect(severityOf("tongue/cheek", { neck: { tenonWidth: "42" } })).toBe("look");
    expect(severityOf("tongue/cheek", { neck: { tenonWidth: "60" } })).toBe("stop");
    expect(severityOf("tongue/root", { neck: { joint: "dovetail", flare: "28°" } })).toBe("look");
    expect(severityOf("tongue/block", { neck: { blockThickness: "20.9" } })).toBe("look");
    expect(severityOf("tongue/block", { neck: { blockThickness: "21" } })).toBe("fine");
    expect(severityOf("tongue/block", { neck: { blockThickness: "14" } })).toBe("stop");
  });

  it("holds its inserts clear of its sides, of each other and of the rod", () => {
    expect(severityOf("bolts/round", {})).toBe("fine");
    // A tenon of 15.4 round an insert of 9.5: 2.95 a side.
    expect(severityOf("bolts/round", { neck: { tenonWidth: "15.4", bit: "6" } })).toBe("look");
    expect(severityOf("bolts/apart", { neck: { boltSpacing: "12" } })).toBe("look");
    // The rod of the body runs over the bolts: 9.5 deep, the insert's upper edge at 17 - 4.75.
    expect(severityOf("bolts/rod", { neck: { rod: "body", firstBolt: "17.3" } })).toBe("fine");
    expect(severityOf("bolts/rod", { neck: { rod: "body", firstBolt: "17.2" } })).toBe("look");
    expect(severityOf("bolts/rod", { neck: { rod: "body", firstBolt: "14" } })).toBe("stop");
  });

  it("drills bolts and inserts where they are said to be", () => {
    const { part, m } = deriveNeck({ neck: { firstBolt: "28", boltSpacing: "40" } });
    expect(m.bolts).toEqual([28, 68]);
    const hole = shapeOf(templateOf(part, "heel-front").drawing, "insert-2");
    const box = pathBounds(hole.path);
    expect(hole.role).toBe("drill");
    expect([(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2]).toEqual([expect.closeTo(0, 9), expect.closeTo(-68, 9)]);
    expect(box.maxX - box.minX).toBeCloseTo(9.5, 9);
  });
});
