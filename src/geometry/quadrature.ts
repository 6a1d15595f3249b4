/** Nodes in (-1, 1) and weights of the Gauss-Legendre rule of n points (Abramowitz and Stegun 25.4.29), roots by Newton's method. */
function gaussLegendre(n: number): readonly { readonly node: number; readonly weight: number }[] {
  return Array.from({ length: n }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 1;
    for (let round = 0; round < 20; round++) {
      let p = 1;
      let before = 0;
      for (let k = 1; k <= n; k++) [p, before] = [((2 * k - 1) * x * p - (k - 1) * before) / k, p];
      slope = (n * (x * p - before)) / (x * x - 1);
      x -= p / slope;
    }
    return { node: x, weight: 2 / ((1 - x * x) * slope * slope) };
  });
}

const RULE = gaussLegendre(10);
const SHORT_RULE = gaussLegendre(5);
const DEEPEST = 30;

/** The integral of f from a to b by ten points alone, without a look at how good it is; exact for polynomials up to degree 19. */
export const gauss = (f: (x: number) => number, a: number, b: number): number => weighed(RULE, f, a, b);

/** The same by five points, exact up to degree 9. */
export const gaussShort = (f: (x: number) => number, a: number, b: number): number => weighed(SHORT_RULE, f, a, b);

function weighed(rule: typeof RULE, f: (x: number) => number, a: number, b: number): number {
  const half = (b - a) / 2;
  const middle = (a + b) / 2;
  let sum = 0;
  for (let i = 0; i < rule.length; i++) sum += rule[i]!.weight * f(middle + half * rule[i]!.node);
  return sum * half;
}

interface Sum {
  readonly value: number;
  /** The same sum of the sizes of f, against which rounding is measured. */
  readonly size: number;
}

function rule(f: (x: number) => number, a: number, b: number): Sum {
  const half = (b - a) / 2;
  const middle = (a + b) / 2;
  let value = 0;
  let size = 0;
  for (const { node, weight } of RULE) {
    const y = weight * f(middle + half * node) * half;
    value += y;
    size += Math.abs(y);
  }
  return { value, size };
}

/**
 * The integral of f from a to b, to about `tolerance` (absolute) or to rounding: ten-point Gauss rule, halved until both halves agree with
 * the whole, and did so before, since beside a kink they may once agree by chance. Exact for polynomials up to degree 19. f must be
 * finite on [a, b]; kinks only cost time.
 */
export function integrate(f: (x: number) => number, a: number, b: number, tolerance = 1e-10): number {
  return refine(f, a, b, rule(f, a, b), tolerance, 0, false);
}

function refine(
  f: (x: number) => number,
  a: number,
  b: number,
  whole: Sum,
  tolerance: number,
  depth: number,
  agreed: boolean,
): number {
  const middle = (a + b) / 2;
  const left = rule(f, a, middle);
  const right = rule(f, middle, b);
  const agrees = Math.abs(left.value + right.value - whole.value) <= Math.max(tolerance, 1e-12 * whole.size);
  if (depth === DEEPEST || (agrees && agreed)) return left.value + right.value;
  return (
    refine(f, a, middle, left, tolerance / 2, depth + 1, agrees) + refine(f, middle, b, right, tolerance / 2, depth + 1, agrees)
  );
}
