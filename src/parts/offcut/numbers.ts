import type { OutlinePoint } from "../../geometry/drawn/point.ts";

/** A knot or a crack: round, or drawn out to `length` in the direction `turn`. */
export interface Knot {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly length: number;
  readonly turn: number;
}

/** A blank laid on the offcut. */
export interface Laid {
  /** Id of the blank, `bridge/bridge`. */
  readonly blank: string;
  /** Of the middle of the box round the piece while its grain runs along x. */
  readonly x: number;
  readonly y: number;
  /** Of the piece's grain from that of the wood. */
  readonly turn: number;
  /** Laid with its face down. */
  readonly flipped: boolean;
}

/** The settled numbers of an offcut. Lengths mm, angles radians; x from its left end, y up from its lower edge. */
export interface OffcutParams {
  readonly note: string;
  readonly source: "rectangle" | "points";
  readonly length: number;
  readonly width: number;
  readonly outline: readonly OutlinePoint[];
  readonly thickness: number;
  readonly grain: number;
  readonly slant: number;
  readonly bothFaces: boolean;
  readonly kerf: number;
  readonly knots: readonly Knot[];
  readonly pieces: readonly Laid[];
}
