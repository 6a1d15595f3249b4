/** The bridge in the middle of the body. */
import { pathBounds } from "../geometry/measure.ts";
import { vec } from "../geometry/vec.ts";
import type { MeasuresByKind } from "../parts/contract.ts";
import type { Derived, DesignNumbers } from "../parts/derived.ts";
import { GEOMETRY } from "../parts/finding.ts";
import { limitsAt } from "../parts/limits.ts";
import { WHOLE, WHOLE_CHECKS } from "../parts/whole-checks.ts";
import type { PlacedFinding } from "./placed-finding.ts";
import { partName } from "../parts/part-name.ts";

/** One finding on every bridge of a design with a body. */
export function bridgeCentreFindings(design: DesignNumbers, derived: Derived): readonly PlacedFinding[] {
  if (!derived.parts.some(({ kind, problems }) => kind === "body" && problems.length === 0)) return [];
  const needed = limitsAt(design, `${WHOLE}.bridge-centre`, WHOLE_CHECKS["bridge-centre"].limits)["most"]!;
  return derived.parts.flatMap((part): PlacedFinding[] => {
    if (part.kind !== "bridge" || part.problems.length > 0) return [];
    const { outline } = part.measures as MeasuresByKind["bridge"];
    if (!outline) return [];
    const box = pathBounds(outline);
    const measured = Math.abs(box.minY + box.maxY) / 2;
    const isFine = measured <= needed + 1e-9;
    return [
      {
        id: "bridge-centre",
        severity: isFine ? "fine" : "look",
        says: isFine
          ? "The bridge lies in the middle of the body, off it by {measured}."
          : "The bridge lies {measured} off the middle of the body.",
        measured,
        needed,
        bound: "most",
        quantity: "length",
        basis: GEOMETRY,
        mend: isFine ? "" : "Make its halves alike, or move its points.",
        at: vec((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2),
        shape: "outline",
        partId: part.id,
        partLabel: partName(part),
      },
    ];
  });
}
