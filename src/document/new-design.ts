import type { Design } from "./design.ts";

export type NewKind = "steel-string" | "classical" | "tenor-ukulele" | "baritone" | "octave-mandolin" | "tenor-guitar";

export function newDesign(kind: NewKind): Design {
  throw new Error("follows");
}
