/** What is written on a template: the guide and its bit at true size, and the words to be scratched in. */
import type { Drawing, Shape, Text } from "../drawing/drawing.ts";
import { textWidth } from "../drawing/lettering.ts";
import { erode } from "../geometry/morphology.ts";
import { pathsOf, regionOf } from "../geometry/outline.ts";
import { circle } from "../geometry/path.ts";
import type { Region } from "../geometry/region.ts";
import { vec } from "../geometry/vec.ts";
import { asOutline, outlineOf } from "./edge.ts";
import { findPlace, sidesOf } from "./find-place.ts";
import type { Guidance } from "./guidance.ts";
import type { Template } from "./template.ts";
import type { Say } from "./words.ts";

/** Heights of capitals, mm (ISO 3098-1 series). */
const SMALL = 1.8;
const SCRATCHED = 3.5;
const LEADING = 1.75;

/** Chords of the edge that lettering keeps off, mm. */
const CHORD = 0.05;

/** Off the middle, where a joint between two sheets is likeliest; words and picture keep apart. */
const WORDS_AT = 0.2;
const PICTURE_AT = 0.8;

/** The region in which something can be written: within the edge and a little off it. */
function roomOn(drawing: Drawing, template: Template): Region {
  const outline = outlineOf({ ...template, drawing });
  return outline ? erode(regionOf(pathsOf(asOutline(outline)), CHORD), 1) : [];
}

/** The guide and its bit at true size, with the smallest corner that the guide enters, where there is room for them. */
export function withCutter(drawing: Drawing, template: Template, { cutter, leastCorner }: Guidance, say: Say): Drawing {
  if (!cutter) return drawing;
  const radius = Math.max(cutter.guide, cutter.bit) / 2;
  const lines = [`${cutter.by} Ø ${say(cutter.guide)}, bit Ø ${say(cutter.bit)}`, `smallest corner R ${say(leastCorner)}`];
  const width = Math.max(2 * radius, ...lines.map((line) => textWidth(line, SMALL)));
  const words = SMALL * (1 + LEADING) + 1.5;
  const at = findPlace(roomOn(drawing, template), sidesOf(drawing), width, 2 * radius + words, PICTURE_AT);
  if (!at) return drawing;
  const middle = vec(at.x + width / 2, at.y + words + radius);
  const ring = (id: string, diameter: number, name: string): Shape => ({
    id,
    role: "mark",
    line: "narrow",
    path: circle(middle, diameter / 2),
    name,
    says: [{ label: "diameter", value: diameter, quantity: "length" }],
  });
  return {
    ...drawing,
    layers: [
      ...drawing.layers,
      {
        name: "cutter",
        shapes: [
          ring("cutter-guide", cutter.guide, cutter.by === "bush" ? "guide bush at true size" : "bearing at true size"),
          ...(cutter.guide === cutter.bit ? [] : [ring("cutter-bit", cutter.bit, "bit at true size")]),
        ],
        texts: lines.map((text, i): Text => ({
          id: `cutter-words-${i + 1}`,
          at: vec(middle.x, at.y + words - 1.2 - SMALL * (1 + i * LEADING)),
          text,
          height: SMALL,
          align: "middle",
        })),
      },
    ],
  };
}

/** The lines of lettering where there is most room, as large as goes in; the same drawing where nothing does. */
export function lettered(drawing: Drawing, template: Template, lines: readonly string[]): Drawing {
  const room = roomOn(drawing, template);
  const sides = sidesOf(drawing);
  for (const height of [SCRATCHED, 2.5, SMALL]) {
    const width = Math.max(...lines.map((line) => textWidth(line, height)));
    const high = height * (1 + (lines.length - 1) * LEADING);
    const level = findPlace(room, sides, width, high + height, WORDS_AT);
    const upright = level ? undefined : findPlace(room, sides, high + height, width, WORDS_AT);
    if (!level && !upright) continue;
    const texts = lines.map((text, i): Text => {
      const down = height * (1 + i * LEADING);
      const common = { id: `lettering-${i + 1}`, text, height, align: "start" as const };
      return level
        ? { ...common, at: vec(level.x, level.y + high + height / 2 - down) }
        : { ...common, at: vec(upright!.x + down - height / 2, upright!.y), angle: Math.PI / 2 };
    });
    return { ...drawing, layers: [...drawing.layers, { name: "lettering", shapes: [], texts }] };
  }
  return drawing;
}
