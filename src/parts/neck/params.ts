/** The table of a neck's parameters. */
import type { Balance, ParamTable } from "../contract.ts";
import type { NeckParams } from "./numbers.ts";
import { carvingTable } from "./params-carving.ts";
import { channelTable } from "./params-channels.ts";
import { headTable } from "./params-head.ts";
import { heelTable, jointTable } from "./params-heel.ts";
import { heightBalances, heightTable } from "./params-heights.ts";
import { shapeBalances, shapeTable } from "./params-shape.ts";

export const neckParams: ParamTable<NeckParams> = {
  ...shapeTable,
  ...channelTable,
  ...carvingTable,
  ...headTable,
  ...heelTable,
  ...jointTable,
  ...heightTable,
};

export const neckBalances: readonly Balance<NeckParams>[] = [...shapeBalances, ...heightBalances];
