/** The numbers of the bracing. */
import type { ParamTable } from "../contract.ts";
import { PRACTICE } from "../finding.ts";
import { length } from "../length-spec.ts";
import { instrumentOf, type BraceRecord, type BracingParams, type PatchRecord } from "./numbers.ts";
import { startingBack, startingTop } from "./starting-braces.ts";

const TOP = "Top";
const PLATE = "Bridge plate";
const BACK = "Back";
const DEGREE = Math.PI / 180;
const FAR = 1500;

const plated = (p: BracingParams): boolean => p.bridgePlate;

const braceTable = (group: string): ParamTable<BraceRecord> => ({
  name: {
    type: "text",
    label: "Name",
    help: "What the brace is called on the plan.",
    group,
    fallback: "brace",
    maxLength: 40,
  },
  fromAlong: length({
    label: "From, along",
    help: "Middle of its first end, from the join towards the tail.",
    group,
    fallback: 100,
    min: -FAR,
    max: FAR,
  }),
  fromAcross: length({
    label: "From, across",
    help: "From the centre line, above 0 to the treble side.",
    group,
    fallback: -80,
    min: -FAR,
    max: FAR,
  }),
  toAlong: length({
    label: "To, along",
    help: "Middle of its other end, from the join towards the tail.",
    group,
    fallback: 100,
    min: -FAR,
    max: FAR,
  }),
  toAcross: length({
    label: "To, across",
    help: "From the centre line, above 0 to the treble side.",
    group,
    fallback: 80,
    min: -FAR,
    max: FAR,
  }),
  width: length({
    label: "Width",
    help: "Of the glued face.",
    group,
    fallback: 8,
    min: 0.5,
    max: 80,
    usual: { from: 4, to: 10, basis: PRACTICE },
  }),
  height: length({
    label: "Height",
    help: "Over the plate, at its middle.",
    group,
    fallback: 14,
    min: 0.5,
    max: 80,
    usual: { from: 5, to: 18, basis: PRACTICE },
  }),
  endHeight: length({
    label: "Height at the ends",
    help: "What the scoops leave.",
    group,
    fallback: 2,
    min: 0,
    max: 80,
    usual: { from: 1, to: 4, basis: PRACTICE },
  }),
  scoop: length({
    label: "Scoop",
    help: "How far in from each end the brace rises to its height.",
    group,
    fallback: 50,
    min: 0,
    max: 500,
    usual: { from: 25, to: 90, basis: PRACTICE },
  }),
});

const patchTable: ParamTable<PatchRecord> = {
  name: {
    type: "text",
    label: "Name",
    help: "What the patch is called on the plan.",
    group: TOP,
    fallback: "patch",
    maxLength: 40,
  },
  along: length({
    label: "Middle, along",
    help: "From the join towards the tail.",
    group: TOP,
    fallback: 100,
    min: -FAR,
    max: FAR,
  }),
  across: length({
    label: "Middle, across",
    help: "From the centre line, above 0 to the treble side.",
    group: TOP,
    fallback: 0,
    min: -FAR,
    max: FAR,
  }),
  length: length({ label: "Along", help: "Its size along the body.", group: TOP, fallback: 20, min: 1, max: 600 }),
  width: length({ label: "Across", help: "Its size across the body.", group: TOP, fallback: 60, min: 1, max: 600 }),
  thickness: length({ label: "Thickness", help: "Of the patch.", group: TOP, fallback: 1.5, min: 0.2, max: 20, step: 0.1 }),
};

