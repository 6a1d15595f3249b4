/** What a maker does about outlines in a real browser: files that are none, points by finger and by pen, the dividers. */
import { mkdtemp, rm, truncate, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Resvg } from "@resvg/resvg-js";
import type { Browser, CDPSession, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { nearestOnPath } from "../../src/geometry/nearest.ts";
import { vec, type Vec } from "../../src/geometry/vec.ts";
import { openChromium } from "./chromium.ts";
import { goTo, openFile } from "./visit.ts";
import { add, choose, onBoard, outlineOf, parts, saved, type } from "./part-visit.ts";

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

describe("a file that is no photograph or no drawing", () => {
  it("is refused in words, nothing is lost and nothing is asked of any other place", async () => {
    const { page, complaints, strangers, close } = await parts(browser);
    await add(page, "Free shape");
    const before = (await saved(page)).text;
    const refused = async (says: RegExp): Promise<void> => {
      await page.getByText(says).first().waitFor();
      await page.getByRole("button", { name: "Close this note" }).first().click();
      expect((await saved(page)).text).toBe(before);
    };

    await page.getByRole("button", { name: "Photograph" }).click();
    const huge = await file("huge.png", new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]));
    await truncate(huge, 200 * 1024 * 1024);
    await choose(page, "Choose a photograph", huge);
    await refused(/huge\.png was not laid under the board: the file is larger than 64 MB/);
    await choose(page, "Choose a photograph", await file("nothing.jpg", ""));
    await refused(/nothing\.jpg .*: the file is empty/);
    // A PNG whose header says 0 by 0, by the format's own layout.
    const head = [
      0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 0x49, 0x48, 0x44, 0x52, 0, 0, 0, 0, 0, 0, 0, 0, 8, 6, 0, 0, 0,
    ];
    await choose(page, "Choose a photograph", await file("zero.png", new Uint8Array(head)));
    await refused(/zero\.png .*: the picture has no pixels/);
    const whole = new Resvg('<svg xmlns="http://www.w3.org/2000/svg" width="60" height="40"><rect width="60" height="40"/></svg>')
      .render()
      .asPng();
    await choose(page, "Choose a photograph", await file("cut.png", whole.subarray(0, 60)));
    await refused(/cut\.png .*: the picture is damaged or cut off/);
    await choose(page, "Choose a photograph", await file("text.png", "no picture at all"));
    await refused(/text\.png .*: the file is no photograph/);
    await page.getByRole("button", { name: "Close", exact: true }).first().click();

    await page
      .getByRole("button", { name: "An SVG file", exact: true })
      .or(page.getByRole("radio", { name: "An SVG file" }))
      .first()
      .click();
    const asked = (await saved(page)).text;
    const svgRefused = async (says: RegExp): Promise<void> => {
      await page.getByText(says).first().waitFor();
      await page.getByRole("button", { name: "Close this note" }).first().click();
      expect((await saved(page)).text).toBe(asked);
    };
    await choose(page, "Choose an SVG file", await file("picture.svg", whole));
    await svgRefused(/picture\.svg was not taken in: this is no SVG file/);
    await choose(
      page,
      "Choose an SVG file",
      await file(
        "outside.svg",
        '<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY x SYSTEM "http://127.0.0.1:9/secret">]><svg xmlns="http://www.w3.org/2000/svg"><text>&x;</text></svg>',
      ),
    );
    await svgRefused(/outside\.svg was not taken in: .*entities/);
    const large = await file("large.svg", "<svg>");
    await truncate(large, 200 * 1024 * 1024);
    await choose(page, "Choose an SVG file", large);
    await svgRefused(/large\.svg was not taken in: the file is too large/);
    expect(complaints).toEqual([]);
    expect(strangers).toEqual([]);
    await close();
  }, 180_000);

  it("is turned as its camera notes", async () => {
    const { page, close } = await parts(browser);
    await add(page, "Free shape");
    const plain = Buffer.from(
      await page.evaluate(async () => {
        const canvas = new OffscreenCanvas(320, 200);
        canvas.getContext("2d")!.fillRect(0, 0, 50, 50);
        const blob = await canvas.convertToBlob({ type: "image/jpeg" });
        return [...new Uint8Array(await blob.arrayBuffer())];
      }),
    );
    // Exif 2.32, 4.6: one entry, tag 0x0112 (orientation), SHORT, 6: the camera was held upright.
    const exif = Buffer.from([
      0xff,
      0xe1,
      0,
      34,
      ...Buffer.from("Exif\0\0MM\0*\0\0\0\b\0\u0001\u0001\u0012\0\u0003\0\0\0\u0001\0\u0006\0\0\0\0\0\0"),
    ]);
    const turned = Buffer.concat([plain.subarray(0, 2), exif, plain.subarray(2)]);
    await page.getByRole("button", { name: "Photograph" }).click();
    await choose(page, "Choose a photograph", await file("upright.jpg", turned));
    await page.getByText("200 × 320 pixels").waitFor();
    await close();
  });
});

