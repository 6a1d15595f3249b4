/** The measuring sheet as a file, the same from the screen and from the command line. */
import { measuringForm } from "../measuring/form.ts";
import type { Paper } from "../sheets/paper.ts";
import { SHEET_DEFAULTS } from "../sheets/sheet.ts";
import type { FontBytes } from "./pdf/writer.ts";

export interface MeasuringChoice {
  readonly paper: Paper;
  /** What a bare number on it means. */
  readonly unit: "in" | "mm";
  /** Whose instrument; empty for a form that is printed ahead. */
  readonly order: string;
  /** What is known already, by key of the reading: texts as written, or mm. */
  readonly written: Readonly<Record<string, unknown>>;
}

/** The bytes of its PDF. Loads the PDF library on first use. */
export async function measuringFile({ paper, unit, order, written }: MeasuringChoice, fonts: FontBytes): Promise<Uint8Array> {
  const texts = Object.entries(written).flatMap(([key, raw]) =>
    typeof raw === "string" ? [[key, raw] as const] : typeof raw === "number" ? [[key, `${raw} mm`] as const] : [],
  );
  const set = measuringForm({ paper, margin: SHEET_DEFAULTS.margin, order, unit, written: Object.fromEntries(texts) });
  const { pdfOf } = await import("./pdf/writer.ts");
  return pdfOf(set, { fonts, title: order === "" ? "Measuring an instrument" : `Measuring: ${order}`, number: "", date: "" });
}
