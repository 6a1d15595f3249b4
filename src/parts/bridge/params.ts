/** The numbers of a bridge. */
import type { ParamTable, Sources } from "../contract.ts";
import { noteFrequencyHz } from "../../lutherie/pitch.ts";
import { CORE_MATERIALS, massKgPerM, tensionN } from "../../lutherie/string-build.ts";
import { outlineSpec } from "../outline-points.ts";
import { PRACTICE } from "../finding.ts";
import { length } from "./length.ts";
import { instrumentOf, type BridgeParams } from "./numbers.ts";
import { oldTable } from "./params-old.ts";
import { startingBridge } from "./starting-shapes.ts";

const SADDLE = "Saddle line";
const SLOT = "Saddle slot";
const PINS = "Pins";
const OUTLINE = "Outline";
const FOOT = "Foot";

const computed = (p: BridgeParams): boolean => p.saddleBy === "strings";
const pinned = (p: BridgeParams): boolean => p.type === "pinned";
const floating = (p: BridgeParams): boolean => p.type === "floating";
const slotted = (p: BridgeParams): boolean => p.type !== "floating";

/** How far x changes for each mm towards rising y from one scale to the other; 0 where there is one. */
function scalesLean(from: Sources): number {
  const { bass, treble, twoScales } = instrumentOf(from);
  const across = treble.saddle.y - bass.saddle.y;
  return twoScales && Math.abs(across) > 1 ? (treble.saddle.x - bass.saddle.x) / across : 0;
}

/** Plain steel strings of instruments in the hand are tuned to 50 to 120 N; to half as much again they are not. Common practice, no source. */
const TOO_MUCH_N = 180;

/** Whether a plain string of this gauge, were it of steel, would pull more than any is tuned to: then the set is of nylon or the like. */
function tooThickForSteel(from: Sources): boolean {
  const { strings } = instrumentOf(from);
  return strings.some(({ wound, gauge, note, scale }) => {
    const frequencyHz = noteFrequencyHz(note);
    if (wound || frequencyHz === undefined || !(gauge > 0) || !(scale > 0)) return false;
    const steel = massKgPerM({ diameter: gauge, core: gauge, coreMaterial: CORE_MATERIALS.steel });
    return tensionN(steel, scale, frequencyHz) > TOO_MUCH_N;
  });
}

/** From this mean of both scales on, mm, wings are as wide as a guitar's. */
const FULL_SCALE = 640;

/** What both wings of a guitar's bridge add, mm: less on a shorter scale, whose body is narrower. Common practice, no source. */
function wings({ type }: BridgeParams, from: Sources): number {
  const { scale, bassScale } = instrumentOf(from);
  return (type === "tied" ? 108 : 78) * Math.min(1, (scale + bassScale) / 2 / FULL_SCALE);
}