describe("a point of an outline", () => {
  /** Where a chosen point stands, as the board says it. */
  const place = async (page: Page): Promise<string> => (await page.locator(".points-bar output").textContent()) ?? "";

  it.each(["touch", "pen"] as const)("is moved by %s", async (way) => {
    const { page, complaints, close } = await parts(
      browser,
      way === "touch" ? { hasTouch: true, viewport: { width: 1024, height: 768 } } : { viewport: { width: 1440, height: 900 } },
    );
    await add(page, "Free shape");
    await onBoard(page);
    await page.keyboard.press(".");
    const before = await place(page);
    expect(before).toMatch(/^Point 1 of \d+/);
    const at = await pointOnPage(page);
    const cdp = await page.context().newCDPSession(page);
    await (way === "touch" ? dragByTouch : dragByPen)(cdp, at, vec(at.x + 40, at.y - 30));
    await expect.poll(() => place(page)).not.toBe(before);
    const { design } = await saved(page);
    expect(Array.isArray(design.parts["shape"]!["outline"])).toBe(true);
    await page.keyboard.press("Control+z");
    await expect.poll(async () => (await saved(page)).design.parts["shape"]!["outline"]).toBeUndefined();
    expect(complaints).toEqual([]);
    await close();
  });

  it("is dragged among 400 others, and nothing but it has moved", async () => {
    const { page, complaints, close } = await parts(browser);
    const outline = Array.from({ length: 400 }, (_, i) => {
      const turn = (i * Math.PI) / 200;
      const radius = 120 + 3 * Math.sin(9 * turn);
      return {
        x: Number((radius * Math.cos(turn)).toFixed(2)) + 0,
        y: Number((0.6 * radius * Math.sin(turn)).toFixed(2)) + 0,
        kind: "fair",
        side: "curve",
      };
    });
    const many = {
      format: "gramil-design",
      version: 1,
      units: "mm",
      instrument: {},
      parts: { shape: { kind: "shape", mirrored: false, outline } },
    };
    const path = await file("many.json", JSON.stringify(many, undefined, 2));
    await openFile(page, path);
    await page.getByText("many.json is open").waitFor();
    await goTo(page, "parts/shape");
    await onBoard(page);
    await page.keyboard.press(".");
    await expect.poll(() => place(page)).toMatch(/^Point 1 of 400/);
    const at = await pointOnPage(page);
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    await page.mouse.move(at.x - 20, at.y + 11, { steps: 5 });
    await page.mouse.up();
    await expect.poll(() => place(page)).not.toMatch(/x 120 mm/);
    const { design } = await saved(page);
    const moved = design.parts["shape"]!["outline"] as typeof outline;
    expect(moved.slice(1)).toEqual(outline.slice(1));
    expect(moved[0]!.x).toBeLessThan(119);
    await page.keyboard.press("Control+z");
    await expect.poll(async () => (await saved(page)).design.parts["shape"]!["outline"]).toEqual(outline);
    expect(complaints).toEqual([]);
    await close();
  });

  it("that follows a starting shape is taken over with the others by one press, and back by one step of undo", async () => {
    const { page, close } = await parts(browser);
    await add(page, "Free shape");
    const before = await saved(page);
    await page.getByRole("button", { name: "Set the points by hand" }).click();
    const after = await saved(page);
    expect((after.design.parts["shape"]!["outline"] as unknown[]).length).toBeGreaterThan(2);
    const [old, now] = [outlineOf(before.design, "shape"), outlineOf(after.design, "shape")];
    for (const { to } of old.segments) expect(nearestOnPath(now, to).distance).toBeLessThan(1e-3);
    await page.getByRole("button", { name: /^Undo/ }).click();
    expect((await saved(page)).text).toBe(before.text);
    await close();
  });

  it("is measured by the dividers, which keep what they found", async () => {
    const { page, complaints, close } = await parts(browser);
    await add(page, "Headstock");
    await page.getByRole("button", { name: "Dividers" }).click();
    for (const [leg, x, y] of [
      [1, 0, 0],
      [2, 30, 40],
    ] as const) {
      await type(page, `x of leg ${leg}`, `${x} mm`);
      await type(page, `y of leg ${leg}`, `${y} mm`);
    }
    await page.locator(".dividers-found strong").getByText("50 mm", { exact: true }).waitFor();
    // The shortest way between two holes of 10, 40 apart along the head.
    for (const [list, name] of [
      ["One line", "hole of string 5"],
      ["The other line", "hole of string 6"],
    ] as const) {
      await page.getByRole("combobox", { name: list }).click();
      await page.getByRole("option", { name, exact: true }).click();
    }
    await page.locator(".dividers-found strong").getByText("30 mm", { exact: true }).waitFor();
    await page.getByRole("button", { name: "Keep as a dimension" }).click();
    expect((await saved(page)).design.boards!["headstock"]!.spans).toEqual([{ between: ["tuner-5", "tuner-6"] }]);
    // It follows the drawing.
    await type(page, "Tuners apart", "45");
    await page.locator(".dividers-kept").getByText("35 mm").waitFor();
    expect(complaints).toEqual([]);
    await close();
  });
});

