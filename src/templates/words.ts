/** What a made template says of itself, in the words of the trade. */
import type { Making } from "../parts/making-choices.ts";
import type { Guidance } from "./guidance.ts";

/** Says a length in the maker's units, with the unit. */
export type Say = (mm: number) => string;

const CUT = "cut to the centre of the line";

/** What stands before the cutting words: "edge of the board before binding". */
const whatOf = (lineIs: string): string => lineIs.split(/[;,]\s*(?:cut|file|check|prick)\b/)[0]!.trim();

const kindOf = (inside: boolean): string => (inside ? "inside template" : "outside template");
const way = (offset: number, say: Say): string => `${say(Math.abs(offset))} ${offset > 0 ? "outside of" : "inside of"}`;

/** What the line of the made template is. */
export function lineIsOf(lineIs: string, making: Making, guidance: Guidance, say: Say): string {
  const what = whatOf(lineIs);
  const said = [...followed(lineIs, what, making, guidance, say)];
  if (making.half !== "whole") said.push("a half: flip it over its straight side");
  if (making.mirrored) said.push("mirrored: it lies on the other face");
  return said.at(-1) === lineIs ? lineIs : [...said.filter((text) => text !== lineIs), CUT].join("; ");
}

function followed(lineIs: string, what: string, making: Making, guidance: Guidance, say: Say): string[] {
  if (making.master !== "none") {
    const copied =
      making.masterBush === undefined
        ? "copied with a bearing of the bit's own size"
        : `copied with a ${say(making.masterBush)} bush and a ${say(making.masterBit)} bit`;
    return [`master, an ${kindOf(guidance.inside)}, ${copied} into the working template for the ${what}`];
  }
  switch (making.follow) {
    case "line":
      return making.half === "whole" && !making.mirrored ? [lineIs] : [what];
    case "moved":
      return making.moved === 0 ? [lineIs] : [`${way(making.moved, say)} the ${what}, which is dashed`];
    case "bearing": {
      const bearing = `${kindOf(guidance.inside)} for a ${say(making.bearing)} bearing with a ${say(making.bit)} bit`;
      const ledge = Math.abs(guidance.ledge);
      if (ledge === 0) return [`${bearing}, on the ${what}`];
      return [
        `${bearing}, on the ${what}`,
        making.bit > making.bearing ? `it cuts a ledge ${say(ledge)} wide, dashed` : `it leaves ${say(ledge)} of wood, dashed`,
      ];
    }
    case "bush":
      return [
        `${kindOf(guidance.inside)} for a ${say(making.bush)} bush with a ${say(making.bit)} bit, ${way(guidance.offset, say)} the ${what}, which is dashed`,
        ...gapWords(making, guidance, say),
      ];
  }
}

function gapWords(making: Making, { gap }: Guidance, say: Say): string[] {
  if (gap === undefined || making.partnerBush === undefined) return [];
  const second = `the other half by a ${say(making.partnerBush)} bush with a ${say(making.partnerBit)} bit`;
  if (Math.abs(gap) < 1e-9) return [`${second} fits without a gap`];
  return [gap > 0 ? `${second} leaves a gap of ${say(gap)}` : `${second} jams by ${say(-gap)}`];
}

/** "Blank outline, inside template" */
export function titleOf(title: string, making: Making, { inside }: Guidance): string {
  const kind =
    making.master !== "none"
      ? `master ${kindOf(inside)}`
      : making.follow === "bush" || making.follow === "bearing"
        ? kindOf(inside)
        : making.follow === "moved" && making.moved !== 0
          ? "moved"
          : "";
  return [title, kind, making.half === "whole" ? "" : "half", making.mirrored ? "mirrored" : ""]
    .filter((t) => t !== "")
    .join(", ");
}

const counted = (count: number, one: string): string => (count === 1 ? `One ${one}` : `${count} ${one}s`);
const does = (count: number, verb: string): string => (count === 1 ? `${verb}s` : verb);

/** What comes out otherwise than asked. */
export function cautionsOf(
  lost: readonly { readonly kind: "tight" | "narrow" | "outward" | "inward" }[],
  { leastOutward, leastInward, gap, leastCorner }: Guidance,
  say: Say,
): string[] {
  const count = (kind: string): number => lost.filter((place) => place.kind === kind).length;
  const [outward, inward, tight, narrow] = [count("outward"), count("inward"), count("tight"), count("narrow")];
  return [
    outward > 0
      ? `${counted(outward, "outward corner")} sharper than ${say(leastOutward)} ${does(outward, "come")} out round: finish by hand or take a smaller guide.`
      : "",
    inward > 0
      ? `${counted(inward, "inward corner")} sharper than ${say(leastInward)} ${does(inward, "keep")} wood: finish by hand or take a smaller guide.`
      : "",
    tight > 0
      ? `${counted(tight, "bend")} of the edge ${tight === 1 ? "is" : "are"} too tight for this move and ${does(tight, "get")} lost.`
      : "",
    narrow > 0
      ? `${counted(narrow, "place")} of the edge ${tight + narrow === 1 ? "is" : "are"} too narrow for this move and ${does(narrow, "close")}.`
      : "",
    gap !== undefined && gap < -1e-9 ? `Piece and recess jam by ${say(-gap)} from one template: change a bush or a bit.` : "",
    outward + inward > 0 && leastCorner > 0
      ? `What runs along the template enters no corner under a radius of ${say(leastCorner)}.`
      : "",
  ].filter((text) => text !== "");
}
