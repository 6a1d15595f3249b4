import type { Design } from "./design.ts";

/** A number's name in a sentence, "nut width"; the path itself where it has none. */
export function labelOf(design: Design, path: string): string {
  throw new Error("follows");
}

/** What one entry of a list is called: "layer". */
export function itemLabelOf(design: Design, path: string): string {
  throw new Error("follows");
}
