/** Where an inlay lies. */
import type { ParamTable } from "../contract.ts";
import { hostOf, usualHost, usualX, usualY } from "./host.ts";
import type { InlayParams, PlaceNumbers } from "./numbers.ts";

const PLACE = "Place";
const FAR = 2000;
const DEGREE = Math.PI / 180;

const isOn = ({ on }: PlaceNumbers): boolean => on !== "none";
const by =
  (way: PlaceNumbers["placed"]) =>
  (p: PlaceNumbers): boolean =>
    isOn(p) && p.placed === way;

export const placeParams: Pick<ParamTable<InlayParams>, keyof PlaceNumbers> = {
  on: {
    type: "choice",
    label: "Let into",
    help: "The part that it lies on. It follows that part, and is shown on it.",
    group: PLACE,
    follows: { words: "the headstock, if there is room over its machines", value: (_, from) => usualHost(from) },
    options: [
      { value: "headstock", label: "Headstock" },
      { value: "fingerboard", label: "Fingerboard" },
      { value: "pickguard", label: "Pickguard" },
      { value: "bridge", label: "Bridge" },
      { value: "shape", label: "A free shape" },
      { value: "none", label: "Nothing yet" },
    ],
  },
  onPart: {
    type: "text",
    label: "Which one",
    help: "The name of the part where the design has several of the kind; empty for the first.",
    group: PLACE,
    fallback: "",
    maxLength: 60,
    when: isOn,
  },
  placed: {
    type: "choice",
    label: "Placed by",
    help: "Its middle from the part's own zero, its distances from two edges, or a fret.",
    group: PLACE,
    follows: { words: "what it is let into", value: (p) => (p.on === "fingerboard" ? "fret" : "centre") },
    options: [
      { value: "centre", label: "Its middle" },
      { value: "edges", label: "Edges" },
      { value: "fret", label: "A fret" },
    ],
    when: isOn,
  },
  x: {
    type: "length",
    label: "Middle along the instrument",
    help: "From the front of the nut, towards the tail; behind the nut it is below 0. On a free shape from its own zero.",
    group: PLACE,
    follows: { words: "the middle of the free room", value: usualX },
    min: -FAR,
    max: FAR,
    step: 0.5,
    when: by("centre"),
  },
  y: {
    type: "length",
    label: "Middle across",
    help: "From the centre line, towards the treble side of a right-handed instrument.",
    group: PLACE,
    follows: { words: "the middle of the part", value: usualY },
    min: -FAR,
    max: FAR,
    step: 0.5,
    when: by("centre"),
  },
  fromEnd: {
    type: "choice",
    label: "From which end",
    help: "The end of the part towards the head, or towards the tail.",
    group: PLACE,
    fallback: "head",
    options: [
      { value: "head", label: "Head end" },
      { value: "tail", label: "Tail end" },
    ],
    when: by("edges"),
  },
  endDistance: {
    type: "length",
    label: "Distance from that end",
    help: "Along the instrument, from the part's end to the nearest edge of the inlay.",
    group: PLACE,
    fallback: 8,
    min: -200,
    max: FAR,
    step: 0.5,
    when: by("edges"),
  },
  fromSide: {
    type: "choice",
    label: "Across",
    help: "In the middle between the part's sides where the inlay lies, or so far from one of them.",
    group: PLACE,
    fallback: "middle",
    options: [
      { value: "middle", label: "Middle" },
      { value: "bass", label: "Bass" },
      { value: "treble", label: "Treble" },
    ],
    when: by("edges"),
  },
  sideDistance: {
    type: "length",
    label: "Distance from that side",
    help: "Across the instrument, from the part's side to the nearest edge of the inlay.",
    group: PLACE,
    fallback: 6,
    min: -200,
    max: FAR,
    step: 0.5,
    when: (p) => by("edges")(p) && p.fromSide !== "middle",
  },
  fret: {
    type: "count",
    label: "Before fret",
    help: "Its middle lies half way between this fret and the one before it.",
    group: PLACE,
    fallback: 12,
    min: 1,
    max: 60,
    when: by("fret"),
  },
  across: {
    type: "length",
    label: "Across from the centre line",
    help: "Towards the treble side of a right-handed instrument.",
    group: PLACE,
    fallback: 0,
    min: -200,
    max: 200,
    step: 0.5,
    when: by("fret"),
  },
  turn: {
    type: "angle",
    label: "Turned",
    help: "Direction in which the letters are read, counter-clockwise from the centre line towards the tail. 90 degrees stands upright while the head points up.",
    group: PLACE,
    follows: {
      words: "upright while the head points up, on a free shape along its centre line",
      value: (p, from) => (p.on === "shape" || !hostOf(p, from) ? 0 : Math.PI / 2),
    },
    min: -2 * Math.PI,
    max: 2 * Math.PI,
    step: DEGREE,
  },
};
