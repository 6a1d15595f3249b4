import { drawOutline } from "../../geometry/drawn/outline.ts";
import { pathArea } from "../../geometry/measure.ts";
import { arc, circle, line, rectangle, type Path } from "../../geometry/path.ts";
import { reversePath } from "../../geometry/segment.ts";
import { selfCrossings } from "../../geometry/self-crossing.ts";
import { add, leftOf, polar, scale, sub, vec, type Vec } from "../../geometry/vec.ts";
import type { Knot, Laid, OffcutParams } from "./numbers.ts";

export interface OffcutMeasures {
  /** Counter-clockwise; absent where its points span no area. */
  readonly outline?: Path;
  readonly knots: readonly Path[];
  readonly thickness: number;
  readonly grain: number;
  readonly slant: number;
  readonly bothFaces: boolean;
  readonly kerf: number;
  readonly pieces: readonly Laid[];
  readonly crossings: readonly Vec[];
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    offcut: OffcutMeasures;
  }
}

export function measureOffcut(p: OffcutParams): OffcutMeasures {
  const drawn = p.source === "rectangle" ? rectangle(0, 0, p.length, p.width) : drawOutline(p.outline)?.path;
  const outline = drawn && pathArea(drawn) < 0 ? reversePath(drawn) : drawn;
  const { thickness, grain, slant, bothFaces, kerf, pieces } = p;
  return {
    ...(outline ? { outline } : {}),
    knots: p.knots.map(knotPath),
    thickness,
    grain,
    slant,
    bothFaces,
    kerf,
    pieces,
    crossings: outline ? selfCrossings(outline) : [],
  };
}

/** A circle, or two half circles joined by straight sides. */
function knotPath({ x, y, width, length, turn }: Knot): Path {
  const radius = width / 2;
  const middle = vec(x, y);
  const half = length / 2 - radius;
  if (!(half > 0)) return circle(middle, radius);
  const way = polar(vec(0, 0), 1, turn);
  const [a, b] = [sub(middle, scale(way, half)), add(middle, scale(way, half))];
  const left = scale(leftOf(way), radius);
  const start = sub(a, left);
  return {
    start,
    segments: [line(sub(b, left)), arc(add(b, left), b, true), line(add(a, left)), arc(start, a, true)],
    closed: true,
  };
}
