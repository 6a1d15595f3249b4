/** The numbers of a pickguard. */
import { artText } from "../art-outline.ts";
import { WOOD_SPECIES, woodSpecies } from "../../lutherie/wood-species.ts";
import { woodDensity } from "../../lutherie/wood-density.ts";
import type { ParamTable } from "../contract.ts";
import { outlineSpec } from "../outline-points.ts";
import { PRACTICE } from "../finding.ts";
import { length } from "../length-spec.ts";
import { instrumentOf, roundOf, type PickguardParams } from "./numbers.ts";
import { startingGuard } from "./starting-outline.ts";

const OUTLINE = "Outline";
const CLEAR = "Kept clear of";
const PIECE = "Piece";
const OLD = "What it must hide";

const DEGREE = Math.PI / 180;

/** Sheet plastics: celluloid 1350 to 1400, acrylic 1190, vinyl 1400; from memory. */
const PLASTIC_KG_M3 = 1350;

const imported = (p: PickguardParams): boolean => p.old === "imported";

export const pickguardParams: ParamTable<PickguardParams> = {
  ringGap: length({
    label: "Clear of the rosette",
    help: "Between the outermost ring, or the hole where it has none, and the guard's edge.",
    group: CLEAR,
    fallback: 1,
    min: 0,
    max: 100,
    step: 0.1,
    usual: { from: 0.5, to: 3, basis: PRACTICE },
  }),
  boardGap: length({
    label: "Clear of the board",
    help: "Least from the guard to the edge of the fingerboard.",
    group: CLEAR,
    fallback: 2,
    min: 0,
    max: 100,
    usual: { from: 1, to: 10, basis: PRACTICE },
  }),
  bridgeGap: length({
    label: "Clear of the bridge",
    help: "Least from the guard to the bridge.",
    group: CLEAR,
    fallback: 5,
    min: 0,
    max: 200,
    usual: { from: 3, to: 40, basis: PRACTICE },
  }),
  edgeGap: length({
    label: "Clear of the body's edge",
    help: "Least from the guard to the edge of the top, with its binding.",
    group: CLEAR,
    fallback: 6,
    min: 0,
    max: 200,
    usual: { from: 4, to: 30, basis: PRACTICE },
  }),
  band: length({
    label: "Band",
    help: "From the edge at the rosette to where the guard stands out farthest.",
    group: OUTLINE,
    follows: {
      words: "the scale",
      value: (_p, from) => {
        const { scale, bassScale } = instrumentOf(from);
        return 0.03 * (scale + bassScale);
      },
    },
    min: 1,
    max: 400,
    usual: { from: 25, to: 60, basis: PRACTICE },
  }),
  belly: length({
    label: "Radius of the belly",
    help: "Of the round outer edge that both sides run out into as tangents.",
    group: OUTLINE,
    follows: { words: "the band", value: (p) => Math.min(1000, 1.1 * p.band) },
    min: 1,
    max: 1000,
  }),
  tailAngle: {
    type: "angle",
    label: "Begins at",
    help: "About the middle of the hole, from the centre line on the bridge's side round to the treble side.",
    group: OUTLINE,
    fallback: 10 * DEGREE,
    min: -90 * DEGREE,
    max: 180 * DEGREE,
    step: DEGREE,
  },
  boardAngle: {
    type: "angle",
    label: "Ends at",
    help: "The same angle at the end beside the board.",
    group: OUTLINE,
    fallback: 132 * DEGREE,
    min: -80 * DEGREE,
    max: 250 * DEGREE,
    step: DEGREE,
  },
  end: length({
    label: "Width of the ends",
    help: "How far both ends run straight out from the rosette before the sides begin.",
    group: OUTLINE,
    fallback: 10,
    min: 0.5,
    max: 200,
  }),
  corner: length({
    label: "Corners",
    help: "Radius of the corners at both ends.",
    group: OUTLINE,
    fallback: 3,
    min: 0,
    max: 100,
  }),
  outline: outlineSpec<PickguardParams>({
    label: "Points",
    help: "Measured from the middle of the soundhole, so that the guard moves with it.",
    group: OUTLINE,
    words: "the rosette, its tangents and the band",
    shape: (p, from) => startingGuard(p, roundOf(from), instrumentOf(from).side),
  }),
  thickness: length({
    label: "Thickness",
    help: "Of the finished guard.",
    group: PIECE,
    fallback: 1.2,
    min: 0.1,
    max: 20,
    step: 0.1,
    usual: { from: 0.8, to: 2, basis: `wooden guards about 1.2 mm (3/64 in): ${PRACTICE}` },
  }),
  material: {
    type: "choice",
    label: "Material",
    help: "A wood of the table, sheet plastic, or another whose density you type.",
    group: PIECE,
    fallback: "rosewood-indian",
    options: [
      ...WOOD_SPECIES.map(({ id, common }) => ({ value: id, label: common })),
      { value: "plastic", label: "Sheet plastic" },
      { value: "other", label: "Another" },
    ],
  },
  density: {
    type: "number",
    label: "Density, kg/m³",
    help: "Weigh a piece to know it: woods of one name differ by a tenth and more.",
    group: PIECE,
    follows: {
      words: "the material",
      value: ({ material }) => {
        const species = woodSpecies(material);
        return (species && woodDensity(species)?.kgM3) ?? PLASTIC_KG_M3;
      },
    },
    min: 20,
    max: 10_000,
    step: 10,
    usual: { from: 350, to: 1400, basis: "Wood Handbook, table of mechanical properties; plastics from memory" },
  },
  grain: {
    type: "angle",
    label: "Grain",
    help: "Direction of the grain, counter-clockwise from the centre line towards the tail.",
    group: PIECE,
    fallback: 0,
    min: -Math.PI,
    max: Math.PI,
    step: 5 * DEGREE,
    when: (p) => p.material !== "plastic",
  },
  adhesiveInset: length({
    label: "Adhesive inside the edge by",
    help: "The sheet of adhesive is cut smaller all round by this; 0 where guard and adhesive are trimmed flush together.",
    group: PIECE,
    fallback: 0.5,
    min: 0,
    max: 50,
    step: 0.1,
    usual: { from: 0, to: 1.5, basis: PRACTICE },
  }),
  old: {
    type: "choice",
    label: "An old guard or its scar",
    help: "Traced over a photograph or measured, so that the new guard hides it.",
    group: OLD,
    fallback: "none",
    options: [
      { value: "none", label: "None" },
      { value: "points", label: "Drawn by points" },
      { value: "imported", label: "An SVG file" },
    ],
  },
  oldOutline: outlineSpec<PickguardParams>({
    label: "Points of the old one",
    help: "Its outline, measured from the middle of the soundhole; drag the points on the board or trace a photograph.",
    group: OLD,
    words: "a shape a little within the rosette, tangents and band",
    shape: (p, from) => {
      const smaller = {
        corner: p.corner,
        ringGap: p.ringGap + 2,
        band: Math.max(0.5, p.band - 5),
        belly: Math.max(0.5, p.belly - 3),
        end: Math.max(0.5, p.end - 4),
        tailAngle: p.tailAngle + 3 * DEGREE,
        boardAngle: p.boardAngle - 3 * DEGREE,
      };
      return startingGuard(smaller, roundOf(from), instrumentOf(from).side);
    },
    when: (p) => p.old === "points",
  }),
  oldArt: artText(OLD, imported),
  oldWidth: {
    type: "optional-length",
    label: "Scaled to a width",
    help: "Of the file's outlines as it shows them, from left to right.",
    group: OLD,
    absent: "its own size",
    min: 0.5,
    max: 1000,
    when: imported,
  },
  oldX: length({
    label: "Its middle, along",
    help: "From the middle of the soundhole towards the tail to the middle of the file's outlines.",
    group: OLD,
    fallback: 30,
    min: -1000,
    max: 1000,
    when: imported,
  }),
  oldY: length({
    label: "Its middle, across",
    help: "From the centre line to the treble side.",
    group: OLD,
    fallback: 80,
    min: -1000,
    max: 1000,
    when: imported,
  }),
  oldTurn: {
    type: "angle",
    label: "Turned by",
    help: "From the tail round to the treble side.",
    group: OLD,
    fallback: 0,
    min: -Math.PI,
    max: Math.PI,
    step: DEGREE,
    when: imported,
  },
};
