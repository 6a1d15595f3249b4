/** The outline that the measures give, in the body's own axes: x from the neck end, y up to the side of rising y. */
import { pointsOf } from "../../geometry/drawn/points-of.ts";
import type { OutlinePoint } from "../../geometry/drawn/point.ts";
import type { Path } from "../../geometry/path.ts";
import { reversePath } from "../../geometry/segment.ts";
import { mirroring, transformPath } from "../../geometry/transform.ts";
import { ORIGIN, vec } from "../../geometry/vec.ts";
import { cutawayHalf, cutawayRefusal, type Cutaway } from "../../lutherie/body-cutaway.ts";
import { bodyRefusal, halfOutline, wholeOutline } from "../../lutherie/body-outline.ts";
import { cutawaysOf, halvesAlike, sizesOf, type BodyParams } from "./numbers.ts";

export interface MeasuredOutline {
  /** Closed, counter-clockwise. */
  readonly outline: Path;
  /** Both halves from the tail to the neck, as if each were that of rising y. */
  readonly treble: Path;
  readonly bass: Path;
}

/** Why the measures give no outline, in plain words; undefined where they do. */
export function refusalOf(p: BodyParams): string | undefined {
  const { treble, bass } = cutawaysOf(p);
  const sizes = sizesOf(p);
  const of = (cut: Cutaway | undefined): string | undefined => cut && cutawayRefusal(sizes, cut);
  const bassRefusal = of(bass);
  return bodyRefusal(sizes) ?? of(treble) ?? (bassRefusal && `on the bass side, ${bassRefusal}`);
}

/** @param side 1 where the treble side is that of rising y */
export function measuredOutline(p: BodyParams, side: 1 | -1): MeasuredOutline | undefined {
  if (refusalOf(p)) return undefined;
  const sizes = sizesOf(p);
  const cuts = cutawaysOf(p);
  const half = (cut: Cutaway | undefined): Path => (cut ? cutawayHalf(sizes, cut) : halfOutline(sizes));
  const treble = half(cuts.treble);
  const bass = halvesAlike(p) ? treble : half(cuts.bass);
  return { outline: side === 1 ? wholeOutline(treble, bass) : wholeOutline(bass, treble), treble, bass };
}

/** The points that draw the measured outline again; none where the measures give no outline. */
export function startingPoints(p: BodyParams, side: 1 | -1): OutlinePoint[] {
  const found = measuredOutline(p, side);
  if (!found) return [];
  const up = reversePath(side === 1 ? found.treble : found.bass);
  if (p.mirrored) return pointsOf(up);
  const down = transformPath(mirroring(ORIGIN, vec(1, 0)), side === 1 ? found.bass : found.treble);
  const round = pointsOf({ start: up.start, segments: [...up.segments, ...down.segments], closed: false });
  const [first, last] = [round[0], round.at(-1)];
  return first && last ? [{ ...first, arriving: last.arriving, before: last.before }, ...round.slice(1, -1)] : [];
}
