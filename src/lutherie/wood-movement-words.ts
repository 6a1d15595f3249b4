import {
  coefficientAcross,
  impliedShrinkagePct,
  movementRule,
  pairMovement,
  strainAcross,
  type Extent,
  type MoistureChange,
  type PairMovement,
  type WoodPiece,
} from "./wood-movement.ts";

/** Writes a length (mm) the way the reader wants lengths. */
export type ShowLength = (mm: number) => string;

/** Less than this nobody sees, mm; a grain at right angles leaves a few femtometres of rounding. */
const SEEN = 1e-3;

const pct = (value: number): string => `${value.toFixed(1)} %`;

/** How the movement of `size` mm across the grain comes about, sentence by sentence; the domain is that of strainAcross. */
export function movementWords(
  { species, cut }: WoodPiece,
  size: number,
  change: MoistureChange,
  show: ShowLength,
): readonly string[] {
  const coefficient = coefficientAcross(species, cut);
  const moved = size * strainAcross(species, cut, change);
  const rule =
    movementRule(change) === "straight-line"
      ? `Between 6 and 14 % it moves ${coefficient.toFixed(5)} of its size for each 1 % (Wood Handbook, Eq. 13-2).`
      : `Beyond 6 to 14 % the wide-range rule is used (Wood Handbook, Eq. 13-3) with ${pct(impliedShrinkagePct(coefficient))} from green to ovendry.`;
  const basis =
    species.movement.basis === "table"
      ? `The coefficient is printed in the handbook's Table 13-5.`
      : `The coefficient is computed from shrinkage (${species.movement.mark}); the table does not list this wood.`;
  const verb = moved < 0 ? "shrinks" : "grows";
  return [
    `Moisture goes from ${pct(change.fromPct)} to ${pct(change.toPct)}.`,
    `${species.common}, ${cut}, across the grain. ${rule}`,
    basis,
    Math.abs(moved) <= SEEN ? `${show(size)} stays as it is.` : `${show(size)} ${verb} by ${show(Math.abs(moved))}.`,
  ];
}

/** What a glued pair wants to do, in one sentence an axis that matters, the first piece named by `firstName`; mm through `show`. */
export function pairWords(
  first: WoodPiece & { readonly name: string },
  second: WoodPiece & { readonly name: string },
  glued: Extent,
  change: MoistureChange,
  show: ShowLength,
): readonly string[] {
  const movement: PairMovement = pairMovement(first, second, glued, change);
  const sentence = (axis: string, size: number, moved: number): string => {
    const side = moved < 0 ? "shorter" : "longer";
    return `${axis}, over ${show(size)}, the ${first.name} wants to be ${show(Math.abs(moved))} ${side} than the ${second.name}.`;
  };
  const lines: string[] = [];
  if (Math.abs(movement.x) > SEEN) lines.push(sentence("Along the instrument", glued.x, movement.x));
  if (Math.abs(movement.y) > SEEN) lines.push(sentence("Across the instrument", glued.y, movement.y));
  if (movement.corner <= SEEN) return [`The ${first.name} and the ${second.name} move together.`];
  lines.push(`From corner to corner the two would slide by ${show(movement.corner)} if they were free.`);
  return lines;
}
