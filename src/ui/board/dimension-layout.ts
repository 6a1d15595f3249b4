/**
 * Where the dimensions of a drawing stand on the board, so that no text meets another text, a dimension line of another, or the edge.
 *
 * They are placed one after the other: first those of the first rank, in a rank those nearest to the drawing and the shortest. Each
 * tries the line where the drawing wants it, then lines further out, then nearer ones; on each line the text stands in it, beside it, or
 * beyond one end. One that finds no room is tried with a shorter text, and left out then. Every text keeps clear of stops, and of other words if it can; so do lines of stops.
 */
import type { Dimension } from "../../drawing/drawing.ts";
import { feetOf, moved, readingAngle, spanOf, type Span } from "./dimension-lines.ts";
import { boxesMeet, boxInside, clipped, grown, strokeMeets, type LabelBox, type Room, type Stroke } from "./label-box.ts";
import type { Px, View } from "./viewport.ts";

/** A dimension in its place. */
export interface Placed {
  readonly dimension: Dimension;
  readonly text: string;
  readonly box: LabelBox;
  /** Where the two points stand on the dimension line: the tips of the arrows. */
  readonly feet: Stroke;
  /** The dimension line with its tails, whole; the text may interrupt it. */
  readonly line: Stroke;
  /** Arrows stand between the feet, or point at them from outside where there is no room between. */
  readonly arrows: "inside" | "outside";
  /** A radius has an arrow at its far end alone. */
  readonly ends: "both" | "to";
  readonly extensions: readonly Stroke[];
}

/** What one text needs, px; `brief`: its shortest, in decimals. */
export type Measure = (
  dimension: Dimension,
  brief?: boolean,
) => { readonly text: string; readonly width: number; readonly height: number };

/** What stands on the board besides dimensions. */
export interface Obstacles {
  /** Signs and words of stops. */
  readonly stops: readonly LabelBox[];
  readonly words: readonly LabelBox[];
}
const NOTHING: Obstacles = { stops: [], words: [] };

export const ARROW_PX = 9;
const LEAST_OFFSET_PX = 18;
const BESIDE_PX = 3;
const CLEAR_PX = 3;
const GAP_PX = 3;
const BEYOND_PX = 6;
const LEVEL_PX = 8;
const NEAR_LEVELS = 5;
const LEVELS_OUT = 24;
const LEVELS_IN = 80;
/** Where along its line a text may stand: 0 in the middle, 1 as far as it goes towards the end. */
const SHIFTS = [0, -0.5, 0.5, -1, 1];

export function layOut(
  dimensions: readonly Dimension[],
  view: View,
  room: Room,
  measure: Measure,
  obstacles: Obstacles = NOTHING,
): Placed[] {
  const spans = dimensions.flatMap((dimension) => {
    const span = spanOf(dimension, view);
    return span ? [{ dimension, span, long: lengthOf(span) }] : [];
  });
  const order = spans.toSorted(
    (a, b) =>
      a.dimension.rank - b.dimension.rank ||
      a.span.offset - b.span.offset ||
      a.long - b.long ||
      (a.dimension.id < b.dimension.id ? -1 : 1),
  );
  const placed: Placed[] = [];
  for (const { dimension, span } of order) {
    const placeOf = (size: ReturnType<Measure>): Placed | undefined =>
      bestPlace(placesFor(dimension, span, size, room), placed, room, obstacles);
    const full = measure(dimension);
    const best = placeOf(full) ?? placedBriefly(placeOf, full, measure(dimension, true));
    if (best) placed.push(best);
  }
  return placed;
}

/** Where a text finds no room, a shorter one of the same number may. */
const placedBriefly = (
  placeOf: (size: ReturnType<Measure>) => Placed | undefined,
  full: ReturnType<Measure>,
  brief: ReturnType<Measure>,
): Placed | undefined => (brief.width < full.width ? placeOf(brief) : undefined);

/** The first place that is free. Better one with no line behind a text or a stop, and no words behind its text; better such a one than none. */
function bestPlace(
  places: Iterable<Placed>,
  placed: readonly Placed[],
  room: Room,
  { stops, words }: Obstacles,
): Placed | undefined {
  let crossed: Placed | undefined;
  for (const one of places) {
    if (!boxInside(one.box, room) || !keepsClear(one, placed)) continue;
    const meets = (box: LabelBox): boolean => boxesMeet(grown(one.box, CLEAR_PX), box);
    if (stops.some(meets)) continue;
    if (extensionsClear(one, placed) && linesClear(one, stops) && !words.some(meets)) return one;
    crossed ??= one;
  }
  return crossed;
}

const lengthOf = ({ from, to, along }: Span): number => (to.x - from.x) * along.x + (to.y - from.y) * along.y;

/** Every place that a dimension may take, best first: a little further out with the text in the middle is better than a text shifted. */
function* placesFor(dimension: Dimension, span: Span, size: ReturnType<Measure>, room: Room): Generator<Placed> {
  const offsets = offsetsFor(span);
  if (dimension.beyond)
    for (const offset of offsets.slice(0, NEAR_LEVELS)) yield* onLine(dimension, span, offset, size, room, "beyond");
  for (const offset of offsets.slice(0, NEAR_LEVELS)) yield* onLine(dimension, span, offset, size, room, [0]);
  for (const offset of offsets) yield* onLine(dimension, span, offset, size, room, SHIFTS);
}

