import { segmentPath } from "../../geometry/path.ts";
import type { InPlace } from "../contract.ts";
import type { InstrumentMeasures } from "./measure.ts";

/** The strings from the nut to where the scale ends; the bridge draws them on to its saddle. */
export const instrumentInPlace = (m: InstrumentMeasures): InPlace => ({
  front: {
    layers: [
      {
        name: "strings",
        shapes: m.strings.map(({ number, note, nut, saddle }) => ({
          id: `string-${number}`,
          role: "guide",
          line: "narrow",
          path: segmentPath(nut, saddle),
          name: note === "" ? `string ${number}` : `string ${number}, ${note}`,
        })),
      },
    ],
    dimensions: [],
  },
});
