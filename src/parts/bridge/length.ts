/** A length of a bridge, in steps of a tenth of a millimetre unless said otherwise. */
import type { NumberSpec } from "../contract.ts";
import { length as coarser, type LengthSpec } from "../length-spec.ts";
import type { BridgeParams } from "./numbers.ts";

export const length = (spec: LengthSpec<BridgeParams>): NumberSpec<BridgeParams> => coarser({ step: 0.1, ...spec });
