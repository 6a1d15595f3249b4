/** Tables as text for a spreadsheet (RFC 4180): fields quoted where they must be, lines ended by CR LF. */

/** A dot goes with commas between fields, a comma with semicolons, as spreadsheets of either habit expect. */
export type DecimalSign = "." | ",";

export type Cell = string | number;

/** Decimals that a number is written with at most. */
const DIGITS = 3;

/** The text of a table. Numbers are written plain, without a unit or a thousands sign; throws on one that is not finite. */
export function csvOf(rows: readonly (readonly Cell[])[], decimal: DecimalSign): string {
  const between = decimal === "." ? "," : ";";
  const field = (cell: Cell): string => {
    const text = typeof cell === "number" ? numberText(cell, decimal) : guarded(cell);
    return /["\r\n]/.test(text) || text.includes(between) || text !== text.trim() ? `"${text.replaceAll('"', '""')}"` : text;
  };
  return rows.map((row) => `${row.map(field).join(between)}\r\n`).join("");
}

function numberText(value: number, decimal: DecimalSign): string {
  if (!Number.isFinite(value)) throw new RangeError(`csvOf: ${value} is no number to write`);
  const text = value.toFixed(DIGITS).replace(/\.?0+$/, "");
  return (text === "-0" ? "0" : text).replace(".", decimal);
}

/** A text that a spreadsheet would run as a formula is kept a text by an apostrophe before it. */
const guarded = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);
