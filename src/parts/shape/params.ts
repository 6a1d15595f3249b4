/** The numbers of a free shape. */
import { artText } from "../art-outline.ts";
import type { ParamTable } from "../contract.ts";
import { outlineSpec } from "../outline-points.ts";
import { PRACTICE } from "../finding.ts";
import type { ShapeParams } from "./numbers.ts";
import { startingShape } from "./starting-shapes.ts";

const OUTLINE = "Outline";
const PIECE = "Piece";

const byPoints = (p: ShapeParams): boolean => p.source === "points";

export const shapeParams: ParamTable<ShapeParams> = {
  name: {
    type: "text",
    label: "What it is",
    help: "A cover, an end graft, a heel cap: said on the template.",
    group: OUTLINE,
    fallback: "",
    maxLength: 60,
  },
  source: {
    type: "choice",
    label: "Outline from",
    help: "Points that are set here, or outlines taken from an SVG file.",
    group: OUTLINE,
    fallback: "points",
    options: [
      { value: "points", label: "Points" },
      { value: "imported", label: "An SVG file" },
    ],
  },
  start: {
    type: "choice",
    label: "Starting shape",
    help: "What it is until its points are moved.",
    group: OUTLINE,
    fallback: "oval",
    options: [
      { value: "rectangle", label: "Rectangle" },
      { value: "oval", label: "Oval" },
      { value: "leaf", label: "Leaf" },
      { value: "wedge", label: "Wedge, as an end graft" },
      { value: "shield", label: "Shield, as a heel cap" },
      { value: "bell", label: "Bell, as a rod cover" },
    ],
    when: byPoints,
  },
  length: {
    type: "length",
    label: "Length of the starting shape",
    help: "Along its centre line.",
    group: OUTLINE,
    fallback: 60,
    min: 1,
    max: 1500,
    step: 1,
    when: byPoints,
  },
  width: {
    type: "length",
    label: "Width of the starting shape",
    help: "Across its centre line.",
    group: OUTLINE,
    fallback: 30,
    min: 1,
    max: 1500,
    step: 1,
    when: byPoints,
  },
  mirrored: {
    type: "flag",
    label: "Mirrored about the centre line",
    help: "Only one half is drawn; the other is its image.",
    group: OUTLINE,
    fallback: true,
    when: byPoints,
  },
  outline: outlineSpec<ShapeParams>({
    label: "Points",
    help: "The outline, point by point; drag them on the board.",
    group: OUTLINE,
    words: "the starting shape",
    shape: (p) => startingShape(p.start, p.length, p.width, p.mirrored),
    when: byPoints,
  }),
  art: artText(OUTLINE, (p) => !byPoints(p)),
  artWidth: {
    type: "optional-length",
    label: "Scaled to a width",
    help: "Along the centre line, from end to end; the height follows.",
    group: OUTLINE,
    absent: "its own size",
    min: 0.5,
    max: 2000,
    when: (p) => !byPoints(p),
  },
  thickness: {
    type: "length",
    label: "Thickness",
    help: "Of the finished piece.",
    group: PIECE,
    fallback: 2.5,
    min: 0.1,
    max: 200,
    step: 0.1,
    usual: { from: 0.5, to: 6, basis: PRACTICE },
  },
  material: {
    type: "text",
    label: "Material",
    help: "Wood, shell, bone: said on the template and in the cutting list.",
    group: PIECE,
    fallback: "",
    maxLength: 60,
  },
  grain: {
    type: "angle",
    label: "Grain",
    help: "Direction of the grain, counter-clockwise from the centre line.",
    group: PIECE,
    fallback: 0,
    min: -Math.PI,
    max: Math.PI,
    step: Math.PI / 36,
  },
};
