/** A curve by its chord and the turns of its ends from it, counter-clockwise, radians. */
export interface Turns {
  readonly length: number;
  readonly leaving: number;
  readonly arriving: number;
}

/** Handles are no longer than this share of the chord: curves that nearly turn back would run away. */
const MOST_HANDLE = 4 / 3;

/**
 * The handles of a curve that bends one way are shares of the ways from its ends to where the directions there meet: 4/3 tan(s/4) /
 * tan(s/2) for the whole turn s, which makes circular arcs of even curves and quarters of ellipses of squeezed ones. Where the curve bends
 * both ways, or one end hardly turns, this passes over into 2 c / (3 (1 + cos)) for the chord c and the mean of the cosines of the turns
 * from it, the same on circular arcs.
 */
export function handleOf(side: Turns, at: "start" | "end"): number {
  const { length, leaving, arriving } = side;
  const cosine = (Math.cos(leaving) + Math.cos(arriving)) / 2;
  const even = Math.min(MOST_HANDLE, 2 / (3 * Math.max(0.05, 1 + cosine))) * length;
  const turn = Math.abs(arriving - leaving);
  const share = conicShare(side);
  if (share === 0) return even;
  const reach = (length * Math.abs(Math.sin(at === "start" ? arriving : leaving))) / Math.sin(turn);
  return even + share * (((4 / 3) * reach * Math.tan(turn / 4)) / Math.tan(turn / 2) - even);
}

/** How far the handles are those of a conic: wholly while the curve bends one way and not too unevenly, not at all where it bends both ways. */
function conicShare({ leaving, arriving }: Turns): number {
  if (leaving * arriving >= 0) return 0;
  const [less, more] = [Math.abs(leaving), Math.abs(arriving)].toSorted((a, b) => a - b) as [number, number];
  if (more < 1e-4) return 0;
  return eased(less / more / 0.25) * eased((2.6 - less - more) / 0.6);
}

/** From 0 to 1 without a kink. */
function eased(t: number): number {
  const s = Math.min(1, Math.max(0, t));
  return s * s * (3 - 2 * s);
}

/**
 * Bends of the curve with these handles at its start and its end, 1/mm, counter-clockwise positive: its curvatures there, taken so that the
 * cubic that stands for a circular arc has the bend of the arc (its own curvature at the ends is up to 2 % less over a quarter turn).
 */
export function endBends(side: Turns): readonly [number, number] {
  const { length, leaving, arriving } = side;
  const [first, last] = [handleOf(side, "start"), handleOf(side, "end")];
  const turn = arriving - leaving;
  const round = endOfRound(Math.abs(turn)) * 1.5;
  const start = (-length * Math.sin(leaving) - last * Math.sin(turn)) / (first * first * round);
  const end = (length * Math.sin(arriving) - first * Math.sin(turn)) / (last * last * round);
  return [start, end];
}

/** Curvature at the ends of the cubic that stands for an arc of radius 1 over `turn`. */
function endOfRound(turn: number): number {
  if (turn < 0.05) return 1;
  const s = Math.min(turn, 2.6);
  const handle = (4 / 3) * Math.tan(s / 4);
  return ((2 / 3) * (1 - Math.cos(s) - handle * Math.sin(s))) / handle ** 2;
}
