/** The numbers of an inlay. */
import type { ParamTable } from "../contract.ts";
import type { InlayParams } from "./numbers.ts";
import { cuttingParams, pieceParams } from "./params-cutting.ts";
import { figureParams } from "./params-figures.ts";
import { letterParams } from "./params-letters.ts";
import { placeParams } from "./params-place.ts";

export const inlayParams: ParamTable<InlayParams> = {
  ...letterParams,
  ...figureParams,
  ...placeParams,
  ...cuttingParams,
  ...pieceParams,
};
