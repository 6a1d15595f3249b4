/** The record of what was cut, and from which numbers. */
import type { Result } from "../units/result.ts";
import type { Cut, Design, Numbers, Trouble } from "./design.ts";
import { fingerprintDigits, fingerprintOf } from "./fingerprint.ts";

/** The numbers that drawings come from, without the order and the record. */
export const numbersOf = ({ units, instrument, parts, measured, limits, templates, wood, seasons }: Numbers): Numbers => ({
  units,
  instrument,
  parts,
  ...(measured ? { measured } : {}),
  ...(limits ? { limits } : {}),
  ...(templates ? { templates } : {}),
  ...(wood ? { wood } : {}),
  ...(seasons ? { seasons } : {}),
});

/** The design with a cut entered, the numbers frozen with it as they are now. */
export function addCut(design: Design, cut: Pick<Cut, "date" | "part" | "template" | "material" | "note">): Design {
  const entered: Cut = { ...cut, fingerprint: fingerprintOf(design), numbers: numbersOf(design) };
  return { ...design, cuts: [...(design.cuts ?? []), entered] };
}

/** The design with the numbers that a cut was made from; the order and the record stay. */
export function numbersOfCut(design: Design, index: number): Result<Design, Trouble> {
  const cut = design.cuts?.[index];
  if (!cut)
    return {
      ok: false,
      error: { path: `cuts[${index}]`, message: `there is no cut ${index}`, mend: `There are ${design.cuts?.length ?? 0}.` },
    };
  const { measured: _measured, limits: _limits, templates: _templates, wood: _wood, seasons: _seasons, ...kept } = design;
  return { ok: true, value: { ...kept, ...numbersOf(cut.numbers) } };
}

/** What the numbers of a cut are derived under, beside the open design. */
export const cutKey = (index: number): string => `cut ${index}`;

/** Cuts whose sheet bears a fingerprint, as read from paper: capitals, blanks and the dash do not matter. */
export const cutsWith = (design: Design, fingerprint: string): readonly Cut[] =>
  (design.cuts ?? []).filter((cut) => fingerprintDigits(cut.fingerprint) === fingerprintDigits(fingerprint));
