/** The numbers of a body. The starting ones are shares of its length, so that a small instrument gets a small body. */
import type { NumberSpec, ParamTable } from "../contract.ts";
import { edgeLayer } from "../edge-layer.ts";
import { PRACTICE } from "../finding.ts";
import { length, type LengthSpec } from "../length-spec.ts";
import { outlineSpec } from "../outline-points.ts";
import { centreScale, halvesAlike, instrumentOf, type BodyParams, type EdgeLayer } from "./numbers.ts";
import { cutawayParams } from "./params-cutaway.ts";
import { startingPoints } from "./starting-outline.ts";

const BUILD = "Body";
const SIZE = "Size";
const SHAPE = "Fullness";
const DRAWN = "Drawn outline";
const WOOD = "Top, back and sides";
const BINDING = "Binding and purfling";

const measured = (p: BodyParams): boolean => p.outlineBy === "measures";
const hollow = (p: BodyParams): boolean => p.build === "hollow";

/** A thickness that is usual on a body of 490 mm, in proportion to this one's length. */
const scaled = (usual: number, p: BodyParams): number => Math.max(0.6, Math.min(20, (usual * p.length) / 490));

/** A size that is a share of the body's length until it is given. */
const share = (
  of: number,
  words: string,
  spec: Pick<LengthSpec<BodyParams>, "label" | "help" | "usual">,
  limits: readonly [number, number] = [10, 1200],
): NumberSpec<BodyParams> =>
  length({
    ...spec,
    group: SIZE,
    follows: { words, value: (p) => of * p.length },
    min: limits[0],
    max: limits[1],
    when: measured,
  });

const fullness = (label: string, help: string, fallback: number): NumberSpec<BodyParams> => ({
  type: "number",
  label,
  help: `${help} More is rounder, less runs out straighter.`,
  group: SHAPE,
  fallback,
  min: 0.05,
  max: 0.95,
  step: 0.01,
  usual: { from: 0.4, to: 0.65, basis: PRACTICE },
  when: measured,
});

const layerTable = (depth: string): ParamTable<EdgeLayer> => ({
  ...edgeLayer(BINDING),
  height: {
    type: "length",
    label: "Height",
    help: `How far its channel goes down the side from the ${depth}.`,
    group: BINDING,
    fallback: 6,
    min: 0.1,
    max: 60,
    step: 0.1,
    usual: { from: 1.5, to: 8, basis: "binding 5 to 8 mm, purfling 1.5 to 2.5 mm: common practice, no source" },
  },
});

