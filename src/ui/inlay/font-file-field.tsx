/** A font file of the maker's own, kept whole inside the design. It is read apart from the page before it is taken. */
import { fileOpen } from "browser-fs-access";
import type { Problem } from "../../parts/derived.ts";
import { readFaceApart } from "../../lettering/face-reader.ts";
import { fontAddress, fontNameOf, fontSizeOf, LARGEST_FONT } from "../../lettering/font-address.ts";
import { tellTrouble } from "../files.ts";
import { Button } from "../kit/button.tsx";
import { tell } from "../kit/tell.tsx";

const LONGEST_NAME = 120;

interface FontFileFieldProps {
  /** The one that the design keeps, as an address; empty where there is none. */
  readonly kept: string;
  readonly onTake: (address: string) => Problem | undefined;
}

export function FontFileField({ kept, onTake }: FontFileFieldProps) {
  async function choose(): Promise<void> {
    let file: File;
    try {
      file = await fileOpen({
        extensions: [".ttf", ".otf", ".woff"],
        mimeTypes: ["font/ttf", "font/otf", "font/woff"],
        description: "Font file",
      });
    } catch (error) {
      // The person let the dialog go.
      if (error instanceof DOMException && error.name === "AbortError") return;
      throw error;
    }
    const title = `${file.name} was not taken in`;
    if (file.size > LARGEST_FONT)
      return tellTrouble(title, {
        message: `it is larger than ${LARGEST_FONT / 1e6} MB, too large to be kept in a design`,
        mend: "Choose a file of this face with fewer letters.",
      });
    const bytes = new Uint8Array(await file.arrayBuffer());
    const read = await readFaceApart(bytes);
    if (!read.ok) return tellTrouble(title, read.error);
    const name = read.value.name || file.name;
    const problem = onTake(fontAddress(bytes, name.slice(0, LONGEST_NAME)));
    if (problem) return tellTrouble(title, problem);
    tell({ title: `${name} is kept in the design now.`, kind: "fine" });
  }

  return (
    <>
      <Button onClick={() => void choose()}>{kept === "" ? "Choose a font file" : "Choose another font file"}</Button>
      {kept === "" ? null : (
        <p className="note">
          {fontNameOf(kept) || "A font file"}, {Math.ceil(fontSizeOf(kept) / 1000)} kB, goes with the design wherever it is
          opened.
        </p>
      )}
    </>
  );
}
