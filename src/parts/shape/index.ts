import { ORIGIN } from "../../geometry/vec.ts";
import { pathsBounds } from "../../geometry/measure.ts";
import type { Part, TemplateSource } from "../contract.ts";
import { shapeChecks } from "./checks.ts";
import { centreLayer, drawShape, grainLayer, outlineLayer } from "./draw.ts";
import { shapeMaterials } from "./materials.ts";
import { measureShape, type ShapeMeasures } from "./measure.ts";
import type { ShapeParams } from "./numbers.ts";
import { shapeParams } from "./params.ts";

export type { ShapeMeasures } from "./measure.ts";
export type { ShapeParams } from "./numbers.ts";

export const shape: Part<ShapeParams, ShapeMeasures> = {
  kind: "shape",
  label: "Free shape",
  about: "Any flat piece: a cover, an end graft, a heel cap, an ornament.",
  version: 1,
  migrations: [],
  params: shapeParams,
  reads: [],
  measure: measureShape,
  measureNames: ["perimeter"],
  draw: drawShape,
  summary: (p, m) => [
    `${p.name.trim() === "" ? "Free shape" : p.name}, `,
    { value: m.length, quantity: "length" },
    " by ",
    { value: m.width, quantity: "length" },
    ", ",
    { value: p.thickness, quantity: "length" },
    " thick.",
  ],
  templates: shapeTemplates,
  outlines: (p) =>
    p.source === "points"
      ? [
          {
            key: "outline",
            title: "Outline",
            origin: ORIGIN,
            mirrored: p.mirrored,
            mirrorKey: "mirrored",
            points: p.outline,
            before: [],
            after: [],
            guides: [],
          },
        ]
      : [],
  materials: shapeMaterials,
  checks: shapeChecks,
};

function shapeTemplates(p: ShapeParams, m: ShapeMeasures): TemplateSource[] {
  if (!m.host) return [];
  const box = pathsBounds(m.pieces.map(({ outer }) => outer));
  const name = p.name.trim() === "" ? "Free shape" : p.name;
  return [
    {
      name: "outline",
      title: p.material.trim() === "" ? name : `${name}, ${p.material}`,
      lineIs: "edge of the finished piece; cut outside the line and file to its middle",
      drawing: {
        layers: [outlineLayer(m, name), centreLayer(box.minX, box.maxX), grainLayer(p, m)],
        dimensions: [],
      },
      edge: "outline",
    },
  ];
}
