import type { MeasuresByKind, Sources } from "../contract.ts";

/** The settled numbers of the sides. Lengths mm, angles radians. */
export interface SidesParams {
  readonly depthNeck: number;
  readonly depthTail: number;
  readonly backRadius: number | undefined;
  readonly face: "outer" | "middle";
  readonly liningWidth: number;
  readonly liningHeight: number;
  readonly neckBlockWidth: number;
  readonly neckBlockLength: number;
  readonly tailBlockWidth: number;
  readonly tailBlockLength: number;
  readonly graft: "none" | "graft";
  readonly graftTop: number;
  readonly graftBottom: number;
  readonly graftPurfling: number;
  readonly endHole: "none" | "pin" | "jack";
  readonly endHoleDiameter: number;
  readonly endHoleDown: number;
  readonly accent: number;
}

export type Body = MeasuresByKind["body"];

/** The body that the sides are bent to, if the design has a hollow one. */
export function hollowOf(from: Sources): Body | undefined {
  const body = from.get("body");
  return body?.build === "hollow" ? body : undefined;
}
