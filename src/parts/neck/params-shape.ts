/** Width, and the section at the two frets where a neck is measured. */
import { exponentFromHalfDepth, fractionAtHalfDepth } from "../../lutherie/neck-section.ts";
import type { Balance, ChoiceSpec, NumberSpec, ParamTable, RecordsSpec, Sources } from "../contract.ts";
import { PRACTICE } from "../finding.ts";
import { fittedContour, sizeAt } from "./contour.ts";
import {
  heldExponent,
  instrumentOf,
  SHAPES,
  type ContourLay,
  type ContourPoint,
  type NeckParams,
  type ShapeName,
  type ShapeNumbers,
  type Which,
} from "./numbers.ts";

const WIDTH = "Width";
const GROUPS = { first: "Section at the first fret measured", second: "Section at the second fret measured" } as const;
const OURS = "the words are common, the numbers our own";

type Given = (key: keyof NeckParams & string) => boolean;

/** Whether something is said of the shoulders at this fret. */
const saysOwn = (which: Which, given: Given): boolean =>
  given(`${which}Shape`) || given(`${which}Fullness`) || given(`${which}HalfWayWidth`) || given(`${which}Contour`);

function fullnessOf(p: NeckParams, from: Sources, given: Given, which: Which): number {
  if (which === "second" && !saysOwn("second", given)) return p.firstFullness;
  if (given(`${which}HalfWayWidth`)) {
    const share = p[`${which}HalfWayWidth`] / (2 * sizeAt(p, from, which).halfWidth);
    return exponentFromHalfDepth(share) ?? heldExponent(share < 0.6 ? 0 : Infinity);
  }
  if (given(`${which}Contour`)) {
    const found = fittedContour(p, from, which);
    if (found) return found.section.bassExponent;
  }
  if (given(`${which}Shape`)) return SHAPES[p[`${which}Shape`]];
  return which === "first" ? SHAPES.c : p.firstFullness;
}

function trebleFullnessOf(p: NeckParams, from: Sources, given: Given, which: Which): number {
  if (which === "second" && !saysOwn("second", given)) return p.firstTrebleFullness;
  const rivals = given(`${which}Fullness`) || given(`${which}HalfWayWidth`);
  const found = given(`${which}Contour`) && !rivals ? fittedContour(p, from, which) : undefined;
  return found ? found.section.trebleExponent : p[`${which}Fullness`];
}

/** The name nearest to a number. */
const nearestShape = (fullness: number): ShapeName =>
  (Object.keys(SHAPES) as ShapeName[]).reduce((best, name) =>
    Math.abs(SHAPES[name] - fullness) < Math.abs(SHAPES[best] - fullness) ? name : best,
  );

const fret = (which: Which): NumberSpec<NeckParams> => ({
  type: "count",
  label: "Measured at fret",
  help: "The fret at which the depth is given, as measured on the player's own instrument; 0 for the nut.",
  group: GROUPS[which],
  ...(which === "first"
    ? { fallback: 1 }
    : {
        follows: {
          words: "fret 10, or one before the join",
          value: (_p, from) => Math.max(2, Math.min(10, instrumentOf(from).joinFret - 1)),
        },
      }),
  min: 0,
  max: 36,
});

const depth = (which: Which): NumberSpec<NeckParams> => ({
  type: "length",
  label: "Depth with the board",
  help: "From the face of the board between the frets to the back of the neck, by callipers.",
  group: GROUPS[which],
  ...(which === "first"
    ? { fallback: 21.5 }
    : { follows: { words: "2 mm more than at the first fret measured", value: (p: NeckParams) => p.firstDepth + 2 } }),
  min: 5,
  max: 80,
  step: 0.1,
  usual: which === "first" ? { from: 20.5, to: 22, basis: PRACTICE } : { from: 22, to: 24, basis: PRACTICE },
});

const shape = (which: Which): ChoiceSpec<ShapeName, NeckParams> => ({
  type: "choice",
  label: "Shoulders",
  help: "The trade's word for the shape of the back.",
  group: GROUPS[which],
  follows: {
    words:
      which === "first"
        ? "C, or the word nearest to the number given"
        : "as at the first fret measured, or the word nearest to the number given",
    value: (p, _from, given) => {
      if (given(`${which}Fullness`) || given(`${which}HalfWayWidth`) || given(`${which}Contour`))
        return nearestShape(p[`${which}Fullness`]);
      return which === "first" ? "c" : p.firstShape;
    },
  },
  options: [
    { value: "v", label: "V" },
    { value: "soft-v", label: "Soft V" },
    { value: "c", label: "C" },
    { value: "d", label: "D" },
    { value: "u", label: "U" },
  ],
});

const fullness = (which: Which): NumberSpec<NeckParams> => ({
  type: "number",
  label: "Fullness",
  help: "The shoulders as one number: 1 a flat flank, 1.5 a V, 2 an ellipse (C), 2.4 a D, 3 a U, up to 8 nearly square.",
  group: GROUPS[which],
  follows: {
    words: "the word for the shoulders, the width half way down, or the contour gauge",
    value: (p, from, given) => fullnessOf(p, from, given, which),
  },
  min: 1,
  max: 8,
  step: 0.05,
  usual: { from: 1.5, to: 3, basis: OURS },
});

