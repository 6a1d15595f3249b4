import { describe, expect, it } from "vitest";
import type { Drawing } from "../../../src/drawing/drawing.ts";
import { rectangle } from "../../../src/geometry/path.ts";
import { vec } from "../../../src/geometry/vec.ts";
import type { Colours } from "../../../src/ui/board/colours.ts";
import { indexShapes } from "../../../src/ui/board/shape-index.ts";
import { obstaclesOf } from "../../../src/ui/board/obstacles.ts";
import type { View } from "../../../src/ui/board/viewport.ts";

/** 2 px a mm, (0, 0) in the middle of the room: where that stands is taken from the view itself. */
const view: View = { camera: { centre: vec(0, 0), pxPerMm: 2 }, width: 400, height: 300 };
const shape = { role: "mark", line: "visible", name: "" } as const;
const drawing: Drawing = {
  layers: [
    {
      name: "stops",
      shapes: [
        { ...shape, id: "sign", path: rectangle(-10, -10, 10, 10), tint: "stop" },
        { ...shape, id: "edge", path: rectangle(-90, -90, 90, 90), tint: "wood" },
      ],
      texts: [
        { id: "words", at: vec(20, 0), text: "STOP", height: 10, align: "start", loud: true },
        { id: "upright", at: vec(0, 40), text: "STOP", height: 10, align: "middle", loud: true, angle: Math.PI / 2 },
        { id: "title", at: vec(0, 0), text: "From the side", height: 10, align: "start" },
        // In type of 2 mm x 2 px a mm / 0.67 = 6 px: not painted.
        { id: "small", at: vec(0, 0), text: "12", height: 2, align: "start" },
      ],
    },
  ],
  dimensions: [],
};

describe("what no dimension may hide", () => {
  const texts = drawing.layers[0]!.texts!;
  // Every character 5 px wide, so "STOP" is 20 px.
  const found = obstaclesOf(indexShapes(drawing), texts, view, { words: "x" } as Colours, (t) => 5 * t.length);
  const [sign, words, upright, ...more] = found.stops;

  it("is the box of every sign and of every loud text, and apart from them of the other words that can be read", () => {
    expect(more).toEqual([]);
    expect(found.words.map(({ width }) => width)).toEqual([5 * "From the side".length]);
    expect([sign!.width, sign!.height]).toEqual([40, 40]);
  });

  it("has words from their foot to the top of a capital, whichever way they are set: by hand at 2 px a mm", () => {
    // From 20 mm: 40 px and half of 20 px to the right of the sign's middle, half a capital of 20 px up.
    expect([words!.width, words!.height]).toEqual([20, 20]);
    expect(words!.centre.x - sign!.centre.x).toBeCloseTo(50, 9);
    expect(words!.centre.y - sign!.centre.y).toBeCloseTo(-10, 9);
    // Turned by a quarter to the left, up is to the left.
    expect(upright!.centre.x - sign!.centre.x).toBeCloseTo(-10, 9);
    expect(upright!.centre.y - sign!.centre.y).toBeCloseTo(-80, 9);
  });
});
