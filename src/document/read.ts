import type { Design } from "./design.ts";

/** What was wrong at one place of a file, and what was done about it. */
export interface Repair {
  /** `parts.fingerboard.binding[1]`; empty for the file as a whole. */
  readonly path: string;
  readonly says: string;
}

export type ReadDesign =
  | { readonly ok: true; readonly design: Design; readonly repairs: readonly Repair[] }
  | { readonly ok: false; readonly message: string; readonly mend: string };

export function readDesign(file: string | Uint8Array): ReadDesign {
  throw new Error("follows");
}
