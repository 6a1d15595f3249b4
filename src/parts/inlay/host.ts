/** The part that an inlay lies on, as far as an inlay needs to know it. */
import { pathBounds } from "../../geometry/measure.ts";
import type { Path } from "../../geometry/path.ts";
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

/** Middle of a host along the centre line; of a head the middle of the room between its top and the posts. */
export function usualX(p: Placed, from: Sources): number {
  const host = hostOf(p, from);
  if (!host) return 0;
  const box = pathBounds(host.outline);
  const free = overMachines(host);
  return p.on === "headstock" && free > 0 ? box.minX + free / 2 : (box.minX + box.maxX) / 2;
}

/** Middle of a host across; parts that lie about the centre line have it there. */
export function usualY(p: Placed, from: Sources): number {
  const host = p.on === "pickguard" ? hostOf(p, from) : undefined;
  if (!host) return 0;
  const box = pathBounds(host.outline);
  return (box.minY + box.maxY) / 2;
}
