/** What names a template on sheets that it shares with others. */
import type { Template } from "../../templates/template.ts";
import type { Grain } from "../../parts/contract.ts";
import { textWidth, wrap } from "../lettering.ts";
import { lyingGrain } from "../nesting.ts";
import type { Placement, Rect } from "../sheet.ts";
import { lineSentence, nameOf } from "../words.ts";
import { drawGrain, grainSize } from "./grain.ts";
import { LEADING, linesHeight, PLAIN, SMALL, type Pen } from "./pen.ts";

/** Longest line of a caption over a long template, mm. */
export const CAPTION_WIDTH = 120;

export interface Caption {
  readonly title: readonly string[];
  readonly lines: readonly string[];
  /** As the caption is read: x along its lines. */
  readonly grain: Grain | undefined;
  readonly width: number;
  readonly height: number;
}

/** The template's name, what its line is and how its grain runs, in lines of at most `width` mm; `turn` is the template's against the caption. */
export function captionFor(template: Template, width: number, turn: Placement["turn"] = 0): Caption {
  const title = wrap(nameOf(template), width, PLAIN);
  const lines = wrap(lineSentence(template, true), width, SMALL);
  const grain = lyingGrain(template.grain, turn);
  const words = linesHeight(title.length, PLAIN) + (lines.length > 0 ? SMALL + linesHeight(lines.length, SMALL) : 0) + 0.6;
  const arrow = grain ? grainSize(grain) : { width: 0, height: 0 };
  return {
    title,
    lines,
    grain,
    width: Math.max(...title.map((line) => textWidth(line, PLAIN)), ...lines.map((line) => textWidth(line, SMALL)), arrow.width),
    height: words + arrow.height,
  };
}

/** Draws the caption in its box: upright, or read from the right. */
export function drawCaption(pen: Pen, box: Rect, { title, lines, grain }: Caption, upward: boolean): void {
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
  if (!grain) return;
  const onSheet = lyingGrain(grain, upward ? 1 : 0)!;
  drawGrain(pen, upward ? box.x1 - grainSize(onSheet).width : box.x0, box.y0, onSheet);
}