const trebleFullness = (which: Which): NumberSpec<NeckParams> => ({
  type: "number",
  label: "Fullness, treble side",
  help: "The shoulder under the thin strings, where it differs from the other.",
  group: GROUPS[which],
  follows: { words: "as on the bass side", value: (p, from, given) => trebleFullnessOf(p, from, given, which) },
  min: 1,
  max: 8,
  step: 0.05,
  usual: { from: 1.5, to: 3, basis: OURS },
});

const halfWayWidth = (which: Which): NumberSpec<NeckParams> => ({
  type: "length",
  label: "Width half way down",
  help: "Width of the neck half way between the underside of the board and the back; it gives the fullness.",
  group: GROUPS[which],
  follows: {
    words: "the fullness",
    value: (p, from) => {
      const { halfWidth } = sizeAt(p, from, which);
      return halfWidth * (fractionAtHalfDepth(p[`${which}Fullness`]) + fractionAtHalfDepth(p[`${which}TrebleFullness`]));
    },
  },
  min: 1,
  max: 300,
  step: 0.1,
});

const lean = (which: Which): NumberSpec<NeckParams> => ({
  type: "length",
  label: "Deepest line off the centre",
  help: "How far the deepest line of the back lies from the centre line, above 0 to the treble side.",
  group: GROUPS[which],
  ...(which === "first"
    ? { fallback: 0 }
    : { follows: { words: "as at the first fret measured", value: (p: NeckParams) => p.firstLean } }),
  min: -30,
  max: 30,
  step: 0.1,
  usual: { from: -3, to: 3, basis: PRACTICE },
});

const contour = (which: Which): RecordsSpec<ContourPoint, NeckParams> => ({
  type: "records",
  label: "Points of a contour gauge",
  help: "Points of the back traced round a contour gauge, on both sides, typed or pressed over a photograph; they give the fullness of each side.",
  group: GROUPS[which],
  item: "point",
  short: "across",
  maxItems: 60,
  fallback: [],
  of: {
    across: {
      type: "length",
      label: "Across",
      help: "From the centre line, above 0 to the treble side.",
      group: "Point",
      fallback: 0,
      min: -150,
      max: 150,
      step: 0.1,
    },
    down: {
      type: "length",
      label: "Down",
      help: "Below the underside of the board; below 0 beside the board.",
      group: "Point",
      fallback: 0,
      min: -100,
      max: 100,
      step: 0.1,
    },
  },
});

const contourLies = (which: Which): ChoiceSpec<ContourLay, NeckParams> => ({
  type: "choice",
  label: "The points lie",
  help: "Whether the points were measured from the neck's own lines, or lie turned and moved as the gauge lay on its paper.",
  group: GROUPS[which],
  fallback: "held",
  options: [
    { value: "held", label: "Measured from the neck" },
    { value: "free", label: "Anywhere on the paper, seen from the body" },
    { value: "over", label: "Anywhere on the paper, seen from the head" },
  ],
  when: (p) => p[`${which}Contour`].length > 0,
});

export const shapeTable: Pick<ParamTable<NeckParams>, keyof ShapeNumbers> = {
  widthAtNut: {
    type: "length",
    label: "Width at the nut",
    help: "Width of the neck under the board.",
    group: WIDTH,
    follows: {
      words: "the finished board",
      value: (_p, from) => from.get("fingerboard")?.widthAtNut ?? instrumentOf(from).nutWidth,
    },
    min: 5,
    max: 300,
    step: 0.1,
  },
  widthAtJoin: {
    type: "length",
    label: "Width at the join",
    help: "Width of the neck under the board where it meets the body.",
    group: WIDTH,
    follows: {
      words: "the finished board",
      value: (_p, from) => {
        const { joinSpread, nutMargin, takenByStrings } = instrumentOf(from);
        return from.get("fingerboard")?.widthAtJoin ?? Math.max(5, joinSpread + 2 * nutMargin + takenByStrings);
      },
    },
    min: 5,
    max: 400,
    step: 0.1,
  },
  firstFret: fret("first"),
  firstDepth: depth("first"),
  firstShape: shape("first"),
  firstFullness: fullness("first"),
  firstTrebleFullness: trebleFullness("first"),
  firstHalfWayWidth: halfWayWidth("first"),
  firstLean: lean("first"),
  firstContour: contour("first"),
  firstContourLies: contourLies("first"),
  secondFret: fret("second"),
  secondDepth: depth("second"),
  secondShape: shape("second"),
  secondFullness: fullness("second"),
  secondTrebleFullness: trebleFullness("second"),
  secondHalfWayWidth: halfWayWidth("second"),
  secondLean: lean("second"),
  secondContour: contour("second"),
  secondContourLies: contourLies("second"),
};

const shouldersAt = (which: Which): Balance<NeckParams> => {
  const members = [`${which}Shape`, `${which}HalfWayWidth`, `${which}Contour`, `${which}Fullness`] as const;
  return { members, given: 1, yields: members };
};

export const shapeBalances: readonly Balance<NeckParams>[] = [shouldersAt("first"), shouldersAt("second")];
