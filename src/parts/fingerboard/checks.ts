/** Whether a fingerboard can be made as it stands. */
import { agreementChecks } from "./checks-agreement.ts";
import { fretChecks } from "./checks-frets.ts";
import { markerChecks } from "./checks-markers.ts";
import { outlineChecks } from "./checks-outline.ts";
import type { FingerboardCheck } from "./finding.ts";

export const fingerboardChecks: readonly FingerboardCheck[] = [
  ...agreementChecks,
  ...outlineChecks,
  ...fretChecks,
  ...markerChecks,
];
