/** Which dimensions find room on whole boards, by letters of 8.06 px, a monospaced face of 13 px. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { newDesign } from "../../../src/document/new-design.ts";
import { readDesign } from "../../../src/document/read.ts";
import type { Dimension, Drawing } from "../../../src/drawing/drawing.ts";
import { createDeriver } from "../../../src/parts/derive.ts";
import type { LengthStyle } from "../../../src/units/format.ts";
import { layOut, type Measure } from "../../../src/ui/board/dimension-layout.ts";
import { fitDrawing } from "../../../src/ui/board/fit-drawing.ts";
import type { Room } from "../../../src/ui/board/label-box.ts";
import { indexShapes } from "../../../src/ui/board/shape-index.ts";
import { dimensionText } from "../../../src/ui/board/words.ts";

const measureIn =
  (style: LengthStyle): Measure =>
  (dimension, brief) => {
    const text = dimensionText(dimension, brief ? { ...style, fractions: false } : style);
    const field = dimension.edits !== undefined;
    return { text, width: Math.ceil(text.length * 8.06) + (field ? 16 : 8), height: field ? 24 : 18 };
  };

function shown(drawing: Drawing, size: { readonly width: number; readonly height: number }, room: Room, style: LengthStyle) {
  const nothing = () => ({ stops: [], words: [] });
  const measure = measureIn(style);
  const bounds = drawing.focus ?? indexShapes(drawing).bounds;
  const camera = fitDrawing(bounds, drawing.dimensions, size, room, measure, nothing);
  return layOut(drawing.dimensions, { camera, ...size }, room, measure, nothing());
}

const DECIMALS: LengthStyle = { unit: "in", fractions: false };
const FRACTIONS: LengthStyle = { unit: "in", fractions: true };

describe("the board of the shared numbers", () => {
  it.each([
    ["in a window of 1024 by 640", 1024, 240],
    ["on a phone that lies", 844, 224],
    ["on a tablet that stands", 820, 216],
    ["in a window of 1440 by 900", 1440, 300],
  ])("%s shows every main number", (_where, width, height) => {
    const drawing = createDeriver()(newDesign("steel-string")).instrument.drawing();
    const room = { left: 28, top: 28, right: width - 4, bottom: height - 52 };
    const ids = shown(drawing, { width, height }, room, DECIMALS).map(({ dimension }) => dimension.id);
    expect(ids.toSorted()).toEqual(["join", "nut-spread", "nut-width", "saddle-spread", "scale"]);
  });
});

describe("boards in fractions of an inch", () => {
  const folder = new URL("../../../examples/", import.meta.url);
  const drawings = readdirSync(folder).flatMap((name) => {
    const read = readDesign(readFileSync(new URL(name, folder), "utf8"));
    if (!read.ok) throw new Error(read.message);
    return createDeriver()(read.design).parts.map((part) => part.drawing());
  });

  it.each([
    ["in a window of 1440 by 900", { width: 884, height: 600 }, { left: 28, top: 134, right: 880, bottom: 484 }],
    ["on a tablet that stands", { width: 820, height: 512 }, { left: 28, top: 28, right: 816, bottom: 460 }],
  ])("%s show nearly what boards in decimals do, some of it in decimals", (_where, size, room) => {
    const all = drawings.flatMap(({ dimensions }) => dimensions);
    const lost = (style: LengthStyle): readonly Dimension[] => {
      const there = new Set(drawings.flatMap((drawing) => shown(drawing, size, room, style).map(({ dimension }) => dimension)));
      return all.filter((dimension) => !there.has(dimension));
    };
    expect(lost(FRACTIONS).length).toBeLessThanOrEqual(lost(DECIMALS).length + 0.01 * all.length);
  });
});
