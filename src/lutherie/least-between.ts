const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Where f is least between a and b (to `within`), if it falls and then rises there: golden section search (Kiefer 1953),
 * the ends looked at too.
 */
export function leastBetween(f: (t: number) => number, a: number, b: number, within: number): number {
  if (!(a <= b && within > 0)) throw new RangeError("leastBetween: needs an interval and a width above 0");
  let [low, high] = [a, b];
  let [s, t] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
  let [fs, ft] = [f(s), f(t)];
  while (high - low > within) {
    if (fs <= ft) {
      [high, t, ft] = [t, s, fs];
      s = high - GOLDEN * (high - low);
      fs = f(s);
    } else {
      [low, s, fs] = [s, t, ft];
      t = low + GOLDEN * (high - low);
      ft = f(t);
    }
  }
  return [a, (low + high) / 2, b].reduce((x, y) => (f(y) < f(x) ? y : x));
}
