import type { BodySizes } from "../../src/lutherie/body-outline.ts";

/** Lengths of a small guitar's body of our own, mm. */
export const SMALL_LENGTHS = {
  length: 490,
  upperBout: 285,
  waist: 240,
  lowerBout: 390,
  upperBoutAt: 90,
  waistAt: 190,
  lowerBoutAt: 360,
  neckFlat: 60,
};

/** Its half-outline. */
export const SMALL: BodySizes = {
  ...SMALL_LENGTHS,
  tailFlat: 0,
  shoulderFullness: 0.5,
  upperFullness: 0.5,
  waistFullness: 0.5,
  lowerFullness: 0.52,
  tailFullness: 0.5,
};
