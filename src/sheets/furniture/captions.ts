/** What names a template on sheets that it shares with others. */
import type { Template } from "../../templates/template.ts";
import { textWidth, wrap } from "../lettering.ts";
import type { Rect } from "../sheet.ts";
import { lineSentence, nameOf } from "../words.ts";
import { LEADING, linesHeight, PLAIN, SMALL, type Pen } from "./pen.ts";

export interface Caption {
  readonly title: readonly string[];
  readonly lines: readonly string[];
  readonly width: number;
  readonly height: number;
}

/** The template's name and what its line is, in lines of at most `width` mm. */
export function captionFor(template: Template, width: number): Caption {
  const title = wrap(nameOf(template), width, PLAIN);
  const lines = wrap(lineSentence(template, true), width, SMALL);
  return {
    title,
    lines,
    width: Math.max(...title.map((line) => textWidth(line, PLAIN)), ...lines.map((line) => textWidth(line, SMALL))),
    height: linesHeight(title.length, PLAIN) + (lines.length > 0 ? SMALL + linesHeight(lines.length, SMALL) : 0) + 0.6,
  };
}

/** Draws the caption in its box: upright, or read from the right. */
export function drawCaption(pen: Pen, box: Rect, { title, lines }: Caption, upward: boolean): void {
  pen.layer("captions");
  let depth = 0;
  const write = (said: readonly string[], height: number, strong: boolean): void => {
    for (const [i, line] of said.entries()) {
      const down = depth + height + i * height * LEADING;
      if (upward) pen.text(box.x0 + down, box.y0, line, height, { upward, strong });
      else pen.text(box.x0, box.y1 - down, line, height, { strong });
    }
    depth += linesHeight(said.length, height);
  };
  write(title, PLAIN, true);
  depth += SMALL;
  write(lines, SMALL, false);
}
