/** What a maker puts on a part's board beside the part itself: a photograph under it, and dimensions that the dividers measured. */
import { isFiniteNumber, isRecord, listOf, recordOf, spoken, type Shape, type Tell } from "./shape.ts";
import type { Raw } from "../parts/derived.ts";

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

/** A place that a dimension holds on to: on a line of the drawing, at `t` of its piece, or by itself, mm. */
export type SpanEnd = { readonly shape: string; readonly piece: number; readonly t: number } | { readonly at: Pair };

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

const isPair = (value: Raw): value is Pair => Array.isArray(value) && value.length === 2 && value.every(isFiniteNumber);
const arePairs = (value: Raw, count: number): boolean => Array.isArray(value) && value.length === count && value.every(isPair);
const isText = (value: Raw): value is string => typeof value === "string";
const isWhole = (value: Raw, least: number, most: number): boolean =>
  isFiniteNumber(value) && Number.isInteger(value) && value >= least && value <= most;

const isMeasured = (value: Raw): boolean => isRecord(value) && arePairs(value.points, 2) && isText(value.length);

const isScale = (value: Raw): boolean =>
  isRecord(value) &&
  (value.by === "points"
    ? isMeasured(value)
    : value.by === "rectangle" &&
      arePairs(value.corners, 4) &&
      isText(value.across) &&
      isText(value.down) &&
      (value.check === undefined || isMeasured(value.check)));

/** Pixels along a side of the largest picture that is kept. */
export const MOST_PIXELS = 20_000;

/** What must be there for a picture to be one. */
function faultOf(value: Raw): string | undefined {
  if (!isRecord(value)) return `it was ${spoken(value)} and not a photograph`;
  if (!isText(value.data) || value.data === "" || !/^[A-Za-z0-9+/]+={0,2}$/.test(value.data.slice(0, 4096)))
    return "the photograph holds no picture";
  if (!(PICTURE_TYPES as readonly Raw[]).includes(value.type)) return "the photograph is of no kind that is read here";
  if (!isWhole(value.width, 1, MOST_PIXELS) || !isWhole(value.height, 1, MOST_PIXELS))
    return "the photograph does not say how many pixels it has";
  return undefined;
}

const photographShape: Shape = (value, path, tell) => {
  const fault = faultOf(value);
  if (fault !== undefined) {
    tell({ path, says: `${fault}: left out` });
    return undefined;
  }
  const kept: Record<string, Raw> = { ...(value as Record<string, Raw>) };
  const put = (key: string, fits: boolean, instead: Raw): void => {
    if (fits) return;
    if (kept[key] !== undefined) tell({ path: `${path}.${key}`, says: `it was ${spoken(kept[key])}: left out` });
    if (instead === undefined) delete kept[key];
    else kept[key] = instead;
  };
  put("name", isText(kept.name), "photograph");
  put("scale", kept.scale === undefined || isScale(kept.scale), undefined);
  put("mmAPixel", kept.mmAPixel === undefined || (isFiniteNumber(kept.mmAPixel) && kept.mmAPixel > 0), undefined);
  put("at", isPair(kept.at), [0, 0]);
  put("turn", isFiniteNumber(kept.turn), 0);
  put(
    "opacity",
    kept.opacity === undefined || (isFiniteNumber(kept.opacity) && kept.opacity >= 0 && kept.opacity <= 1),
    undefined,
  );
  for (const key of ["hidden", "locked"]) put(key, kept[key] === undefined || typeof kept[key] === "boolean", undefined);
  return kept;
};

const isEnd = (value: Raw): boolean =>
  isRecord(value) &&
  (isPair(value.at) ||
    (isText(value.shape) && isWhole(value.piece, 0, 1e6) && isFiniteNumber(value.t) && value.t >= 0 && value.t <= 1));

const spanShape: Shape = (value, path, tell) => {
  const fits =
    isRecord(value) &&
    (value.between === undefined
      ? isEnd(value.from) && isEnd(value.to)
      : Array.isArray(value.between) && value.between.length === 2 && value.between.every(isText));
  if (!fits) tell({ path, says: `it was ${spoken(value)} and no dimension: left out` });
  return fits ? value : undefined;
};

const boardShape = recordOf({ photograph: photographShape, spans: listOf(spanShape) });

/** What is kept of the boards in a file. */
export const boardsShape: Shape = (value: Raw, path: string, tell: Tell) => recordOf({}, boardShape)(value, path, tell);
