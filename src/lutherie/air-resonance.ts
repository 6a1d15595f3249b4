/**
 * The air resonance of a stiff box with one or more holes (Helmholtz), for comparing two designs.
 *
 *   f = c / 2pi · sqrt(K / V),  K the sum over the holes,  1/K = t / S + (delta / (pi/4)) / K_thin
 *   K_thin of an ellipse with half axes a and b in a thin wall = pi a / K(e) = 2 agm(a, b); of a circle 2 r
 *   so a round hole has the effective length t + 2 delta r, delta 8/3pi for a piston in a wide wall, pi/4 in a thin wall
 *
 * K(e) is the complete elliptic integral, reached by the arithmetic-geometric mean (Abramowitz and Stegun, 17.6.3). Source:
 * Fletcher and Rossing, The Physics of Musical Instruments, 2nd ed., chapters 8 and 9 (from memory); the ellipse after
 * Rayleigh. A real top and back move and bring the mode down by 15-30 %: to be shown to 5 Hz, as a stiff-box estimate; the
 * relative change from one more hole is better than either figure. Holes far apart and away from walls; no losses.
 */

/** Speed of sound in air at 20 °C, m/s. */
const SOUND_M_PER_S = 343;

/** An oval or round hole through a wall: its half axes and the wall's thickness, mm. */
export interface AirHole {
  readonly a: number;
  readonly b: number;
  readonly wall: number;
}

/** The air that moves along outside each end of a hole, as a share of its radius: the two textbook cases between which a body lies. */
export const END_CORRECTION = { wideWall: 8 / (3 * Math.PI), thinWall: Math.PI / 4 } as const;
export type EndCorrection = keyof typeof END_CORRECTION;

/** How easily air moves through a hole, mm: its area over its effective length. Half axes above 0, the wall 0 or more. */
export function conductance({ a, b, wall }: AirHole, ends: EndCorrection): number {
  if (!(a > 0 && b > 0 && wall >= 0 && a + b + wall < Infinity))
    throw new RangeError("conductance: a hole has two half axes and a wall");
  const end = END_CORRECTION[ends] / END_CORRECTION.thinWall / (2 * arithmeticGeometricMean(a, b));
  return 1 / (wall / (Math.PI * a * b) + end);
}

/** Hz of a stiff box of `litres` with these holes (at least one). */
export function stiffBoxHz(litres: number, holes: readonly AirHole[], ends: EndCorrection): number {
  if (!(litres > 0 && litres < Infinity) || holes.length === 0) throw new RangeError("stiffBoxHz: needs a volume and a hole");
  const metres = totalConductance(holes, ends) / 1000;
  return (SOUND_M_PER_S / (2 * Math.PI)) * Math.sqrt(metres / (litres / 1000));
}

/** By what factor the resonance rises when `added` holes are opened beside those there (at least one): sqrt(K_total / K). */
export function riseFromHoles(there: readonly AirHole[], added: readonly AirHole[], ends: EndCorrection): number {
  if (there.length === 0) throw new RangeError("riseFromHoles: needs a hole to begin with");
  return Math.sqrt(1 + totalConductance(added, ends) / totalConductance(there, ends));
}

/** The two modes of a box whose top gives, Hz. */
export interface CoupledModes {
  readonly air: number;
  readonly top: number;
}

/**
 * The modes of a moving top over the stiff box's air: f_A² + f_T² = f_H² + f_closed², f_A f_T = f_H f_open, f_open the top's own
 * with the hole open and no air spring, f_closed with the hole closed. Source: Woodhouse, Euphonics, section 4.2.2 (two-mass
 * model). Undefined where no two modes keep both rules.
 */
export function coupledModes(stiffBox: number, topOpen: number, topClosed: number): CoupledModes | undefined {
  if (!(stiffBox > 0 && topOpen > 0 && topClosed > 0 && stiffBox + topOpen + topClosed < Infinity)) {
    throw new RangeError("coupledModes: every frequency must be above 0");
  }
  const sum = stiffBox ** 2 + topClosed ** 2;
  const product = stiffBox * topOpen;
  const plus = Math.sqrt(sum + 2 * product);
  if (sum < 2 * product) return undefined;
  const minus = Math.sqrt(sum - 2 * product);
  return { air: (plus - minus) / 2, top: (plus + minus) / 2 };
}

const totalConductance = (holes: readonly AirHole[], ends: EndCorrection): number =>
  holes.reduce((sum, hole) => sum + conductance(hole, ends), 0);

function arithmeticGeometricMean(a: number, b: number): number {
  let [x, y] = [a, b];
  while (Math.abs(x - y) > 1e-15 * x) {
    const mean = (x + y) / 2;
    if (mean === x || mean === y) break;
    [x, y] = [mean, Math.sqrt(x * y)];
  }
  return x;
}
