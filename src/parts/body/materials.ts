import type { Materials } from "../contract.ts";
import type { Blank, Strip } from "../made-of.ts";
import type { BodyMeasures, Ledge } from "./measure.ts";

/** Left on each strip of binding and purfling. */
const SPARE = 40;
const ALL_ROUND = 6;

/** Both plates, each of two halves joined, or the solid body; binding and purfling along both sides. */
export function bodyMaterials(m: BodyMeasures): Materials {
  const { outline } = m;
  if (!outline) return { blanks: [] };
  const common = { outline, grain: 0, allowance: ALL_ROUND, sawn: "quartersawn" } as const;
  const strips = (plate: string, ledges: readonly Ledge[]): Strip[] =>
    ledges.map((ledge, i) => ({
      name: `${plate}-strip-${i + 1}`,
      title: `${ledge.name.charAt(0).toUpperCase()}${ledge.name.slice(1)} of the ${plate}`,
      lengths: [m.trebleSide, m.bassSide],
      spare: SPARE,
      width: ledge.thickness,
      height: ledge.height,
    }));
  const blanks: Blank[] =
    m.build === "solid"
      ? [{ ...common, name: "body", title: "Body", thickness: m.depth, species: "alder-red", sawn: "flatsawn", planing: 2 }]
      : [
          { ...common, name: "top", title: "Top", thickness: m.topThickness, species: "spruce-sitka", planing: 0.8 },
          {
            ...common,
            name: "back",
            title: "Back",
            thickness: m.backThickness,
            species: "rosewood-indian",
            planing: 0.8,
          },
        ];
  return { blanks, strips: [...strips("top", m.topLedges), ...strips("back", m.backLedges)] };
}
