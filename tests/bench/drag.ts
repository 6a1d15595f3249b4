/**
 * Frame times of a drag in a real browser: one point of an outline of 400 points is dragged over a photograph of 12 megapixels. Run by
 * `npx vite build && npx tsx tests/bench/drag.ts`; prints milliseconds. Without a graphics card the browser paints with the processor, and
 * every pixel of the board costs: the share under 16.7 ms is then that of this machine, not of a maker's.
 */
import "../every-part.ts";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { cpus, tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { Resvg } from "@resvg/resvg-js";
import { preview } from "vite";
import type { Design } from "../../src/document/design.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { writeDesign } from "../../src/document/write.ts";
import { openChromium } from "../browser/chromium.ts";
import { goTo, visit } from "../browser/visit.ts";

const POINTS = 400;
const MOVES = 240;
const FRAME_MS = 16.7;
/**
 * Moves the pointer anew in every frame and gives the time between frames. As text, since the runner names inner functions by a helper
 * that the page does not have.
 */
const dragOn = (x: number, y: number): string => `new Promise((resolve) => {
  const times = [];
  let last = performance.now();
  const next = (now) => {
    if (times.push(now - last) > ${MOVES}) return resolve(times.slice(1));
    last = now;
    const i = times.length;
    const at = { clientX: ${x} + 60 * Math.sin(i / 15) - 30, clientY: ${y} + 40 * Math.cos(i / 12) };
    dispatchEvent(new PointerEvent("pointermove", { pointerId: 1, pointerType: "mouse", buttons: 1, ...at }));
    requestAnimationFrame(next);
  };
  requestAnimationFrame(next);
})`;
const root = resolve(import.meta.dirname, "../..");

/** A round outline with a small wave, so that every point counts. */
const outline = Array.from({ length: POINTS }, (_, i) => {
  const turn = (2 * Math.PI * i) / POINTS;
  const radius = 120 + 3 * Math.sin(9 * turn);
  return {
    x: Number((radius * Math.cos(turn)).toFixed(2)),
    y: Number((radius * 0.6 * Math.sin(turn)).toFixed(2)),
    kind: "fair",
    side: "curve",
  };
});
const design: Design = {
  ...newDesign("steel-string"),
  units: "mm",
  parts: { shape: { kind: "shape", mirrored: false, outline } },
};

/** Noise does not compress, and no two tiles of it are alike. */
function photograph(): Uint8Array {
  const spots = Array.from({ length: 4000 }, (_, i) => {
    const [x, y] = [(i * 977) % 4000, (i * 613) % 3000];
    return `<circle cx="${x}" cy="${y}" r="${20 + (i % 37)}" fill="hsl(${(i * 41) % 360} 40% ${30 + (i % 50)}%)"/>`;
  }).join("");
  return new Resvg(
    `<svg xmlns="http://www.w3.org/2000/svg" width="4000" height="3000"><rect width="4000" height="3000" fill="#876"/>${spots}</svg>`,
  )
    .render()
    .asPng();
}

const dir = await mkdtemp(join(tmpdir(), "gramil-drag-"));
const server = await preview({
  configFile: resolve(root, "vite.config.ts"),
  preview: { host: "127.0.0.1", port: 0 },
  logLevel: "warn",
});
const browser = await openChromium();
try {
  const { page } = await visit(browser, server.resolvedUrls!.local[0]!);
  await writeFile(join(dir, "drag.json"), writeDesign(design));
  await writeFile(join(dir, "photograph.png"), photograph());
  await goTo(page, "parts");
  const choose = async (open: () => Promise<void>, path: string): Promise<void> => {
    const [chooser] = await Promise.all([page.waitForEvent("filechooser"), open()]);
    await chooser.setFiles(path);
  };
  await page.locator(".board-surface").waitFor();
  await choose(() => page.keyboard.press("Control+o"), join(dir, "drag.json"));
  await page.getByText("drag.json is open").waitFor();
  await goTo(page, "parts/shape");
  await page.locator(".points-bar").waitFor();

  /** Drags the chosen point about; gives the time between frames. */
  async function drag(): Promise<number[]> {
    const surface = (await page.locator(".board-surface").boundingBox())!;
    await page.locator(".board-surface").focus();
    // Point 1 lies at the right end of the outline, on the centre line.
    await page.keyboard.press(".");
    await page.waitForTimeout(500);
    const at = await page.evaluate(() => {
      const canvases = [...document.querySelectorAll<HTMLCanvasElement>(".board-surface canvas")];
      const ratio = devicePixelRatio;
      // The chosen point is filled with the pen; on its canvas nothing else is.
      for (const canvas of canvases) {
        const { width, height } = canvas;
        const { data } = canvas.getContext("2d")!.getImageData(0, 0, width, height);
        for (let y = 3; y < height - 3; y++)
          for (let x = width - 4; x > 3; x--) {
            let whole = true;
            for (let k = 0; k < 25 && whole; k++) {
              const i = 4 * ((y - 2 + Math.floor(k / 5)) * width + x - 2 + (k % 5));
              whole = Math.abs(data[i]! - 0x1f) < 12 && Math.abs(data[i + 1]! - 0x4b) < 12 && data[i + 3]! > 240;
            }
            if (whole) return { x: x / ratio, y: y / ratio };
          }
      }
      return undefined;
    });
    if (!at) throw new Error("the chosen point is not seen");
    const [x, y] = [surface.x + at.x, surface.y + at.y];
    await page.mouse.move(x, y);
    await page.mouse.down();
    const times = await page.evaluate<number[]>(dragOn(x, y));
    await page.mouse.up();
    await page.keyboard.press("Control+z");
    return times.toSorted((a, b) => a - b);
  }

  const says = (times: readonly number[]): Record<string, string> => {
    const at = (share: number): string => times[Math.min(times.length - 1, Math.floor(share * times.length))]!.toFixed(1);
    const quick = times.filter((time) => time <= FRAME_MS + 0.5).length / times.length;
    return {
      frames: `${times.length}`,
      p50: at(0.5),
      p95: at(0.95),
      worst: times.at(-1)!.toFixed(1),
      "within 16.7 ms": `${(quick * 100).toFixed(0)} %`,
    };
  };

  const without = await drag();
  await page.getByRole("button", { name: "Photograph" }).click();
  await choose(() => page.getByRole("button", { name: "Choose a photograph" }).click(), join(dir, "photograph.png"));
  await page.getByText(/4000 × 3000 pixels/).waitFor();
  await page.waitForTimeout(3000);
  await page.getByRole("button", { name: "Close", exact: true }).first().click();
  const over = await drag();
  console.log(`Chromium ${browser.version()}, painting with the processor, ${cpus().length} cores of ${cpus()[0]?.model ?? "?"}`);
  console.table({
    [`drag of one of ${POINTS} points`]: says(without),
    "the same over a photograph of 12 megapixels": says(over),
  });
} finally {
  await browser.close();
  await server.close();
  await rm(dir, { recursive: true });
}
