/** A number for a table: at most four decimals, no trailing zeros, no negative zero. */
export const formatFixed = (value: number): string => String(Number(value.toFixed(4)) + 0);
