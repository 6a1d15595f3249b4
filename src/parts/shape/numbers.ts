import type { OutlinePoint } from "../../geometry/drawn/point.ts";

export type StartingShape = "rectangle" | "oval" | "leaf" | "wedge" | "shield" | "bell";

/** The settled numbers of a free shape. Lengths mm, angles radians. */
export interface ShapeParams {
  readonly name: string;
  readonly source: "points" | "imported";
  readonly start: StartingShape;
  readonly length: number;
  readonly width: number;
  readonly mirrored: boolean;
  readonly outline: readonly OutlinePoint[];
  /** Path data in mm, y down, as SVG writes it. */
  readonly art: string;
  readonly artWidth: number | undefined;
  readonly thickness: number;
  readonly material: string;
  readonly grain: number;
}
