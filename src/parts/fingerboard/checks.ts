import type { Check } from "../contract.ts";
import type { FingerboardMeasures } from "./measure.ts";
import type { FingerboardParams } from "./numbers.ts";

export const fingerboardChecks: readonly Check<FingerboardParams, FingerboardMeasures>[] = [];
