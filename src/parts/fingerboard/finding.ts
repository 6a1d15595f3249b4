import type { Check } from "../contract.ts";
import type { FingerboardMeasures } from "./measure.ts";
import type { FingerboardParams } from "./numbers.ts";

export type FingerboardCheck = Check<FingerboardParams, FingerboardMeasures>;
export type FingerboardSubject = Parameters<FingerboardCheck["run"]>[0];
