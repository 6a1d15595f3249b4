const GOLDEN = (3 - Math.sqrt(5)) / 2;
const MOST_ROUNDS = 200;

/**
 * Where f is least between a and b (to `within`), if it falls and then rises there: parabolas through the three best points,
 * a golden cut where they lead nowhere, the ends looked at too. Source: R. P. Brent, Algorithms for Minimization without
 * Derivatives (1973), chapter 5.
 */
export function leastBetween(f: (t: number) => number, a: number, b: number, within: number): number {
  if (!(a <= b && within > 0)) throw new RangeError("leastBetween: needs an interval and a width above 0");
  let [low, high] = [a, b];
  let best = a + GOLDEN * (b - a);
  let [second, third] = [best, best];
  let fBest = f(best);
  let [fSecond, fThird] = [fBest, fBest];
  let [step, before] = [0, 0];
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const middle = (low + high) / 2;
    if (Math.abs(best - middle) <= 2 * within - (high - low) / 2) break;
    const r = (best - second) * (fBest - fThird);
    const q = (best - third) * (fBest - fSecond);
    const over = 2 * (q - r);
    const shift = over === 0 ? Infinity : ((best - second) * r - (best - third) * q) / over;
    if (Math.abs(shift) < Math.abs(before) / 2 && best + shift > low + within && best + shift < high - within) {
      [before, step] = [step, shift];
    } else {
      before = best < middle ? high - best : low - best;
      step = GOLDEN * before;
    }
    const next = best + (Math.abs(step) >= within ? step : step < 0 ? -within : within);
    const fNext = f(next);
    if (fNext <= fBest) {
      if (next < best) high = best;
      else low = best;
      [third, fThird, second, fSecond, best, fBest] = [second, fSecond, best, fBest, next, fNext];
    } else {
      if (next < best) low = next;
      else high = next;
      if (fNext <= fSecond || second === best) [third, fThird, second, fSecond] = [second, fSecond, next, fNext];
      else if (fNext <= fThird || third === best || third === second) [third, fThird] = [next, fNext];
    }
  }
  const [atA, atB] = [f(a), f(b)];
  if (atA < fBest && atA <= atB) return a;
  return atB < fBest ? b : best;
}
