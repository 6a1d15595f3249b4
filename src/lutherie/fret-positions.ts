/**
 * Where frets lie in twelve-tone equal temperament.
 *
 *   d(n) = L (1 - 2^(-n/12)), the distance of fret n from the nut on a string of scale length L.
 *
 * Source: definition of equal temperament; treated for fretted strings in Varieschi and Gower, "Intonation and compensation of fretted
 * string instruments", American Journal of Physics 78 (2010) 47, section II. Always from the nut, never from fret to fret: errors would
 * add up.
 *
 * Two scales: the bass and the treble outer string each have their own L. Lengths are laid off along the direction of the centre line
 * (not along the slanting strings), so that two equal scales give exactly the frets of one. The nut line crosses the centre line at
 * x = 0, and the fret named as square stands square to the centre line.
 */
import { lerp, vec, type Vec } from "../geometry/vec.ts";

/** The share of the scale that lies between the nut and fret n: 0 for the nut, 1/2 for fret 12. */
export const fretShare = (n: number): number => 1 - 2 ** (-n / 12);

/** Distance of fret n from the nut, mm. */
export const fretDistance = (scaleLength: number, n: number): number => scaleLength * fretShare(n);

/** The speaking part of a string seen from the front: from the nut to the saddle before compensation. */
export interface StringLine {
  readonly nut: Vec;
  readonly saddle: Vec;
}

/** The two outer strings, which all frets are laid off on. */
export interface ScaleLayout {
  readonly bass: StringLine;
  readonly treble: StringLine;
}

/** y of the outer strings on the nut line and on the saddle line. */
export interface OuterHeights {
  readonly bass: number;
  readonly treble: number;
}

/**
 * Lays both scales off on the outer strings. From xb(s) = xt(s) at the square fret s and from the nut line through (0, 0):
 * xb(0) = -w k (Lb - Lt) and xt(0) = (1 - w) k (Lb - Lt), k = 1 - 2^(-s/12), w the share of the way from the bass to the treble string at
 * which the nut line crosses the centre line.
 * @param squareFret 0 for a square nut
 */
export function layScales(given: {
  readonly bassScale: number;
  readonly trebleScale: number;
  readonly squareFret: number;
  readonly nut: OuterHeights;
  readonly saddle: OuterHeights;
}): ScaleLayout {
  const { bassScale, trebleScale, nut, saddle } = given;
  const apart = nut.treble - nut.bass;
  const crossing = apart === 0 ? 0.5 : -nut.bass / apart;
  const skew = (bassScale - trebleScale) * fretShare(given.squareFret);
  // 0 - 0 is 0 where -w times 0 would be -0.
  const bassX = 0 - crossing * skew;
  const trebleX = (1 - crossing) * skew;
  return {
    bass: { nut: vec(bassX, nut.bass), saddle: vec(bassX + bassScale, saddle.bass) },
    treble: { nut: vec(trebleX, nut.treble), saddle: vec(trebleX + trebleScale, saddle.treble) },
  };
}

/** Where fret n crosses a string. */
export const fretOn = (string: StringLine, n: number): Vec => lerp(string.nut, string.saddle, fretShare(n));
