import { readQuantity } from "../units/read.ts";
import type { AnyPart } from "./any-part.ts";
import type { Limit, Limits } from "./contract.ts";
import type { DesignNumbers } from "./derived.ts";

/** The limits of one check, at `<kind>.<check id>`: the maker's own where one was given that can be read, else the usual ones. */
export const limitsAt = (
  design: Pick<DesignNumbers, "units" | "limits">,
  at: string,
  limits: Readonly<Record<string, Limit>>,
): Readonly<Record<string, number>> =>
  Object.fromEntries(
    Object.entries(limits).map(([name, limit]) => {
      const given = design.limits?.[`${at}.${name}`];
      if (typeof given === "number") return [name, given];
      const read =
        typeof given === "string" ? readQuantity(given, { quantity: limit.quantity, bareUnit: design.units }) : undefined;
      return [name, read?.ok ? read.value.value : limit.value];
    }),
  );

/** The limits of all checks of a part, worked out once as long as the maker changes none. */
export function keptLimits(): (part: AnyPart, design: Pick<DesignNumbers, "units" | "limits">) => Limits {
  let before: Pick<DesignNumbers, "units" | "limits"> | undefined;
  let known = new Map<AnyPart, Limits>();
  return (part, design) => {
    if (before?.limits !== design.limits || before?.units !== design.units) known = new Map();
    before = design;
    const limits =
      known.get(part) ??
      Object.fromEntries(part.checks.map(({ id, limits }) => [id, limitsAt(design, `${part.kind}.${id}`, limits)]));
    known.set(part, limits);
    return limits;
  };
}
