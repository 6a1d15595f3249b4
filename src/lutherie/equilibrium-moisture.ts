/**
 * The moisture that wood settles at in still air, percent of its ovendry mass.
 *
 *   EMC = 1800/W [ Kh/(1 - Kh) + (K1 Kh + 2 K1 K2 K² h²) / (1 + K1 Kh + K1 K2 K² h²) ],  h = RH/100,  T in degrees Celsius
 *   W  = 349 + 1.29 T + 0.0135 T²           K  = 0.805 + 0.000736 T - 0.00000273 T²
 *   K1 = 6.27 - 0.00938 T - 0.000303 T²     K2 = 1.91 + 0.0407 T - 0.000293 T²
 *
 * Source: USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-282 (2021), chapter 4, Eq. (4-5). Derived mainly for
 * Sitka spruce midway between wetting and drying: the first decimal shows a trend, not a measurement.
 */

/** The rooms that the formula is asked about; the handbook's table starts at 30 °F and 5 %, and ends at 132.2 °C and 95 %. */
export const AIR_LIMITS = { lowestC: -1.2, highestC: 60, lowestRhPct: 5, highestRhPct: 95 } as const;

/** EMC in percent at `temperatureC` (°C) and `humidityPct` (% RH); RangeError outside AIR_LIMITS. */
export function equilibriumMoisturePct(temperatureC: number, humidityPct: number): number {
  const { lowestC, highestC, lowestRhPct, highestRhPct } = AIR_LIMITS;
  if (!(temperatureC >= lowestC && temperatureC <= highestC)) {
    throw new RangeError(`equilibriumMoisturePct: the air must be between ${lowestC} and ${highestC} °C`);
  }
  if (!(humidityPct >= lowestRhPct && humidityPct <= highestRhPct)) {
    throw new RangeError(`equilibriumMoisturePct: the humidity must be between ${lowestRhPct} and ${highestRhPct} % RH`);
  }
  const t = temperatureC;
  const w = 349 + 1.29 * t + 0.0135 * t * t;
  const k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
  const k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
  const k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
  const kh = (k * humidityPct) / 100;
  const first = k1 * kh;
  const second = k1 * k2 * kh * kh;
  return (1800 / w) * (kh / (1 - kh) + (first + 2 * second) / (1 + first + second));
}
