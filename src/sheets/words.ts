/** What the strip of a sheet says. */
import type { Template } from "../templates/template.ts";
import type { StripWords } from "./furniture/strip.ts";
import type { SheetOptions } from "./sheet.ts";

/** "Fingerboard, blank outline"; a title that begins with the part's name stands alone. Then whom it serves. */
export function nameOf({ partLabel, title, serves }: Template): string {
  const name = title.toLowerCase().startsWith(partLabel.toLowerCase()) ? title : `${partLabel}, ${lowerFirst(title)}`;
  return serves === undefined ? name : `${name} (${serves})`;
}

/** As within a sentence; abbreviations are left alone. */
export const lowerFirst = (text: string): string =>
  /^[A-Z][A-Z\d]/.test(text) ? text : text.slice(0, 1).toLowerCase() + text.slice(1);
const upperFirst = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

const CUT = "cut to the centre of the line";

/**
 * What the line is and where it is cut, as a sentence, then what could not be made as asked. Where the template does not say how to cut,
 * that is to the centre of the line; `alone` leaves it out, since it is said once for all.
 */
export function lineSentence({ lineIs, cautions = [] }: Template, alone = false): string {
  const said = lineIs
    .replace(new RegExp(String.raw`[;,]?\s*${CUT}`, "i"), "")
    .trim()
    .replace(/\.$/, "");
  const sentence = [said, alone || /\bcut\b/i.test(said) ? "" : CUT].filter((part) => part !== "").join("; ");
  return [sentence === "" ? "" : `${upperFirst(sentence)}.`, ...cautions].filter((part) => part !== "").join(" ");
}

/** How lines are cut on a sheet that several templates share; `where` their captions stand. */
export const sharedSentence = (where: string): string =>
  `What each line is stands ${where} it; where nothing else is said, ${CUT}.`;

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
