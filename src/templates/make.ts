/** From a part's edge to the pattern that a maker follows: moved, held, pinned, halved, lettered, and honest about what it cannot do. */
import type { Drawing } from "../drawing/drawing.ts";
import { vec } from "../geometry/vec.ts";
import type { Making } from "../parts/making-choices.ts";
import { centreLineOf, edgeOf } from "./edge.ts";
import { guidanceOf, refuse, type Refusal } from "./guidance.ts";
import { halfOf, mirrorDrawing } from "./half.ts";
import { withFixings, withPilots, withPins, type Held } from "./holding.ts";
import type { IndexPins } from "./index-pins.ts";
import { moveEdge } from "./move-edge.ts";
import { lettered, withCutter } from "./stamp.ts";
import type { Template } from "./template.ts";
import { cautionsOf, lineIsOf, titleOf, type Say } from "./words.ts";

export type Made = { readonly ok: true; readonly value: Template } | Refusal;

/** What a made template takes from around it. */
export interface MakingContext {
  readonly say: Say;
  /** The instrument's number and the sign of its numbers, to be lettered. */
  readonly number: string;
  readonly fingerprint: string;
  /** The index pins of its part, if it has any. */
  readonly pins?: IndexPins | undefined;
}

/** The pattern for a template, or why there is none. The same template where nothing is asked of it. */
export function makeTemplate(template: Template, making: Making, context: MakingContext): Made {
  const guidance = guidanceOf(making);
  if (!guidance.ok) return guidance;
  const edge = edgeOf(template);
  const still = { ok: true, drawing: template.drawing, lost: [] } as const;
  const moved = edge ? moveEdge(template, edge, making, guidance) : still;
  if (!moved.ok) return moved;
  // Pilots before ears, whose screw holes are no holes of the part.
  const held = withFixings(withPilots(moved.drawing, making), template, making, guidance);
  if (!held.ok) return held;
  const pinned = withPins(held.drawing, template, guidance, context.pins);
  const turned = turnedOver(pinned.drawing, making);
  if (!turned.ok) return turned;
  const pictured = edge ? withCutter(turned.drawing, template, guidance, context.say) : turned.drawing;
  const title = titleOf(template.title, making, guidance);
  const words = [
    `${template.partLabel}: ${title}`,
    context.number === "" ? "" : `No. ${context.number}`,
    `rev. ${making.revision.trim() === "" ? context.fingerprint : making.revision.trim()}`,
  ].filter((text) => text !== "");
  const drawing = making.lettered ? lettered(pictured, template, words) : pictured;
  const grained = withGrain(template, making.grain === "any" ? undefined : making.grain);
  if (drawing === template.drawing) return { ok: true, value: grained };
  // Passes clear the recess as the part draws it, and no other.
  const { passes = [], ...rest } = grained;
  const cleared = passes.length > 0 && turned.drawing === pinned.drawing && moved.drawing === template.drawing ? { passes } : {};
  const cautions = [...cautionsOf(moved.lost, guidance, context.say), ...pinned.cautions];
  const lineIs = lineIsOf(template.lineIs, making, guidance, context.say);
  return { ok: true, value: { ...rest, ...cleared, title, lineIs, drawing, ...(cautions.length > 0 ? { cautions } : {}) } };
}

function withGrain(template: Template, grain: Template["grain"]): Template {
  if (grain === template.grain) return template;
  const { grain: _, ...rest } = template;
  return grain ? { ...rest, grain } : rest;
}

/** Halved and mirrored as asked. */
function turnedOver(drawing: Drawing, making: Making): Held | Refusal {
  const centre = centreLineOf(drawing);
  let done = drawing;
  if (making.half !== "whole") {
    if (!centre) return refuse("there is no centre line to halve the template at", "Make it whole.");
    const half = halfOf(drawing, centre, making.half);
    if (!half) return refuse("the centre line does not part the template into two halves", "Make it whole.");
    done = half;
  }
  if (making.mirrored) done = mirrorDrawing(done, centre ?? { from: vec(0, 0), way: vec(1, 0) });
  return { ok: true, drawing: done };
}
