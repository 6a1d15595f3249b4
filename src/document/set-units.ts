import type { Result } from "../units/result.ts";
import type { Copy, Design, Trouble, Units } from "./design.ts";
import { pinReference, pinUnits } from "./pin-units.ts";

/**
 * The design shown in other units. No length changes: a number typed without a unit gets the unit that it was typed in. Refused while a
 * formula cannot be read, since nobody can tell what its numbers mean.
 */
export function setUnits(design: Design, units: Units, fractions = design.fractions): Result<Design, Trouble> {
  const shown: Design = fractions === design.fractions || fractions === undefined ? design : { ...design, fractions };
  if (units === design.units) return { ok: true, value: shown };
  const { stuck, measured, limits, templates, wood, ...pinned } = pinUnits(design);
  const [first] = stuck;
  if (first)
    return {
      ok: false,
      error: { path: first.path!, message: `the units wait for a formula: ${first.message}`, mend: first.mend },
    };
  return {
    ok: true,
    value: {
      ...shown,
      ...pinned,
      ...(design.order?.reference ? { order: { ...design.order, reference: pinReference(design.order.reference, design) } } : {}),
      ...(design.copies ? { copies: design.copies.map((copy) => pinnedCopy(copy, design)) } : {}),
      ...(design.measured ? { measured } : {}),
      ...(design.limits ? { limits } : {}),
      ...(design.templates ? { templates } : {}),
      ...(design.wood ? { wood } : {}),
      units,
    },
  };
}

const pinnedCopy = (copy: Copy, design: Design): Copy => (copy.own ? { ...copy, own: pinReference(copy.own, design) } : copy);
