/** Starting shapes of our own, from the nut's back (x = 0) to the top (x = -length); the corner at the nut is not among the points. */
import { mirroredPoints, outlinePoint, type OutlinePoint } from "../../geometry/drawn/point.ts";
import type { HeadShape, HeadstockParams } from "./numbers.ts";

type Sizes = Pick<HeadstockParams, "length" | "widthAtNut" | "widthAtFirst" | "widthAtTop">;

const DOWN = -Math.PI / 2;

/** The half of positive y from the nut to the middle of the top. */
const HALVES: Readonly<Record<HeadShape, (s: Sizes) => OutlinePoint[]>> = {
  straight: (s) => [
    ...flare(s),
    outlinePoint(-0.95 * s.length, s.widthAtTop / 2, { rounding: 4, side: "curve" }),
    outlinePoint(-s.length, 0, { kind: "even", side: "curve", direction: DOWN }),
  ],
  waisted: (s) => [
    ...flare(s, "curve"),
    outlinePoint(-0.58 * s.length, 0.46 * Math.min(s.widthAtFirst, s.widthAtTop), { kind: "fair", side: "curve" }),
    outlinePoint(-0.95 * s.length, s.widthAtTop / 2, { rounding: 3, side: "curve" }),
    outlinePoint(-s.length, 0, { kind: "even", side: "curve", direction: DOWN }),
  ],
  crowned: (s) => [
    ...flare(s),
    outlinePoint(-0.93 * s.length, s.widthAtTop / 2, { rounding: 3, side: "curve" }),
    outlinePoint(-0.94 * s.length, s.widthAtTop / 5, { kind: "fair", side: "curve" }),
    outlinePoint(-s.length, 0, { side: "curve" }),
  ],
  "one-sided": (s) => [
    ...flare(s),
    outlinePoint(-0.95 * s.length, s.widthAtTop / 2, { rounding: 4, side: "curve" }),
    outlinePoint(-s.length, 0, { kind: "even", side: "curve", direction: DOWN }),
  ],
};

/** Out from the neck's width to the first tuners'. */
const flare = ({ length, widthAtNut, widthAtFirst }: Sizes, side: OutlinePoint["side"] = "straight"): OutlinePoint[] => [
  outlinePoint(-0.035 * length, widthAtNut / 2, { kind: "fair", side: "curve" }),
  outlinePoint(-0.13 * length, widthAtFirst / 2, { rounding: 2.5, side }),
];

/** A head with all tuners on the bass side (y below 0 for `side` 1): straight along the treble, slanted along the bass. */
function oneSided(s: Sizes, side: 1 | -1): OutlinePoint[] {
  const { length: l, widthAtNut: n, widthAtFirst: f, widthAtTop: t } = s;
  const treble = [
    outlinePoint(-0.3 * l, n / 2, { kind: "fair", side: "curve" }),
    outlinePoint(-0.9 * l, n / 2 - (n - t) / 2 + 4, { kind: "fair", side: "curve" }),
    outlinePoint(-l, n / 2 - t / 2, { kind: "even", side: "curve" }),
    outlinePoint(-0.93 * l, n / 2 - t - 4, { rounding: 4 }),
    outlinePoint(-0.13 * l, n / 2 - f, { rounding: 3, side: "curve" }),
    outlinePoint(-0.04 * l, -n / 2, { kind: "fair" }),
  ];
  if (side === 1) return treble;
  // Seen from the other hand, the outline is still run from rising y to falling y.
  const sides = treble.map((point) => point.side);
  return treble.toReversed().map((point, i) => ({ ...point, y: -point.y, side: sides[treble.length - 2 - i] ?? "straight" }));
}

export function startingHead(shape: HeadShape, sizes: Sizes, mirrored: boolean, side: 1 | -1): OutlinePoint[] {
  if (shape === "one-sided" && !mirrored) return oneSided(sizes, side);
  const half = HALVES[shape](sizes);
  return mirrored ? half : mirroredPoints(half);
}
