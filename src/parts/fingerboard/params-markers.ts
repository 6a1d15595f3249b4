import { fallOver } from "../../lutherie/board-radius.ts";
import { USUAL_DOUBLES, USUAL_MARKS } from "../../lutherie/marker-places.ts";
import type { ParamTable, Sources } from "../contract.ts";
import { PRACTICE } from "../finding.ts";
import { instrumentOf, type FingerboardParams, type MarkerNumbers } from "./numbers.ts";

const FACE = "Markers on the face";
const SIDE = "Markers on the side";

const upToLast = (frets: readonly number[], from: Sources): number[] =>
  frets.filter((fret) => fret < instrumentOf(from).frets.length);

const frets = { type: "counts", min: 1, max: 36, maxItems: 36 } as const;

export const markerTable: Pick<ParamTable<FingerboardParams>, keyof MarkerNumbers> = {
  markerFrets: {
    ...frets,
    label: "At frets",
    help: "Frets with a marker on the face, between that fret and the one before.",
    group: FACE,
    follows: { words: "the usual ones, as far as there are frets", value: (_p, from) => upToLast(USUAL_MARKS, from) },
  },
  doubleFrets: {
    ...frets,
    label: "Two at frets",
    help: "Marked frets that get two markers.",
    group: FACE,
    follows: { words: "every twelfth", value: (_p, from) => upToLast(USUAL_DOUBLES, from) },
  },
  markerShape: {
    type: "choice",
    label: "Shape",
    help: "Of the markers on the face.",
    group: FACE,
    fallback: "dot",
    options: [
      { value: "dot", label: "Dot" },
      { value: "bar", label: "Bar" },
      { value: "diamond", label: "Diamond" },
    ],
  },
  markerSize: {
    type: "length",
    label: "Size",
    help: "Diameter of a dot; size of a bar or a diamond across the board.",
    group: FACE,
    fallback: 6,
    min: 0.5,
    max: 100,
    step: 0.5,
    usual: { from: 4, to: 7, basis: `dots: ${PRACTICE}` },
  },
  markerLength: {
    type: "length",
    label: "Size along the board",
    help: "Of a bar or a diamond.",
    group: FACE,
    follows: {
      words: "a third of a bar's size across, the whole of a diamond's",
      value: (p) => (p.markerShape === "bar" ? p.markerSize / 3 : p.markerSize),
    },
    min: 0.1,
    max: 100,
    step: 0.5,
    when: (p) => p.markerShape !== "dot",
  },
  markerPlace: {
    type: "choice",
    label: "Place",
    help: "In the space between strings nearest to the middle, or on the centre line whatever runs over it.",
    group: FACE,
    fallback: "between",
    options: [
      { value: "between", label: "Between strings" },
      { value: "centre", label: "On the centre line" },
    ],
  },
  sideFrets: {
    ...frets,
    label: "At frets",
    help: "Frets with a marker on the bass side of the board.",
    group: SIDE,
    follows: { words: "same as on the face", value: (p) => p.markerFrets },
  },
  sideDoubles: {
    ...frets,
    label: "Two at frets",
    help: "Marked frets that get two side markers.",
    group: SIDE,
    follows: { words: "same as on the face", value: (p) => p.doubleFrets },
  },
  sideDiameter: {
    type: "length",
    label: "Diameter",
    help: "Of the side markers.",
    group: SIDE,
    fallback: 2,
    min: 0.3,
    max: 10,
    step: 0.1,
    usual: { from: 1.5, to: 2.5, basis: PRACTICE },
  },
  sideDepth: {
    type: "length",
    label: "Below the face",
    help: "From the face at the edge of the board down to the middle of a side marker.",
    group: SIDE,
    follows: {
      words: "half the height of the edge at the nut",
      value: (p) => Math.max(0, p.thickness - fallOver(p.radius, p.widthAtNut)) / 2,
    },
    min: 0,
    max: 40,
    step: 0.1,
  },
};
