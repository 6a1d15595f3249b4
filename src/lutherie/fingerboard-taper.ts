/**
 * A board with two straight long sides, alike about the centre line.
 *
 *   w(x) = w0 + s x, s = (W_end - W_nut) / B, and each side leans by alpha, tan(alpha) = s / 2.
 * Moved in by t, square to its edge, each side loses t / cos(alpha) of its half width: w(x) - 2 t / cos(alpha). Source: geometry.
 */

export interface Taper {
  /** Width at x = 0, mm. */
  readonly atNut: number;
  /** Change of width for each mm of length. */
  readonly slope: number;
}

/** The taper with a width at the nut and another at x (not 0), mm. */
export const taperThrough = (atNut: number, x: number, width: number): Taper => ({ atNut, slope: (width - atNut) / x });

/** Width across, square to the centre line, mm. */
export const widthAt = (taper: Taper, x: number): number => taper.atNut + taper.slope * x;

/** 1 / cos(alpha): length of a side for each mm along the centre line. */
export const sideStretch = (taper: Taper): number => Math.hypot(1, taper.slope / 2);

/** The board with both sides moved in by `t` mm, square to them. */
export const movedIn = (taper: Taper, t: number): Taper => ({
  atNut: taper.atNut - 2 * t * sideStretch(taper),
  slope: taper.slope,
});