export const bracingParams: ParamTable<BracingParams> = {
  pattern: {
    type: "choice",
    label: "Pattern of the top",
    help: "What the braces of the top begin as; each can be changed below.",
    group: TOP,
    follows: {
      words: "the kind of bridge",
      // A pinned bridge has metal strings, a tied one nylon; a floating one presses on ladders.
      value: (_p, from) => {
        const bridge = from.get("bridge");
        return bridge === undefined || bridge.pins.length > 0 ? "cross" : "fan";
      },
    },
    options: [
      { value: "cross", label: "Cross" },
      { value: "fan", label: "Fan" },
      { value: "ladder", label: "Ladder" },
      { value: "none", label: "None" },
    ],
  },
  crossAngle: {
    type: "angle",
    label: "Crossing angle",
    help: "Between the legs of the cross, open towards the tail.",
    group: TOP,
    fallback: 97 * DEGREE,
    min: 30 * DEGREE,
    max: 160 * DEGREE,
    step: DEGREE,
    usual: { from: 90 * DEGREE, to: 103 * DEGREE, basis: PRACTICE },
    when: (p) => p.pattern === "cross",
  },
  behindHole: length({
    label: "Crossing behind the soundhole",
    help: "From the hole's edge to where the legs cross.",
    group: TOP,
    fallback: 30,
    min: -200,
    max: 600,
    step: 1,
    usual: { from: 20, to: 50, basis: PRACTICE },
    when: (p) => p.pattern === "cross",
  }),
  fans: {
    type: "count",
    label: "Fans",
    help: "How many run under the bridge.",
    group: TOP,
    fallback: 7,
    min: 1,
    max: 15,
    usual: { from: 5, to: 9, basis: PRACTICE },
    when: (p) => p.pattern === "fan",
  },
  top: {
    type: "records",
    label: "Braces of the top",
    help: "Straight braces from end to end.",
    group: TOP,
    item: "brace",
    maxItems: 40,
    follows: { words: "the pattern", value: startingTop },
    of: braceTable(TOP),
  },
  patches: {
    type: "records",
    label: "Patches of the top",
    help: "Thin pieces beside the soundhole or over the seam.",
    group: TOP,
    item: "patch",
    maxItems: 20,
    fallback: [],
    of: patchTable,
  },
  bridgePlate: {
    type: "flag",
    label: "Bridge plate",
    help: "A plate under the bridge that the pins hold against.",
    group: PLATE,
    follows: { words: "a bridge with pins", value: (_p, from) => (from.get("bridge")?.pins.length ?? 0) > 0 },
  },
  plateFront: length({
    label: "Before the saddle",
    help: "From the saddle on the centre line to the plate's front edge.",
    group: PLATE,
    follows: {
      words: "the saddle's foremost end and 10 mm",
      value: (_p, from) => {
        const bridge = from.get("bridge");
        const ahead = bridge ? bridge.saddleX - Math.min(...bridge.saddle.ends.map(([x]) => x)) : 0;
        return Math.min(200, Math.max(0, ahead) + 10);
      },
    },
    min: 0,
    max: 200,
    usual: { from: 6, to: 15, basis: PRACTICE },
    when: plated,
  }),
  plateBack: length({
    label: "Behind the saddle",
    help: "To the plate's back edge.",
    group: PLATE,
    follows: {
      words: "the pins and 14 mm",
      value: (_p, from) => {
        const bridge = from.get("bridge");
        const last = Math.max(0, ...(bridge?.pins.map(({ at }) => at[0] - bridge.saddleX) ?? []));
        return Math.min(200, last + 14);
      },
    },
    min: 0,
    max: 200,
    usual: { from: 20, to: 35, basis: PRACTICE },
    when: plated,
  }),
  plateSpanFront: length({
    label: "Across, at the front",
    help: "Length of the plate's front edge.",
    group: PLATE,
    follows: {
      words: "the saddle and 15 mm each side",
      value: (_p, from) => (from.get("bridge")?.saddle.length ?? instrumentOf(from).saddleSpread + 18) + 30,
    },
    min: 10,
    max: 500,
    usual: { from: 90, to: 140, basis: PRACTICE },
    when: plated,
  }),
  plateSpanBack: length({
    label: "Across, at the back",
    help: "Longer than the front where the legs of a cross open.",
    group: PLATE,
    follows: { words: "the front and 40 mm", value: (p) => p.plateSpanFront + 40 },
    min: 10,
    max: 600,
    usual: { from: 110, to: 190, basis: PRACTICE },
    when: plated,
  }),
  plateThickness: length({
    label: "Thickness",
    help: "Of the bridge plate.",
    group: PLATE,
    fallback: 2.5,
    min: 0.5,
    max: 15,
    step: 0.1,
    usual: { from: 2.3, to: 2.8, basis: PRACTICE },
    when: plated,
  }),
  back: {
    type: "records",
    label: "Braces of the back",
    help: "Straight braces from end to end.",
    group: BACK,
    item: "brace",
    maxItems: 40,
    follows: { words: "four ladders", value: (_p, from) => startingBack(from) },
    of: braceTable(BACK),
  },
  seamStrip: length({
    label: "Strip over the back's seam",
    help: "Its width; it runs between the braces. 0 for none.",
    group: BACK,
    fallback: 16,
    min: 0,
    max: 80,
    usual: { from: 12, to: 20, basis: PRACTICE },
  }),
};
