/** The part that an inlay lies on, as far as an inlay needs to know it. */
import { flatten } from "../../geometry/flatten.ts";
import { pathBounds } from "../../geometry/measure.ts";
import type { Path } from "../../geometry/path.ts";
import { ringWinding, type Ring } from "../../geometry/region.ts";
import { distanceToSegment, vec, type Vec } from "../../geometry/vec.ts";
import type { PartKind, Sources } from "../contract.ts";
import type { HostKind, PlaceNumbers } from "./numbers.ts";

/** In the frame of the part that gives it, mm. */
export interface Host {
  readonly outline: Path;
  readonly thickness: number;
  readonly holes: readonly Path[];
}

type Placed = Pick<PlaceNumbers, "on" | "onPart">;

/** Id of the part, or undefined for the first of its kind. */
export const hostIdOf = ({ onPart }: Placed): string | undefined => (onPart.trim() === "" ? undefined : onPart.trim());

/** What gives room for an inlay: undefined where it lies on nothing, where the design has no such part, or it has no outline. */
export function hostOf(p: Placed, from: Sources): Host | undefined {
  if (p.on === "none") return undefined;
  return hostOfKind(p.on, hostIdOf(p), from);
}

const hostOfKind = (kind: Exclude<HostKind, "none">, id: string | undefined, from: Sources): Host | undefined =>
  (from.get(kind as PartKind, id) as { readonly host?: Host } | undefined)?.host;

/** Room over the machines of a head that initials of a usual size need, mm. */
const ROOM = 26;

/** What an inlay lies on until its maker says it: the headstock, if there is room over its machines. */
export function usualHost(from: Sources): HostKind {
  const head = hostOfKind("headstock", undefined, from);
  return head && overMachines(head) >= ROOM ? "headstock" : "none";
}

/** From the top of a head to its first hole, or to its other end. */
function overMachines({ outline, holes }: Host): number {
  const { minX, maxX } = pathBounds(outline);
  return Math.min(maxX, ...holes.map((hole) => pathBounds(hole).minX)) - minX;
}

/** Middle of a host along the centre line; of a head the middle of the room over its machines, of a pickguard where it has most room. */
export function usualX(p: Placed, from: Sources): number {
  const host = hostOf(p, from);
  if (!host) return 0;
  if (p.on === "pickguard") return roomiest(host).x;
  const box = pathBounds(host.outline);
  const free = overMachines(host);
  return p.on === "headstock" && free > 0 ? box.minX + free / 2 : (box.minX + box.maxX) / 2;
}

/** Of parts that lie about the centre line the middle is there. */
export function usualY(p: Placed, from: Sources): number {
  const host = p.on === "pickguard" ? hostOf(p, from) : undefined;
  return host ? roomiest(host).y : 0;
}

const roomiestOf = new WeakMap<Path, Vec>();
/** Chords of the outline, and places tried along and across in each round. */
const CHORD = 0.2;
const TRIED = 16;

/** About the place farthest from all edges, found by ever closer looks; good to a hundredth of the part. */
function roomiest({ outline }: Host): Vec {
  const known = roomiestOf.get(outline);
  if (known) return known;
  const ring = flatten(outline, CHORD);
  const room = (at: Vec): number => (ringWinding(ring, at) === 0 ? -1 : distanceToRing(ring, at));
  let { minX, minY, maxX, maxY } = pathBounds(outline);
  let best = vec((minX + maxX) / 2, (minY + maxY) / 2);
  for (let round = 0; round < 3; round++) {
    const [w, h] = [(maxX - minX) / TRIED, (maxY - minY) / TRIED];
    for (let i = 0; i <= TRIED; i++)
      for (let k = 0; k <= TRIED; k++) {
        const at = vec(minX + i * w, minY + k * h);
        if (room(at) > room(best)) best = at;
      }
    [minX, maxX, minY, maxY] = [best.x - w, best.x + w, best.y - h, best.y + h];
  }
  roomiestOf.set(outline, best);
  return best;
}

/** Distance of a point from a ring's sides. */
export function distanceToRing(ring: Ring, p: Vec): number {
  let least = Infinity;
  let a = ring.at(-1)!;
  for (const b of ring) {
    least = Math.min(least, distanceToSegment(p, a, b));
    a = b;
  }
  return least;
}
