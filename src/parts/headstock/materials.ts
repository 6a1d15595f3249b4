import { pathBounds } from "../../geometry/measure.ts";
import type { Sources, Materials } from "../contract.ts";
import type { Blank } from "../made-of.ts";
import type { HeadstockMeasures } from "./measure.ts";

/** A headplate where no neck says how thick its wood is. */
const PLATE = 2;

/** The head's own piece, and the plate on it. */
export function headstockMaterials(m: HeadstockMeasures, from: Sources): Materials {
  const { outline } = m;
  if (!outline) return { blanks: [] };
  const plate = Math.max(0, m.thickness - (from.get("neck")?.headWood ?? m.thickness - PLATE));
  const common = { outline, grain: 0, allowance: 3, sawn: "quartersawn" } as const;
  const head: Blank = {
    ...common,
    name: "head",
    title: "Head",
    thickness: m.thickness - plate,
    species: "mahogany-american",
    planing: 1,
  };
  if (!(plate > 0)) return { blanks: [head] };
  const box = pathBounds(outline);
  return {
    blanks: [head, { ...common, name: "plate", title: "Headplate", thickness: plate, species: "rosewood-indian", planing: 0.5 }],
    joints: [
      {
        name: "plate-on-head",
        title: "Headplate on the head",
        blank: "plate",
        on: { kind: "headstock", blank: "head" },
        along: box.maxX - box.minX,
        across: box.maxY - box.minY,
      },
    ],
  };
}
