import { useDerived, useDesign } from "../bench.ts";
import { FindingSign } from "../kit/sign.tsx";
import { stopCount } from "../stop-count.ts";

/** How many things stop the work, beside the name of the place that tells them. */
export function Stops() {
  const stops = stopCount(useDesign(), useDerived());
  if (stops === 0) return null;
  return (
    <span className="place-stops">
      <FindingSign severity="stop" />
      {stops}
      <span className="unseen">{stops === 1 ? " stop" : " stops"}</span>
    </span>
  );
}
