import type { Materials } from "../contract.ts";
import type { ShapeMeasures } from "./measure.ts";
import type { ShapeParams } from "./numbers.ts";

export function shapeMaterials(p: ShapeParams, m: ShapeMeasures): Materials {
  const name = p.name.trim() === "" ? "Free shape" : p.name;
  return {
    blanks: m.pieces.map(({ outer, holes }, i) => ({
      name: i === 0 ? "piece" : `piece-${i + 1}`,
      title: i === 0 ? name : `${name}, piece ${i + 1}`,
      outline: outer,
      holes,
      thickness: p.thickness,
      ...(p.material.trim() === "" ? {} : { material: p.material }),
      grain: p.grain,
      allowance: 2,
      planing: 0.5,
    })),
  };
}
