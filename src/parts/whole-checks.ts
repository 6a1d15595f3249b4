/** Checks that look across the parts of a whole design: their titles and limits, by id. The checks themselves stand in `src/checks`. */
import type { Limit } from "./contract.ts";
import { PRACTICE } from "./finding.ts";

export interface WholeCheck {
  readonly title: string;
  readonly limits: Readonly<Record<string, Limit>>;
}

/** First word of the path of their limits: `limits.whole.seasons.slide`. */
export const WHOLE = "whole";

export const WHOLE_CHECKS = {
  seasons: {
    title: "Glued pairs through the seasons",
    limits: {
      slide: { label: "Slide to look at", value: 0.5, quantity: "length", basis: PRACTICE },
      tear: { label: "Slide to stop at", value: 1.5, quantity: "length", basis: PRACTICE },
      crossed: { label: "Slide to look at where grain crosses by custom", value: 1.2, quantity: "length", basis: PRACTICE },
    },
  },
  "bridge-centre": {
    title: "The bridge lies in the middle of the body",
    limits: { most: { label: "Bridge off the middle of the body", value: 0.5, quantity: "length", basis: PRACTICE } },
  },
  "inlays-apart": {
    title: "Wood is left between inlays on one part",
    limits: {
      // More than between letters of one inlay: pockets that are set up one after the other stand less exactly to each other.
      wall: { label: "Thinnest wall between two inlays", value: 0.8, quantity: "length", basis: PRACTICE },
      breaks: { label: "A wall breaks out under", value: 0.15, quantity: "length", basis: PRACTICE },
    },
  },
  "template-made": { title: "Templates can be made as asked", limits: {} },
  "offcut-place": {
    title: "Pieces lie within the offcut",
    limits: { spare: { label: "Spare margin beyond the allowance", value: 0, quantity: "length", basis: PRACTICE } },
  },
  "offcut-apart": { title: "A saw cut between pieces", limits: {} },
  "offcut-thickness": { title: "The offcut is thick enough", limits: {} },
  "offcut-grain": { title: "Pieces lie along the grain", limits: {} },
} as const satisfies Readonly<Record<string, WholeCheck>>;

export type WholeCheckId = keyof typeof WHOLE_CHECKS;

/** The check that a finding comes from, by the finding's id, or undefined. */
export const wholeCheckOf = (findingId: string): WholeCheck | undefined => {
  const [id = ""] = findingId.split("/");
  return Object.hasOwn(WHOLE_CHECKS, id) ? WHOLE_CHECKS[id as WholeCheckId] : undefined;
};
