/**
 * Outlines drawn in a real browser: a headstock from a blank by keys and numbers alone, a bridge traced from a photograph that was taken
 * aslant, both measured against the truth and exported; the command line writes the same bytes from the saved design.
 */
import { execFileSync } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { Resvg } from "@resvg/resvg-js";
import { unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { pathArea } from "../../src/geometry/measure.ts";
import { nearestOnPath } from "../../src/geometry/nearest.ts";
import { vec, type Vec } from "../../src/geometry/vec.ts";
import { pinhole, seeded } from "../geometry/pinhole.ts";
import { openChromium } from "./chromium.ts";
import { add, choose, derived, onBoard, outlineOf, parts, saved, type } from "./part-visit.ts";
import { goTo, savedBy } from "./visit.ts";

const root = resolve(import.meta.dirname, "../..");
let browser: Browser;
let dir: string;
beforeAll(async () => {
  browser = await openChromium();
  dir = await mkdtemp(join(tmpdir(), "gramil-outline-"));
});
afterAll(async () => {
  await browser.close();
  await rm(dir, { recursive: true });
});

const file = async (name: string, bytes: Uint8Array | string): Promise<string> => {
  const path = join(dir, name);
  await writeFile(path, bytes);
  return path;
};

/** px of the page to mm of the outline's own axes, found by two presses of the tracing tool. */
async function calibrated(page: Page): Promise<(at: Vec) => Vec> {
  const box = (await page.locator(".board-surface").boundingBox())!;
  const read = async (x: number, y: number): Promise<Vec> => {
    await page.mouse.click(x, y);
    const said = await page.getByLabel("Last place").textContent();
    const [, at, up] = /x (-?[\d.]+) mm, y (-?[\d.]+) mm/.exec(said!)!;
    return vec(Number(at), Number(up));
  };
  const [a, b] = [
    vec(Math.round(box.x + 60), Math.round(box.y + 120)),
    vec(Math.round(box.x + box.width - 80), Math.round(box.y + box.height - 160)),
  ];
  const [p, q] = [await read(a.x, a.y), await read(b.x, b.y)];
  for (let i = 0; i < 2; i++) await page.getByRole("button", { name: "Last one off" }).click();
  const k = { x: (q.x - p.x) / (b.x - a.x), y: (q.y - p.y) / (b.y - a.y) };
  expect(k.x / -k.y).toBeCloseTo(1, 3);
  return (at) => vec(p.x + (at.x - a.x) * k.x, p.y + (at.y - a.y) * k.y);
}

/** What the page saves of a part is what the command line writes from the saved design. */
async function sameAsCommandLine(page: Page, text: string, part: string, among: readonly string[]): Promise<void> {
  await goTo(page, "sheets");
  await page.getByRole("heading", { name: /^\d+ sheets? of/ }).waitFor();
  const archive = await savedBy(page, () => page.getByRole("button", { name: "All in one archive" }).click());
  const files = unzipSync(archive.bytes);
  const designPath = await file(`${part}.json`, text);
  const out = join(dir, `out-${part}`);
  const program = [resolve(root, "node_modules/tsx/dist/cli.mjs"), resolve(root, "src/cli/main.ts")];
  execFileSync(process.execPath, [...program, "templates", designPath, "--out", out, "--format", "svg"], { cwd: root });
  const own = Object.keys(files).filter((name) => name.startsWith(`${part}-`) && name.endsWith(".svg"));
  for (const name of among) expect(own).toContain(name);
  for (const name of own) expect(Buffer.from(files[name]!).equals(await readFile(join(out, name))), name).toBe(true);
}

describe("a headstock", () => {
  it("is drawn from a blank by keys and typed numbers alone, is what was meant, and is undone step by step", async () => {
    const { page, complaints, strangers, close } = await parts(browser);
    await add(page, "Headstock");
    const blank = await saved(page);

    await page.getByRole("button", { name: "Trace" }).click();
    // Half of the head, from the nut's back (x = 0) to the middle of its top.
    const half = [vec(-10, 22), vec(-40, 36), vec(-180, 40), vec(-190, 0)];
    for (const { x, y } of half) {
      await type(page, "x", `${x} mm`);
      await type(page, "y", `${y} mm`);
      await page.getByRole("button", { name: "Put it" }).click();
    }
    await page.getByRole("button", { name: "Make it the outline" }).click();
    await onBoard(page);
    // Point 2 and point 3 become corners with a straight side between them, rounded by 6 and clipped by 5.
    await page.keyboard.press(".");
    await page.keyboard.press(".");
    await page.keyboard.press("c");
    await page.getByRole("toolbar").getByRole("button", { name: "Side", exact: true }).click();
    await page.getByRole("menuitem", { name: "Straight" }).click();
    await onBoard(page);
    await page.keyboard.press(".");
    await page.keyboard.press("c");
    const card = (n: number) => page.locator(".recs-card").nth(n - 1);
    for (const [n, text] of [
      [2, "6 mm"],
      [3, "5 mm"],
    ] as const) {
      const field = card(n).locator("input").nth(2);
      await field.fill(text);
      await field.press("Enter");
    }
    await card(3)
      .getByRole("button", { name: "Clipped" })
      .or(card(3).getByRole("radio", { name: "Clipped" }))
      .first()
      .click();
    // Arrow keys: 1 mm, and 10 with Shift.
    await onBoard(page);
    await page.keyboard.press("Shift+ArrowLeft");
    await page.keyboard.press("ArrowUp");

    const { design } = await saved(page);
    expect(derived(design, "headstock").problems).toEqual([]);
    const drawn = outlineOf(design, "headstock");
    const nut = -5.5;
    const points = design.parts["headstock"]!["outline"] as readonly Record<string, unknown>[];
    expect(points.map(({ x, y }) => [x, y])).toEqual([
      [-10, 22],
      [-40, 36],
      [-190, 41],
      [-190, 0],
    ]);
    // The straight side between the corners, and its image.
    for (const t of [0.2, 0.5, 0.8])
      for (const side of [1, -1])
        expect(nearestOnPath(drawn, vec(nut - 40 - 150 * t, side * (36 + 5 * t))).distance).toBeLessThan(1e-6);
    // Clipped: 5 mm before the corner the side ends.
    const long = Math.hypot(150, 5);
    const end = vec(nut - 190 + (5 * 150) / long, 41 - (5 * 5) / long);
    expect(nearestOnPath(drawn, end).distance).toBeLessThan(1e-6);
    expect(drawn.segments.some(({ to }) => Math.hypot(to.x - end.x, to.y - end.y) < 1e-6)).toBe(true);
    const arcs = drawn.segments.filter((segment) => segment.kind === "arc");
    expect(arcs.some((arc) => Math.abs(Math.hypot(arc.to.x - arc.centre.x, arc.to.y - arc.centre.y) - 6) < 1e-6)).toBe(true);

    // Every step taken back, the design is what it was; done again, it is what it became.
    const undo = page.getByRole("button", { name: /^Undo/ });
    let steps = 0;
    for (; steps < 40; steps++) {
      if ((await saved(page)).text === blank.text) break;
      await undo.click();
    }
    expect(steps).toBeGreaterThan(5);
    expect((await saved(page)).text).toBe(blank.text);
    for (let i = 0; i < steps; i++) await page.keyboard.press("Control+Shift+z");
    const again = await saved(page);
    expect(again.design).toEqual(design);
    await sameAsCommandLine(page, again.text, "headstock", ["headstock-outline.svg"]);
    expect(complaints).toEqual([]);
    expect(strangers).toEqual([]);
    await close();
  });
});

// ---------------------------------------------------------------------------------------------------------------- from a photograph

/** The bridge that was photographed, in mm about its middle: u along the strings, v across them. */
const truth = (t: number): Vec => vec(2 + 15 * Math.cos(t) - 2 * Math.cos(3 * t), 80 * Math.sin(t));
const TRUTH: readonly Vec[] = Array.from({ length: 720 }, (_, i) => truth((i * Math.PI) / 360));
/** By the trapezium rule over many places of the formula. */
const TRUE_AREA = Math.abs(
  TRUTH.reduce((sum, p, i) => sum + (p.x * TRUTH[(i + 1) % 720]!.y - TRUTH[(i + 1) % 720]!.x * p.y) / 2, 0),
);

const SIZE = { width: 4000, height: 3000 };
/** ISO 216: A4, lying across. */
const SHEET = [vec(-148.5, 105), vec(148.5, 105), vec(148.5, -105), vec(-148.5, -105)] as const;

/** A red bridge on a white sheet on a brown bench, from 25 degrees off square, as a PNG of 12 megapixels. */
function photograph(): { readonly png: Uint8Array; readonly look: (p: Vec) => Vec } {
  const look = pinhole((25 * Math.PI) / 180, 0.9, 430, 4100, SIZE);
  const shape = (points: readonly Vec[], fill: string): string =>
    `<path fill="${fill}" d="M${points.map((p) => `${look(p).x.toFixed(3)} ${look(p).y.toFixed(3)}`).join("L")}Z"/>`;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${SIZE.width}" height="${SIZE.height}"><rect width="100%" height="100%" fill="#7a6548"/>${shape(SHEET, "#f6f6f2")}${shape(TRUTH, "#c01010")}</svg>`;
  return { png: new Resvg(svg).render().asPng(), look };
}

/** Whether the pixels of a picture of the page are red. */
async function reds(page: Page, clip: { x: number; y: number; width: number; height: number }): Promise<(at: Vec) => boolean> {
  const png = await page.screenshot({ clip });
  const rows = await page.evaluate(
    async ({ data, width, height }) => {
      const picture = await createImageBitmap(
        new Blob([Uint8Array.from(atob(data), (c) => c.charCodeAt(0))], { type: "image/png" }),
      );
      const canvas = new OffscreenCanvas(width, height);
      const context = canvas.getContext("2d")!;
      context.drawImage(picture, 0, 0);
      const { data: pixels } = context.getImageData(0, 0, width, height);
      let bits = "";
      for (let i = 0; i < pixels.length; i += 4)
        bits += pixels[i]! > 140 && pixels[i + 1]! < 110 && pixels[i + 2]! < 110 ? "1" : "0";
      return bits;
    },
    { data: png.toString("base64"), width: clip.width, height: clip.height },
  );
  return ({ x, y }) => rows[Math.round(y - clip.y) * clip.width + Math.round(x - clip.x)] === "1";
}

describe("a bridge", () => {
  it("is traced from a photograph taken 25 degrees off square, agrees with the truth, and is exported as the command line does", async () => {
    const { png, look } = photograph();
    const path = await file("bridge.png", png);
    const { page, complaints, strangers, close } = await parts(browser, { viewport: { width: 2000, height: 1500 } });
    await add(page, "Bridge");
    const saddleX = (derived((await saved(page)).design, "bridge").measures as { saddleX: number }).saddleX;

    await page.getByRole("button", { name: "Photograph" }).click();
    await choose(page, "Choose a photograph", path);
    await page.getByText(/4000 × 3000 pixels, \d/).waitFor();
    await page.getByRole("button", { name: "Flatten by four corners" }).click();
    await page.getByText(/must lie in the plane of the outline/).waitFor();
    await page.getByRole("button", { name: "Check by a further length" }).click();
    // The corners are marked within a pixel, as a hand does.
    const random = seeded(7);
    const marks = [...SHEET, vec(-50, -95), vec(50, -95)].map((p) => {
      const { x, y } = look(p);
      return vec(x + random() * 2 - 1, y + random() * 2 - 1);
    });
    await type(page, "5 to 6", "100 mm");
    for (const [i, { x, y }] of marks.entries()) {
      await page
        .getByText(`Mark ${i + 1}`, { exact: true })
        .waitFor({ timeout: 2000 })
        .catch(() => undefined);
      await onBoard(page);
      while ((await page.locator(".tool-mark").textContent()) !== `Mark ${i + 1}`) await page.keyboard.press(".");
      await type(page, "x, pixels", x.toFixed(1));
      await type(page, "y, pixels", y.toFixed(1));
    }
    await page.getByText(/It comes out as .*: 0\.[0-4]\d % (short|long)\./).waitFor();
    await page.getByRole("button", { name: "Flatten it" }).click();
    await page.getByText(/Flattened by a rectangle of 297 mm by 210 mm\./).waitFor();
    // The sheet's first corner, so that the middle of the bridge lies on the saddle.
    await type(page, "x", `${(saddleX - 148.5).toFixed(2)} mm`);
    await type(page, "y", "105 mm");
    await page.getByText("The photograph is being read.").waitFor({ state: "detached" });
    await page.getByRole("button", { name: "Close", exact: true }).first().click();
    await page.getByRole("button", { name: "Trace" }).click();

    const toMm = await calibrated(page);
    const box = (await page.locator(".board-surface").boundingBox())!;
    const clip = { x: Math.ceil(box.x), y: Math.ceil(box.y), width: Math.floor(box.width), height: Math.floor(box.height) };
    await page.mouse.move(clip.x + 5, clip.y + 5);
    const red = await reds(page, clip);
    // The way back, from two places.
    const [o, e] = [toMm(vec(0, 0)), toMm(vec(1, 1))];
    const toPx = (p: Vec): Vec => vec((p.x - o.x) / (e.x - o.x), (p.y - o.y) / (e.y - o.y));
    const middle = toPx(vec(0, 0));
    // Along lines out from the middle, the outermost red pixel is on the edge; half of the bridge, from its front to its back.
    const pressed: Vec[] = [];
    for (let k = 0; k <= 16; k++) {
      const aim = toPx(truth(Math.PI * (1 - k / 16)));
      const long = Math.hypot(aim.x - middle.x, aim.y - middle.y);
      const way = vec((aim.x - middle.x) / long, (aim.y - middle.y) / long);
      let out = long + 30;
      // On the centre line its own line lies over the photograph: to both sides of it one sees past.
      const seen = (): boolean =>
        (k % 16 === 0 ? [-4, 4] : [0]).some((side) =>
          red(vec(middle.x + way.x * out - way.y * side, middle.y + way.y * out + way.x * side)),
        );
      while (out > 0 && !seen()) out -= 0.25;
      pressed.push(vec(Math.round(middle.x + way.x * (out + 0.5)), Math.round(middle.y + way.y * (out + 0.5))));
    }
    for (const { x, y } of pressed) await page.mouse.click(x, y);
    await page.getByRole("button", { name: "Make it the outline" }).click();
    await page.getByRole("toolbar").getByRole("button", { name: "Fair", exact: true }).click();
    await page.getByRole("menuitem", { name: /^Make fair within 0\.25 mm/ }).click();
    await page.getByText(/^Made fair; the greatest move is 0\.[0-2]\d* mm/).waitFor();

    const { design, text } = await saved(page);
    const drawn = outlineOf(design, "bridge");
    const misses = TRUTH.map((p) => nearestOnPath(drawn, vec(saddleX + p.x, p.y)).distance);
    // A pixel of the board is about 0.2 mm here.
    expect(Math.max(...misses)).toBeLessThan(0.4);
    expect(misses.reduce((sum, miss) => sum + miss, 0) / misses.length).toBeLessThan(0.15);
    expect(Math.abs(Math.abs(pathArea(drawn)) / TRUE_AREA - 1)).toBeLessThan(0.006);
    // Its size is told, and it stays on this computer.
    const kept = design.boards!["bridge"]!.photograph!;
    expect([kept.width, kept.height]).toEqual([4000, 3000]);
    expect(text.length).toBeLessThan(5_000_000);

    await sameAsCommandLine(page, text, "bridge", ["bridge-outline.svg", "bridge-locating.svg"]);

    // The page loaded anew has all of it, the photograph and the undo.
    await page.reload();
    await goTo(page, "parts/bridge");
    await expect.poll(async () => (await saved(page)).text).toBe(text);
    await page.keyboard.press("Control+z");
    expect((await saved(page)).design.boards!["bridge"]!.photograph!.data).toBe(kept.data);
    expect(complaints).toEqual([]);
    expect(strangers).toEqual([]);
    await close();
  }, 240_000);
});
