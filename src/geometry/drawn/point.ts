/**
 * What a maker draws an outline with: points in order, each with the side that runs from it to the next. Lengths mm, angles radians,
 * counter-clockwise from the x axis.
 */
import { vec, type Vec } from "../vec.ts";

/** `corner`: the sides meet as they come; `fair`: they meet in one direction; `even`: in one direction with equal handles. */
export type PointKind = "corner" | "fair" | "even";
/** How the outline runs from the point to the next. */
export type SideKind = "straight" | "curve" | "arc";

export interface OutlinePoint {
  readonly x: number;
  readonly y: number;
  readonly kind: PointKind;
  readonly side: SideKind;
  /** What is taken off a corner: radius of the arc, or length cut off each side; 0 leaves it sharp. Corners only. */
  readonly rounding: number;
  readonly cut: "round" | "clip";
  /** Of an arc side: above 0 it bends to the left (counter-clockwise), below 0 to the right. */
  readonly radius: number | undefined;
  /** Of an arc side without a radius: how far it bows out to the right of its chord. Without either it is tangent to its neighbour. */
  readonly rise: number | undefined;
  /** Of travel when leaving the point; at a fair or even point when arriving too. Undefined: found by `directionsOf`. */
  readonly direction: number | undefined;
  /** Of travel when arriving at a corner. */
  readonly arriving: number | undefined;
  /** Lengths of the handles of the curves that end and begin here. */
  readonly before: number | undefined;
  readonly after: number | undefined;
}

/** A point with nothing said but its place and what is given. */
export const outlinePoint = (x: number, y: number, given: Partial<OutlinePoint> = {}): OutlinePoint => ({
  x,
  y,
  kind: "corner",
  side: "straight",
  rounding: 0,
  cut: "round",
  radius: undefined,
  rise: undefined,
  direction: undefined,
  arriving: undefined,
  before: undefined,
  after: undefined,
  ...given,
});

export const placeOfPoint = ({ x, y }: OutlinePoint): Vec => vec(x, y);

/** True where the sides meet in one direction. */
export const isSmooth = (point: OutlinePoint): boolean => point.kind !== "corner";

/** Points nearer to the centre line than this lie on it, mm. */
const ON_LINE = 1e-6;

/**
 * The points of a half, mirrored about the line y = 0 and run on to where they began. A first or last point on the line is there once.
 * Where they are off it, straight from the last to its image by the last point's side, and straight back to the first.
 */
export function mirroredPoints<P extends OutlinePoint>(half: readonly P[]): P[] {
  const images: P[] = [];
  for (let i = half.length - 1; i >= 0; i--) {
    const point = half[i]!;
    const atEnd = i === 0 || i === half.length - 1;
    if (atEnd && isOnLine(point)) continue;
    // Run the other way, the side that led to the point leads on from its image.
    const side = half[i - 1];
    images.push({
      ...point,
      y: -point.y,
      side: side?.side ?? "straight",
      radius: side?.radius,
      rise: side?.rise,
      direction: imageOf(isSmooth(point) ? point.direction : point.arriving),
      arriving: imageOf(isSmooth(point) ? undefined : point.direction),
      before: point.after,
      after: point.before,
    });
  }
  return [...half.map((point, i) => (isOnLine(point) ? onLine(point, half, i) : point)), ...images];
}

/**
 * All points of an outline of which a list is drawn and the part puts more before and after. Of a mirrored one the points after stand for
 * the images of those before, if there are any.
 */
export function wholeOutline<P extends OutlinePoint>(given: {
  readonly before: readonly P[];
  readonly points: readonly P[];
  readonly after: readonly P[];
  readonly mirrored: boolean;
}): P[] {
  const { before, points, after, mirrored } = given;
  if (!mirrored) return [...before, ...points, ...after];
  const all = mirroredPoints([...before, ...points]);
  // What leads to an image is what led away from the point.
  return after.length === before.length
    ? [
        ...all.slice(0, all.length - before.length),
        ...after.map((point, i) => ({ ...all.at(i - after.length)!, x: point.x, y: point.y })),
      ]
    : all;
}

const isOnLine = (point: OutlinePoint): boolean => Math.abs(point.y) <= ON_LINE;

/** A first or last point on the line: what leaves it is the image of what arrives, or the other way round. */
function onLine<P extends OutlinePoint>(point: P, half: readonly P[], i: number): P {
  const side = half[i - 1];
  if (i === half.length - 1 && side)
    return {
      ...point,
      y: 0,
      side: side.side,
      radius: side.radius,
      rise: side.rise,
      ...(isSmooth(point) ? {} : { direction: imageOf(point.arriving) }),
      after: point.before,
    };
  if (i > 0) return point;
  return { ...point, y: 0, ...(isSmooth(point) ? {} : { arriving: imageOf(point.direction) }), before: point.after };
}

/** A direction mirrored about the x axis and run the other way. */
const imageOf = (direction: number | undefined): number | undefined =>
  direction === undefined ? undefined : Math.PI - direction;
