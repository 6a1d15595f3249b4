import { taperThrough, widthAt } from "../../lutherie/fingerboard-taper.ts";
import { marginFrom, widthFrom } from "../../lutherie/nut-numbers.ts";
import { lineAcross, slantOf } from "../../lutherie/transverse-line.ts";
import type { ParamTable, Sources } from "../contract.ts";
import { PRACTICE } from "../finding.ts";
import { endX, instrumentOf, startX, type FingerboardParams, type OutlineNumbers, type SectionNumbers } from "./numbers.ts";

const WIDTH = "Width";
const LENGTH = "Length and end";
const SECTION = "Section";

type Given = (key: keyof FingerboardParams & string) => boolean;

/** Width at x on the line through the nut and whichever other width leads: that at fret 12, at the end, or at the join. */
function widthAlong(p: FingerboardParams, from: Sources, given: Given, x: number): number {
  const instrument = instrumentOf(from);
  const [at, width] = given("widthAt12")
    ? [instrument.fret12X, p.widthAt12]
    : given("widthAtEnd")
      ? [endX(p, instrument), p.widthAtEnd]
      : [instrument.joinX, p.widthAtJoin];
  return widthAt(taperThrough(p.widthAtNut, at, width), x);
}

export const outlineTable: Pick<ParamTable<FingerboardParams>, keyof OutlineNumbers | keyof SectionNumbers> = {
  widthAtNut: {
    type: "length",
    label: "Width at the nut",
    help: "Width of the finished board at the nut, binding included.",
    group: WIDTH,
    follows: { words: "the instrument's width at the nut", value: (_p, from) => instrumentOf(from).nutWidth },
    min: 5,
    max: 300,
    step: 0.1,
    usual: {
      from: 33,
      to: 52,
      basis: `tenor guitar and ukulele 33 to 35 mm, steel-string 42.86 to 44.45 mm, nylon 52 mm: ${PRACTICE}`,
    },
  },
  widthAtJoin: {
    type: "length",
    label: "Width at the join",
    help: "Width of the finished board, square to the centre line, where neck and body meet.",
    group: WIDTH,
    follows: {
      words: "strings and both margins at the join, or the width given elsewhere",
      value: (p, from, given) => {
        const instrument = instrumentOf(from);
        return given("widthAt12") || given("widthAtEnd")
          ? widthAlong(p, from, given, instrument.joinX)
          : widthFrom(instrument.joinSpread, p.marginAtJoin, instrument.takenByStrings);
      },
    },
    min: 5,
    max: 300,
    step: 0.1,
    usual: { from: 43, to: 62, basis: `tenor ukulele about 43 mm, steel-string 54 to 57 mm, nylon about 62 mm: ${PRACTICE}` },
  },
  widthAt12: {
    type: "length",
    label: "Width at fret 12",
    help: "Width of the finished board, square to the centre line, at fret 12.",
    group: WIDTH,
    follows: {
      words: "straight sides from the nut through the given width",
      value: (p, from, given) => widthAlong(p, from, given, instrumentOf(from).fret12X),
    },
    min: 5,
    max: 300,
    step: 0.1,
  },
  widthAtEnd: {
    type: "length",
    label: "Width at the end",
    help: "Width of the finished board, square to the centre line, where the end crosses it.",
    group: WIDTH,
    follows: {
      words: "straight sides from the nut through the given width",
      value: (p, from, given) => widthAlong(p, from, given, endX(p, instrumentOf(from))),
    },
    min: 5,
    max: 300,
    step: 0.1,
  },
  marginAtJoin: {
    type: "length",
    label: "Margin at the join",
    help: "From the outer string to the edge of the board where neck and body meet.",
    group: WIDTH,
    follows: {
      words: "same as at the nut, or half of what the strings leave of the given width",
      value: (p, from, given) => {
        const instrument = instrumentOf(from);
        return given("widthAtJoin") || given("widthAt12") || given("widthAtEnd")
          ? marginFrom(p.widthAtJoin, instrument.joinSpread, instrument.takenByStrings)
          : instrument.nutMargin;
      },
    },
    min: -50,
    max: 100,
    step: 0.1,
    usual: { from: 3, to: 5, basis: PRACTICE },
  },
  overhang: {
    type: "length",
    label: "Beyond the last fret",
    help: "From the last fret to the end of the board, on the centre line.",
    group: LENGTH,
    follows: {
      words: "8 mm, or what the length leaves; three quarters of the scale on a board without frets",
      value: (p, from, given) => {
        const instrument = instrumentOf(from);
        if (given("length")) return endX(p, instrument) - instrument.lastFretX;
        return instrument.frets.length > 1 ? 8 : instrument.scale * 0.75;
      },
    },
    min: -2000,
    max: 2000,
    step: 0.5,
    usual: { from: 5, to: 15, basis: PRACTICE },
  },
  length: {
    type: "length",
    label: "Length",
    help: "Of the whole board on the centre line.",
    group: LENGTH,
    follows: {
      words: "to the last fret and beyond it",
      value: (p, from) => {
        const instrument = instrumentOf(from);
        return instrument.lastFretX + p.overhang - startX(p, instrument);
      },
    },
    min: 40,
    max: 2000,
    step: 0.5,
  },
  zeroFretSetback: {
    type: "length",
    label: "From the zero fret to the nut",
    help: "Board behind the zero fret, on the centre line.",
    group: LENGTH,
    fallback: 4,
    min: 0.5,
    max: 30,
    step: 0.5,
    usual: { from: 2, to: 8, basis: PRACTICE },
    when: (_p, from) => instrumentOf(from).zeroFret,
  },
  end: {
    type: "choice",
    label: "End",
    help: "How the board is cut off at the body.",
    group: LENGTH,
    fallback: "square",
    options: [
      { value: "square", label: "Square" },
      { value: "angled", label: "Angled" },
      { value: "curved", label: "Curved round the soundhole" },
    ],
  },
  endAngle: {
    type: "angle",
    label: "Angle of the end",
    help: "From square; above 0 the board is longer on the treble side.",
    group: LENGTH,
    follows: {
      words: "parallel to the last fret",
      value: (_p, from) => {
        const { frets, side } = instrumentOf(from);
        const last = frets.at(-1);
        const slant = last ? side * slantOf(lineAcross(last.bass, last.treble)) : 0;
        return Math.max(-1, Math.min(1, slant)) + 0;
      },
    },
    min: -1,
    max: 1,
    when: (p) => p.end === "angled",
  },
  endRadius: {
    type: "length",
    label: "Radius of the end",
    help: "Of the hollow curve of the end, such as the soundhole's; its middle lies on the centre line.",
    group: LENGTH,
    fallback: 50,
    min: 5,
    max: 1000,
    step: 0.5,
    usual: { from: 49, to: 51, basis: `soundholes of 98 to 102 mm: ${PRACTICE}` },
    when: (p) => p.end === "curved",
  },
  thickness: {
    type: "length",
    label: "Thickness",
    help: "Of the board at its middle, before frets.",
    group: SECTION,
    fallback: 6.35,
    min: 1,
    max: 40,
    step: 0.1,
    usual: { from: 5, to: 7, basis: `6.35 mm: ${PRACTICE}` },
  },
  radius: {
    type: "optional-length",
    label: "Radius",
    help: "Of the arch across the face; at the nut where the board is compound.",
    group: SECTION,
    min: 30,
    max: 10000,
    absent: "flat",
    usual: { from: 305, to: 508, basis: `steel-string 305 to 508 mm, nylon flat: ${PRACTICE}` },
  },
  radiusAtEnd: {
    type: "optional-length",
    label: "Radius at the end",
    help: "Given, the arch flattens evenly from the nut to the end of the board.",
    group: SECTION,
    min: 30,
    max: 10000,
    absent: "the same all along",
    when: (p) => p.radius !== undefined,
  },
};
