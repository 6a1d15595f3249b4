/** A length in a part's table, in steps of half a millimetre unless said otherwise. */
import type { NumberSpec } from "./contract.ts";

export type LengthSpec<P> = Omit<NumberSpec<P>, "type" | "step"> & { readonly step?: number };

export const length = <P>(spec: LengthSpec<P>): NumberSpec<P> => ({ type: "length", step: 0.5, ...spec });
