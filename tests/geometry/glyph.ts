/** A letter of a bundled face as closed paths, mm, `em` high by the em square, y up. For tests of outlines that nobody drew for them. */
import { readFileSync } from "node:fs";
import { parse } from "opentype.js";
import { cubic, line, type Path, type Segment } from "../../src/geometry/path.ts";
import { lerp, vec, type Vec } from "../../src/geometry/vec.ts";

const file = readFileSync(new URL("../../public/fonts/zilla-slab-latin-600-normal.woff", import.meta.url));
const font = parse(file.buffer.slice(file.byteOffset, file.byteOffset + file.length) as ArrayBuffer);

export function glyphPaths(letter: string, em: number): Path[] {
  const paths: Path[] = [];
  let start: Vec | undefined;
  let at = vec(0, 0);
  let segments: Segment[] = [];
  const finish = (): void => {
    if (start && segments.length > 0) {
      if (at.x !== start.x || at.y !== start.y) segments.push(line(start));
      paths.push({ start, segments, closed: true });
    }
    segments = [];
  };
  for (const c of font.charToGlyph(letter).getPath(0, 0, em).commands) {
    if (c.type === "M") {
      finish();
      start = vec(c.x, -c.y);
    } else if (c.type === "L") segments.push(line(vec(c.x, -c.y)));
    else if (c.type === "C") segments.push(cubic(vec(c.x1, -c.y1), vec(c.x2, -c.y2), vec(c.x, -c.y)));
    else if (c.type === "Q") {
      // A quadratic curve as a cubic: its handles lie two thirds of the way to the control point.
      const q = vec(c.x1, -c.y1);
      segments.push(cubic(lerp(at, q, 2 / 3), lerp(vec(c.x, -c.y), q, 2 / 3), vec(c.x, -c.y)));
    }
    if (c.type !== "Z") at = vec(c.x, -c.y);
  }
  finish();
  return paths;
}
