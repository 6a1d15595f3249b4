/**
 * Polynomials over [0, 1] in Bernstein form: sum of c[i] C(n, i) t^i (1 - t)^(n - i). A cubic curve's coordinates are such polynomials,
 * so distances to it and crossings with it are their roots.
 */

/** Rows of Pascal's triangle, as far as they have been asked for. */
const rows: number[][] = [[1]];

function binomials(n: number): readonly number[] {
  for (let k = rows.length; k <= n; k++) rows.push([1, ...rows[k - 1]!.map((value, i) => value + (rows[k - 1]![i + 1] ?? 0))]);
  return rows[n]!;
}

/** Coefficients of the product of two polynomials. */
export function bernsteinProduct(a: readonly number[], b: readonly number[]): number[] {
  const n = a.length - 1;
  const m = b.length - 1;
  const [ofA, ofB, ofBoth] = [binomials(n), binomials(m), binomials(n + m)];
  const product: number[] = [];
  for (let k = 0; k <= n + m; k++) {
    let sum = 0;
    for (let i = Math.max(0, k - m); i <= Math.min(n, k); i++) sum += ofA[i]! * ofB[k - i]! * a[i]! * b[k - i]!;
    product.push(sum / ofBoth[k]!);
  }
  return product;
}

/** Value at t: the terms summed from the first on, all times a further 1 - t with each. */
export function bernsteinValue(c: readonly number[], t: number): number {
  const n = c.length - 1;
  const choose = binomials(n);
  const s = 1 - t;
  let [sum, power] = [c[0]!, 1];
  for (let i = 1; i <= n; i++) {
    power *= t;
    sum = sum * s + choose[i]! * power * c[i]!;
  }
  return sum;
}

/**
 * The roots in [0, 1], rising. Found by halving until the signs of the coefficients change at most once (the curve crosses zero no
 * more often than its coefficients do), then by bisection. A double root that rounding lifts off zero may be missed; the zero
 * polynomial gives none.
 */
export function bernsteinRoots(c: readonly number[]): number[] {
  let size = 0;
  for (const value of c) size = Math.max(size, Math.abs(value));
  if (!(size > 0)) return [];
  const roots: number[] = [];
  // Rounding of the coefficients: below this a value cannot be told from zero.
  const noise = size * 4e-16;
  if (Math.abs(c[0]!) <= noise) roots.push(0);
  if (c.length === 3) roots.push(...quadraticRoots(c[0]!, c[1]!, c[2]!));
  else search(c, 0, 1, 0, noise, roots);
  if (Math.abs(c.at(-1)!) <= noise) {
    while (roots.length > 0 && 1 - roots.at(-1)! <= SAME_ROOT) roots.pop();
    roots.push(1);
  }
  return roots.filter((t, i) => i === 0 || t - roots[i - 1]! > SAME_ROOT);
}

/** Roots nearer to each other are one; an end of the range stands for what lies so near to it. */
const SAME_ROOT = 1e-13;

/** Roots between 0 and 1, by the formula that loses no digits (Press et al., Numerical Recipes, 5.6). */
function quadraticRoots(a: number, b: number, c: number): number[] {
  // In powers of t: square t^2 + 2 half t + a.
  const [square, half] = [a - 2 * b + c, b - a];
  const under = half * half - square * a;
  if (under < 0) return [];
  const q = -(half + (half < 0 ? -1 : 1) * Math.sqrt(under));
  return [q / square, a / q].filter((t) => t > 0 && t < 1).toSorted((s, t) => s - t);
}

const DEEPEST = 44;

function search(c: readonly number[], from: number, to: number, depth: number, noise: number, roots: number[]): void {
  const changes = signChanges(c, noise);
  if (changes === 0) return;
  if (depth === DEEPEST) {
    roots.push((from + to) / 2);
    return;
  }
  if (changes === 1 && Math.abs(c[0]!) > noise && Math.abs(c.at(-1)!) > noise) {
    roots.push(from + (to - from) * bisect(c));
    return;
  }
  const { left, right } = halve(c);
  const middle = (from + to) / 2;
  search(left, from, middle, depth + 1, noise, roots);
  if (Math.abs(right[0]!) <= noise) roots.push(middle);
  search(right, middle, to, depth + 1, noise, roots);
}

function signChanges(c: readonly number[], noise: number): number {
  let changes = 0;
  let last = 0;
  for (const value of c) {
    if (Math.abs(value) <= noise) continue;
    const sign = Math.sign(value);
    if (last !== 0 && sign !== last) changes++;
    last = sign;
  }
  return changes;
}

function halve(c: readonly number[]): { left: number[]; right: number[] } {
  const work = [...c];
  const left = [work[0]!];
  const right = [work.at(-1)!];
  for (let n = work.length - 1; n > 0; n--) {
    for (let i = 0; i < n; i++) work[i] = (work[i]! + work[i + 1]!) / 2;
    left.push(work[0]!);
    right.unshift(work[n - 1]!);
  }
  return { left, right };
}

/** The root of a polynomial whose ends differ in sign: false position with halving of the idle end (Illinois), kept in its bracket. */
function bisect(c: readonly number[]): number {
  let a = 0;
  let b = 1;
  let fa = c[0]!;
  let fb = c.at(-1)!;
  let idle = 0;
  for (let round = 0; round < 100 && b - a > 1e-16; round++) {
    // Every fourth step halves the bracket outright, so that the search ends whatever the shape.
    let t = round % 4 === 3 ? (a + b) / 2 : (a * fb - b * fa) / (fb - fa);
    if (!(t > a && t < b)) t = (a + b) / 2;
    if (t === a || t === b) break;
    const ft = bernsteinValue(c, t);
    if (ft === 0) return t;
    if (Math.sign(ft) === Math.sign(fa)) {
      a = t;
      fa = ft;
      if (idle === 1) fb /= 2;
      idle = 1;
    } else {
      b = t;
      fb = ft;
      if (idle === -1) fa /= 2;
      idle = -1;
    }
  }
  return (a + b) / 2;
}
