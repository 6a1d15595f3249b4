/**
 * How a template is made from a part's edge: what follows it, what it is cut for, how it is held. A design says it by template
 * (`fingerboard/blank-outline`), and what all templates of a part share by the part (`fingerboard`).
 */
import type { ParamTable } from "./contract.ts";

/** One template. Lengths in mm. */
export interface Making {
  /** `line`: cut to the line by saw and file; `moved`: the line moved by a distance. */
  readonly follow: "line" | "bearing" | "bush" | "moved";
  /** An inside template is a window that the guide runs in, an outside template a piece that it runs round. */
  readonly template: "outside" | "inside";
  /** What the guided bit cuts: the wood within the line stays, goes right through, or goes to a depth. */
  readonly cut: "piece" | "opening" | "blind-recess";
  /** Outside diameters. */
  readonly bush: number;
  readonly bearing: number;
  readonly bit: number;
  /** Another bush through the same template, which cuts the other half. */
  readonly partnerBush: number | undefined;
  readonly partnerBit: number;
  /** Outwards above 0, inwards below. */
  readonly moved: number;
  readonly corners: "sharp" | "round";
  /** Not the working template itself, but one that it is cut from: of the same kind, or its reverse. */
  readonly master: "none" | "same" | "reverse";
  readonly masterBush: number | undefined;
  readonly masterBit: number;
  /** The half to the left or to the right of the centre line, looking from its start (nut or tail) along it. */
  readonly half: "whole" | "left" | "right";
  readonly mirrored: boolean;
  /** Tabs to clamp or tape, ears to screw; at the start of the centre line, its end, or both. */
  readonly fixing: "none" | "tabs" | "ears";
  readonly fixingAt: "both" | "start" | "end";
  readonly fixingWidth: number;
  readonly fixingReach: number;
  readonly screw: number;
  /** Diameter of a hole in the middle of every hole of the part. */
  readonly pilot: number | undefined;
  /** Name, number and revision, to be scratched in. */
  readonly lettered: boolean;
  readonly revision: string;
  /** How far the joints between its sheets are moved from where they fall, across and up the sheets as seen. */
  readonly jointAcross: number;
  readonly jointUp: number;
}

/** What of a making concerns its sheets alone: the template is the same whatever they are. */
export const SHEET_KEYS: readonly (keyof Making)[] = ["jointAcross", "jointUp"];

/** What all templates of a part share, so that they can be pinned on each other. */
export interface SharedMaking {
  /** Diameter of two index pins on the centre line. */
  readonly pin: number | undefined;
  /** Their distances along the centre line from where it is measured from: the nut, for a board. */
  readonly pinStart: number | undefined;
  readonly pinEnd: number | undefined;
}

const FOLLOW = "How it will be followed";
const PARTNER = "The other half";
const MASTER = "Master";
const SHAPE = "Shape";
const HOLD = "How it is held";
const WORDS = "Lettering";
const PINS = "Index pins";
/** Only a template on several sheets has joints. */
export const JOINTS = "Joints between its sheets";

const ROUTER = "bits and guides sold for routers: common practice, no source";

const guided = (p: Making): boolean => p.follow === "bearing" || p.follow === "bush";

/** What the table needs to know of the template that it is about. */
export interface MadeFrom {
  /** It has a closed edge that can be followed. */
  readonly edge: boolean;
  readonly centreLine: boolean;
  /** It shows holes that are drilled. */
  readonly holes: boolean;
  /** The edge is that of a recess. */
  readonly recess: boolean;
}

const ALL: MadeFrom = { edge: true, centreLine: true, holes: true, recess: false };

