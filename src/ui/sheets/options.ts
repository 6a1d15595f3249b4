import type { Design } from "../../document/design.ts";
import { numbersOfAll } from "../../document/copies.ts";
import { fingerprintOf } from "../../document/fingerprint.ts";
import { notationOf } from "../notation.ts";
import type { PaperSettings } from "./paper-settings.ts";
import type { PlainOptions } from "./worker-words.ts";

/** Everything that the sheets of a design need beside its templates. */
export function sheetOptions(design: Design, chosen: NonNullable<PaperSettings["chosen"]>): PlainOptions {
  const { title = "", player = "", date = "" } = design.order ?? {};
  const number = numbersOfAll(design).join(", ");
  return {
    ...chosen,
    order: { number, title, player },
    date,
    fingerprint: fingerprintOf(design),
    notation: notationOf(design),
  };
}
