/** A soundhole and the rings of its rosette on the instrument, x from the nut. */
import { apart, roomInside } from "../../geometry/cover.ts";
import { drawOutline, type OutlineTrouble } from "../../geometry/drawn/outline.ts";
import { mirroredPoints } from "../../geometry/drawn/point.ts";
import { pathArea, pathBounds, pathLength } from "../../geometry/measure.ts";
import { offsetPath } from "../../geometry/offset.ts";
import type { Path } from "../../geometry/path.ts";
import { reversePath } from "../../geometry/segment.ts";
import { selfCrossings } from "../../geometry/self-crossing.ts";
import { transformPath, translation } from "../../geometry/transform.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { roundOval } from "../../lutherie/oval.ts";
import type { AirHole } from "../../lutherie/air-resonance.ts";
import type { Sources } from "../contract.ts";
import { withLater } from "../lazy.ts";
import { boardEnd, bridgeFront, instrumentOf, type RosetteRing, type SoundholeParams } from "./numbers.ts";

/** One ring: its two edges, and what can be cut by them. */
export interface RingMeasure {
  readonly id: string;
  readonly name: string;
  readonly distance: number;
  readonly width: number;
  readonly depth: number;
  /** Absent where the hole's outline leaves no such line. */
  readonly inner?: Path;
  readonly outer?: Path;
  /** Of a round hole: radii from the middle. */
  readonly innerRadius?: number;
  readonly outerRadius?: number;
  /** Of the strip that fills it, along its middle. */
  readonly length: number;
}

/** The nearest place of something to another part: how far, and where on this part. */
export interface Nearest {
  readonly distance: number;
  readonly at: Vec;
}

export interface SoundholeMeasures {
  readonly middleX: number;
  readonly middleY: number;
  /** The edge of the hole; absent where it has none. */
  readonly outline?: Path;
  /** Edge of the outermost ring, or of the hole where there is no ring. */
  readonly rosette?: Path;
  /** x of the hole's edges towards the board and towards the bridge. */
  readonly frontX: number;
  readonly backX: number;
  readonly length: number;
  readonly width: number;
  /** mm2 */
  readonly area: number;
  readonly perimeter: number;
  /** From the hole's edge to the board's end and to the bridge's front edge, along the instrument. */
  readonly toBoard: number;
  readonly toBridge: number;
  /** How far the hole's edge and the outermost ring keep from the bridge and from the body's edge; absent without them. */
  readonly holeAtBridge?: Nearest;
  readonly rosetteAtBridge?: Nearest;
  readonly rosetteInBody?: Nearest;
  /** How far the outermost ring reaches under the board; 0 where it keeps clear. */
  readonly underBoard: number;
  readonly rings: readonly RingMeasure[];
  readonly topThickness: number;
  /** The oval of the same area, length and width in the same proportion, as the air of the body takes it. */
  readonly air?: AirHole;
  readonly crossings: readonly Vec[];
  readonly troubles: readonly OutlineTrouble[];
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    soundhole: SoundholeMeasures;
  }
}

