/**
 * A number as files carry it: rounded to `digits` decimals, no exponent, no trailing zeros, never "-0". The same text on every machine
 * for the same number. Throws where it is not finite.
 */
export function numberText(value: number, digits: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`numberText: ${value} cannot be written`);
  const text = value.toFixed(digits);
  const short = text.includes(".") ? text.replace(/\.?0+$/, "") : text;
  return short === "-0" ? "0" : short;
}
