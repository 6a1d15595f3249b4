/** The table of a fingerboard's parameters. */
import type { Balance, ParamTable } from "../contract.ts";
import { bindingTable } from "./params-binding.ts";
import { fretTable } from "./params-frets.ts";
import { markerTable } from "./params-markers.ts";
import { outlineTable } from "./params-outline.ts";
import type { FingerboardParams } from "./numbers.ts";

export const fingerboardParams: ParamTable<FingerboardParams> = {
  ...outlineTable,
  ...bindingTable,
  ...fretTable,
  ...markerTable,
};

const WIDTHS = ["widthAtJoin", "widthAt12", "widthAtEnd", "marginAtJoin"] as const;

export const fingerboardBalances: readonly Balance<FingerboardParams>[] = [
  { members: WIDTHS, given: 1, yields: WIDTHS },
  { members: ["overhang", "length"], given: 1, yields: ["overhang", "length"] },
  { members: ["binding", "bindingThickness"], given: 1, yields: ["binding", "bindingThickness"] },
];
