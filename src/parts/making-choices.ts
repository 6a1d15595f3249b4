/**
 * How a template is made from a part's edge: what follows it, what it is cut for, how it is held. A design says it by template
 * (`fingerboard/blank-outline`), and what all templates of a part share by the part (`fingerboard`).
 */
import type { Grain } from "./contract.ts";

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
  /** Which way the grain of the wood runs on the drawing; templates laid on one sheet have it the same way. */
  readonly grain: Grain | "any";
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

/** What the table needs to know of the template that it is about. */
export interface MadeFrom {
  /** It has a closed edge that can be followed. */
  readonly edge: boolean;
  readonly centreLine: boolean;
  /** It shows holes that are drilled. */
  readonly holes: boolean;
  /** The edge is that of a recess. */
  readonly recess: boolean;
  /** As the part says it. */
  readonly grain: Grain | undefined;
}
