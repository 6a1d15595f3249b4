import type { Check, Finding } from "../contract.ts";
import { PRACTICE } from "../finding.ts";
import type { ShapeMeasures } from "./measure.ts";
import type { ShapeParams } from "./numbers.ts";

type ShapeCheck = Check<ShapeParams, ShapeMeasures>;

const outline: ShapeCheck = {
  id: "outline",
  title: "The outline is whole",
  limits: {},
  run: ({ m }) => {
    const basis = "geometry";
    if (!m.host)
      return [
        {
          id: "outline",
          severity: "stop",
          says: `There is no outline: ${m.fault}.`,
          basis,
          mend: "Set at least three points, or choose an SVG file with closed outlines.",
        },
      ];
    const [at] = m.crossings;
    const findings: Finding[] = at
      ? [
          {
            id: "outline",
            severity: "stop",
            says: "The outline crosses itself.",
            basis,
            mend: "Move the points so that no side crosses another.",
            at,
            shape: "outline",
          },
        ]
      : [{ id: "outline", severity: "fine", says: "The outline is closed and crosses itself nowhere.", basis, mend: "" }];
    for (const { what, point } of m.troubles)
      findings.push({
        id: `outline/${what}-${point + 1}`,
        severity: "look",
        says:
          what === "rounding"
            ? `The corner at point ${point + 1} has no room for what is to be taken off it, and is drawn sharp.`
            : `The arc from point ${point + 1} cannot be had, and its side is drawn straight.`,
        basis,
        mend: what === "rounding" ? "Take off less, or move the points apart." : "Give a radius of at least half the side.",
        shape: "outline",
      });
    return findings;
  },
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
