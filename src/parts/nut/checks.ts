import type { Check } from "../contract.ts";
import type { NutMeasures } from "./measure.ts";
import type { NutParams } from "./params.ts";

export const nutChecks: readonly Check<NutParams, NutMeasures>[] = [];
