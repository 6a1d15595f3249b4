/** The outlines of an SVG file, chosen by its maker and kept as path data. Nothing of the file is drawn, run or fetched. */
import { fileOpen } from "browser-fs-access";
import type { Problem } from "../../parts/derived.ts";
import { pathData } from "../../export/svg/path-data.ts";
import { LONGEST_SVG, readSvg } from "../../geometry/svg/read.ts";
import { vec } from "../../geometry/vec.ts";
import { bareUnitOf, inside } from "../../units/unit.ts";
import { tellTrouble } from "../files.ts";
import { Button } from "../kit/button.tsx";
import { tell } from "../kit/tell.tsx";

interface SvgFileFieldProps {
  /** The outlines that the design keeps, as path data; empty where there are none. */
  readonly kept: string;
  readonly onTake: (art: string) => Problem | undefined;
}

export function SvgFileField({ kept, onTake }: SvgFileFieldProps) {
  async function choose(): Promise<void> {
    let file: File;
    try {
      file = await fileOpen({ extensions: [".svg"], mimeTypes: ["image/svg+xml"], description: "Drawing saved as SVG" });
    } catch (error) {
      // The person let the dialog go.
      if (error instanceof DOMException && error.name === "AbortError") return;
      throw error;
    }
    const title = `${file.name} was not taken in`;
    if (file.size > LONGEST_SVG)
      return tellTrouble(title, { message: "the file is too large", mend: "Leave out what is not needed and save it again." });
    const read = readSvg(await file.text(), inside(1, bareUnitOf("in")));
    if (!read.ok) return tellTrouble(title, read);
    const { outlines, sized, leftOut } = read.value;
    const art = outlines
      .flatMap(({ outer, holes }) => [outer, ...holes])
      .map((path) => pathData(path, (p) => vec(p.x, -p.y)))
      .join("");
    const problem = onTake(art);
    if (problem) return tellTrouble(title, problem);
    tell({
      title: `The outlines of ${file.name} are taken in.`,
      more: [
        sized ? "" : "The file says no size: check the width, or type one.",
        leftOut.length > 0 ? `Left out: ${leftOut.join(", ")}.` : "",
      ]
        .filter(Boolean)
        .join(" "),
      kind: leftOut.length > 0 || !sized ? "plain" : "fine",
    });
  }

  return <Button onClick={() => void choose()}>{kept === "" ? "Choose an SVG file" : "Choose another SVG file"}</Button>;
}
