import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { readFace, type Face } from "../lettering/face.ts";
import { bundledFace } from "../lettering/faces.ts";
import { fontOfAddress } from "../lettering/font-address.ts";
import type { Trouble } from "../lettering/trouble.ts";
import type { Result } from "../units/result.ts";

/** The face of an id that a design names, with at least the wanted letters where the file has them. */
export function faceOfId(id: string, wanted: string): Result<Face, Trouble> {
  const bundled = bundledFace(id);
  if (bundled)
    return readFace(
      new Uint8Array(readFileSync(fileURLToPath(new URL(`../../public/faces/${bundled.file}`, import.meta.url)))),
      wanted,
    );
  const font = fontOfAddress(id);
  return font.ok ? readFace(font.value, wanted) : font;
}
