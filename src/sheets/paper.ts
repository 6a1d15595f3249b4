/** Paper: the sheets that printers take, rolls, and sizes typed by the maker. Sizes in mm as their standards give them. */

import { INCH } from "./furniture/bars.ts";

/** A sheet `width` by `height` mm in the position that its name gives it (ISO: upright; ledger: lying). */
export interface SheetPaper {
  readonly kind: "sheet";
  /** As shown: "A4", "Letter", "300 × 500 mm". */
  readonly label: string;
  readonly width: number;
  readonly height: number;
}
/** A roll `width` mm wide; a page is as long as its drawing needs. */
export interface RollPaper {
  readonly kind: "roll";
  readonly label: string;
  readonly width: number;
}
export type Paper = SheetPaper | RollPaper;

/**
 * The named sizes by the word that the command line takes. ISO 216 for A5 to A0; ASME Y14.1 for ANSI A (letter) to E, whose inch sizes
 * are exact in mm: 8.5 in = 215.9 mm, 11 = 279.4, 17 = 431.8, 22 = 558.8, 34 = 863.6, 44 = 1117.6. Legal, 8.5 x 14 in, is trade practice.
 */
export const PAPERS: Readonly<Record<string, SheetPaper>> = {
  a5: sheet("A5", 148, 210),
  a4: sheet("A4", 210, 297),
  a3: sheet("A3", 297, 420),
  a2: sheet("A2", 420, 594),
  a1: sheet("A1", 594, 841),
  a0: sheet("A0", 841, 1189),
  letter: sheet("Letter", 215.9, 279.4),
  legal: sheet("Legal", 215.9, 355.6),
  tabloid: sheet("Tabloid", 279.4, 431.8),
  ledger: sheet("Ledger", 431.8, 279.4),
  "ansi-c": sheet("ANSI C", 431.8, 558.8),
  "ansi-d": sheet("ANSI D", 558.8, 863.6),
  "ansi-e": sheet("ANSI E", 863.6, 1117.6),
};

function sheet(label: string, width: number, height: number): SheetPaper {
  return { kind: "sheet", label, width, height };
}

/** The shortest side on which both check bars find room beside the margins. */
export const SHORTEST_SIDE = 140;
/** The longest side that a PDF page may have: 14,400 units of 1/72 in (ISO 32000-1, annex C). */
export const LONGEST_SIDE = 5080;

export type PaperResult =
  | { readonly ok: true; readonly value: Paper }
  | { readonly ok: false; readonly error: { readonly message: string; readonly mend: string } };

/**
 * Reads a paper as typed: a name ("a4", "Letter", "ANSI C"), a size in mm or inches ("300x500", "300 × 500 mm",
 * "13 x 19 in"), or a roll ("roll 610", "roll 24 in").
 * @returns the paper, or what is wrong with it
 */
export function parsePaper(text: string): PaperResult {
  const said = text.trim().toLowerCase();
  const name = said.replace(/[\s_]+/g, "-");
  if (Object.hasOwn(PAPERS, name)) return { ok: true, value: PAPERS[name]! };
  const number = String.raw`(\d{1,5}(?:[.,]\d{1,4})?)`;
  const roll = new RegExp(String.raw`^roll\s*(?:of\s*)?${number}\s*(?:mm|in)?$`).exec(said);
  const size = new RegExp(String.raw`^${number}\s*(?:mm|in)?\s*[x×*]\s*${number}\s*(?:mm|in)?$`).exec(said);
  // One unit for both sides, said once or twice.
  const units = [...new Set(said.match(/mm|in/g))];
  const [unit = "mm"] = units;
  const typed = units.length > 1 ? [] : (roll ?? size ?? []).slice(1).map((n) => Number(n.replace(",", ".")));
  const [width, height] = unit === "in" ? typed.map((n) => n * INCH) : typed;
  if (width === undefined) {
    return wrong(
      `"${text.trim().slice(0, 40)}" is no paper known here`,
      `Name one of ${Object.keys(PAPERS).join(", ")}, or give 300x500 or "roll 610" in mm, or 13 x 19 in.`,
    );
  }
  const sides = height === undefined ? [width] : [width, height];
  if (Math.min(...sides) < SHORTEST_SIDE) {
    return wrong(
      `paper ${Math.min(...sides)} mm wide has no room for a 100 mm bar`,
      `The shortest side taken is ${SHORTEST_SIDE} mm.`,
    );
  }
  if (Math.max(...sides) > LONGEST_SIDE)
    return wrong(
      `paper ${Math.max(...sides)} mm long is past what a page can be`,
      `The longest side taken is ${LONGEST_SIDE} mm.`,
    );
  return {
    ok: true,
    value:
      height === undefined
        ? { kind: "roll", label: `Roll ${typed[0]} ${unit}`, width }
        : sheet(`${typed.join(" × ")} ${unit}`, width, height),
  };
}

function wrong(message: string, mend: string): PaperResult {
  return { ok: false, error: { message, mend } };
}
