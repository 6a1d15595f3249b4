/** The numbers of the sides. */
import type { ParamTable } from "../contract.ts";
import { PRACTICE } from "../finding.ts";
import { length } from "../length-spec.ts";
import { hollowOf, type SidesParams } from "./numbers.ts";

const DEPTH = "Depth";
const TEMPLATE = "Template";
const LINING = "Linings and blocks";
const TAIL = "Tail";
const CUTAWAY = "Pointed cutaway";

const grafted = (p: SidesParams): boolean => p.graft === "graft";

export const sidesParams: ParamTable<SidesParams> = {
  depthNeck: length({
    label: "Depth at the neck",
    help: "Of the finished side on the centre line, without top and back.",
    group: DEPTH,
    follows: {
      words: "the neck's heel and 4 mm; else 19 hundredths of the body",
      value: (_p, from) => {
        const heel = from.get("neck")?.heelDepth;
        return heel === undefined ? 0.19 * (from.get("body")?.length ?? 490) : heel + 4;
      },
    },
    min: 5,
    max: 400,
    usual: { from: 55, to: 105, basis: `tenor ukulele about 60 mm, guitar 80 to 100 mm: ${PRACTICE}` },
  }),
  depthTail: length({
    label: "Depth at the tail",
    help: "Of the finished side on the centre line, without top and back.",
    group: DEPTH,
    follows: {
      words: "the depth at the neck and 3 hundredths of the body",
      value: (p, from) => p.depthNeck + 0.03 * (from.get("body")?.length ?? 490),
    },
    min: 5,
    max: 400,
    usual: { from: 60, to: 125, basis: `tenor ukulele about 70 mm, guitar 95 to 120 mm: ${PRACTICE}` },
  }),
  backRadius: {
    type: "optional-length",
    label: "Dome of the back",
    help: "Radius of the dish that the back is braced in and the sides' edges are sanded to.",
    group: DEPTH,
    absent: "flat",
    min: 300,
    max: 100_000,
    usual: { from: 3600, to: 7600, basis: `12 to 25 ft, most often 15: ${PRACTICE}` },
  },
  face: {
    type: "choice",
    label: "Measured along the",
    help: "The outer face of the bent side, or the middle of its wood, which keeps its length when it is bent.",
    group: TEMPLATE,
    fallback: "outer",
    options: [
      { value: "outer", label: "Outer face" },
      { value: "middle", label: "Middle of the wood" },
    ],
  },
  liningWidth: length({
    label: "Width of the linings",
    help: "In from the side.",
    group: LINING,
    fallback: 6.5,
    min: 0.5,
    max: 40,
    usual: { from: 5, to: 8, basis: PRACTICE },
  }),
  liningHeight: length({
    label: "Height of the linings",
    help: "Down the side.",
    group: LINING,
    fallback: 14,
    min: 1,
    max: 60,
    usual: { from: 10, to: 20, basis: PRACTICE },
  }),
  neckBlockWidth: length({
    label: "Neck block, width",
    help: "Across the body.",
    group: LINING,
    follows: { words: "16 hundredths of the body's length", value: (_p, from) => 0.16 * (from.get("body")?.length ?? 490) },
    min: 5,
    max: 400,
    usual: { from: 45, to: 100, basis: PRACTICE },
  }),
  neckBlockLength: length({
    label: "Neck block, thickness",
    help: "Along the body.",
    group: LINING,
    follows: {
      words: "the neck's joint; else 6 hundredths of the body's length",
      value: (_p, from) => from.get("neck")?.blockThickness ?? 0.06 * (from.get("body")?.length ?? 490),
    },
    min: 3,
    max: 300,
    usual: { from: 20, to: 75, basis: PRACTICE },
  }),
  tailBlockWidth: length({
    label: "Tail block, width",
    help: "Across the body.",
    group: LINING,
    follows: { words: "16 hundredths of the body's length", value: (_p, from) => 0.16 * (from.get("body")?.length ?? 490) },
    min: 5,
    max: 400,
    usual: { from: 45, to: 100, basis: PRACTICE },
  }),
  tailBlockLength: length({
    label: "Tail block, thickness",
    help: "Along the body.",
    group: LINING,
    fallback: 18,
    min: 3,
    max: 150,
    usual: { from: 12, to: 25, basis: PRACTICE },
  }),
  graft: {
    type: "choice",
    label: "End graft",
    help: "A strip or wedge let into the sides where they meet at the tail.",
    group: TAIL,
    fallback: "none",
    options: [
      { value: "none", label: "None" },
      { value: "graft", label: "Graft" },
    ],
  },
  graftTop: length({
    label: "Graft, width at the top",
    help: "Without its purfling.",
    group: TAIL,
    fallback: 22,
    min: 1,
    max: 200,
    usual: { from: 12, to: 32, basis: PRACTICE },
    when: grafted,
  }),
  graftBottom: length({
    label: "Graft, width at the back",
    help: "Less than at the top makes a wedge that closes its own joints.",
    group: TAIL,
    follows: { words: "three quarters of the top", value: (p) => 0.75 * p.graftTop },
    min: 1,
    max: 200,
    when: grafted,
  }),
  graftPurfling: length({
    label: "Graft, purfling each side",
    help: "0 for none.",
    group: TAIL,
    fallback: 0,
    min: 0,
    max: 10,
    step: 0.1,
    usual: { from: 0, to: 2, basis: PRACTICE },
    when: grafted,
  }),
  endHole: {
    type: "choice",
    label: "Hole at the tail",
    help: "For a strap pin, or for an end jack.",
    group: TAIL,
    fallback: "none",
    options: [
      { value: "none", label: "None" },
      { value: "pin", label: "Strap pin" },
      { value: "jack", label: "End jack" },
    ],
  },
  endHoleDiameter: length({
    label: "Diameter of the hole",
    help: "Through side and tail block.",
    group: TAIL,
    follows: { words: "12 mm for a jack, 7 mm for a pin", value: (p) => (p.endHole === "pin" ? 7 : 12) },
    min: 1,
    max: 40,
    step: 0.1,
    usual: { from: 6, to: 12.7, basis: PRACTICE },
    when: (p) => p.endHole !== "none",
  }),
  endHoleDown: length({
    label: "Hole below the top",
    help: "From the edge of the side at the top to the middle of the hole.",
    group: TAIL,
    follows: { words: "half of the depth at the tail", value: (p) => p.depthTail / 2 },
    min: 0.5,
    max: 400,
    when: (p) => p.endHole !== "none",
  }),
  accent: length({
    label: "Accent block",
    help: "How far a block of another wood shows along each side of the horn's point; 0 for a plain mitre.",
    group: CUTAWAY,
    fallback: 6,
    min: 0,
    max: 60,
    usual: { from: 3, to: 12, basis: PRACTICE },
    when: (_p, from) => (hollowOf(from)?.treble?.bent.length ?? 1) > 1,
  }),
};
