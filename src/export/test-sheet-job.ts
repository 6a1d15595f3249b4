/** The printer's test sheet as a file, the same from the screen and from the command line. */
import type { Paper } from "../sheets/paper.ts";
import { testFigures, testSheet, type TestFigures } from "../sheets/test-sheet.ts";
import { lengthInFull, type LengthStyle } from "../units/format.ts";
import { MM_PER_INCH } from "../units/unit.ts";
import type { FontBytes } from "./pdf/writer.ts";

/** What a test sheet depends on. */
export interface TestSheetChoice {
  readonly paper: Paper;
  /** mm */
  readonly margin: number;
  /** The units of the maker's rule. */
  readonly style: LengthStyle;
}

const stepsOf = ({ unit }: LengthStyle): { readonly step: number; readonly numbered: number } =>
  unit === "mm" ? { step: 10, numbered: 50 } : { step: MM_PER_INCH / 2, numbered: MM_PER_INCH };

/** The lengths that are measured on it; undefined where the paper is too small. */
export const testFiguresOf = ({ paper, margin, style }: TestSheetChoice): TestFigures | undefined =>
  testFigures({ paper, margin, ...stepsOf(style) });

/** The bytes of its PDF; undefined where the paper is too small. Loads the PDF library on first use. */
export async function testSheetFile(choice: TestSheetChoice, fonts: FontBytes): Promise<Uint8Array | undefined> {
  const { paper, margin, style } = choice;
  const set = testSheet({ paper, margin, ...stepsOf(style), say: (mm) => lengthInFull(mm, style) });
  if (!set) return undefined;
  const { pdfOf } = await import("./pdf/writer.ts");
  return pdfOf(set, { fonts, title: `Printer test sheet, ${paper.label}`, number: "", date: "" });
}
