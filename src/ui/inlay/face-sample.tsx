/** The letters of an inlay in another face, drawn from the face itself; nothing before it has come. */
import { useEffect, useState } from "react";
import { pathData } from "../../export/svg/path-data.ts";
import type { Face } from "../../lettering/face.ts";
import { bundledFace } from "../../lettering/faces.ts";
import { fetchFace } from "../../store/beside.ts";
import { useDerived } from "../bench.ts";
import "./face-sample.css";

const MOST_LETTERS = 6;
/** For a face that has none of them. */
const USUAL = "Aa";

/** One face is read after the other, so that the page keeps a core; each is read once. */
const faces = new Map<string, Promise<Face | undefined>>();
let last: Promise<unknown> = Promise.resolve();

function faceOf(id: string): Promise<Face | undefined> {
  const known = faces.get(id);
  if (known) return known;
  const read = last.then(async () => {
    const face = await fetchFace(id, "");
    return face.ok ? face.value : undefined;
  });
  // A face that does not come now may come when the list is opened anew.
  const shown = read.catch(() => {
    faces.delete(id);
    return undefined;
  });
  last = shown;
  faces.set(id, shown);
  return shown;
}

export function FaceSample({ face: id, textAt }: { readonly face: string; readonly textAt: string }) {
  const { parts } = useDerived();
  const [face, setFace] = useState<Face>();
  useEffect(() => {
    let gone = false;
    if (bundledFace(id)) void faceOf(id).then((came) => (gone ? undefined : setFace(came)));
    return () => {
      gone = true;
    };
  }, [id]);
  if (!face) return null;
  const typed = parts.flatMap(({ fields }) => fields).find(({ path }) => path === textAt)?.value;
  const { d, width } = sampleOf(face, typeof typed === "string" ? typed : "");
  const { unitsPerEm: em } = face;
  return (
    <svg className="face-sample" viewBox={`0 ${-em} ${width} ${1.4 * em}`} preserveAspectRatio="xMaxYMid meet">
      <path d={d} />
    </svg>
  );
}

/** The first letters of a text as path data in font units, y down. */
function sampleOf(face: Face, text: string): { readonly d: string; readonly width: number } {
  const letters = [...text].filter((letter) => (face.glyphs.get(letter)?.contours.length ?? 0) > 0).slice(0, MOST_LETTERS);
  let pen = 0;
  let d = "";
  for (const letter of letters.length > 0 ? letters : USUAL) {
    const glyph = face.glyphs.get(letter);
    if (!glyph) continue;
    const from = pen;
    d += glyph.contours.map((path) => pathData(path, ({ x, y }) => ({ x: from + x, y: -y }))).join("");
    pen += glyph.advance;
  }
  return { d, width: Math.max(pen, 1) };
}
