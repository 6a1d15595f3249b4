/** Where interlaced letters cross, by the letters' names. */
import type { Vec } from "../../geometry/vec.ts";
import type { Crossing } from "../../lettering/interlace.ts";

export interface InlayCrossing {
  readonly at: Vec;
  /** The letter that passes over, and the one that is cut back from it; two of the same name as the left and the right one. */
  readonly over: string;
  readonly under: string;
}

/** In the order of their numbers, which count from 1; `names` are the letters as they stand from the left. */
export const namedCrossings = (names: readonly string[], crossings: readonly Crossing[]): InlayCrossing[] =>
  crossings.map(({ at, over, letters: [first, second] }) => {
    const alike = names[first] === names[second];
    const [left, right] = alike ? [`left ${names[first]!}`, `right ${names[second]!}`] : [names[first]!, names[second]!];
    return { at, over: over === first ? left : right, under: over === first ? right : left };
  });
