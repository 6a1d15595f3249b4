/** The JTS Topology Suite (the npm package jsts), a general-purpose geometry library, as an independent witness. */
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import BufferOp from "jsts/org/locationtech/jts/operation/buffer/BufferOp.js";
import BufferParameters from "jsts/org/locationtech/jts/operation/buffer/BufferParameters.js";
import OverlayOp from "jsts/org/locationtech/jts/operation/overlay/OverlayOp.js";
import { ringsOf, type Region, type Ring } from "../../src/geometry/region.ts";
import { ringIndex } from "../../src/geometry/ring-index.ts";
import { vec } from "../../src/geometry/vec.ts";

const factory = new GeometryFactory();
const linear = (ring: Ring) => factory.createLinearRing([...ring, ring[0]!].map((p) => new Coordinate(p.x, p.y)));

/** A JTS geometry; its own types are not worth their weight here. */
export type Jts = {
  getArea(): number;
  getNumGeometries(): number;
  getGeometryN(n: number): Jts;
  getNumInteriorRing(): number;
  getBoundary(): Jts;
  getCoordinates(): { x: number; y: number }[];
  isEmpty(): boolean;
};

export const toJts = (region: Region): Jts =>
  factory.createMultiPolygon(
    region.map(({ outer, holes }) => factory.createPolygon(linear(outer), holes.map(linear))),
  ) as unknown as Jts;

/** Area of what lies in `a` and not in `b`. */
export function jtsLeft(a: Region | Jts, b: Region | Jts): number {
  const op = OverlayOp as unknown as { overlayOp(a: Jts, b: Jts, code: number): Jts; DIFFERENCE: number };
  const given = (side: Region | Jts): Jts => ("getArea" in side ? side : toJts(side));
  return op.overlayOp(given(a), given(b), op.DIFFERENCE).getArea();
}

export const jtsUnion = (a: Region, b: Region): Jts => overlay(a, b, "UNION");
export const jtsDifference = (a: Region, b: Region): Jts => overlay(a, b, "DIFFERENCE");
export const jtsIntersection = (a: Region, b: Region): Jts => overlay(a, b, "INTERSECTION");
export const jtsExclusive = (a: Region, b: Region): Jts => overlay(a, b, "SYMDIFFERENCE");

function overlay(a: Region, b: Region, name: "UNION" | "DIFFERENCE" | "INTERSECTION" | "SYMDIFFERENCE"): Jts {
  const op = OverlayOp as unknown as { overlayOp(a: Jts, b: Jts, code: number): Jts } & Record<string, number>;
  return op.overlayOp(toJts(a), toJts(b), op[name]!);
}

/** Offset with round joins of 64 chords a quarter (0.0002 mm off at a radius of 2.4), or mitred without limit. */
export function jtsOffset(region: Region, delta: number, join: "round" | "miter" = "round"): Jts {
  const parameters = new BufferParameters();
  parameters.setQuadrantSegments(64);
  if (join === "miter") {
    parameters.setJoinStyle(BufferParameters.JOIN_MITRE);
    parameters.setMitreLimit(1000);
  }
  // Left alone, it thins what it is given by a hundredth of the distance.
  parameters.setSimplifyFactor(1e-5);
  return new BufferOp(toJts(region), parameters).getResultGeometry(delta) as unknown as Jts;
}

/** Greatest distance from a point of either's edge, corners and middles of sides, to the other's edge; infinite beyond 0.05. */
export function edgesApart(a: Region, b: Jts): number {
  const ours = ringsOf(a);
  const theirs = ringsOfJts(b);
  return Math.max(farthest(ours, theirs), farthest(theirs, ours));
}

function farthest(from: readonly Ring[], to: readonly Ring[]): number {
  const index = ringIndex(to, 0.05);
  let worst = 0;
  for (const ring of from)
    for (const [i, a] of ring.entries()) {
      const b = ring[(i + 1) % ring.length]!;
      for (const p of [a, vec((a.x + b.x) / 2, (a.y + b.y) / 2)])
        worst = Math.max(worst, index.distanceWithin(p, 0.05) ?? Infinity);
    }
  return worst;
}

/** The rings of a JTS polygon or multipolygon. */
function ringsOfJts(g: Jts): Ring[] {
  const boundary = g.getBoundary();
  return Array.from({ length: boundary.getNumGeometries() }, (_, i) =>
    boundary
      .getGeometryN(i)
      .getCoordinates()
      .slice(1)
      .map(({ x, y }) => vec(x, y)),
  );
}

export const jtsCounts = (g: Jts): { parts: number; holes: number } => {
  const parts = Array.from({ length: g.getNumGeometries() }, (_, i) => g.getGeometryN(i)).filter((part) => !part.isEmpty());
  return { parts: parts.length, holes: parts.reduce((sum, part) => sum + part.getNumInteriorRing(), 0) };
};
