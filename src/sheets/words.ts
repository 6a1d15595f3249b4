/** What the strip of a sheet says. */
import type { Template } from "../templates/template.ts";
import type { StripWords } from "./furniture/strip.ts";
import type { SheetOptions } from "./sheet.ts";

/** "Fingerboard, blank outline"; a title that begins with the part's name stands alone. */
export const nameOf = ({ partLabel, title }: Template): string =>
  title.toLowerCase().startsWith(partLabel.toLowerCase()) ? title : `${partLabel}, ${lowerFirst(title)}`;

/** As within a sentence; abbreviations are left alone. */
export const lowerFirst = (text: string): string =>
  /^[A-Z][A-Z\d]/.test(text) ? text : text.slice(0, 1).toLowerCase() + text.slice(1);
const upperFirst = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

const CUT = "cut to the centre of the line";

/** What the line is and where it is cut, as a sentence; `alone` leaves out the cutting, where that is said for all. */
export function lineSentence({ lineIs }: Template, alone = false): string {
  const said = lineIs
    .replace(new RegExp(String.raw`[;,]?\s*${CUT}`, "i"), "")
    .trim()
    .replace(/\.$/, "");
  const sentence = [said, alone ? "" : CUT].filter((part) => part !== "").join("; ");
  return sentence === "" ? "" : `${upperFirst(sentence)}.`;
}

/** Order, date, numbers; printing and correction: at the foot of every strip. */
export function footLines({ order, date, fingerprint, printer }: SheetOptions): string[] {
  const facts = [
    order.number === "" ? "" : `No. ${order.number}`,
    order.title,
    order.player === "" ? "" : `for ${order.player}`,
    date,
    fingerprint,
  ];
  const corrected = printer
    ? `Printer ${printer.name === "" ? "" : `${printer.name}, `}corrected x ${printer.sx.toFixed(4)}, y ${printer.sy.toFixed(4)}.`
    : "No printer correction.";
  return [facts.filter((fact) => fact !== "").join(" · "), `Print at 100 %, not fitted to the page. ${corrected}`];
}

export const templateWords = (template: Template, options: SheetOptions): StripWords => ({
  title: nameOf(template),
  lines: [lineSentence(template), ...footLines(options)],
});
