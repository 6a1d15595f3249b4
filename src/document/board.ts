/** What a maker puts on a part's board beside the part itself: a photograph under it, and dimensions that the dividers measured. */

/** A place: x and y. */
export type Pair = readonly [number, number];

/** How a photograph comes to scale. Places in pixels from its upper left corner, y down; lengths as typed. */
export type PhotographScale =
  | { readonly by: "points"; readonly points: readonly [Pair, Pair]; readonly length: string }
  | {
      readonly by: "rectangle";
      readonly corners: readonly [Pair, Pair, Pair, Pair];
      readonly across: string;
      readonly down: string;
      /** A further length that is known, which shows how true the rest is. */
      readonly check?: { readonly points: readonly [Pair, Pair]; readonly length: string };
    };

export interface Photograph {
  /** Of the file that it came from. */
  readonly name: string;
  readonly type: PictureType;
  /** Pixels, as it is kept. */
  readonly width: number;
  readonly height: number;
  /** The compressed picture, base64. */
  readonly data: string;
  /** None yet: it is laid under the board as large as the drawing. */
  readonly scale?: PhotographScale;
  /** Of a picture without a scale. */
  readonly mmAPixel?: number;
  /** Where its first marked place lies on the drawing (its middle, without a scale), mm, and the direction of the next, degrees. */
  readonly at: Pair;
  readonly turn: number;
  /** 0 to 1. */
  readonly opacity?: number;
  readonly hidden?: boolean;
  readonly locked?: boolean;
}

export const PICTURE_TYPES = ["image/webp", "image/jpeg", "image/png"] as const;
export type PictureType = (typeof PICTURE_TYPES)[number];

/** A place that a dimension holds on to: on a line of the drawing, at `t` of its piece; the middle of a circle; or by itself, mm. */
export type SpanEnd =
  { readonly shape: string; readonly piece: number; readonly t: number } | { readonly middleOf: string } | { readonly at: Pair };

/** A dimension that was measured on the board and kept: between two places, or the shortest between two lines. */
export type Span = { readonly from: SpanEnd; readonly to: SpanEnd } | { readonly between: readonly [string, string] };

export interface BoardRecord {
  readonly photograph?: Photograph;
  readonly spans?: readonly Span[];
}

/** By id of the part. */
export type Boards = Readonly<Record<string, BoardRecord>>;

/** Bytes of a photograph as it is kept, and as they stand in the file. */
export const bytesOf = ({ data }: Photograph): number =>
  Math.floor((data.length * 3) / 4) - (data.endsWith("==") ? 2 : data.endsWith("=") ? 1 : 0);
