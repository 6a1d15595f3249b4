/** What a contour gauge gives at a measured fret: the section fitted to its points, and how far off it they lie. */
import { compose, IDENTITY, scaling, transformPoint, type Affine } from "../../geometry/transform.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { layingOf, LEAST_TRACED, sectionFromContour, type FittedContour } from "../../lutherie/neck-contour.ts";
import type { NeckSection } from "../../lutherie/neck-section.ts";
import type { Sources } from "../contract.ts";
import { boardThicknessOf, fretX, instrumentOf, neckWidth, type ContourLay, type NeckParams, type Which } from "./numbers.ts";

/** Width and wood at a measured fret, kept to what a section can have. */
export function sizeAt(p: NeckParams, from: Sources, which: Which): Pick<NeckSection, "halfWidth" | "depth" | "lean"> {
  const instrument = instrumentOf(from);
  const halfWidth = Math.max(1, neckWidth(p, instrument, fretX(instrument, p[`${which}Fret`])) / 2);
  const lean = Math.min(0.8 * halfWidth, Math.max(-0.8 * halfWidth, p[`${which}Lean`]));
  return { halfWidth, depth: Math.max(1, p[`${which}Depth`] - boardThicknessOf(p, from)), lean };
}

/** Of a trace seen from the head the bass side lies where the treble side is meant. */
const facing = (lies: ContourLay): Affine => (lies === "over" ? scaling(-1, 1) : IDENTITY);

type Fit = FittedContour | undefined;

/** The fits that were asked for last: the shoulders of both sides, the measures and a drag come from the same. */
const last = new Map<Which, { readonly question: string; readonly fit: Fit }>();

/** The section nearest to the points of the contour gauge; undefined where they do not show both sides. */
export function fittedContour(p: NeckParams, from: Sources, which: Which): Fit {
  const raw = p[`${which}Contour`];
  if (raw.length < 2) return undefined;
  const size = sizeAt(p, from, which);
  const lies = p[`${which}ContourLies`];
  const points = raw.map(({ across, down }) => transformPoint(facing(lies), vec(across, -down)));
  const question = JSON.stringify([points, size, lies]);
  const known = last.get(which);
  if (known?.question === question) return known.fit;
  const fit = sectionFromContour(points, size, lies === "held" || points.length < LEAST_TRACED ? "held" : "free");
  last.set(which, { question, fit });
  return fit;
}

/** The trace at a measured fret as the neck's measures give it. */
export interface ContourMeasure {
  readonly which: Which;
  readonly fret: number;
  readonly x: number;
  readonly section: NeckSection;
  /** Least squares and greatest distance between the points and the section, mm, and where the farthest point lies on the section. */
  readonly rms: number;
  readonly worst: number;
  readonly worstAt: Vec;
  /** How the fit turned and moved the trace, radians and mm. */
  readonly turnRad: number;
  readonly move: Vec;
  /** From the axes of the points on to the section. */
  readonly laying: Affine;
  /** How wide the trace lies, and how far it comes up on either side and down to the back, as parts of the wood's depth. */
  readonly width: number;
  readonly upTo: { readonly bass: number; readonly treble: number };
  readonly downTo: number;
}

export function contourMeasures(p: NeckParams, from: Sources): ContourMeasure[] {
  return (["first", "second"] as const).flatMap((which): ContourMeasure[] => {
    const fit = fittedContour(p, from, which);
    if (!fit) return [];
    const { section, rms, worst, worstAt, laid, turn, move } = fit;
    const share = (side: 1 | -1): number =>
      Math.min(...laid.filter(({ x }) => side * (x - section.lean) > 0).map(({ y }) => Math.max(0, -y / section.depth)));
    const xs = laid.map(({ x }) => x);
    return [
      {
        which,
        fret: p[`${which}Fret`],
        x: fretX(instrumentOf(from), p[`${which}Fret`]),
        section,
        rms,
        worst,
        worstAt,
        turnRad: turn,
        move,
        laying: compose(facing(p[`${which}ContourLies`]), layingOf(fit)),
        width: Math.max(...xs) - Math.min(...xs),
        upTo: { bass: share(-1), treble: share(1) },
        downTo: Math.max(...laid.map(({ y }) => -y / section.depth)),
      },
    ];
  });
}
