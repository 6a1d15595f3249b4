/**
 * The wood left along a channel that runs down a neck.
 *
 * For each place of the neck's surface the nearest place of the channel is the station square to it, or the channel's end where it
 * stops short of that: so the least wood is the least, over all stations, of the distance in the section (see neck-walls), at up to
 * 10 mm beyond the ends with the way along the neck added by Pythagoras. Exact for a channel of constant depth that runs
 * along the centre line; one that slopes by s is out by its cosine, less than 0.1 % at 2 degrees.
 */
import type { Vec } from "../geometry/vec.ts";
import { leastBetween } from "./least-between.ts";
import type { NeckSection } from "./neck-section.ts";
import { wallOfCorners, type Channel } from "./neck-walls.ts";

/** A channel from x to x with a straight floor: its middle (above 0 to the treble) and depth at both ends, mm. from < to. */
export interface ChannelRun {
  readonly from: number;
  readonly to: number;
  readonly width: number;
  readonly middleFrom: number;
  readonly middleTo: number;
  readonly depthFrom: number;
  readonly depthTo: number;
}

/** The least wall of one kind: where along the neck, and both its ends in the section there. */
export interface PlacedWall {
  readonly distance: number;
  readonly x: number;
  readonly from: Vec;
  readonly to: Vec;
}

/** How far beyond the ends of a channel the surface is looked at, mm: farther off than any wall that matters. */
const BEYOND = 10;
/** Stations lie at most this far apart, mm; about the least of them the place is then found to the second, where the wall is level. */
const STEP = 25;
const WITHIN = 0.05;

/** The channel's cross section at x, held at its ends. */
export function channelAt(run: ChannelRun, x: number): Channel {
  const t = Math.min(Math.max((x - run.from) / (run.to - run.from), 0), 1);
  return {
    middle: run.middleFrom + (run.middleTo - run.middleFrom) * t,
    width: run.width,
    depth: run.depthFrom + (run.depthTo - run.depthFrom) * t,
  };
}

/**
 * The least wall behind or beside a run, over the neck between `limits` (its sections exist there); undefined where no part of the run
 * lies between them. `places` are stations that must be looked at: where the neck's shape changes. RangeError for a run without length.
 */
export function leastWall(
  run: ChannelRun,
  sectionAt: (x: number) => NeckSection,
  which: "behind" | "beside",
  limits: { readonly from: number; readonly to: number },
  places: readonly number[] = [],
): PlacedWall | undefined {
  if (!(run.from < run.to)) throw new RangeError("leastWall: the channel has no length");
  if (run.to <= limits.from || run.from >= limits.to) return undefined;
  const low = Math.max(limits.from, run.from - BEYOND);
  const high = Math.min(limits.to, run.to + BEYOND);
  const stations = stationsOf(low, high, [run.from, run.to, ...places]);
  return least(stations, (x) => wallFrom(run, sectionAt, x, which));
}

/** The wall between a run and the neck's surface at station x. */
export function wallFrom(
  run: ChannelRun,
  sectionAt: (x: number) => NeckSection,
  x: number,
  which: "behind" | "beside",
): PlacedWall {
  const { middle, width, depth } = channelAt(run, x);
  const wall = wallOfCorners(sectionAt(x), middle, width, which === "behind" ? -depth : 0);
  const along = x < run.from ? run.from - x : x > run.to ? x - run.to : 0;
  return {
    // A corner that stands out of the neck beyond its own end has not broken through there.
    distance: along === 0 ? wall.distance : Math.hypot(along, Math.max(0, wall.distance)),
    x,
    from: wall.from,
    to: wall.to,
  };
}

function stationsOf(low: number, high: number, places: readonly number[]): number[] {
  const inside = [low, ...places.filter((x) => x > low && x < high), high].toSorted((a, b) => a - b);
  return inside.flatMap((x, i) => {
    const next = inside[i + 1];
    if (next === undefined) return [x];
    const count = Math.max(1, Math.ceil((next - x) / STEP));
    return Array.from({ length: count }, (_, k) => x + ((next - x) * k) / count);
  });
}

function least(stations: readonly number[], wall: (x: number) => PlacedWall): PlacedWall {
  const walls = stations.map(wall);
  let best = 0;
  walls.forEach((here, i) => {
    if (here.distance < walls[best]!.distance) best = i;
  });
  const [before, after] = [stations[Math.max(best - 1, 0)]!, stations[Math.min(best + 1, stations.length - 1)]!];
  const refined = before < after ? wall(leastBetween((x) => wall(x).distance, before, after, WITHIN)) : walls[best]!;
  return refined.distance < walls[best]!.distance ? refined : walls[best]!;
}

/** The clear wood between two runs on the plane of the board, over the length that they share, mm; below 0 they overlap. Undefined where they pass. */
export function woodBetween(a: ChannelRun, b: ChannelRun): { readonly distance: number; readonly x: number } | undefined {
  const from = Math.max(a.from, b.from);
  const to = Math.min(a.to, b.to);
  if (!(from < to)) return undefined;
  // Both sides are straight, so the gap is least at an end unless they cross between.
  const gap = (x: number): number => Math.abs(channelAt(a, x).middle - channelAt(b, x).middle) - (a.width + b.width) / 2;
  const signed = (x: number): number => channelAt(a, x).middle - channelAt(b, x).middle;
  if (signed(from) * signed(to) < 0) {
    const x = from + ((to - from) * Math.abs(signed(from))) / (Math.abs(signed(from)) + Math.abs(signed(to)));
    return { distance: -(a.width + b.width) / 2, x };
  }
  return gap(from) <= gap(to) ? { distance: gap(from), x: from } : { distance: gap(to), x: to };
}

/** How deep a section of this shape must be for every channel at the station to keep `least` mm of wood behind it; undefined where no depth up to `most` does. */
export function leastSafeDepth(
  section: NeckSection,
  channels: readonly Channel[],
  least: number,
  most = 200,
): number | undefined {
  const wall = (depth: number): number =>
    Math.min(
      ...channels.map(({ middle, width, depth: floor }) => wallOfCorners({ ...section, depth }, middle, width, -floor).distance),
    );
  if (channels.length === 0) return 0;
  let [low, high] = [0.01, most];
  if (!(wall(high) >= least)) return undefined;
  while (high - low > 1e-4) {
    const middle = (low + high) / 2;
    if (wall(middle) >= least) high = middle;
    else low = middle;
  }
  return high;
}