export function measureSoundhole(p: SoundholeParams, from: Sources): SoundholeMeasures {
  const { side } = instrumentOf(from);
  const middle = vec(p.middle, side * p.aside);
  const { outline, crossings, troubles } = holeOf(p, middle);
  const box = outline && pathBounds(outline);
  const rings = p.rings.map((ring, i) => ringOf(p, ring, `ring-${i + 1}`, middle, outline));
  const rosette = outermost(rings) ?? outline;
  const bridge = from.get("bridge")?.outline;
  const body = from.get("body")?.outline;
  const [frontX, backX] = box ? [box.minX, box.maxX] : [p.middle, p.middle];
  const area = outline ? pathArea(outline) : 0;
  const toBridge = (path: Path): Nearest => {
    const { a, distance } = apart(whole(path), whole(bridge!));
    return { distance, at: a };
  };
  const now = {
    middleX: middle.x,
    middleY: middle.y,
    ...(outline ? { outline } : {}),
    ...(rosette ? { rosette } : {}),
    frontX,
    backX,
    length: backX - frontX,
    width: box ? box.maxY - box.minY : 0,
    area,
    perimeter: outline ? pathLength(outline) : 0,
    toBoard: frontX - boardEnd(from),
    toBridge: bridgeFront(from) - backX,
    underBoard: rosette ? Math.max(0, boardEnd(from) - pathBounds(rosette).minX) : 0,
    rings,
    topThickness: p.topThickness,
    ...(box && area > 0 ? { air: airOf(box.maxX - box.minX, box.maxY - box.minY, area, p.topThickness) } : {}),
    crossings,
    troubles,
  };
  return withLater<SoundholeMeasures, "holeAtBridge" | "rosetteAtBridge" | "rosetteInBody">(now, {
    ...(outline && bridge ? { holeAtBridge: () => toBridge(outline) } : {}),
    ...(rosette && bridge ? { rosetteAtBridge: () => toBridge(rosette) } : {}),
    ...(rosette && body ? { rosetteInBody: () => inBody(rosette, body) } : {}),
  });
}

function inBody(rosette: Path, body: Path): Nearest {
  const { a, distance } = roomInside(whole(rosette), whole(body));
  return { distance, at: a };
}

const whole = (outer: Path) => ({ outer, holes: [] });

type Hole = Pick<SoundholeMeasures, "crossings" | "troubles"> & { readonly outline: Path | undefined };

function holeOf(p: SoundholeParams, middle: Vec): Hole {
  if (p.shape !== "free") return { outline: ovalOf(p, middle, 0), crossings: [], troubles: [] };
  const drawn = drawOutline(p.mirrored ? mirroredPoints(p.outline) : p.outline);
  if (!drawn) return { outline: undefined, crossings: [], troubles: [] };
  const path = transformPath(translation(middle), drawn.path);
  return {
    outline: pathArea(path) < 0 ? reversePath(path) : path,
    crossings: selfCrossings(path),
    troubles: drawn.troubles.filter(({ point }) => point < p.outline.length),
  };
}

function ovalOf(p: SoundholeParams, centre: Vec, out: number): Path {
  const [a, b] = p.shape === "round" ? [p.diameter, p.diameter] : [p.length, p.width];
  return roundOval({ centre, a: a / 2, b: b / 2 }, out);
}

/** The line round the hole at a distance; undefined where the outline holds no area or falls apart. */
function lineRound(p: SoundholeParams, middle: Vec, outline: Path | undefined, out: number): Path | undefined {
  if (!outline) return undefined;
  if (out === 0) return outline;
  if (p.shape !== "free") return ovalOf(p, middle, out);
  const [first, ...more] = offsetPath(outline, out);
  return first && more.length === 0 && first.holes.length === 0 ? first.outer : undefined;
}

function ringOf(p: SoundholeParams, ring: RosetteRing, id: string, middle: Vec, outline: Path | undefined): RingMeasure {
  const { distance, width, depth } = ring;
  const line = (out: number): Path | undefined => lineRound(p, middle, outline, out);
  const [inner, outer] = [line(distance), line(distance + width)];
  const between = line(distance + width / 2);
  return {
    id,
    name: ring.name.trim() === "" ? id.replace("-", " ") : ring.name,
    distance,
    width,
    depth,
    ...(inner ? { inner } : {}),
    ...(outer ? { outer } : {}),
    ...(p.shape === "round" ? { innerRadius: p.diameter / 2 + distance, outerRadius: p.diameter / 2 + distance + width } : {}),
    length: between ? pathLength(between) : 0,
  };
}

const outermost = (rings: readonly RingMeasure[]): Path | undefined =>
  rings
    .filter(({ outer }) => outer)
    .reduce<RingMeasure | undefined>(
      (best, ring) => (best && best.distance + best.width >= ring.distance + ring.width ? best : ring),
      undefined,
    )?.outer;

function airOf(length: number, width: number, area: number, wall: number): AirHole {
  const k = Math.sqrt(area / (Math.PI * length * width));
  return { a: k * length, b: k * width, wall };
}