/** Where the chosen point stands on the page: the pen's colour about it is looked for on the board's canvas. */
async function pointOnPage(page: Page): Promise<Vec> {
  let at: Vec | undefined;
  // Until the board stands still.
  const stands = async (): Promise<boolean> => {
    const before = at;
    at = await pointSeen(page);
    return at !== undefined && at.x === before?.x && at.y === before.y;
  };
  await expect.poll(stands, { interval: 200 }).toBe(true);
  return at!;
}

async function pointSeen(page: Page): Promise<Vec | undefined> {
  const box = (await page.locator(".board-surface").boundingBox())!;
  const clip = { x: Math.ceil(box.x), y: Math.ceil(box.y), width: Math.floor(box.width), height: Math.floor(box.height) };
  const png = await page.screenshot({ clip });
  const found = await page.evaluate(
    async ({ data, width, height }) => {
      const picture = await createImageBitmap(
        new Blob([Uint8Array.from(atob(data), (c) => c.charCodeAt(0))], { type: "image/png" }),
      );
      const canvas = new OffscreenCanvas(width, height);
      const context = canvas.getContext("2d")!;
      context.drawImage(picture, 0, 0);
      const { data: pixels } = context.getImageData(0, 0, width, height);
      // A square of 7 px that is all pen, #1f4b6e, is a chosen point: its others are hollow.
      const isPen = (x: number, y: number): boolean => {
        const i = 4 * (y * width + x);
        return Math.abs(pixels[i]! - 0x1f) < 12 && Math.abs(pixels[i + 1]! - 0x4b) < 12 && Math.abs(pixels[i + 2]! - 0x6e) < 12;
      };
      for (let y = 40; y < height - 140; y++)
        for (let x = 40; x < width - 8; x++) {
          let whole = true;
          for (let k = 0; k < 49 && whole; k++) whole = isPen(x + (k % 7), y + Math.floor(k / 7));
          if (whole) return { x: x + 3, y: y + 3 };
        }
      return undefined;
    },
    { data: png.toString("base64"), width: clip.width, height: clip.height },
  );
  return found && vec(clip.x + found.x, clip.y + found.y);
}

async function dragByTouch(cdp: CDPSession, from: Vec, to: Vec): Promise<void> {
  const steps = 6;
  await cdp.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: [from] });
  for (let i = 1; i <= steps; i++)
    await cdp.send("Input.dispatchTouchEvent", {
      type: "touchMove",
      touchPoints: [{ x: from.x + ((to.x - from.x) * i) / steps, y: from.y + ((to.y - from.y) * i) / steps }],
    });
  await cdp.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
}

async function dragByPen(cdp: CDPSession, from: Vec, to: Vec): Promise<void> {
  const send = (kind: "mousePressed" | "mouseMoved" | "mouseReleased", at: Vec): Promise<unknown> =>
    cdp.send("Input.dispatchMouseEvent", {
      type: kind,
      x: at.x,
      y: at.y,
      button: "left",
      buttons: kind === "mouseReleased" ? 0 : 1,
      clickCount: 1,
      pointerType: "pen",
    });
  await send("mousePressed", from);
  for (let i = 1; i <= 6; i++)
    await send("mouseMoved", vec(from.x + ((to.x - from.x) * i) / 6, from.y + ((to.y - from.y) * i) / 6));
  await send("mouseReleased", to);
}
