/** The numbers of a port in the side. */
import { outlinePoint } from "../../geometry/drawn/point.ts";
import type { ParamTable } from "../contract.ts";
import { outlineSpec } from "../outline-points.ts";
import { PRACTICE } from "../finding.ts";
import { length } from "../length-spec.ts";
import { centreScale, halfDepth, instrumentOf, upperBout, type PortParams } from "./numbers.ts";

const PLACE = "Place";
const OPENING = "Opening";
const INSERT = "Insert";
const RING = "Backing ring";

const inserted = (p: PortParams): boolean => p.fill === "insert";

export const portParams: ParamTable<PortParams> = {
  side: {
    type: "choice",
    label: "In the side",
    help: "The bass side looks up at the player.",
    group: PLACE,
    fallback: "bass",
    options: [
      { value: "bass", label: "Bass" },
      { value: "treble", label: "Treble" },
    ],
  },
  fromNeck: length({
    label: "From the neck",
    help: "Along the outer face, from the end of the side at the neck to the middle of the port.",
    group: PLACE,
    follows: { words: "the upper bout", value: (p, from) => upperBout(p.side, from) },
    min: 0,
    max: 3000,
    step: 1,
  }),
  fromTop: length({
    label: "Below the top",
    help: "From the side's edge at the top straight down to the middle of the port.",
    group: PLACE,
    follows: { words: "half the side's depth", value: (p, from) => halfDepth(p, from) },
    min: 0,
    max: 500,
  }),
  sideRadius: length({
    label: "Radius of the side",
    help: "Of its outer face where the port goes: set a rule 100 mm long against it and measure the gap in the middle; the radius is 1250 / gap.",
    group: PLACE,
    fallback: 130,
    min: 20,
    max: 5000,
    step: 1,
    when: (p, from) => from.get("body")?.[p.side] === undefined,
  }),
  sideDepth: length({
    label: "Depth of the side",
    help: "From edge to edge where the port goes.",
    group: PLACE,
    fallback: 100,
    min: 10,
    max: 500,
    when: (_p, from) => from.get("sides") === undefined,
  }),
  sideThickness: length({
    label: "Thickness of the side",
    help: "Without the backing ring.",
    group: PLACE,
    follows: {
      words: "the body's sides, if there is a body",
      value: (_p, from) => Math.min(20, Math.max(0.2, from.get("body")?.sideThickness ?? 2.2)),
    },
    min: 0.2,
    max: 20,
    step: 0.1,
    usual: { from: 1.8, to: 2.5, basis: PRACTICE },
  }),
  shape: {
    type: "choice",
    label: "Port",
    help: "An ellipse, or drawn by points.",
    group: OPENING,
    fallback: "ellipse",
    options: [
      { value: "ellipse", label: "Ellipse" },
      { value: "free", label: "Drawn by points" },
    ],
  },
  measured: {
    type: "choice",
    label: "Measured",
    help: "Flat, on a template that a router runs on square to it; or along the bent face, as a paper outline lies that is stuck round it.",
    group: OPENING,
    fallback: "template",
    options: [
      { value: "template", label: "On the flat template" },
      { value: "face", label: "Along the bent face" },
    ],
  },
  length: length({
    label: "Along the side",
    help: "Of the ellipse, or of the starting shape.",
    group: OPENING,
    follows: { words: "the scale", value: (_p, from) => Math.min(400, Math.max(5, 0.078 * centreScale(instrumentOf(from)))) },
    min: 5,
    max: 400,
    usual: { from: 25, to: 75, basis: PRACTICE },
  }),
  width: length({
    label: "Across the side",
    help: "From the top's edge towards the back's.",
    group: OPENING,
    follows: { words: "three fifths of its length", value: (p) => Math.max(5, 0.6 * p.length) },
    min: 5,
    max: 200,
    usual: { from: 18, to: 45, basis: PRACTICE },
  }),
  turn: {
    type: "angle",
    label: "Turned by",
    help: "Counter-clockwise as seen from outside with the top up.",
    group: OPENING,
    fallback: 0,
    min: -Math.PI,
    max: Math.PI,
    step: Math.PI / 36,
  },
  outline: outlineSpec<PortParams>({
    label: "Points",
    help: "From the middle of the port, as seen from outside: x along the side, y up to the top.",
    group: OPENING,
    words: "an ellipse",
    shape: (p) => {
      const even = { kind: "even", side: "curve" } as const;
      return [
        outlinePoint(p.length / 2, 0, { ...even, direction: Math.PI / 2 }),
        outlinePoint(0, p.width / 2, { ...even, direction: Math.PI }),
        outlinePoint(-p.length / 2, 0, { ...even, direction: -Math.PI / 2 }),
        outlinePoint(0, -p.width / 2, { ...even, direction: 0 }),
      ];
    },
    when: (p) => p.shape === "free",
  }),
  fill: {
    type: "choice",
    label: "Filled by",
    help: "Left open, or closed by a pierced insert that is shaped to the side's curve.",
    group: INSERT,
    fallback: "open",
    options: [
      { value: "open", label: "Nothing" },
      { value: "insert", label: "A pierced insert" },
    ],
  },
  insertThickness: length({
    label: "Thickness of the insert",
    help: "When it is shaped to the side.",
    group: INSERT,
    fallback: 3,
    min: 0.3,
    max: 30,
    step: 0.1,
    usual: { from: 2, to: 4, basis: PRACTICE },
    when: inserted,
  }),
  openPct: {
    type: "number",
    label: "Open, % of its area",
    help: "What the piercing leaves open of the port.",
    group: INSERT,
    fallback: 60,
    min: 0,
    max: 100,
    step: 1,
    usual: { from: 30, to: 80, basis: PRACTICE },
    when: inserted,
  },
  blank: {
    type: "optional-length",
    label: "Blank at hand",
    help: "Thickness of the piece that the insert is to come out of.",
    group: INSERT,
    absent: "not measured",
    min: 0.3,
    max: 100,
    when: inserted,
  },
  ringWidth: length({
    label: "Ring beyond the port",
    help: "How far the ring that is glued inside the side reaches out past the opening; 0 for no ring.",
    group: RING,
    fallback: 8,
    min: 0,
    max: 80,
    usual: { from: 6, to: 15, basis: PRACTICE },
  }),
  ringThickness: length({
    label: "Thickness of the ring",
    help: "Thin enough to be bent, or laid up of several.",
    group: RING,
    fallback: 1.5,
    min: 0.2,
    max: 20,
    step: 0.1,
    usual: { from: 1, to: 3, basis: PRACTICE },
    when: (p) => p.ringWidth > 0,
  }),
  ringLip: length({
    label: "Ring into the port",
    help: "The ledge that an insert is glued on; 0 where the ring is flush with the opening.",
    group: RING,
    follows: { words: "the filling", value: (p) => (p.fill === "insert" ? 2.5 : 0) },
    min: 0,
    max: 60,
    usual: { from: 0, to: 4, basis: PRACTICE },
    when: (p) => p.ringWidth > 0,
  }),
};
