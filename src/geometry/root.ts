const MOST_ROUNDS = 100;

/**
 * Where f crosses zero between a and b, at which it has the signs of `atA` and `atB`, its values there: false position with halving of the
 * idle end (the Illinois method), every fourth step a bisection so that it ends whatever the shape. Found once f is no farther than `close`
 * from 0, or where no number lies between.
 */
export function rootBetween(f: (t: number) => number, a: number, b: number, atA: number, atB: number, close: number): number {
  if (Math.abs(atA) <= close) return a;
  if (Math.abs(atB) <= close) return b;
  if (!(atA > 0 !== atB > 0)) throw new RangeError("rootBetween: the ends must differ in sign");
  let [low, high, fLow, fHigh] = [a, b, atA, atB];
  let idle = 0;
  for (let round = 1; round <= MOST_ROUNDS; round++) {
    let t = round % 4 === 0 ? (low + high) / 2 : (low * fHigh - high * fLow) / (fHigh - fLow);
    if (!((t - low) * (t - high) < 0)) t = (low + high) / 2;
    if (t === low || t === high) return t;
    const here = f(t);
    if (Math.abs(here) <= close) return t;
    if (here > 0 === fLow > 0) {
      [low, fLow] = [t, here];
      if (idle === 1) fHigh /= 2;
      idle = 1;
    } else {
      [high, fHigh] = [t, here];
      if (idle === -1) fLow /= 2;
      idle = -1;
    }
  }
  return (low + high) / 2;
}
