/** What an inlay comes near to on the part that it lies on. Lengths in mm. */
import { inverse, transformPath, transformPoint, type Affine } from "../../geometry/transform.ts";
import { pathsOf, type Outline } from "../../geometry/outline.ts";
import { flatten } from "../../geometry/flatten.ts";
import type { Path } from "../../geometry/path.ts";
import { ringWinding, type Ring } from "../../geometry/region.ts";
import { distance, distanceToSegment, lerp, vec, type Vec } from "../../geometry/vec.ts";
import type { Sources } from "../contract.ts";
import { distanceToRing, type Host } from "./host.ts";
import type { InlayParams } from "./numbers.ts";

/** The least distance of the pocket's edge from something, below 0 where it runs over it, and where. */
export interface Margin {
  readonly distance: number;
  /** In the frame of the letters. */
  readonly at: Vec;
  /** "the edge", "fret 12" */
  readonly from: string;
}

export interface Margins {
  readonly edge?: Margin;
  readonly hole?: Margin;
  readonly fret?: Margin;
  readonly string?: Margin;
  readonly saddle?: Margin;
}

/** Chords of edges, and the greatest distance between points that are looked from. */
const CHORD = 0.02;
const STEP = 0.4;

/** A straight thing on the part, `half` wide to each side. */
interface Bar {
  readonly kind: "fret" | "string" | "saddle";
  readonly name: string;
  readonly a: Vec;
  readonly b: Vec;
  readonly half: number;
}

/** `place` carries the pocket to where it lies on its host. */
export function marginsOf(p: InlayParams, host: Host, pocket: readonly Outline[], place: Affine, from: Sources): Margins {
  const found = marginsAt(
    p,
    host,
    pocket.flatMap(pathsOf).map((path) => transformPath(place, path)),
    from,
  );
  const back = inverse(place);
  return Object.fromEntries(
    Object.entries(found).map(([key, margin]: [string, Margin]) => [key, { ...margin, at: transformPoint(back, margin.at) }]),
  );
}

function marginsAt(p: InlayParams, host: Host, pocket: readonly Path[], from: Sources): Margins {
  const points = pocket.flatMap((path) => spaced(flatten(path, CHORD)));
  if (points.length === 0) return {};
  const edge = nearestRing(points, [flatten(host.outline, CHORD)], true, "the edge");
  const hole = nearestRing(
    points,
    host.holes.map((path) => flatten(path, CHORD)),
    false,
    "a hole",
  );
  const bars = barsOf(p, from);
  const nearest = (kind: Bar["kind"]): Margin | undefined =>
    least(bars.filter((bar) => bar.kind === kind).map((bar) => nearestBar(points, bar)));
  const [fret, string, saddle] = [nearest("fret"), nearest("string"), nearest("saddle")];
  return {
    ...(edge ? { edge } : {}),
    ...(hole ? { hole } : {}),
    ...(fret ? { fret } : {}),
    ...(string ? { string } : {}),
    ...(saddle ? { saddle } : {}),
  };
}

/** The ring's corners and points between them. */
function spaced(ring: Ring): Vec[] {
  return ring.flatMap((a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    const count = Math.max(1, Math.ceil(distance(a, b) / STEP));
    return Array.from({ length: count }, (_, k) => lerp(a, b, k / count));
  });
}

/** `inside`: points are to lie inside the rings, else outside of them. */
function nearestRing(points: readonly Vec[], rings: readonly Ring[], inside: boolean, from: string): Margin | undefined {
  let best: Margin | undefined;
  for (const at of points) {
    const sign = rings.some((ring) => ringWinding(ring, at) !== 0) === inside ? 1 : -1;
    // On the right side the nearest point counts, on the wrong one the farthest.
    if (sign === 1 && best && best.distance < 0) continue;
    const away = Math.min(...rings.map((ring) => distanceToRing(ring, at)));
    if (away < Infinity && (!best || sign * away < best.distance)) best = { distance: sign * away, at, from };
  }
  return best;
}

function nearestBar(points: readonly Vec[], { a, b, half, name }: Bar): Margin {
  let best: Margin = { distance: Infinity, at: points[0]!, from: name };
  for (const at of points) {
    const away = distanceToSegment(at, a, b) - half;
    if (away < best.distance) best = { distance: away, at, from: name };
  }
  return best;
}

const least = (margins: readonly Margin[]): Margin | undefined =>
  margins.reduce<Margin | undefined>((best, margin) => (best && best.distance <= margin.distance ? best : margin), undefined);

function barsOf(p: InlayParams, from: Sources): Bar[] {
  if (p.on === "fingerboard")
    return (from.get("fingerboard")?.frets ?? []).flatMap((fret): Bar[] => {
      if (!fret.slotEnds) return [];
      const [a, b] = fret.slotEnds;
      return [{ kind: "fret", name: `fret ${fret.number}`, a: vec(...a), b: vec(...b), half: 0 }];
    });
  if (p.on === "headstock")
    return (from.get("headstock")?.strings ?? []).map(({ string, from: a, to: b, gauge }): Bar => ({
      kind: "string",
      name: `string ${string}`,
      a,
      b,
      half: gauge / 2,
    }));
  const ends = p.on === "bridge" ? from.get("bridge")?.saddle.ends : undefined;
  return ends ? [{ kind: "saddle", name: "the saddle", a: vec(...ends[0]), b: vec(...ends[1]), half: 0 }] : [];
}
