/** What is kept of the boards in a file: photographs that can be shown, dimensions that say what they are between. */
import type { Raw } from "../parts/derived.ts";
import { PICTURE_TYPES, type Pair } from "./board.ts";
import { isFiniteNumber, isRecord, listOf, recordOf, spoken, type Shape, type Tell } from "./shape.ts";

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
const MOST_PIXELS = 20_000;

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
    isText(value.middleOf) ||
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
