// @vitest-environment jsdom
import { act } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { KonvaStage, Painted } from "../../../src/ui/board/konva-stage.tsx";
import { stubPage } from "./stub-page.ts";

let root: Root;
let paints: string[];
beforeEach(() => {
  stubPage(400, 300);
  paints = [];
  root = createRoot(document.createElement("div"));
});
afterEach(async () => {
  await act(async () => root.unmount());
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

const paintOf = (name: string) => (canvas: CanvasRenderingContext2D) => paints.push(`${name} ${canvas.canvas.width}`);

async function show(name: string, width: number, ratio = 1, height = width): Promise<void> {
  await act(async () =>
    root.render(
      <KonvaStage width={width} height={height} ratio={ratio}>
        <Painted paint={paintOf(`${name} below`)} />
        <Painted paint={paintOf(`${name} above`)} />
      </KonvaStage>,
    ),
  );
}
/** What was painted since the last call: at once, and with the frames after it. */
async function painted(): Promise<{ atOnce: string[]; later: string[] }> {
  const atOnce = paints.splice(0);
  await new Promise((resolve) => setTimeout(resolve, 100));
  return { atOnce, later: paints.splice(0) };
}

describe("the board's stage", () => {
  it("paints every layer once at its true size when it is new", async () => {
    await show("first", 400, 2);
    expect(await painted()).toEqual({ atOnce: ["first below 800", "first above 800"], later: [] });
  });

  it("paints every layer once, at once, when it is of another size or ratio", async () => {
    await show("first", 400);
    await painted();
    await show("wider", 500);
    expect(await painted()).toEqual({ atOnce: ["wider below 500", "wider above 500"], later: [] });
    await show("sharper", 500, 2);
    expect(await painted()).toEqual({ atOnce: ["sharper below 1000", "sharper above 1000"], later: [] });
  });

  it("paints with the next frame what has changed otherwise", async () => {
    await show("first", 400);
    await painted();
    await show("second", 400);
    await show("third", 400);
    expect(await painted()).toEqual({ atOnce: [], later: ["third below 400", "third above 400"] });
  });
});
