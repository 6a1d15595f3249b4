/**
 * The scale length of a board from distances measured from the nut to some of its frets, and radii from a sagitta.
 *
 *   L = sum(m k) / sum(k²),  k = 1 - 2^(-n/12): the least squares of m = L k
 *   against the others: residual / (1 - k² / sum k²), how far the fret stands from where the scale of the rest puts it
 *   R = c² / (8 s) + s / 2, s the sagitta over the chord c
 * Source: least squares through the origin with leave-one-out residuals (Draper and Smith, Applied Regression Analysis,
 * from memory); geometry of the circle.
 */

/** One reading: nut to fret `fret` (a whole number above 0), mm. */
export interface MeasuredFret {
  readonly fret: number;
  readonly distance: number;
}

/** A reading held against the scale found. */
export interface FretResidual extends MeasuredFret {
  /** Read less computed, mm. */
  readonly residual: number;
  /** The same against the scale that the other readings give; undefined for a single reading. */
  readonly againstOthers: number | undefined;
}

/** The scale found, mm, and every reading in the order given. */
export interface MeasuredScale {
  readonly scale: number;
  readonly frets: readonly FretResidual[];
}

/** The scale through at least one reading; RangeError for a fret that is no whole number above 0 or a distance not above 0. */
export function measuredScale(readings: readonly MeasuredFret[]): MeasuredScale {
  for (const { fret, distance } of readings) {
    if (!(Number.isInteger(fret) && fret >= 1)) throw new RangeError("measuredScale: a fret is a whole number from 1");
    if (!(distance > 0 && distance < Infinity)) throw new RangeError("measuredScale: a distance must be above 0");
  }
  const squares = readings.reduce((sum, { fret }) => sum + shareOf(fret) ** 2, 0);
  if (!(squares > 0)) throw new RangeError("measuredScale: needs a reading");
  const scale = readings.reduce((sum, { fret, distance }) => sum + distance * shareOf(fret), 0) / squares;
  const frets = readings.map(({ fret, distance }): FretResidual => {
    const residual = distance - scale * shareOf(fret);
    const weight = shareOf(fret) ** 2 / squares;
    return { fret, distance, residual, againstOthers: readings.length > 1 ? residual / (1 - weight) : undefined };
  });
  return { scale, frets };
}

const shareOf = (fret: number): number => 1 - 2 ** (-fret / 12);

/** The reading farthest from where the others put it, if by more than `tolerance` mm; undefined where all agree or one is alone. */
export function slotThatIsOut({ frets }: MeasuredScale, tolerance: number): FretResidual | undefined {
  const off = ({ againstOthers }: FretResidual): number => Math.abs(againstOthers ?? 0);
  const worst = frets.reduce((a, b) => (off(b) > off(a) ? b : a));
  return off(worst) > tolerance ? worst : undefined;
}

/** Radius (mm) of an arch that rises `sagitta` mm over a chord, both above 0. */
export function radiusFromSagitta(sagitta: number, chord: number): number {
  if (!(sagitta > 0 && chord > 0 && chord < Infinity && sagitta < Infinity))
    throw new RangeError("radiusFromSagitta: both must be above 0");
  return (chord * chord) / (8 * sagitta) + sagitta / 2;
}
