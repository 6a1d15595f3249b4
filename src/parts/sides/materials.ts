import type { Materials } from "../contract.ts";
import { rectangle } from "../../geometry/path.ts";
import type { Blank } from "../made-of.ts";
import type { SidesMeasures } from "./measure.ts";

/** Left on each lining. */
const SPARE = 30;

/** Every bent piece laid flat, the blocks, and linings along both edges. */
export function sidesMaterials(m: SidesMeasures): Materials {
  const sides = m.pieces.map((piece): Blank => ({
    name: piece.id,
    title: `${piece.name.charAt(0).toUpperCase()}${piece.name.slice(1)}`,
    outline: rectangle(0, 0, piece.outer, piece.greatestDepth),
    thickness: m.thickness,
    species: "rosewood-indian",
    sawn: "quartersawn",
    grain: 0,
    allowance: 6,
    planing: 0.5,
  }));
  const blocks = [
    { name: "neck-block", title: "Neck block", depth: m.depthNeck, ...m.neckBlock },
    { name: "tail-block", title: "Tail block", depth: m.depthTail, ...m.tailBlock },
  ].flatMap(({ name, title, depth, width, length }): Blank[] =>
    m.pieces.length > 0 && width > 0 && length > 0 && depth > 0
      ? [
          {
            name,
            title,
            outline: rectangle(0, 0, width, depth),
            thickness: length,
            species: "mahogany-american",
            sawn: "quartersawn",
            // Along the depth of the body, so that screws and bolts hold across it.
            grain: Math.PI / 2,
            allowance: 2,
            planing: 1,
          },
        ]
      : [],
  );
  const linings = m.pieces.flatMap(({ lining }) => (lining > 0 ? [lining, lining] : []));
  return {
    blanks: [...sides, ...blocks],
    strips:
      linings.length > 0
        ? [{ name: "lining", title: "Lining", lengths: linings, spare: SPARE, width: m.liningWidth, height: m.liningHeight }]
        : [],
    holes: m.endHole ? [{ diameter: m.endHole.diameter, count: 1 }] : [],
  };
}