export const bodyParams: ParamTable<BodyParams> = {
  build: {
    type: "choice",
    label: "Body",
    help: "Hollow, with a top, a back and bent sides, or solid, cut from one slab.",
    group: BUILD,
    fallback: "hollow",
    options: [
      { value: "hollow", label: "Hollow" },
      { value: "solid", label: "Solid" },
    ],
  },
  outlineBy: {
    type: "choice",
    label: "Outline from",
    help: "Its measures, fair by construction, or points that are drawn or traced. The points begin as the measures give them.",
    group: BUILD,
    fallback: "measures",
    options: [
      { value: "measures", label: "Measures" },
      { value: "points", label: "Points" },
    ],
  },
  fairness: {
    type: "flag",
    label: "Show fairness lines",
    help: "Lines square to the edge, the longer the tighter it bends there: an even row of ends is a fair curve.",
    group: BUILD,
    fallback: false,
  },
  length: length({
    label: "Length of the body",
    help: "From the join with the neck to the tail, on the centre line.",
    group: SIZE,
    follows: { words: "76 hundredths of the scale", value: (_p, from) => 0.76 * centreScale(instrumentOf(from)) },
    min: 60,
    max: 1800,
    step: 1,
    usual: { from: 260, to: 520, basis: `tenor ukulele 300 mm, small steel-string 460 to 490 mm, large 510 mm: ${PRACTICE}` },
    when: measured,
  }),
  upperBout: share(0.58, "58 hundredths of the length", {
    label: "Upper bout",
    help: "Greatest width at the shoulders.",
    usual: { from: 160, to: 300, basis: PRACTICE },
  }),
  waist: share(0.48, "48 hundredths of the length", {
    label: "Waist",
    help: "Least width between the bouts.",
    usual: { from: 130, to: 280, basis: PRACTICE },
  }),
  lowerBout: share(0.77, "77 hundredths of the length", {
    label: "Lower bout",
    help: "Greatest width.",
    usual: { from: 210, to: 410, basis: PRACTICE },
  }),
  upperBoutAt: share(
    0.19,
    "19 hundredths of the length",
    {
      label: "Upper bout from the neck",
      help: "Along the centre line.",
    },
    [1, 1800],
  ),
  waistAt: share(
    0.4,
    "40 hundredths of the length",
    {
      label: "Waist from the neck",
      help: "Along the centre line.",
    },
    [1, 1800],
  ),
  lowerBoutAt: share(
    0.74,
    "74 hundredths of the length",
    {
      label: "Lower bout from the neck",
      help: "Along the centre line.",
    },
    [1, 1800],
  ),
  neckFlat: share(
    0.13,
    "13 hundredths of the length",
    {
      label: "Straight at the neck",
      help: "Width of the straight part that the neck's heel stands against.",
    },
    [0, 600],
  ),
  tailFlat: length({
    label: "Straight at the tail",
    help: "Width of the straight part at the end block; 0 for a round end.",
    group: SIZE,
    fallback: 0,
    min: 0,
    max: 600,
    when: measured,
  }),
  shoulderFullness: fullness("Shoulders", "The curve from the neck to the upper bout.", 0.5),
  upperFullness: fullness("Upper bout", "The curve from the upper bout towards the waist.", 0.5),
  waistFullness: fullness("Waist", "The hollow of the waist.", 0.5),
  lowerFullness: fullness("Lower bout", "The curve from the waist into the lower bout.", 0.5),
  tailFullness: fullness("Tail", "The curve from the lower bout to the tail.", 0.54),
  ...cutawayParams,
  mirrored: {
    type: "flag",
    label: "Mirrored about the centre line",
    help: "Only one half is drawn; the other is its image.",
    group: DRAWN,
    follows: { words: "no cutaway, or two alike", value: halvesAlike },
    when: (p) => !measured(p),
  },
  outline: outlineSpec<BodyParams>({
    label: "Points",
    help: "Measured from the join on the centre line, so that the body moves with the join.",
    group: DRAWN,
    words: "the measures",
    shape: (p, from) => startingPoints(p, instrumentOf(from).side),
    when: (p) => !measured(p),
  }),
  topThickness: length({
    label: "Thickness of the top",
    help: "At the soundhole; of a solid body, of the cap or what inlays may go into.",
    group: WOOD,
    fallback: 2.8,
    min: 0.5,
    max: 80,
    step: 0.1,
    usual: { from: 2.2, to: 3.2, basis: `ukulele 1.6 to 2 mm, nylon 2.2 to 2.6 mm, steel-string 2.6 to 3.2 mm: ${PRACTICE}` },
  }),
  backThickness: length({
    label: "Thickness of the back",
    help: "Where it is left thickest.",
    group: WOOD,
    follows: { words: "2.5 mm on a body of 490 mm, less on a smaller one", value: (p) => scaled(2.5, p) },
    min: 0.5,
    max: 20,
    step: 0.1,
    usual: { from: 2.2, to: 3, basis: PRACTICE },
    when: hollow,
  }),
  sideThickness: length({
    label: "Thickness of the sides",
    help: "The outline of the inside is the body's less this.",
    group: WOOD,
    follows: { words: "2.1 mm on a body of 490 mm, less on a smaller one", value: (p) => scaled(2.1, p) },
    min: 0.5,
    max: 20,
    step: 0.1,
    usual: { from: 1.8, to: 2.4, basis: `solid wood 1.8 to 2.4 mm, laminated to 3.5 mm: ${PRACTICE}` },
    when: hollow,
  }),
  depth: length({
    label: "Thickness of the body",
    help: "Of the slab.",
    group: WOOD,
    fallback: 44,
    min: 5,
    max: 200,
    usual: { from: 38, to: 50, basis: PRACTICE },
    when: (p) => !hollow(p),
  }),
  mouldMargin: length({
    label: "Wood of the mould",
    help: "Least width of an outside mould beside the body.",
    group: WOOD,
    fallback: 50,
    min: 5,
    max: 300,
    step: 1,
    usual: { from: 35, to: 70, basis: PRACTICE },
    when: hollow,
  }),
  topRadius: {
    type: "optional-length",
    label: "Dome of the top",
    help: "Radius of the dish that the top is braced in and the sides' edges are sanded to.",
    group: WOOD,
    absent: "flat",
    min: 300,
    max: 100_000,
    usual: { from: 6000, to: 15_000, basis: `25 to 40 ft: ${PRACTICE}` },
    when: hollow,
  },
  binding: {
    type: "records",
    label: "Round the top",
    help: "Binding and purfling round the top's edge, from the outside in.",
    group: BINDING,
    item: "layer",
    short: "thickness",
    maxItems: 12,
    fallback: [],
    of: layerTable("top"),
  },
  backBinding: {
    type: "records",
    label: "Round the back",
    help: "The same round the back.",
    group: BINDING,
    item: "layer",
    short: "thickness",
    maxItems: 12,
    follows: { words: "the top's outermost layer", value: (p) => p.binding.slice(0, 1) },
    of: layerTable("back"),
  },
};