export const bridgeParams: ParamTable<BridgeParams> = {
  type: {
    type: "choice",
    label: "Bridge",
    help: "How the strings are held: by pins, tied to the block, or at the tail over a floating foot.",
    group: OUTLINE,
    follows: {
      words: "the strings: tied where plain ones are too thick for steel",
      value: (_p, from) => (tooThickForSteel(from) ? "tied" : "pinned"),
    },
    options: [
      { value: "pinned", label: "Pinned" },
      { value: "tied", label: "Tied" },
      { value: "floating", label: "Floating" },
    ],
  },
  saddleBy: {
    type: "choice",
    label: "Saddle from",
    help: "Computed from the strings, their notes and their height, or set by hand at both outer strings.",
    group: SADDLE,
    fallback: "strings",
    options: [
      { value: "strings", label: "The strings" },
      { value: "hand", label: "By hand" },
    ],
  },
  core: {
    type: "choice",
    label: "Strings of",
    help: "What plain strings and the cores of wound ones are made of.",
    group: SADDLE,
    follows: { words: "the kind of bridge", value: (p) => (p.type === "tied" ? "nylon" : "steel") },
    options: [
      { value: "steel", label: "Steel" },
      { value: "nylon", label: "Nylon" },
      { value: "fluorocarbon", label: "Fluorocarbon" },
    ],
    when: computed,
  },
  wrap: {
    type: "choice",
    label: "Wound with",
    help: "The wire around the wound strings.",
    group: SADDLE,
    follows: { words: "the core", value: (p) => (p.core === "steel" ? "phosphor-bronze" : "silvered-copper") },
    options: [
      { value: "phosphor-bronze", label: "Phosphor bronze" },
      { value: "brass", label: "80/20 brass" },
      { value: "silvered-copper", label: "Silvered copper" },
      { value: "nickel", label: "Nickel-plated steel" },
    ],
    when: computed,
  },
  actionTreble: length({
    label: "Action at fret 12, treble",
    help: "From the top of fret 12 to the underside of the outer treble string.",
    group: SADDLE,
    follows: { words: "the strings", value: (p) => (p.core === "steel" ? 2 : 3) },
    min: 0,
    max: 10,
    usual: { from: 1.5, to: 3.2, basis: PRACTICE },
    when: computed,
  }),
  actionBass: length({
    label: "Action at fret 12, bass",
    help: "The same under the outer bass string; strings between them share the difference.",
    group: SADDLE,
    follows: { words: "the treble and 0.5 mm", value: (p) => Math.min(10, p.actionTreble + 0.5) },
    min: 0,
    max: 10,
    usual: { from: 2, to: 4, basis: PRACTICE },
    when: computed,
  }),
  setbackTreble: length({
    label: "Setback, treble",
    help: "How far behind the scale length the saddle stands at the outer treble string.",
    group: SADDLE,
    fallback: 2,
    min: -20,
    max: 30,
    usual: { from: 0.5, to: 3, basis: PRACTICE },
    when: (p) => !computed(p),
  }),
  setbackBass: length({
    label: "Setback, bass",
    help: "The same at the outer bass string.",
    group: SADDLE,
    fallback: 4.5,
    min: -20,
    max: 30,
    usual: { from: 2, to: 6, basis: PRACTICE },
    when: (p) => !computed(p),
  }),
  saddleThickness: length({
    label: "Saddle thickness",
    help: "And the width of its slot; the cutter's radius, with which the slot's ends are rounded, is half of it.",
    group: SLOT,
    fallback: 3.2,
    min: 0.5,
    max: 30,
    usual: { from: 2.4, to: 3.2, basis: PRACTICE },
  }),
  saddleBeyond: length({
    label: "Saddle beyond the strings",
    help: "From each outer string to the end of the saddle.",
    group: SLOT,
    fallback: 9,
    min: 0,
    max: 60,
    step: 0.5,
    usual: { from: 7, to: 11, basis: PRACTICE },
  }),
  slotDepth: length({
    label: "Slot depth",
    help: "Below the top of the bridge.",
    group: SLOT,
    fallback: 5,
    min: 0.5,
    max: 30,
    usual: { from: 4, to: 7, basis: PRACTICE },
    when: slotted,
  }),
  pinHole: length({
    label: "Pin hole",
    help: "Diameter at the top, before reaming.",
    group: PINS,
    fallback: 5,
    min: 1,
    max: 20,
    usual: { from: 4.8, to: 5.5, basis: PRACTICE },
    when: pinned,
  }),
  pinLine: {
    type: "choice",
    label: "Pins",
    help: "In a line that follows the saddle, or in a straight line of their own.",
    group: PINS,
    fallback: "follow",
    options: [
      { value: "follow", label: "Follow the saddle" },
      { value: "straight", label: "A line of their own" },
    ],
    when: pinned,
  },
  pinBehindTreble: length({
    label: "Behind the saddle",
    help: "From the middle of the saddle to the middle of the hole, at the treble end where the pins have a line of their own.",
    group: PINS,
    fallback: 14,
    min: 1,
    max: 80,
    step: 0.5,
    usual: { from: 12, to: 17, basis: PRACTICE },
    when: pinned,
  }),
  pinBehindBass: length({
    label: "Behind the saddle, bass",
    help: "The same at the bass end.",
    group: PINS,
    follows: { words: "the treble end", value: (p) => p.pinBehindTreble },
    min: 1,
    max: 80,
    step: 0.5,
    usual: { from: 12, to: 17, basis: PRACTICE },
    when: (p) => pinned(p) && p.pinLine === "straight",
  }),
  pinSpread: length({
    label: "Outer pins apart",
    help: "From middle to middle, across the centre line.",
    group: PINS,
    follows: { words: "the strings at the saddle", value: (_p, from) => Math.max(1, instrumentOf(from).saddleSpread) },
    min: 1,
    max: 400,
    step: 0.5,
    when: pinned,
  }),
  front: length({
    label: "In front of the saddle",
    help: "From the saddle's middle on the centre line to the front edge of the starting shape.",
    group: OUTLINE,
    fallback: 9.5,
    min: 1,
    max: 100,
    step: 0.5,
  }),
  back: length({
    label: "Behind the saddle",
    help: "To the back edge of the starting shape.",
    group: OUTLINE,
    follows: {
      words: "the kind of bridge",
      value: (p) => (p.type === "pinned" ? p.pinBehindTreble + 10 : p.type === "tied" ? 19 : 11),
    },
    min: 1,
    max: 150,
    step: 0.5,
  }),
  span: length({
    label: "Length across",
    help: "From wing to wing.",
    group: OUTLINE,
    follows: {
      words: "the strings at the saddle and the scale",
      value: (p, from) => Math.min(600, Math.max(30, instrumentOf(from).saddleSpread + 2 * p.saddleBeyond + wings(p, from))),
    },
    min: 10,
    max: 600,
    step: 1,
    usual: { from: 140, to: 190, basis: PRACTICE },
  }),
  wing: length({
    label: "Width of the wings",
    help: "At their ends, along the strings.",
    group: OUTLINE,
    follows: { words: "three fifths of the middle", value: (p) => 0.6 * (p.front + p.back) },
    min: 1,
    max: 200,
    step: 0.5,
  }),
  mirrored: {
    type: "flag",
    label: "Mirrored about the centre line",
    help: "Only one half is drawn; the other is its image.",
    group: OUTLINE,
    follows: { words: "one scale for all strings", value: (_p, from) => !instrumentOf(from).twoScales },
  },
  outline: outlineSpec<BridgeParams>({
    label: "Points",
    help: "Measured from where the saddle crosses the centre line, so that the outline moves with it.",
    group: OUTLINE,
    words: "the starting shape",
    shape: (p, from) => startingBridge(p, p.mirrored, scalesLean(from)),
  }),
  thickness: length({
    label: "Thickness",
    help: "At the middle, without the saddle.",
    group: OUTLINE,
    fallback: 9,
    min: 1,
    max: 60,
    usual: { from: 8, to: 10, basis: PRACTICE },
  }),
  footSpan: length({
    label: "Foot across",
    help: "Length of the foot that stands on the top, across the strings.",
    group: FOOT,
    follows: { words: "four fifths of the length across", value: (p) => Math.max(10, 0.8 * p.span) },
    min: 10,
    max: 600,
    step: 1,
    usual: { from: 100, to: 140, basis: PRACTICE },
    when: floating,
  }),
  footWidth: length({
    label: "Foot along",
    help: "Its width along the strings, with the saddle over its middle.",
    group: FOOT,
    fallback: 14,
    min: 2,
    max: 80,
    step: 0.5,
    usual: { from: 10, to: 16, basis: PRACTICE },
    when: floating,
  }),
  footOpening: length({
    label: "Opening in the foot",
    help: "Between its two ends, which alone stand on the top; 0 for a foot that stands on all of its length.",
    group: FOOT,
    follows: { words: "half of the foot", value: (p) => 0.5 * p.footSpan },
    min: 0,
    max: 590,
    step: 1,
    when: floating,
  }),
  footOpeningHeight: length({
    label: "Height of the opening",
    help: "Over the top at the middle.",
    group: FOOT,
    fallback: 4,
    min: 0.5,
    max: 40,
    step: 0.5,
    when: (p) => floating(p) && p.footOpening > 0,
  }),
  topRadius: {
    type: "optional-length",
    label: "Radius of the top",
    help: "Of the arched top under the bridge, across the grain of the bridge's own foot.",
    group: OUTLINE,
    absent: "a flat top",
    min: 300,
    max: 100_000,
    usual: { from: 6000, to: 12000, basis: PRACTICE },
  },
  ...oldTable,
};
