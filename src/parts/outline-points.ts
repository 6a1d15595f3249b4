/** The table of a point of an outline, for every part whose outline is drawn by points. */
import type { OutlinePoint } from "../geometry/drawn/point.ts";
import type { ParamTable, RecordsSpec } from "./contract.ts";

const PLACE = "Place";
const SIDE = "Side to the next point";
const WAY = "Direction and handles";

/** Greatest coordinate, mm. */
const FAR = 2000;
const TURN = 2 * Math.PI;

const smooth = (p: OutlinePoint): boolean => p.kind !== "corner";

const pointTable: ParamTable<OutlinePoint> = {
  x: {
    type: "length",
    label: "x",
    help: "Along the centre line, towards the tail.",
    group: PLACE,
    fallback: 0,
    min: -FAR,
    max: FAR,
    step: 0.1,
  },
  y: { type: "length", label: "y", help: "From the centre line.", group: PLACE, fallback: 0, min: -FAR, max: FAR, step: 0.1 },
  kind: {
    type: "choice",
    label: "Point",
    help: "Corner: the sides meet as they come. Fair: they meet in one direction. Even: in one direction and with equal handles.",
    group: PLACE,
    fallback: "corner",
    options: [
      { value: "corner", label: "Corner" },
      { value: "fair", label: "Fair" },
      { value: "even", label: "Even" },
    ],
  },
  rounding: {
    type: "length",
    label: "Taken off",
    help: "Radius of a rounded corner, or what is cut off along each side of a clipped one.",
    group: PLACE,
    fallback: 0,
    min: 0,
    max: 500,
    step: 0.1,
    when: (p) => !smooth(p),
  },
  cut: {
    type: "choice",
    label: "Corner",
    help: "Rounded by a true arc, or clipped straight.",
    group: PLACE,
    fallback: "round",
    options: [
      { value: "round", label: "Rounded" },
      { value: "clip", label: "Clipped" },
    ],
    when: (p) => !smooth(p) && p.rounding > 0,
  },
  side: {
    type: "choice",
    label: "Side",
    help: "How the outline runs from here to the next point.",
    group: SIDE,
    fallback: "straight",
    options: [
      { value: "straight", label: "Straight" },
      { value: "curve", label: "Curve" },
      { value: "arc", label: "Arc" },
    ],
  },
  radius: {
    type: "optional-length",
    label: "Radius",
    help: "Of the arc; below 0 it bends the other way.",
    group: SIDE,
    absent: "from its bow, or tangent to its neighbour",
    min: -10 * FAR,
    max: 10 * FAR,
    when: (p) => p.side === "arc",
  },
  rise: {
    type: "optional-length",
    label: "Bow",
    help: "How far the arc stands off the straight line between its ends; below 0 on the other side.",
    group: SIDE,
    absent: "tangent to its neighbour",
    min: -FAR,
    max: FAR,
    when: (p) => p.side === "arc" && p.radius === undefined,
  },
  direction: {
    type: "optional-angle",
    label: "Direction",
    help: "In which the outline leaves the point, counter-clockwise from the centre line towards the tail.",
    group: WAY,
    absent: "found so that the curve is fair",
    min: -TURN,
    max: TURN,
    when: (p) => p.side === "curve" || smooth(p),
  },
  arriving: {
    type: "optional-angle",
    label: "Direction of arrival",
    help: "In which the outline comes to a corner.",
    group: WAY,
    absent: "found so that the curve is fair",
    min: -TURN,
    max: TURN,
    when: (p) => !smooth(p),
  },
  before: {
    type: "optional-length",
    label: "Handle before",
    help: "Length of the handle of the curve that ends here: longer keeps to the direction for longer.",
    group: WAY,
    absent: "found so that the curve is fair",
    min: 0,
    max: FAR,
  },
  after: {
    type: "optional-length",
    label: "Handle after",
    help: "Length of the handle of the curve that begins here.",
    group: WAY,
    absent: "found so that the curve is fair",
    min: 0,
    max: FAR,
    when: (p) => p.side === "curve",
  },
};

/** Points that one outline may have. */
export const MOST_POINTS = 500;

/** A list of points in a part's table. Until it is given it follows `shape`. */
export const outlineSpec = <P>(given: {
  readonly label: string;
  readonly help: string;
  readonly group: string;
  readonly words: string;
  readonly shape: NonNullable<RecordsSpec<OutlinePoint, P>["follows"]>["value"];
  readonly when?: (p: P) => boolean;
}): RecordsSpec<OutlinePoint, P> => ({
  type: "records",
  label: given.label,
  help: given.help,
  group: given.group,
  item: "point",
  maxItems: MOST_POINTS,
  of: pointTable,
  follows: { words: given.words, value: given.shape },
  ...(given.when ? { when: given.when } : {}),
});
