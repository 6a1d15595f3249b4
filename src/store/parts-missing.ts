import type { Trouble } from "../document/design.ts";
import { everyPart } from "../parts/registry.ts";

/** Sees to it that the code of every part is here, before a design is read. Undefined: it is. */
export async function partsMissing(): Promise<Trouble | undefined> {
  try {
    await everyPart();
    return undefined;
  } catch {
    return { message: "what is needed for its parts has not come", mend: "Look to the connection and load the page anew." };
  }
}
