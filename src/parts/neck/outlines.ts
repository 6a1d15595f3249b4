/** The points of the contour gauges, as places on the sections at the measured frets. */
import { outlinePoint } from "../../geometry/drawn/point.ts";
import type { PointOutline, Sources } from "../contract.ts";
import type { NeckMeasures } from "./measure.ts";
import { modelOf } from "./model.ts";
import type { NeckParams } from "./numbers.ts";
import { measuredSection } from "./section-row.ts";

/** Room about a section, mm. */
const AROUND = 30;

export function neckOutlines(p: NeckParams, _m: NeckMeasures, from: Sources): PointOutline[] {
  const model = modelOf(p, from);
  const { side } = model.instrument;
  return (["first", "second"] as const).flatMap((which): PointOutline[] => {
    const place = measuredSection(p, model, which);
    if (!place) return [];
    return [
      {
        key: `${which}Contour`,
        title: `Contour gauge, ${place.label}`,
        origin: place.centre,
        mirrored: false,
        points: p[`${which}Contour`].map(({ across, down }) => outlinePoint(side * across, -down)),
        before: [],
        after: [],
        guides: [],
        loose: {
          x: { key: "across", sign: side },
          y: { key: "down", sign: -1 },
          traced: { [`${which}ContourLies`]: "free" },
          across: model.widthAt(place.x) + 2 * AROUND,
          finish: "Fit the section to it",
          finding: `contour/${which}`,
        },
      },
    ];
  });
}
