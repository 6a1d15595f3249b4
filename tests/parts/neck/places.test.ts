/** Every finding of a neck stands where it is drawn: its shape is there, and its place lies on it. */
import { describe, expect, it } from "vitest";
import { growBounds } from "../../../src/geometry/bounds.ts";
import { pathBounds } from "../../../src/geometry/measure.ts";
import { shapeOf, shapesOf } from "../derived-board.ts";
import { deriveNeck, type Given } from "./derived-neck.ts";

const NECKS: Readonly<Record<string, Given>> = {
  "a usual one": {},
  "left-handed": { instrument: { handed: "left" } },
  "two scales": { instrument: { bassScale: "700", scale: "650" } },
  "joined at fret 7": { instrument: { joinFret: 7 } },
  "deep channels": {
    neck: {
      rodDepth: "14",
      pocketDepth: "16",
      bars: [
        { offset: "17", depth: "9" },
        { offset: "-17", depth: "9" },
      ],
    },
  },
  "the rod at the body": { neck: { rod: "body", rodLength: "420" } },
  "a shallow heel": { neck: { heelDepth: "12", heelCapWidth: "8", heelLength: "14" } },
  "a dovetail that is too narrow": { neck: { joint: "dovetail", tenonWidth: "9", bit: "10" } },
  "large inserts": { neck: { joint: "butt", bolts: 2, insertDiameter: "30", boltSpacing: "20" } },
  "a steep pitch": { neck: { pitch: "5", topRadius: "2000", bodyLength: "490" } },
  "a low bridge": { neck: { pitch: "-2.5", bridgeThickness: "16" } },
  "a thin head and a long bend": { neck: { headThickness: "9", bend: "120", scarf: "head", blankThickness: "8" } },
  "a scarf under the board": { neck: { scarf: "board", headTilt: "30", headThickness: "6" } },
  "depths the wrong way round": { neck: { firstDepth: "24", secondDepth: "20" } },
};

describe("the places of a neck's findings", () => {
  it.each(Object.entries(NECKS))("lie on the shapes that they name: %s", (_, given) => {
    const { part } = deriveNeck(given);
    const drawing = part.drawing();
    const drawn = new Set(shapesOf(drawing).map(({ id }) => id));
    for (const { id, at, shape, measured = 0 } of part.findings()) {
      if (shape === undefined) continue;
      expect(drawn, `${id}: ${shape}`).toContain(shape);
      if (!at) continue;
      // A wall is shown in its middle, beside its channel.
      const box = growBounds(pathBounds(shapeOf(drawing, shape).path), 1 + (id.startsWith("wood-") ? measured / 2 : 0));
      expect(
        at.x >= box.minX && at.x <= box.maxX && at.y >= box.minY && at.y <= box.maxY,
        `${id} at ${JSON.stringify(at)} on ${shape} ${JSON.stringify(box)}`,
      ).toBe(true);
    }
  });
});
