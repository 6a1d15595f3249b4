/** Where a dragged point comes to rest. */
import { nearestOnPath } from "../../../geometry/nearest.ts";
import type { Path } from "../../../geometry/path.ts";
import { add, distance, dot, scale, sub, vec, type Vec } from "../../../geometry/vec.ts";

export const SNAPS = ["grid", "points", "centre", "strings", "level", "tangent"] as const;
export type Snap = (typeof SNAPS)[number];

export const SNAP_WORDS: Readonly<Record<Snap, { readonly label: string; readonly about: string }>> = {
  grid: { label: "Grid", about: "Whole steps of the rulers" },
  points: { label: "Points", about: "On other points, and on images of them" },
  centre: { label: "Centre line", about: "On the line itself" },
  strings: { label: "String lines", about: "On the lines of the strings" },
  level: { label: "Equal height", about: "Level with, or right across from, another point" },
  tangent: { label: "Tangent", about: "In line with the neighbour's straight side" },
};

export interface SnapPlaces {
  readonly on: ReadonlySet<Snap>;
  /** How near counts, mm. */
  readonly reach: number;
  readonly grid: number;
  readonly points: readonly Vec[];
  readonly strings: readonly Path[];
  /** Lines that a neighbour's side runs on along. */
  readonly tangents: readonly { readonly at: Vec; readonly direction: Vec }[];
}

export interface Snapped {
  readonly at: Vec;
  /** What it rests on, for a mark and for words. */
  readonly why: Snap | undefined;
}

/** The nearest place in reach, exact places before lines, lines before the grid. */
export function snapped(p: Vec, places: SnapPlaces): Snapped {
  const { on, reach } = places;
  const near = (candidates: readonly Vec[]): Vec | undefined =>
    candidates.filter((q) => distance(q, p) <= reach).toSorted((a, b) => distance(a, p) - distance(b, p))[0];
  if (on.has("points")) {
    const at = near(places.points);
    if (at) return { at, why: "points" };
  }
  if (on.has("strings")) {
    const at = near(places.strings.map((path) => nearestOnPath(path, p).point));
    if (at) return { at, why: "strings" };
  }
  if (on.has("tangent")) {
    const at = near(
      places.tangents.map(({ at: q, direction }) =>
        add(q, scale(direction, dot(sub(p, q), direction) / dot(direction, direction))),
      ),
    );
    if (at) return { at, why: "tangent" };
  }
  const x = on.has("level")
    ? level(
        p.x,
        places.points.map((q) => q.x),
        reach,
      )
    : undefined;
  const centre = on.has("centre") && Math.abs(p.y) <= reach ? 0 : undefined;
  const y =
    centre ??
    (on.has("level")
      ? level(
          p.y,
          places.points.map((q) => q.y),
          reach,
        )
      : undefined);
  if (x !== undefined || y !== undefined) return { at: vec(x ?? p.x, y ?? p.y), why: centre === 0 ? "centre" : "level" };
  if (!on.has("grid")) return { at: p, why: undefined };
  const step = (value: number): number => Math.round(value / places.grid) * places.grid;
  return { at: vec(step(p.x), step(p.y)), why: "grid" };
}

const level = (value: number, others: readonly number[], reach: number): number | undefined =>
  others.filter((other) => Math.abs(other - value) <= reach).toSorted((a, b) => Math.abs(a - value) - Math.abs(b - value))[0];
