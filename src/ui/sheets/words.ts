/** Words that several panels of the Sheets place say. */
import type { Paper } from "../../sheets/paper.ts";
import { lengthInShort, type LengthStyle } from "../../units/format.ts";

export const sheetsSaid = (count: number): string => (count === 1 ? "1 sheet" : `${count} sheets`);

/** With a capital and a stop. */
export const sentence = (words: string): string =>
  words === "" ? "" : `${words.charAt(0).toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? "" : "."}`;

/** The sides of a paper as the maker says lengths, "8 1/2 × 11 in"; those of ISO papers and of what was typed in mm are in mm: "210 × 297 mm". */
export function sidesSaid(paper: Paper, style: LengthStyle): string {
  const typed = /\b(mm|in)$/.exec(paper.label)?.[1] ?? (/^A\d$/.test(paper.label) ? "mm" : style.unit);
  const inUnit = { unit: typed === "in" ? "in" : "mm", fractions: style.fractions } as const;
  return (paper.kind === "roll" ? [paper.width] : [paper.width, paper.height])
    .map((side) => lengthInShort(side, inUnit))
    .join(" × ")
    .replace(/ (?:mm|in)(?= ×)/g, "");
}

/** What a paper is called: its name, or its sides where it has none. */
export const paperSaid = (paper: Paper, style: LengthStyle): string =>
  paper.kind === "roll" ? `roll ${sidesSaid(paper, style)}` : /^\d/.test(paper.label) ? sidesSaid(paper, style) : paper.label;
