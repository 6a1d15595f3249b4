import { numbersOfAll } from "./copies.ts";
import type { Design } from "./design.ts";
import { fingerprintOf } from "./fingerprint.ts";
import type { Summary } from "./summary.ts";

/** What a list of designs shows and finds of a design. */
export function summaryOf(design: Design): Summary {
  const { title = "", number = "", player = "", builtBy = "", date = "", status = "in work" } = design.order ?? {};
  const signs = [...new Set([...(design.cuts ?? []).map(({ fingerprint }) => fingerprint), fingerprintOf(design)])];
  return { title, number, player, builtBy, date, status, numbers: numbersOfAll(design), signs };
}
