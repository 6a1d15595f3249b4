/** The bridge against the body: on the top, and in its middle. */
import { uniteRings } from "../geometry/clipper.ts";
import { flatten } from "../geometry/flatten.ts";
import { pathBounds } from "../geometry/measure.ts";
import { vec } from "../geometry/vec.ts";
import { lieOf } from "../lutherie/offcut-fit.ts";
import type { MeasuresByKind } from "../parts/contract.ts";
import type { Derived, DesignNumbers } from "../parts/derived.ts";
import { atLeast, GEOMETRY, PRACTICE } from "../parts/finding.ts";
import { limitsAt } from "../parts/limits.ts";
import { WHOLE, WHOLE_CHECKS } from "../parts/whole-checks.ts";
import type { PlacedFinding } from "./placed-finding.ts";

const CHORD = 0.01;

/** Both findings of the check on every bridge of a design with a body. */
export function bridgeOnTopFindings(design: DesignNumbers, derived: Derived): readonly PlacedFinding[] {
  const body = derived.parts.find(({ kind, problems }) => kind === "body" && problems.length === 0);
  const top = (body?.measures as MeasuresByKind["body"] | undefined)?.outline;
  if (!top) return [];
  const limits = limitsAt(design, `${WHOLE}.bridge-on-top`, WHOLE_CHECKS["bridge-on-top"].limits);
  const edge = limits["edge"]!;
  const centre = limits["centre"]!;
  const wood = uniteRings([flatten(top, CHORD)]);
  return derived.parts.flatMap((part): PlacedFinding[] => {
    if (part.kind !== "bridge" || part.problems.length > 0) return [];
    const { outline } = part.measures as MeasuresByKind["bridge"];
    if (!outline) return [];
    const lie = lieOf(wood, uniteRings([flatten(outline, CHORD)]));
    const box = pathBounds(outline);
    const off = Math.abs(box.minY + box.maxY) / 2;
    const placed = { partId: part.id, partLabel: part.label };
    return [
      {
        ...atLeast({
          id: "bridge-on-top/edge",
          measured: lie.spare,
          needed: edge,
          stopBelow: 0,
          fine: "At least {measured} of top is left outside the bridge.",
          short:
            lie.spare < 0
              ? "The bridge reaches over the edge of the top."
              : "Only {measured} of top is left between the bridge and the edge.",
          mend: "Make the bridge shorter, or the body wider or longer there.",
          basis: PRACTICE,
          at: lie.at,
          shape: "outline",
        }),
        ...placed,
      },
      {
        id: "bridge-on-top/centre",
        severity: off <= centre + 1e-9 ? "fine" : "look",
        says:
          off <= centre + 1e-9
            ? "The bridge lies in the middle of the body, off it by {measured}."
            : "The bridge lies {measured} off the middle of the body.",
        measured: off,
        needed: centre,
        quantity: "length",
        basis: GEOMETRY,
        mend: off <= centre + 1e-9 ? "" : "Make its halves alike, or move its points.",
        at: vec((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2),
        shape: "outline",
        ...placed,
      },
    ];
  });
}
