import type { Materials } from "../contract.ts";
import { pathBounds } from "../../geometry/measure.ts";
import type { Blank, Strip } from "../made-of.ts";
import type { Brace, BracingMeasures } from "./measure.ts";

/** Left on each brace until its ends are let in. */
const SPARE = 10;

/** Bridge plate and patches as pieces, braces as sticks by plate and section. */
export function bracingMaterials(m: BracingMeasures): Materials {
  const plate = m.bridgePlate;
  const blanks: Blank[] = [
    ...(plate
      ? [
          {
            name: "bridge-plate",
            title: "Bridge plate",
            outline: plate.outline,
            thickness: plate.thickness,
            species: "maple-sugar",
            sawn: "quartersawn",
            grain: Math.PI / 2,
            allowance: 3,
            planing: 0.5,
          } as const,
        ]
      : []),
    ...m.patches.map((patch): Blank => ({
      name: patch.id,
      title: patch.name === "" ? "Patch" : `${patch.name.charAt(0).toUpperCase()}${patch.name.slice(1)}`,
      outline: patch.outline,
      thickness: patch.thickness,
      species: "spruce-sitka",
      sawn: "quartersawn",
      grain: Math.PI / 2,
      allowance: 2,
      planing: 0.3,
    })),
  ];
  const box = plate && pathBounds(plate.outline);
  return {
    blanks,
    strips: sticks(m.braces),
    joints: box
      ? [
          {
            name: "plate-on-top",
            title: "Bridge plate on the top",
            blank: "bridge-plate",
            on: { kind: "body", blank: "top" },
            along: box.maxX - box.minX,
            across: box.maxY - box.minY,
            crossed: true,
          },
        ]
      : [],
  };
}

/** Braces of one plate and one section together. */
function sticks(braces: readonly Brace[]): Strip[] {
  const groups = new Map<string, Brace[]>();
  for (const brace of braces) {
    const key = `${brace.plate} ${brace.width} ${brace.height}`;
    groups.set(key, [...(groups.get(key) ?? []), brace]);
  }
  return [...groups.values()].map((group): Strip => {
    const first = group[0]!;
    return {
      name: `${first.id}-stick`,
      title: `Braces of the ${first.plate}`,
      lengths: group.map(({ length }) => length),
      spare: SPARE,
      width: first.width,
      height: first.height,
    };
  });
}
