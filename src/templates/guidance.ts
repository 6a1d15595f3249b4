/** From how a template is followed to how far its edge lies from the line to be cut, and what the cut cannot make. */
import { cutBand, gapFromOneTemplate, templateOffset, type GuidedCutter } from "../lutherie/template-offset.ts";
import type { Join } from "../geometry/clipper.ts";
import type { Making } from "../parts/making-choices.ts";

/** Why a template cannot be made, and what to do about it. */
export interface Refusal {
  readonly ok: false;
  readonly error: { readonly message: string; readonly mend: string };
}
export const refuse = (message: string, mend: string): Refusal => ({ ok: false, error: { message, mend } });

export interface Guidance {
  readonly ok: true;
  /** From the line to be cut to the working template's edge, mm; above 0 outwards. */
  readonly offset: number;
  readonly join: Join;
  /** From the working template's edge to the master's; 0 where this is the working template. */
  readonly masterOffset: number;
  /** Corners of the line that come out rounded: outward ones under the first radius, inward ones under the second. */
  readonly leastOutward: number;
  readonly leastInward: number;
  /** Corners of this template that what runs along it cannot enter under this radius; 0: it enters all. */
  readonly leastCorner: number;
  /** What runs along this template (on a master, what cuts the copy). */
  readonly cutter: GuidedCutter | undefined;
  /** Whether this template is a window. */
  readonly inside: boolean;
  /** From the template's edge to the ledge's, outwards above 0; 0: no ledge. */
  readonly ledge: number;
  /** Gap between recess and piece where two bushes run in one template, mm; below 0 they jam. */
  readonly gap: number | undefined;
  /** From the line to the edge that the second bush cuts. */
  readonly partnerOffset: number;
}

const STILL = {
  ok: true,
  offset: 0,
  join: "round",
  masterOffset: 0,
  leastOutward: 0,
  leastInward: 0,
  leastCorner: 0,
  cutter: undefined,
  inside: false,
  ledge: 0,
  gap: undefined,
  partnerOffset: 0,
} as const satisfies Guidance;

/** How the edge is moved for what follows it, or why there is no such template. */
export function guidanceOf(making: Making): Guidance | Refusal {
  const working = workingGuidance(making);
  if (!working.ok || making.master === "none") return working;
  const cutter: GuidedCutter =
    making.masterBush === undefined
      ? { by: "bearing", guide: making.masterBit, bit: making.masterBit }
      : { by: "bush", guide: making.masterBush, bit: making.masterBit };
  const tooWide = bitTooWide(cutter);
  if (tooWide) return tooWide;
  // A working window is an opening in its plate, a working island a piece.
  const inside = making.master === "reverse" ? !working.inside : working.inside;
  const copy = templateOffset(cutter, working.inside ? "opening" : "piece", inside ? "inside" : "outside");
  if (!copy.ok) return refuse(copy.reason, "Choose a master of the other kind.");
  return { ...working, masterOffset: copy.offset, cutter, inside, leastCorner: copy.leastTemplateRadius, ledge: 0 };
}

function workingGuidance(making: Making): Guidance | Refusal {
  const inside = making.template === "inside";
  switch (making.follow) {
    case "line":
      return { ...STILL, inside };
    case "moved":
      return { ...STILL, inside, offset: making.moved, join: making.moved > 0 && making.corners === "sharp" ? "miter" : "round" };
    case "bearing": {
      if (making.cut === "blind-recess" && !inside) return COVERED;
      const cutter: GuidedCutter = { by: "bearing", guide: making.bearing, bit: making.bit };
      const ledge = -cutBand(cutter).near;
      return {
        ...STILL,
        inside,
        cutter,
        ledge: inside ? ledge : -ledge,
        leastOutward: inside ? making.bearing / 2 : 0,
        leastInward: inside ? 0 : making.bearing / 2,
        leastCorner: making.bearing / 2,
      };
    }
    case "bush":
      return bushGuidance(making, inside);
  }
}

const COVERED = refuse("an outside template would cover the wood that a recess must clear", "Make it an inside template.");

function bushGuidance(making: Making, inside: boolean): Guidance | Refusal {
  const cutter: GuidedCutter = { by: "bush", guide: making.bush, bit: making.bit };
  const tooWide = bitTooWide(cutter);
  if (tooWide) return tooWide;
  const kind = inside ? "inside" : "outside";
  const found = templateOffset(cutter, making.cut, kind);
  if (!found.ok) return COVERED;
  const common = {
    ...STILL,
    inside,
    cutter,
    offset: found.offset,
    leastOutward: found.leastOutwardRadius,
    leastInward: found.leastInwardRadius,
    leastCorner: found.leastTemplateRadius,
  };
  if (making.partnerBush === undefined) return common;
  const partner: GuidedCutter = { by: "bush", guide: making.partnerBush, bit: making.partnerBit };
  const partnerTooWide = bitTooWide(partner);
  if (partnerTooWide) return partnerTooWide;
  const partnerCut = making.cut === "piece" ? "opening" : "piece";
  const other = templateOffset(partner, partnerCut, kind);
  if (!other.ok) throw new Error(`guidance: ${other.reason}`);
  const [recess, piece] = making.cut === "piece" ? [partner, cutter] : [cutter, partner];
  return { ...common, gap: gapFromOneTemplate(recess, piece, kind), partnerOffset: found.offset - other.offset };
}

function bitTooWide({ by, guide, bit }: GuidedCutter): Refusal | undefined {
  if (by === "bearing" || guide > bit) return undefined;
  return refuse("the bit does not pass through its bush", "Take a wider bush or a narrower bit.");
}
