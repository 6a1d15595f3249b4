import type { Workbench } from "./workbench.ts";

export interface AutosaveOptions {
  /** From a change to its save, ms; at most 1000. */
  readonly delayMs?: number;
  /** Where the page tells that it goes away: `document` in a browser. */
  readonly page?: EventTarget;
}

/**
 * Keeps the open design in this browser soon after each change, and when the page is hidden; takes over what another tab saved as long as
 * nothing is changed here.
 * @returns stops it
 */
export function startAutosave(bench: Workbench, options: AutosaveOptions = {}): () => void {
  throw new Error("follows");
}
