/** Where interlaced letters cross, by the letters' names. */
import type { Vec } from "../../geometry/vec.ts";
import type { Crossing } from "../../lettering/interlace.ts";
import { leftToRight } from "../../lettering/reading-order.ts";
import { lettersOf } from "../../lettering/typed-letters.ts";

export interface InlayCrossing {
  readonly at: Vec;
  /** The letter that passes over, and the one that is cut back from it; two of the same name as the left and the right one. */
  readonly over: string;
  readonly under: string;
}

const SPACE = /^\p{Zs}$/u;

/** In the order of their numbers, which count from 1. */
export function namedCrossings(text: string, crossings: readonly Crossing[]): InlayCrossing[] {
  const typed = lettersOf(text).flatMap((character) => (SPACE.test(character) ? [] : [{ character }]));
  const read = leftToRight(typed);
  const name = (letter: number): string => (read.ok ? read.value[letter]?.character : undefined) ?? `letter ${letter + 1}`;
  return crossings.map(({ at, over, letters: [first, second] }) => {
    const alike = name(first) === name(second);
    const [left, right] = alike ? [`left ${name(first)}`, `right ${name(second)}`] : [name(first), name(second)];
    return { at, over: over === first ? left : right, under: over === first ? right : left };
  });
}
