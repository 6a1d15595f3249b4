import { readFileSync } from "node:fs";
import type { FontBytes } from "../../src/export/pdf/writer.ts";

const face = (weight: number): Uint8Array =>
  new Uint8Array(
    readFileSync(new URL(`../../public/fonts/atkinson-hyperlegible-mono-latin-${weight}-normal.woff`, import.meta.url)),
  );

/** The faces that the browser fetches and the command line reads. */
export const fonts: FontBytes = { regular: face(400), strong: face(600) };
