/** Steps in which the size is doubled or halved at most until the width asked for lies between two. */
const MOST_STEPS = 60;

/**
 * The size at which `widthAt(size)` is `width`, to a billionth of it, sought up and down from `guess`. `widthAt` gives undefined where the
 * letters are too large to be set at all. Undefined where no size gives the width.
 */
export function sizeForWidth(widthAt: (size: number) => number | undefined, width: number, guess: number): number | undefined {
  const excess = (size: number): number => (widthAt(size) ?? Infinity) - width;
  let high = guess;
  for (let step = 0; excess(high) < 0; step++) {
    if (step === MOST_STEPS) return undefined;
    high *= 2;
  }
  // Where the tracking draws letters together, the width falls before it grows with the size: the larger size is meant.
  let low = high / 2;
  for (let step = 0; excess(low) >= 0; step++) {
    if (step === MOST_STEPS) return undefined;
    high = low;
    low /= 2;
  }
  // The Illinois method: the secant's, but an end that stays twice counts half, so that both close in.
  let [below, above] = [excess(low), excess(high)];
  let stayed: "low" | "high" | undefined;
  for (let round = 0; round < 200 && high - low > 1e-15 * high; round++) {
    const size = Number.isFinite(above) ? low + ((high - low) * below) / (below - above) : (low + high) / 2;
    const error = excess(size);
    if (Math.abs(error) <= 1e-9 * width) return size;
    if (error < 0) {
      [low, below] = [size, error];
      if (stayed === "high") above /= 2;
      stayed = "high";
    } else {
      [high, above] = [size, error];
      if (stayed === "low") below /= 2;
      stayed = "low";
    }
  }
  return undefined;
}
