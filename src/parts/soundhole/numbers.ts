/** The settled numbers of a soundhole, lengths in mm, and what it reads of the other parts. */
import { drawOutline } from "../../geometry/drawn/outline.ts";
import { mirroredPoints, type OutlinePoint } from "../../geometry/drawn/point.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { rayHits } from "../../geometry/intersect.ts";
import { vec } from "../../geometry/vec.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";

/** One ring of the rosette, or the channel that it is let into. */
export interface RosetteRing {
  readonly name: string;
  /** From the edge of the hole to its inner edge. */
  readonly distance: number;
  readonly width: number;
  readonly depth: number;
}

export interface SoundholeParams {
  readonly shape: "round" | "oval" | "free";
  readonly diameter: number;
  readonly length: number;
  readonly width: number;
  readonly mirrored: boolean;
  readonly outline: readonly OutlinePoint[];
  /** Of the middle: from the nut, and off the centre line to the treble side. */
  readonly middle: number;
  readonly aside: number;
  /** From the hole's edge, on the line along the instrument through its middle. */
  readonly fromBoard: number;
  readonly fromBridge: number;
  readonly topThickness: number;
  readonly rings: readonly RosetteRing[];
}

export type Instrument = MeasuresByKind["instrument"];

export function instrumentOf(from: Sources): Instrument {
  const measures = from.get("instrument");
  if (!measures) throw new Error("a soundhole was derived without its instrument");
  return measures;
}

/** Length of the strings along the centre line, before compensation. */
export const centreScale = ({ scale, bassScale }: Instrument): number => (scale + bassScale) / 2;

/** Beyond the last fret, where the design has no board. */
const BOARD_BEYOND = 5;
/** From the saddle to the front of a bridge that the design does not have. */
const BRIDGE_FRONT = 10;

/** x on the centre line where the board ends. */
export const boardEnd = (from: Sources): number => from.get("fingerboard")?.endX ?? instrumentOf(from).lastFretX + BOARD_BEYOND;

/** x of the bridge's front edge on the centre line. */
export function bridgeFront(from: Sources): number {
  const bridge = from.get("bridge");
  if (!bridge) return centreScale(instrumentOf(from)) - BRIDGE_FRONT;
  const { outline, saddleX } = bridge;
  if (!outline) return saddleX - BRIDGE_FRONT;
  const { minX } = pathBounds(outline);
  const [first] = rayHits([outline], vec(minX - 1, 0), vec(1, 0));
  return first === undefined ? minX : minX - 1 + first;
}

type Shaped = Pick<SoundholeParams, "shape" | "diameter" | "length" | "width" | "mirrored" | "outline">;

/** How far the hole reaches from its middle, towards the board and towards the bridge. */
export function reachOf(p: Shaped): { readonly front: number; readonly back: number } {
  const even = (half: number) => ({ front: half, back: half });
  if (p.shape === "round") return even(p.diameter / 2);
  if (p.shape === "oval") return even(p.length / 2);
  const drawn = drawOutline(p.mirrored ? mirroredPoints(p.outline) : p.outline);
  if (!drawn) return even(p.length / 2);
  const { minX, maxX } = pathBounds(drawn.path);
  return { front: -minX, back: maxX };
}

/** Which of the three numbers for its place leads. */
type Lead = "middle" | "fromBoard" | "fromBridge";
const leadOf = (given: (key: keyof SoundholeParams & string) => boolean): Lead =>
  given("middle") ? "middle" : given("fromBridge") ? "fromBridge" : "fromBoard";

/** Between board and hole, until the maker says where the hole is. */
const USUAL_FROM_BOARD = 4;

/** The number that is not given, out of the one that is; `usual` where none is. */
export function placeOf(
  key: Lead,
  p: SoundholeParams,
  from: Sources,
  given: (key: keyof SoundholeParams & string) => boolean,
): number {
  const lead = leadOf(given);
  if (key === "middle") {
    const { front, back } = reachOf(p);
    return lead === "fromBridge" ? bridgeFront(from) - p.fromBridge - back : boardEnd(from) + p.fromBoard + front;
  }
  if (key === "fromBoard") return lead === "fromBoard" ? USUAL_FROM_BOARD : p.middle - reachOf(p).front - boardEnd(from);
  return bridgeFront(from) - p.middle - reachOf(p).back;
}
