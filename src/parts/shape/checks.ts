import type { Check } from "../contract.ts";
import { PRACTICE } from "../finding.ts";
import { outlineFindings } from "../outline-findings.ts";
import type { ShapeMeasures } from "./measure.ts";
import type { ShapeParams } from "./numbers.ts";

type ShapeCheck = Check<ShapeParams, ShapeMeasures>;

const outline: ShapeCheck = {
  id: "outline",
  title: "The outline is whole",
  limits: {},
  run: ({ m }) =>
    outlineFindings(
      { whole: m.host !== undefined, crossings: m.crossings, troubles: m.troubles },
      {
        crosses: "The outline crosses itself.",
        apart: "Move the points so that no side crosses another.",
        none: `There is no outline: ${m.fault}.`,
        mend: "Set at least three points, or choose an SVG file with closed outlines.",
      },
    ),
};

const bends: ShapeCheck = {
  id: "hollow-bends",
  title: "A cutter can follow every hollow",
  limits: { radius: { label: "Radius of the cutter", value: 0.5, quantity: "length", basis: PRACTICE } },
  run: ({ m, limits }) => {
    if (!m.tightest) return [];
    const needed = limits["radius"]!;
    const { radius, at } = m.tightest;
    const fine = radius >= needed - 1e-9;
    return [
      {
        id: "hollow-bends",
        severity: fine ? "fine" : "look",
        says: fine
          ? "The tightest hollow has a radius of {measured}."
          : "A hollow with a radius of {measured} is tighter than the cutter's {needed}; it stays rounder, or is finished by file.",
        measured: radius,
        needed,
        bound: "least",
        quantity: "length",
        basis: PRACTICE,
        mend: fine ? "" : "Round the hollow corner, or use a smaller cutter.",
        at,
        shape: "outline",
      },
    ];
  },
};

export const shapeChecks: readonly ShapeCheck[] = [outline, bends];
