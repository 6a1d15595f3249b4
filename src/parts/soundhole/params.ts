/** The numbers of a soundhole. */
import { outlinePoint } from "../../geometry/drawn/point.ts";
import type { ParamTable, RecordsSpec } from "../contract.ts";
import { outlineSpec } from "../outline-points.ts";
import { PRACTICE } from "../finding.ts";
import { centreScale, instrumentOf, placeOf, type RosetteRing, type SoundholeParams } from "./numbers.ts";

const HOLE = "Hole";
const PLACE = "Place";
const ROSETTE = "Rosette";

const FAR = 3000;

const ringTable: ParamTable<RosetteRing> = {
  name: {
    type: "text",
    label: "What it is",
    help: "Said on the template and in the cutting list: shell, herringbone, a black line.",
    group: ROSETTE,
    fallback: "",
    maxLength: 60,
  },
  distance: {
    type: "length",
    label: "From the edge of the hole",
    help: "To the inner edge of the ring; 0 binds the hole itself.",
    group: ROSETTE,
    fallback: 5,
    min: 0,
    max: 200,
    step: 0.1,
  },
  width: {
    type: "length",
    label: "Width",
    help: "Of the ring and its channel.",
    group: ROSETTE,
    fallback: 2,
    min: 0.1,
    max: 100,
    step: 0.1,
    usual: { from: 0.5, to: 16, basis: PRACTICE },
  },
  depth: {
    type: "length",
    label: "Depth",
    help: "Of the channel, in the finished top.",
    group: ROSETTE,
    fallback: 1.5,
    min: 0.1,
    max: 20,
    step: 0.1,
    usual: { from: 1, to: 1.8, basis: PRACTICE },
  },
};

const rings: RecordsSpec<RosetteRing, SoundholeParams> = {
  type: "records",
  label: "Rings",
  help: "Rings of the rosette from the hole outwards, each with its channel. Rings that touch share one channel.",
  group: ROSETTE,
  item: "ring",
  maxItems: 24,
  of: ringTable,
  fallback: [
    { name: "inner line", distance: 4, width: 1.5, depth: 1.5 },
    { name: "rosette", distance: 8, width: 9, depth: 1.5 },
    { name: "outer line", distance: 19.5, width: 1.5, depth: 1.5 },
  ],
};

export const soundholeParams: ParamTable<SoundholeParams> = {
  shape: {
    type: "choice",
    label: "Soundhole",
    help: "Round, oval, or drawn by points.",
    group: HOLE,
    fallback: "round",
    options: [
      { value: "round", label: "Round" },
      { value: "oval", label: "Oval" },
      { value: "free", label: "Drawn by points" },
    ],
  },
  diameter: {
    type: "length",
    label: "Diameter",
    help: "Of the open hole, with any binding of its edge in place.",
    group: HOLE,
    follows: { words: "the scale", value: (_p, from) => Math.min(300, Math.max(10, 0.155 * centreScale(instrumentOf(from)))) },
    min: 5,
    max: 300,
    step: 0.5,
    usual: { from: 60, to: 102, basis: `98 to 102 mm steel-string, 84 to 88 mm classical, 60 to 68 mm ukulele: ${PRACTICE}` },
    when: (p) => p.shape === "round",
  },
  length: {
    type: "length",
    label: "Length",
    help: "Along the instrument; of a drawn hole, of its starting shape.",
    group: HOLE,
    follows: { words: "two thirds of the width", value: (p) => Math.max(5, (2 / 3) * p.width) },
    min: 5,
    max: 400,
    step: 0.5,
    when: (p) => p.shape !== "round",
  },
  width: {
    type: "length",
    label: "Width",
    help: "Across the instrument; of a drawn hole, of its starting shape.",
    group: HOLE,
    follows: { words: "an oval of the round hole's area", value: (p) => Math.min(400, p.diameter * Math.sqrt(1.5)) },
    min: 5,
    max: 400,
    step: 0.5,
    when: (p) => p.shape !== "round",
  },
  mirrored: {
    type: "flag",
    label: "Mirrored about its middle line",
    help: "Only one half is drawn; the other is its image.",
    group: HOLE,
    fallback: true,
    when: (p) => p.shape === "free",
  },
  outline: outlineSpec<SoundholeParams>({
    label: "Points",
    help: "Measured from the middle of the hole, so that the outline moves with it.",
    group: HOLE,
    words: "an oval",
    shape: ({ length, width, mirrored }) => {
      const half = [
        outlinePoint(-length / 2, 0, { kind: "even", side: "curve", direction: -Math.PI / 2 }),
        outlinePoint(0, -width / 2, { kind: "even", side: "curve", direction: 0 }),
        outlinePoint(length / 2, 0, { kind: "even", side: "curve", direction: Math.PI / 2 }),
      ];
      return mirrored ? half : [...half, outlinePoint(0, width / 2, { kind: "even", side: "curve", direction: Math.PI })];
    },
    when: (p) => p.shape === "free",
  }),
  middle: {
    type: "length",
    label: "Middle from the nut",
    help: "Along the centre line. One of three numbers says where the hole is; the other two follow.",
    group: PLACE,
    follows: { words: "the distance to board or bridge", value: (p, from, given) => placeOf("middle", p, from, given) },
    min: -FAR,
    max: FAR,
    step: 1,
  },
  fromBoard: {
    type: "length",
    label: "From the board",
    help: "From the end of the board to the edge of the hole, along the centre line; below 0 the board reaches into the hole.",
    group: PLACE,
    follows: { words: "where the middle is; else usual room", value: (p, from, given) => placeOf("fromBoard", p, from, given) },
    min: -FAR,
    max: FAR,
    step: 0.5,
    usual: { from: 0, to: 12, basis: PRACTICE },
  },
  fromBridge: {
    type: "length",
    label: "From the bridge",
    help: "From the edge of the hole to the front of the bridge, along the centre line.",
    group: PLACE,
    follows: { words: "where the middle is", value: (p, from, given) => placeOf("fromBridge", p, from, given) },
    min: -FAR,
    max: FAR,
    step: 0.5,
  },
  aside: {
    type: "length",
    label: "Off the centre line",
    help: "To the treble side; below 0 to the bass side.",
    group: PLACE,
    fallback: 0,
    min: -400,
    max: 400,
    step: 1,
  },
  topThickness: {
    type: "length",
    label: "Top",
    help: "Thickness of the finished top about the hole, without what is glued under it.",
    group: PLACE,
    follows: {
      words: "the body's top, if there is a body",
      value: (_p, from) => Math.min(60, from.get("body")?.topThickness ?? 2.8),
    },
    min: 0.1,
    max: 60,
    step: 0.1,
    usual: { from: 2.2, to: 3.2, basis: PRACTICE },
  },
  rings,
};
