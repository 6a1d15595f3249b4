import type { Design } from "../../document/design.ts";
import { fingerprintOf } from "../../document/fingerprint.ts";
import { notationOf } from "../notation.ts";
import type { PaperSettings } from "./paper-settings.ts";
import type { PlainOptions } from "./worker-words.ts";

/** Today as 2025-03-31, by this computer's clock. */
export function today(): string {
  const now = new Date();
  return [now.getFullYear(), String(now.getMonth() + 1).padStart(2, "0"), String(now.getDate()).padStart(2, "0")].join("-");
}

/** Everything that the sheets of a design need beside its templates. */
export function sheetOptions(design: Design, chosen: NonNullable<PaperSettings["chosen"]>): PlainOptions {
  const { number = "", title = "", player = "", date = "" } = design.order ?? {};
  return {
    ...chosen,
    order: { number, title, player },
    date: /^\d{4}-\d\d-\d\d$/.test(date) ? date : today(),
    fingerprint: fingerprintOf(design),
    notation: notationOf(design),
  };
}