/** The table of one template; what cannot be done to it stands idle. */
export const makingTable = (from: MadeFrom = ALL): ParamTable<Making> => ({
  follow: {
    type: "choice",
    label: "Followed by",
    help: "What runs along the template. A bearing of the bit's own size cuts to the template; a guide bush keeps its bit off it, so the template is made smaller or larger.",
    group: FOLLOW,
    fallback: "line",
    options: [
      { value: "line", label: "Saw and file, to the line" },
      { value: "bearing", label: "A bearing on the bit" },
      { value: "bush", label: "A guide bush" },
      { value: "moved", label: "Nothing: the line moved" },
    ],
    when: () => from.edge,
  },
  template: {
    type: "choice",
    label: "Template",
    help: "Outside: a piece that the guide runs round. Inside: a window that it runs in. The one is the reverse of the other.",
    group: FOLLOW,
    fallback: from.recess ? "inside" : "outside",
    options: [
      { value: "outside", label: "Outside" },
      { value: "inside", label: "Inside" },
    ],
    when: (p) => from.edge && (guided(p) || p.master !== "none"),
  },
  cut: {
    type: "choice",
    label: "What is cut",
    help: "The piece: the wood within the line stays. An opening goes right through; a recess goes to a depth, and needs an inside template, since an outside one would cover its wood.",
    group: FOLLOW,
    fallback: from.recess ? "blind-recess" : "piece",
    options: [
      { value: "piece", label: "The piece" },
      { value: "opening", label: "An opening" },
      { value: "blind-recess", label: "A recess" },
    ],
    when: (p) => from.edge && guided(p),
  },
  bush: {
    type: "length",
    label: "Guide bush",
    help: "Outside diameter of the collar under the router. Measure it: sold sizes are nominal.",
    group: FOLLOW,
    fallback: 15.875,
    min: 1,
    max: 100,
    step: 0.1,
    usual: { from: 7.9, to: 30, basis: ROUTER },
    when: (p) => from.edge && p.follow === "bush",
  },
  bearing: {
    type: "length",
    label: "Bearing",
    help: "Outside diameter. One smaller than the bit cuts a ledge, half the difference wide; a larger one leaves wood standing.",
    group: FOLLOW,
    follows: { words: "the bit: it cuts to the template", value: (p) => p.bit },
    min: 1,
    max: 100,
    step: 0.1,
    usual: { from: 6, to: 30, basis: ROUTER },
    when: (p) => from.edge && p.follow === "bearing",
  },
  bit: {
    type: "length",
    label: "Bit",
    help: "Cutting diameter. Measure a cut in scrap: bits are often a tenth smaller than sold.",
    group: FOLLOW,
    fallback: 6.35,
    min: 0.2,
    max: 100,
    step: 0.1,
    usual: { from: 1, to: 25, basis: ROUTER },
    when: (p) => from.edge && guided(p),
  },
  moved: {
    type: "length",
    label: "Moved by",
    help: "Outwards above 0, inwards below, square to the line all round.",
    group: FOLLOW,
    fallback: 0,
    min: -200,
    max: 200,
    step: 0.1,
    usual: { from: -10, to: 10, basis: "common practice, no source" },
    when: (p) => from.edge && p.follow === "moved",
  },
  corners: {
    type: "choice",
    label: "Corners",
    help: "Kept sharp, carried on to their points; or rounded, so that no point lies farther off than the distance.",
    group: FOLLOW,
    fallback: "sharp",
    options: [
      { value: "sharp", label: "Sharp" },
      { value: "round", label: "Round" },
    ],
    when: (p) => from.edge && p.follow === "moved" && p.moved > 0,
  },
  partnerBush: {
    type: "optional-length",
    label: "Second bush",
    help: "Outside diameter of the bush that cuts the other half by the same template: the inlay to its recess, or the recess to its inlay.",
    group: PARTNER,
    absent: "one bush",
    min: 1,
    max: 100,
    usual: { from: 7.9, to: 30, basis: ROUTER },
    when: (p) => from.edge && p.follow === "bush",
  },
  partnerBit: {
    type: "length",
    label: "Its bit",
    help: "Cutting diameter of the bit in the second bush.",
    group: PARTNER,
    follows: { words: "the first bit", value: (p) => p.bit },
    min: 0.2,
    max: 100,
    step: 0.1,
    usual: { from: 1, to: 25, basis: ROUTER },
    when: (p) => from.edge && p.follow === "bush" && p.partnerBush !== undefined,
  },
  master: {
    type: "choice",
    label: "This one is",
    help: "The working template, which the guide will wear; or a master that working templates are copied from: of the same kind, or the reverse.",
    group: MASTER,
    fallback: "none",
    options: [
      { value: "none", label: "The working template" },
      { value: "same", label: "A master of the same kind" },
      { value: "reverse", label: "A master, the reverse" },
    ],
    when: () => from.edge,
  },
  masterBush: {
    type: "optional-length",
    label: "Bush for the copy",
    help: "Outside diameter of the bush that cuts the working template from the master.",
    group: MASTER,
    absent: "none: a bearing of the bit's own size",
    min: 1,
    max: 100,
    usual: { from: 7.9, to: 30, basis: ROUTER },
    when: (p) => from.edge && p.master !== "none",
  },
  masterBit: {
    type: "length",
    label: "Bit for the copy",
    help: "Cutting diameter of the bit that cuts the working template.",
    group: MASTER,
    fallback: 6.35,
    min: 0.2,
    max: 100,
    step: 0.1,
    usual: { from: 1, to: 25, basis: ROUTER },
    when: (p) => from.edge && p.master !== "none",
  },
  half: {
    type: "choice",
    label: "Half or whole",
    help: "A half is flipped over its centre line, so both sides come out alike. Left and right are seen along the centre line as it is drawn.",
    group: SHAPE,
    fallback: "whole",
    options: [
      { value: "whole", label: "Whole" },
      { value: "left", label: "Left half" },
      { value: "right", label: "Right half" },
    ],
    when: () => from.centreLine,
  },
  mirrored: {
    type: "flag",
    label: "Mirrored",
    help: "Turned over, to be laid on the other face of the wood. The lettering stays readable.",
    group: SHAPE,
    fallback: false,
  },
  fixing: {
    type: "choice",
    label: "Fixed by",
    help: "Tabs stand out past the ends for a clamp or tape; ears have a screw hole each. Both lie outside of the finished part, whose edge below them is cut by hand.",
    group: HOLD,
    fallback: "none",
    options: [
      { value: "none", label: "Neither" },
      { value: "tabs", label: "Tabs" },
      { value: "ears", label: "Ears" },
    ],
    when: (p) => from.edge && from.centreLine && p.template === "outside",
  },
  fixingAt: {
    type: "choice",
    label: "Where",
    help: "At the start of the centre line (the nut), at its end, or at both.",
    group: HOLD,
    fallback: "both",
    options: [
      { value: "both", label: "Both" },
      { value: "start", label: "Start" },
      { value: "end", label: "End" },
    ],
    when: (p) => from.edge && from.centreLine && p.template === "outside" && p.fixing !== "none",
  },
  fixingWidth: {
    type: "length",
    label: "Width",
    help: "Of each tab or ear, across the centre line.",
    group: HOLD,
    fallback: 20,
    min: 3,
    max: 200,
    step: 1,
    usual: { from: 15, to: 40, basis: "common practice, no source" },
    when: (p) => from.edge && from.centreLine && p.template === "outside" && p.fixing !== "none",
  },
  fixingReach: {
    type: "length",
    label: "Reach",
    help: "How far each stands out past the edge.",
    group: HOLD,
    fallback: 25,
    min: 3,
    max: 200,
    step: 1,
    usual: { from: 15, to: 50, basis: "common practice, no source" },
    when: (p) => from.edge && from.centreLine && p.template === "outside" && p.fixing !== "none",
  },
  screw: {
    type: "length",
    label: "Screw hole",
    help: "Diameter of the hole in each ear.",
    group: HOLD,
    fallback: 4,
    min: 0.5,
    max: 20,
    step: 0.5,
    usual: { from: 3, to: 6, basis: "common practice, no source" },
    when: (p) => from.edge && from.centreLine && p.template === "outside" && p.fixing === "ears",
  },
  pilot: {
    type: "optional-length",
    label: "Pilot holes",
    help: "Diameter of a small hole in the middle of every hole, to start the drill by.",
    group: HOLD,
    absent: "none",
    min: 0.3,
    max: 20,
    usual: { from: 1, to: 3, basis: "common practice, no source" },
    when: () => from.holes,
  },
  lettered: {
    type: "flag",
    label: "Lettered",
    help: "Writes name, instrument number and revision on the template, to be scratched in.",
    group: WORDS,
    fallback: false,
  },
  revision: {
    type: "text",
    label: "Revision",
    help: "Yours, such as B or 3. Left empty, the sign of the numbers stands there, which finds them again.",
    group: WORDS,
    fallback: "",
    maxLength: 12,
    when: (p) => p.lettered,
  },
  jointAcross: {
    type: "length",
    label: "Moved across",
    help: "Moves every joint to the right, to the left below 0, away from a detail. Dragging a joint does the same.",
    group: JOINTS,
    fallback: 0,
    min: -2000,
    max: 2000,
    step: 5,
  },
  jointUp: {
    type: "length",
    label: "Moved up",
    help: "Moves every joint up the sheets as they are seen, down below 0. Dragging a joint does the same.",
    group: JOINTS,
    fallback: 0,
    min: -2000,
    max: 2000,
    step: 5,
  },
});

