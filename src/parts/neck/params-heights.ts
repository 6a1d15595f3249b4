/** Heights and pitch: five numbers of one chain, of which four are free. */
import type { Balance, NumberSpec, ParamTable, Sources } from "../contract.ts";
import { PRACTICE } from "../finding.ts";
import { solved, topRiseAt } from "./heights.ts";
import { centreScale, instrumentOf, type HeightNumbers, type NeckParams } from "./numbers.ts";

const HEIGHTS = "Heights and pitch";
const TOP = "Top of the body";
const DEGREE = Math.PI / 180;

/** A design without a body says here what its top is like. */
const alone = (_p: NeckParams, from: Sources): boolean => from.get("body") === undefined;

/** What a number of the chain follows: the others, where it is the one that gives way, else a usual figure. */
const link = (
  key: keyof HeightNumbers & ("pitch" | "saddleHeight" | "bridgeThickness" | "action" | "boardThickness"),
  words: string,
  usual: (p: NeckParams, from: Parameters<NonNullable<NumberSpec<NeckParams>["follows"]>["value"]>[1]) => number,
): NonNullable<NumberSpec<NeckParams>["follows"]> => ({
  words,
  value: (p, from, given) => solved(key, p, from, given) ?? usual(p, from),
});

export const heightTable: Pick<ParamTable<NeckParams>, keyof HeightNumbers> = {
  pitch: {
    type: "angle",
    label: "Pitch",
    help: "Angle of the frets' plane against the edge of the body's top; above 0 the plane rises towards the saddle.",
    group: HEIGHTS,
    follows: link("pitch", "the other heights", () => 0),
    min: -20 * DEGREE,
    max: 20 * DEGREE,
    step: DEGREE / 20,
    usual: { from: -1 * DEGREE, to: 2 * DEGREE, basis: `nylon about 0 or below, steel-string 0.5 to 1.5 degrees: ${PRACTICE}` },
  },
  action: {
    type: "length",
    label: "Action at fret 12, treble",
    help: "From the top of fret 12 to the underside of the thinnest string.",
    group: HEIGHTS,
    follows: link("action", "1.8 mm, or the other heights", () => 1.8),
    min: -30,
    max: 60,
    step: 0.05,
    usual: { from: 1.5, to: 3.2, basis: `steel-string 1.5 to 2 mm, nylon 2.5 to 3.2 mm: ${PRACTICE}` },
  },
  moreAtBass: {
    type: "length",
    label: "More at the bass string",
    help: "By how much the action of the thickest string is higher; strings between share it.",
    group: HEIGHTS,
    fallback: 0.5,
    min: -5,
    max: 10,
    step: 0.05,
    usual: { from: 0.3, to: 1, basis: PRACTICE },
  },
  nutHeight: {
    type: "length",
    label: "Strings over the frets' plane at the nut",
    help: "Bottom of the nut slots above the tops of the frets carried on to the nut, at the middle.",
    group: HEIGHTS,
    follows: {
      words: "the nut's slots",
      value: (_p, from) => {
        const slots = from.get("nut")?.slots ?? [];
        const crown = from.get("fingerboard")?.crownHeight ?? 0;
        const [bass, treble] = [slots[0], slots.at(-1)];
        if (!bass || !treble) return 0.1;
        const frets = instrumentOf(from).frets.length > 1;
        return Math.max(0, (bass.height + treble.height) / 2 - (frets ? crown : 0));
      },
    },
    min: 0,
    max: 20,
    step: 0.01,
    usual: { from: 0, to: 0.6, basis: PRACTICE },
  },
  bridgeThickness: {
    type: "length",
    label: "Bridge at the saddle",
    help: "Thickness of the bridge over the top, at the middle of the saddle.",
    group: HEIGHTS,
    follows: link("bridgeThickness", "9 mm, or the other heights", () => 9),
    min: -60,
    max: 120,
    step: 0.1,
    usual: { from: 7.5, to: 10, basis: PRACTICE },
  },
  saddleHeight: {
    type: "length",
    label: "Saddle over the bridge",
    help: "From the bridge's top to the underside of the strings, at the middle.",
    group: HEIGHTS,
    follows: link("saddleHeight", "4 mm, or the other heights", () => 4),
    min: -60,
    max: 120,
    step: 0.1,
    usual: { from: 2.5, to: 5, basis: PRACTICE },
  },
  boardThickness: {
    type: "length",
    label: "Board in the chain of heights",
    help: "Thickness of the fingerboard at the join. Where it comes out of the other heights, give the board that thickness.",
    group: HEIGHTS,
    follows: link(
      "boardThickness",
      "the fingerboard, or the other heights",
      (_p, from) => from.get("fingerboard")?.thickness ?? 6.35,
    ),
    min: -60,
    max: 120,
    step: 0.1,
  },
  setback: {
    type: "length",
    label: "Saddle behind the scale",
    help: "Compensation at the middle of the saddle.",
    group: HEIGHTS,
    fallback: 2.5,
    min: -3,
    max: 20,
    step: 0.1,
    usual: { from: 1, to: 4, basis: PRACTICE },
  },
  topRadius: {
    type: "optional-length",
    label: "Dome of the top",
    help: "Radius of the sphere that the top is bent to.",
    group: TOP,
    min: 1500,
    max: 100000,
    absent: "flat",
    usual: { from: 6000, to: 15000, basis: PRACTICE },
    when: alone,
  },
  bodyLength: {
    type: "length",
    label: "Length of the body",
    help: "From the join to the tail, on the centre line.",
    group: TOP,
    follows: { words: "eight tenths of the scale", value: (_p, from) => 0.8 * centreScale(instrumentOf(from)) },
    min: 50,
    max: 1800,
    step: 1,
    usual: { from: 260, to: 520, basis: PRACTICE },
    when: (p, from) => p.topRadius !== undefined && alone(p, from),
  },
  flatFor: {
    type: "length",
    label: "Flat beyond the join for",
    help: "How far the top is left flat under the board before the dome begins.",
    group: TOP,
    follows: {
      words: "the board's length over the body",
      value: (_p, from) => {
        const board = from.get("fingerboard");
        return board ? Math.max(0, board.endX - instrumentOf(from).joinX) : 0;
      },
    },
    min: 0,
    max: 1800,
    step: 1,
    when: (p, from) => p.topRadius !== undefined && alone(p, from),
  },
  topRise: {
    type: "length",
    label: "Top over its edge at the saddle",
    help: "How far the top stands over the plane of the body's edge there, or as measured on the body.",
    group: TOP,
    follows: {
      words: "the dome of the body's top",
      value: (p, from) => topRiseAt(p, from, centreScale(instrumentOf(from)) + p.setback),
    },
    min: -20,
    max: 150,
    step: 0.1,
    usual: { from: 0, to: 6, basis: PRACTICE },
  },
};

/** Five numbers, one relation. */
export const heightBalances: readonly Balance<NeckParams>[] = [
  {
    members: ["pitch", "saddleHeight", "bridgeThickness", "action", "boardThickness"],
    given: 4,
    yields: ["pitch", "saddleHeight", "bridgeThickness", "action", "boardThickness"],
  },
];
