import type { Design } from "./design.ts";

export function writeDesign(design: Design): string {
  throw new Error("follows");
}