/** The table of what all templates of a part share. */
export const SHARED_TABLE: ParamTable<SharedMaking> = {
  pin: {
    type: "optional-length",
    label: "Index pins",
    help: "Diameter of two holes on the centre line, the same in every template of this part that is drawn on it, so that one lies on the other where it should.",
    group: PINS,
    absent: "none",
    min: 0.5,
    max: 20,
    usual: { from: 2, to: 6, basis: "common practice, no source" },
  },
  pinStart: {
    type: "optional-length",
    label: "First pin",
    help: "Its distance along the centre line, from the nut where the part is measured from there.",
    group: PINS,
    absent: "a tenth of the length in",
    min: -1000,
    max: 2000,
    when: (p) => p.pin !== undefined,
  },
  pinEnd: {
    type: "optional-length",
    label: "Second pin",
    help: "Its distance along the centre line, from the same point.",
    group: PINS,
    absent: "a tenth of the length in, from the other end",
    min: -1000,
    max: 2000,
    when: (p) => p.pin !== undefined,
  },
};

/** The table for a record of a design's `templates` by its id: of one template (`fingerboard/blank-outline`) or of a part (`fingerboard`). */
export const tableOfMaking = (id: string): ParamTable<Making> | ParamTable<SharedMaking> =>
  id.includes("/") ? makingTable() : SHARED_TABLE;
