/** The old bridge whose footprint or scar a new one must cover. */
import { outlinePoint } from "../../geometry/drawn/point.ts";
import type { ParamTable } from "../contract.ts";
import { outlineSpec } from "../outline-points.ts";
import { length } from "./length.ts";
import { instrumentOf, type BridgeParams } from "./numbers.ts";

const OLD = "An old bridge to cover";

const rectangular = (p: BridgeParams): boolean => p.old === "rectangle";

export const oldTable: Pick<ParamTable<BridgeParams>, "old" | "oldSpan" | "oldAlong" | "oldFrom12" | "oldOutline"> = {
  old: {
    type: "choice",
    label: "Footprint or scar of the old bridge",
    help: "What the new bridge must cover, on a repair.",
    group: OLD,
    fallback: "none",
    options: [
      { value: "none", label: "None" },
      { value: "rectangle", label: "A rectangle" },
      { value: "points", label: "By points" },
    ],
  },
  oldSpan: length({
    label: "Old footprint, across",
    help: "Over the scar of the old bridge, square to the strings.",
    group: OLD,
    follows: { words: "this bridge less 2 mm", value: (p) => Math.max(1, p.span - 2) },
    min: 1,
    max: 600,
    when: rectangular,
  }),
  oldAlong: length({
    label: "Old footprint, along",
    help: "The same along the strings, where it is widest.",
    group: OLD,
    follows: { words: "this bridge less 2 mm", value: (p) => Math.max(1, p.front + p.back - 2) },
    min: 1,
    max: 200,
    when: rectangular,
  }),
  oldFrom12: length({
    label: "Fret 12 to the old front edge",
    help: "From the crown of fret 12 to the front of the scar, on the centre line.",
    group: OLD,
    follows: {
      words: "half of the scale, less what stands in front of the saddle, and 1 mm",
      value: (p, from) => Math.max(1, instrumentOf(from).scale / 2 - p.front + 1),
    },
    min: 1,
    max: 1000,
    when: rectangular,
  }),
  oldOutline: outlineSpec<BridgeParams>({
    label: "Points of the old footprint",
    help: "Measured from fret 12 on the centre line; drag the points on the board or trace a photograph.",
    group: OLD,
    words: "a rectangle by the three numbers above",
    shape: (p) => {
      const [x0, x1, y] = [p.oldFrom12, p.oldFrom12 + p.oldAlong, p.oldSpan / 2];
      return [
        [x0, -y],
        [x1, -y],
        [x1, y],
        [x0, y],
      ].map(([x, at]) => outlinePoint(x!, at!));
    },
    when: (p) => p.old === "points",
  }),
};
