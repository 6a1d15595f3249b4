/** Which patterns the carving is done by. */
import type { ParamTable } from "../contract.ts";
import type { CarvingNumbers, NeckParams } from "./numbers.ts";

const CARVING = "Carving";

export const carvingTable: Pick<ParamTable<NeckParams>, keyof CarvingNumbers> = {
  gaugeFrets: {
    type: "counts",
    label: "Gauges at frets",
    help: "Where the neck is carved to a gauge; 0 for the nut. Sections are drawn there too.",
    group: CARVING,
    fallback: [1, 3, 5, 7, 9],
    min: 0,
    max: 36,
    maxItems: 12,
  },
  carvingSteps: {
    type: "count",
    label: "Steps of the carving set",
    help: "How many deeper gauges there are for each measured fret, for carving down while the player tries the neck.",
    group: CARVING,
    fallback: 4,
    min: 0,
    max: 10,
  },
  carvingStep: {
    type: "length",
    label: "One step",
    help: "Difference in depth from one gauge of the carving set to the next.",
    group: CARVING,
    fallback: 0.5,
    min: 0.1,
    max: 5,
    step: 0.1,
  },
  facetAngles: {
    type: "counts",
    label: "Facets at degrees",
    help: "Angles of the flats that are cut first, each touching the finished back, from level with the back (0) to upright (90).",
    group: CARVING,
    fallback: [25, 45, 65],
    min: 1,
    max: 89,
    maxItems: 6,
  },
};