const levels = (count: number): number[] => Array.from({ length: count }, (_, i) => i);

/** How far out the line may stand, px, best first. */
function offsetsFor({ offset }: Span): number[] {
  // A dimension without offset runs through what it measures (a diameter) and stays there.
  if (offset === 0) return [0];
  const first = Math.max(LEAST_OFFSET_PX, offset);
  const out = levels(LEVELS_OUT).map((i) => first + i * LEVEL_PX);
  const inward = levels(LEVELS_IN).map((i) => first - (i + 1) * LEVEL_PX);
  return [...out, ...inward.filter((o) => o >= LEAST_OFFSET_PX), ...(first > LEAST_OFFSET_PX ? [LEAST_OFFSET_PX] : [])];
}

function onLine(
  dimension: Dimension,
  span: Span,
  offset: number,
  size: ReturnType<Measure>,
  room: Room,
  /** Where in the line the text may stand, if there is room in it, or only beyond its ends. */
  shifts: readonly number[] | "beyond",
): Placed[] {
  const [a, b] = feetOf(span, offset);
  const shown = clipped([a, b], room);
  if (!shown) return [];
  const angle = readingAngle(span);
  const long = lengthOf(span);
  const shownLong = Math.hypot(shown[1].x - shown[0].x, shown[1].y - shown[0].y);
  const arrows = long >= 2 * ARROW_PX + 4 ? "inside" : "outside";
  const ends = dimension.before === "R" ? "to" : "both";
  const extensions =
    offset === 0 ? [] : [extension(span.from, a, span.out), extension(span.to, b, span.out)].filter((s) => s !== undefined);
  // Up in the frame of the text.
  const up = { x: Math.sin(angle), y: -Math.cos(angle) };
  const tail = ARROW_PX + 6;
  const place = (centre: Px, line: Stroke, how: Placed["arrows"]): Placed => ({
    dimension,
    text: size.text,
    box: { centre, width: size.width, height: size.height, angle },
    feet: [a, b],
    line,
    arrows: how,
    ends,
    extensions,
  });
  const whole: Stroke = arrows === "inside" ? [a, b] : [moved(a, span.along, -tail), moved(b, span.along, tail)];
  const along = (t: number): Px => ({
    x: shown[0].x + (shown[1].x - shown[0].x) * t,
    y: shown[0].y + (shown[1].y - shown[0].y) * t,
  });
  const beyondEnds = (): Placed[] => {
    const beyond = tail + size.width / 2 + 4;
    const far: Stroke = [arrows === "inside" ? a : moved(a, span.along, -tail), moved(b, span.along, tail)];
    const near: Stroke = [moved(a, span.along, -tail), arrows === "inside" ? b : moved(b, span.along, tail)];
    return [place(moved(b, span.along, beyond), far, arrows), place(moved(a, span.along, -beyond), near, arrows)];
  };
  if (shifts === "beyond") return shownLong >= long - 1 ? beyondEnds() : [];
  const result: Placed[] = [];
  if (shownLong >= size.width + 2 * (ARROW_PX + 5)) {
    const slack = (shownLong - size.width - 2 * (ARROW_PX + 5)) / shownLong / 2;
    for (const shift of shifts) result.push(place(along(0.5 + shift * slack), whole, arrows));
  } else if (shownLong >= long - 1) {
    const lift = size.height / 2 + BESIDE_PX;
    // Above it, or below where above it would stand in the drawing.
    const inTheWay = up.x * span.out.x + up.y * span.out.y < -0.5 && offset < size.height + 2 * BESIDE_PX;
    const beside = moved(along(0.5), up, inTheWay ? -lift : lift);
    if (long * 3 >= size.width) result.push(place(beside, whole, arrows));
    result.push(...beyondEnds());
  }
  return result;
}

/** From a little off the point to a little beyond the dimension line; undefined where the point lies on it. */
function extension(point: Px, foot: Px, out: Px): Stroke | undefined {
  const long = Math.hypot(foot.x - point.x, foot.y - point.y);
  return long > GAP_PX + 1 ? [moved(point, out, GAP_PX), moved(foot, out, BEYOND_PX)] : undefined;
}

/** True where the text keeps clear of every other text and line, and the line of every other text. */
function keepsClear(one: Placed, others: readonly Placed[]): boolean {
  const box = grown(one.box, CLEAR_PX);
  return others.every(
    (other) => !boxesMeet(box, other.box) && !strokeMeets(box, other.line) && !strokeMeets(grown(other.box, 1), one.line),
  );
}

const extensionsClear = (one: Placed, others: readonly Placed[]): boolean =>
  others.every(
    (other) => other.extensions.every((s) => !strokeMeets(one.box, s)) && one.extensions.every((s) => !strokeMeets(other.box, s)),
  );

const linesClear = ({ line, extensions }: Placed, stops: readonly LabelBox[]): boolean =>
  stops.every((box) => ![line, ...extensions].some((stroke) => strokeMeets(box, stroke)));
