/** Whether a neck can be made as it stands, the channels first. */
import { contourChecks } from "./checks-contour.ts";
import { heightChecks } from "./checks-heights.ts";
import { jointChecks } from "./checks-joint.ts";
import { shapeChecks } from "./checks-shape.ts";
import { woodChecks } from "./checks-wood.ts";
import type { NeckCheck } from "./finding.ts";

export const neckChecks: readonly NeckCheck[] = [
  ...woodChecks,
  ...shapeChecks,
  ...contourChecks,
  ...jointChecks,
  ...heightChecks,
];
