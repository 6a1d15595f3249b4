/** The head as far as the neck's blank is concerned: tilt, thickness, the bend behind the nut, the scarf. */
import type { ParamTable } from "../contract.ts";
import { PRACTICE } from "../finding.ts";
import { centreScale, instrumentOf, type HeadNumbers, type NeckParams } from "./numbers.ts";

const HEAD = "Nut and head";
const BLANK = "Blank";
const DEGREE = Math.PI / 180;

export const headTable: Pick<ParamTable<NeckParams>, keyof HeadNumbers> = {
  shelf: {
    type: "length",
    label: "Shelf under the nut",
    help: "Along the centre line, from the end of the board to where the head's face begins.",
    group: HEAD,
    follows: {
      words: "the nut",
      value: (_p, from) => {
        const nut = from.get("nut");
        return nut ? nut.faceX - nut.backX : 5.5;
      },
    },
    min: 0,
    max: 60,
    step: 0.1,
    usual: { from: 5, to: 6.5, basis: PRACTICE },
  },
  headTilt: {
    type: "angle",
    label: "Tilt of the head",
    help: "Between the head's face and the plane that the board is glued to.",
    group: HEAD,
    fallback: 15 * DEGREE,
    min: DEGREE,
    max: 35 * DEGREE,
    step: DEGREE / 2,
    usual: { from: 13 * DEGREE, to: 17 * DEGREE, basis: PRACTICE },
  },
  headThickness: {
    type: "length",
    label: "Thickness of the head",
    help: "Square to its face, with the headplate.",
    group: HEAD,
    fallback: 14.5,
    min: 3,
    max: 60,
    step: 0.1,
    usual: { from: 14, to: 15, basis: PRACTICE },
  },
  headplate: {
    type: "length",
    label: "Headplate",
    help: "Thickness of the plate on the head's face; 0 for none.",
    group: HEAD,
    fallback: 2,
    min: 0,
    max: 20,
    step: 0.1,
    usual: { from: 1.5, to: 3, basis: PRACTICE },
  },
  headLength: {
    type: "length",
    label: "Length of the head",
    help: "Along its face, from the nut's back to the top.",
    group: HEAD,
    follows: { words: "three tenths of the scale", value: (_p, from) => 0.3 * centreScale(instrumentOf(from)) },
    min: 20,
    max: 600,
    step: 1,
    usual: { from: 130, to: 200, basis: PRACTICE },
  },
  bend: {
    type: "length",
    label: "Bend into the head",
    help: "Along the neck, from the end of the straight back to the straight back of the head.",
    group: HEAD,
    fallback: 36,
    min: 2,
    max: 200,
    step: 1,
    usual: { from: 20, to: 50, basis: PRACTICE },
  },
  volute: {
    type: "length",
    label: "Volute",
    help: "Wood left standing over the bend, at its highest; 0 for none.",
    group: HEAD,
    fallback: 0,
    min: 0,
    max: 25,
    step: 0.1,
    usual: { from: 0, to: 4, basis: PRACTICE },
  },
  voluteLength: {
    type: "length",
    label: "Length of the volute",
    help: "Along the neck, over its whole rise and fall.",
    group: HEAD,
    fallback: 36,
    min: 5,
    max: 150,
    step: 1,
    when: (p) => p.volute > 0,
  },
  scarf: {
    type: "choice",
    label: "Head made by",
    help: "How the tilted head is got out of the blank.",
    group: BLANK,
    fallback: "board",
    options: [
      { value: "board", label: "A scarf whose glue line comes out under the board" },
      { value: "head", label: "A scarf whose glue line comes out on the head's face" },
      { value: "none", label: "One piece, sawn from a thick blank" },
    ],
  },
  blankThickness: {
    type: "length",
    label: "Thickness of the blank",
    help: "Of the planed board that the neck is sawn from.",
    group: BLANK,
    fallback: 20,
    min: 3,
    max: 150,
    step: 0.5,
    usual: { from: 18, to: 25, basis: PRACTICE },
    when: (p) => p.scarf !== "none",
  },
};
