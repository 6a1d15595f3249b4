import { pathLength } from "../../geometry/measure.ts";
import { segmentPath } from "../../geometry/path.ts";
import { distance } from "../../geometry/vec.ts";
import type { Sources, Materials } from "../contract.ts";
import type { Strip } from "../made-of.ts";
import { frameOf, outlinesOf, type FingerboardMeasures } from "./measure.ts";
import { instrumentOf, layersOf, type FingerboardParams } from "./numbers.ts";
import { outlinePath, type BoardEdges } from "./outline.ts";

/** Left on each strip of binding until its ends are cut. */
const BINDING_SPARE = 10;
const TANG_WIDTH = 0.6;

/** The board before binding, its binding layer by layer, the wire, the holes in its edge and the saw. */
export function fingerboardMaterials(p: FingerboardParams, m: FingerboardMeasures, from: Sources): Materials {
  const { blank, layers } = outlinesOf(p, frameOf(p, instrumentOf(from)));
  const crowns = m.frets.flatMap(({ crown }) => (crown > 0 ? [crown] : []));
  const binding = layersOf(p).flatMap((layer, i): Strip[] => {
    const edges = layers[i];
    if (!edges) return [];
    return [
      {
        name: i === 0 ? "binding" : `binding-${i + 1}`,
        title: layer.name === "" ? "Binding" : `Binding: ${layer.name}`,
        lengths: sidesOf(edges, p.bindEnd),
        spare: BINDING_SPARE,
        width: layer.thickness,
        height: p.bindingHeight,
      },
    ];
  });
  return {
    blanks: blank
      ? [
          {
            name: "board",
            title: "Fingerboard",
            outline: outlinePath(blank),
            thickness: p.thickness,
            species: "ebony-african",
            sawn: "quartersawn",
            grain: 0,
            allowance: 3,
            planing: 0.5,
          },
        ]
      : [],
    strips: [
      ...binding,
      ...(crowns.length > 0
        ? [
            {
              name: "fret-wire",
              title: "Fret wire",
              lengths: crowns,
              spare: 2 * p.crownOverhang,
              width: Math.max(p.crownWidth, TANG_WIDTH),
              height: p.crownHeight + p.tangDepth,
            },
          ]
        : []),
    ],
    holes: [{ diameter: p.sideDiameter, count: m.sideMarkers.length }],
    cutters: m.frets.some(({ slot }) => slot > 0) ? [{ what: "saw", size: p.slotWidth, for: "fret slots" }] : [],
  };
}

/** Lengths along the outer face of a layer: both sides, and the end if it is bound. */
function sidesOf(edges: BoardEdges, bindEnd: boolean): number[] {
  const sides = [distance(edges.lowStart, edges.lowEnd), distance(edges.highStart, edges.highEnd)];
  if (!bindEnd) return sides;
  const whole = pathLength(outlinePath(edges));
  const start = pathLength(segmentPath(edges.lowStart, edges.highStart));
  return [...sides, whole - start - sides[0]! - sides[1]!];
}
