/**
 * The parts that are here. A new design has the first four, which come with the program itself; the others are fetched by `everyPart`, and whoever
 * reads a design or puts a part in waits for them. So a design never stands in the program before the code of all its parts.
 */
import { entry, type AnyPart } from "./any-part.ts";
import { fingerboard } from "./fingerboard/index.ts";
import { instrument } from "./instrument/index.ts";
import { neck } from "./neck/index.ts";
import { nut } from "./nut/index.ts";

export type { AnyPart } from "./any-part.ts";

const here: AnyPart[] = [entry(instrument), entry(fingerboard), entry(nut), entry(neck)];

/** The instrument first; a part reads the measures only of those before it. Grows once, when `everyPart` is asked for. */
export const REGISTRY: readonly AnyPart[] = here;

/** The part of a kind, or undefined if this version has none. */
export const partOf = (kind: unknown): AnyPart | undefined => here.find((part) => part.kind === kind);

let isWhole = false;

/** Resolves when every part is in the registry. Rejects where its code does not come; asked again, it tries again. */
export async function everyPart(): Promise<void> {
  const { EVERY_PART } = await import("./every-part.ts");
  here.splice(0, here.length, ...EVERY_PART);
  isWhole = true;
}

/** Throws while parts are missing: a design read then would lose what is said of them. */
export function needsEveryPart(): void {
  if (!isWhole) throw new Error("a design is read before every part is here");
}
