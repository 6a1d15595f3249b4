import { readQuantity } from "../units/read.ts";
import type { Limit } from "./contract.ts";
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
