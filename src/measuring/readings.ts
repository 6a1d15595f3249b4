/**
 * What is read off an existing instrument, each with how it is taken. How to hold a tool and the usual ranges: common practice, no source.
 */
import type { SketchName } from "./sketch.ts";

/** A number of a design, wherever its parts stand: the kind of its owner and its key there. */
export interface Target {
  readonly kind: string;
  readonly key: string;
}

export interface Reading {
  /** Under it the reading is kept with the order. Never renamed. */
  readonly key: string;
  readonly label: string;
  /** One or two sentences: what is laid where, strings on or off, which face. */
  readonly how: string;
  readonly sketch: SketchName;
  readonly group: string;
  /** The number that it is, where it is one as it stands; others follow from several readings (see found.ts). */
  readonly target?: Target;
  /** Whether it is a count of frets instead of a length. */
  readonly count?: true;
}

const NUT = "At the nut";
const SCALE = "Scale and strings";
const BOARD = "Fingerboard";
const NECK = "Neck";
const BODY = "Body";
const HEIGHTS = "Heights";

export const READINGS: readonly Reading[] = [
  {
    key: "nutWidth",
    label: "Width at the nut",
    how: "Calliper across board and binding, just where the board meets the nut. Not over the ends of the nut: they are often rounded.",
    sketch: "nutWidth",
    group: NUT,
    target: { kind: "instrument", key: "nutWidth" },
  },
  {
    key: "nutSpread",
    label: "Outer strings apart at the nut",
    how: "Middle of the first string's slot to the middle of the last one's, strings on. By calliper: over both strings, less half of each.",
    sketch: "nutSpread",
    group: NUT,
    target: { kind: "instrument", key: "nutSpread" },
  },
  {
    key: "nutToFret12",
    label: "Nut to fret 12",
    how: "Long rule on the board along the middle, from the front of the nut to the middle of the crown of fret 12. The scale is twice this.",
    sketch: "toFret12",
    group: SCALE,
  },
  {
    key: "nutToSaddleTreble",
    label: "Nut to saddle, thinnest string",
    how: "Strings on, along the string: from the front of the nut to where the string leaves the saddle.",
    sketch: "toSaddle",
    group: SCALE,
  },
  {
    key: "nutToSaddleBass",
    label: "Nut to saddle, thickest string",
    how: "The same along the thickest string. What both have more than the scale is the compensation as it is.",
    sketch: "toSaddle",
    group: SCALE,
  },
  {
    key: "saddleSpread",
    label: "Outer strings apart at the saddle",
    how: "Middle to middle where the strings leave the saddle, strings on.",
    sketch: "saddleSpread",
    group: SCALE,
    target: { kind: "instrument", key: "saddleSpread" },
  },
  {
    key: "frets",
    label: "Frets",
    how: "Count them.",
    sketch: "toFret12",
    group: SCALE,
    count: true,
    target: { kind: "instrument", key: "frets" },
  },
  {
    key: "joinFret",
    label: "Fret at the join",
    how: "The fret that stands over the edge of the body.",
    sketch: "boardAtJoin",
    group: SCALE,
    count: true,
    target: { kind: "instrument", key: "joinFret" },
  },
  {
    key: "widthAtJoin",
    label: "Board's width at the join",
    how: "Calliper across board and binding at the fret over the body's edge, strings on or off.",
    sketch: "boardAtJoin",
    group: BOARD,
    target: { kind: "fingerboard", key: "widthAtJoin" },
  },
  {
    key: "edgeChord",
    label: "Length of the straightedge",
    how: "A short straightedge, as long as two strings next to the outer ones are apart, laid across between two frets, strings off or lifted.",
    sketch: "rise",
    group: BOARD,
  },
  {
    key: "edgeRise",
    label: "Gap under its ends",
    how: "The straightedge touches the crown of the board; feeler gauge under an end, both ends alike. A flat board has none: leave it empty.",
    sketch: "rise",
    group: BOARD,
  },
  {
    key: "firstDepth",
    label: "Depth at fret 1, on the board",
    how: "Calliper from the bare board beside the fret to the back of the neck, strings off or pushed aside.",
    sketch: "depth",
    group: NECK,
    target: { kind: "neck", key: "firstDepth" },
  },
  {
    key: "secondDepth",
    label: "Depth at fret 10, on the board",
    how: "The same at fret 10; on a short neck one fret before the join, and write the fret beside it.",
    sketch: "depth",
    group: NECK,
    target: { kind: "neck", key: "secondDepth" },
  },
  {
    key: "firstDepthOverFret",
    label: "Depth over fret 1",
    how: "Only where the bare board cannot be reached: over the crown of the fret. Take the height of a fret too, it comes off.",
    sketch: "depth",
    group: NECK,
  },
  {
    key: "secondDepthOverFret",
    label: "Depth over fret 10",
    how: "The same at fret 10.",
    sketch: "depth",
    group: NECK,
  },
  {
    key: "fretHeight",
    label: "Height of a fret",
    how: "From the board to the crown, by a feeler gauge under a straightedge over two frets, or by a depth gauge.",
    sketch: "action",
    group: NECK,
  },
  {
    key: "halfWayWidth",
    label: "Width half way down, at fret 1",
    how: "Half way from the joint of board and neck to the back: calliper across there. It says how full the shoulders are.",
    sketch: "halfWay",
    group: NECK,
    target: { kind: "neck", key: "firstHalfWayWidth" },
  },
  {
    key: "bodyLength",
    label: "Length of the body",
    how: "On the centre line of the back, from the edge at the neck to the edge at the tail, without a heel cap.",
    sketch: "bodyLength",
    group: BODY,
    target: { kind: "body", key: "length" },
  },
  {
    key: "upperBout",
    label: "Upper bout",
    how: "Widest place near the neck, square to the centre line, over the bindings.",
    sketch: "upperBout",
    group: BODY,
    target: { kind: "body", key: "upperBout" },
  },
  {
    key: "waist",
    label: "Waist",
    how: "Narrowest place, square to the centre line.",
    sketch: "waist",
    group: BODY,
    target: { kind: "body", key: "waist" },
  },
  {
    key: "lowerBout",
    label: "Lower bout",
    how: "Widest place near the tail.",
    sketch: "lowerBout",
    group: BODY,
    target: { kind: "body", key: "lowerBout" },
  },
  {
    key: "depthAtNeck",
    label: "Side's depth at the neck",
    how: "Beside the heel, the side alone. Where bindings hide its edges: over top and back, less the thickness of both.",
    sketch: "depthAtNeck",
    group: BODY,
    target: { kind: "sides", key: "depthNeck" },
  },
  {
    key: "depthAtTail",
    label: "Side's depth at the tail",
    how: "The same at the end of the centre line.",
    sketch: "depthAtTail",
    group: BODY,
    target: { kind: "sides", key: "depthTail" },
  },
  {
    key: "actionTreble",
    label: "Action at fret 12, thinnest string",
    how: "Strings on and tuned, no capo: from the crown of fret 12 to the underside of the string.",
    sketch: "action",
    group: HEIGHTS,
    target: { kind: "neck", key: "action" },
  },
  {
    key: "actionBass",
    label: "Action at fret 12, thickest string",
    how: "The same under the thickest string.",
    sketch: "action",
    group: HEIGHTS,
  },
  {
    key: "bridgeThickness",
    label: "Bridge at the saddle",
    how: "Thickness of the bridge over the top, in front of the saddle at the middle.",
    sketch: "bridgeThickness",
    group: HEIGHTS,
    target: { kind: "neck", key: "bridgeThickness" },
  },
  {
    key: "stringsOverTop",
    label: "Strings over the top",
    how: "Strings on: from the top to the underside of a middle string, just in front of the saddle.",
    sketch: "stringsOverTop",
    group: HEIGHTS,
  },
];

/** Groups in the order in which an instrument is gone over. */
export const GROUPS: readonly string[] = [...new Set(READINGS.map(({ group }) => group))];

/** Distances from the nut to these frets are asked for, to find the scale of a board whose fret 12 may itself be out. */
export const FRETS_ASKED: readonly number[] = [1, 3, 5, 7, 9, 12, 14, 17, 20];
/** Under which the distance to a fret is kept: `nutToFret5`; fret 12 is the reading of that name. */
export const keyOfFret = (fret: number): string => `nutToFret${fret}`;

/** By key, mm or a count. */
export type Taken = Readonly<Record<string, number>>;
