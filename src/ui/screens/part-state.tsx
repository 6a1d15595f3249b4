/** How a part's checks stand, those across parts too: a shape and a word. */
import { useMemo } from "react";
import { countBySeverity, findingsOn } from "../../checks/findings.ts";
import type { DerivedPart } from "../../parts/derived.ts";
import { useDerived, useDesign } from "../bench.ts";
import { FindingSign } from "../kit/sign.tsx";
import { useLast } from "../use-last.ts";

export function PartState({ part }: { readonly part: DerivedPart }) {
  const design = useDesign();
  const derived = useDerived();
  const now = useMemo(() => countBySeverity(findingsOn(design, derived, part.id)), [design, derived, part.id]);
  // While it is worked out, how it stood stays in sight.
  const { stop, look, fine } = useLast(part.id, now, !part.waiting);
  if (part.problems.length > 0) return <State severity="stop" says="a number to mend" />;
  if (stop > 0) return <State severity="stop" says={stop === 1 ? "1 stop" : `${stop} stops`} />;
  if (look > 0) return <State severity="look" says={`${look} to look at`} />;
  return fine > 0 ? <State severity="fine" says="all clear" /> : null;
}

const State = ({ severity, says }: { readonly severity: "stop" | "look" | "fine"; readonly says: string }) => (
  <span className={`part-state says-${severity}`}>
    <FindingSign severity={severity} /> {says}
  </span>
);
