import { countBySeverity, findingsOf } from "../../checks/findings.ts";
import { useDerived, useDesign } from "../bench.ts";
import { FindingSign } from "../kit/sign.tsx";

/** How many things stop the work, beside the name of the place that tells them. */
export function Stops() {
  const derived = useDerived();
  const stops = countBySeverity(findingsOf(useDesign(), derived)).stop + derived.problems.length;
  if (stops === 0) return null;
  return (
    <span className="place-stops">
      <FindingSign severity="stop" />
      {stops}
      <span className="unseen">{stops === 1 ? " stop" : " stops"}</span>
    </span>
  );
}
