/** A newcomer's first visit: five trade numbers typed, one true-size PDF saved, and the PDF measured by another library. */
import { execFileSync } from "node:child_process";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import type { Browser, Download, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { readPdf, type ReadPage } from "../export/read-pdf.ts";
import { openChromium } from "./chromium.ts";
import { drop } from "./follow-help.ts";
import { goTo } from "./visit.ts";

const root = resolve(import.meta.dirname, "../..");
let browser: Browser;
let dir: string;
beforeAll(async () => {
  browser = await openChromium();
  dir = await mkdtemp(join(tmpdir(), "gramil-first-"));
});
afterAll(async () => {
  await browser.close();
  await rm(dir, { recursive: true });
});

/** A fresh profile; files come as downloads, and a request to any other host is caught. */
async function visit(width = 1440, height = 900): Promise<{ page: Page; faults: string[] }> {
  const context = await browser.newContext({ viewport: { width, height }, acceptDownloads: true });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") faults.push(message.text());
  });
  page.on("request", (request) => {
    const { protocol, hostname } = new URL(request.url());
    if (protocol.startsWith("http") && hostname !== "127.0.0.1") faults.push(`asked ${hostname}`);
  });
  await page.addInitScript(() => {
    Reflect.deleteProperty(window, "showSaveFilePicker");
    Reflect.deleteProperty(window, "showOpenFilePicker");
  });
  await page.goto(inject("address"));
  return { page, faults };
}

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByRole("textbox", { name: label, exact: true }).first();
  await field.fill(text);
  await field.press("Enter");
}

async function saved(download: Download): Promise<Uint8Array> {
  const file = join(dir, download.suggestedFilename());
  await download.saveAs(file);
  return new Uint8Array(await readFile(file));
}

/** Lengths of the straight strokes of a page's templates, mm. */
const strokes = (page: ReadPage) =>
  page.pieces
    .filter((piece) => piece.points.length === 2)
    .map(({ points: [a, b], inForm }) => ({ a: a!, b: b!, inForm, length: Math.hypot(b!.x - a!.x, b!.y - a!.y) }));

describe("the first visit", () => {
  it("goes from trade numbers to a true-size fingerboard PDF in at most 12 interactions", async () => {
    const { page, faults } = await visit();
    let interactions = 0;
    const did = async (step: Promise<unknown>): Promise<void> => {
      interactions += 1;
      await step;
    };
    await did(
      page
        .getByRole("link", { name: /first fingerboard/i })
        .or(page.getByRole("button", { name: /first fingerboard/i }))
        .first()
        .click(),
    );
    await did(type(page, "Scale", "25.4"));
    await did(type(page, "Frets", "20"));
    await did(type(page, "Width at the nut", "1 11/16"));
    await did(type(page, "Width at the join", "56 mm"));
    await did(type(page, "Binding", "95 thou"));
    const coming = page.waitForEvent("download");
    await did(page.getByRole("button", { name: /Save the PDF/ }).click());
    const pdf = await readPdf(await saved(await coming));
    expect(interactions).toBeLessThanOrEqual(12);
    expect(faults).toEqual([]);

    expect(pdf.preferences).toMatchObject({ PrintScaling: "None" });
    // Every page carries its bars: one of 100 mm along either axis.
    for (const sheet of pdf.pages) {
      const bars = strokes(sheet).filter(({ inForm, length }) => !inForm && Math.abs(length - 100) < 0.01);
      expect(bars.some(({ a, b }) => Math.abs(a.y - b.y) < 1e-6)).toBe(true);
      expect(bars.some(({ a, b }) => Math.abs(a.x - b.x) < 1e-6)).toBe(true);
    }
    // Outline of the wood: 1 11/16 in less twice 0.095 in square to the slanted sides. The board widens from 42.8625 to 56 over the 357.768 mm
    // to fret 14 of 645.16 mm (d = L (1 - 2^(-14/12))), so the sides stand at atan(13.1375 / 2 / 357.768).
    const toJoin = 645.16 * (1 - 2 ** (-14 / 12));
    const slant = Math.atan((56 - 42.8625) / 2 / toJoin);
    const nut = 42.8625 - (2 * 2.413) / Math.cos(slant);
    const inTemplates = pdf.pages.flatMap((sheet) => strokes(sheet)).filter((s) => s.inForm);
    const near = (length: number): boolean => inTemplates.some((stroke) => Math.abs(stroke.length - length) < 0.01);
    expect(near(nut), "the blank's end at the nut").toBe(true);
    // Fret 12 runs at 322.58 mm from the nut; the slot is as long as the blank is wide there.
    expect(near(nut + 2 * Math.tan(slant) * 322.58), "the slot of fret 12").toBe(true);
    await page.context().close();
  });

  it("keeps a typed number over a reload", async () => {
    const { page } = await visit();
    await page.goto(`${inject("address")}#/numbers`);
    await type(page, "Scale", "24.9");
    await page.getByText(/^saved in this browser/).waitFor();
    await page.reload();
    await expect.poll(() => page.getByRole("textbox", { name: "Scale", exact: true }).first().inputValue()).toBe("24.9");
    await page.context().close();
  });

  it("gives way to a design that is opened on its page, and is found again with what was typed", async () => {
    const { page, faults } = await visit();
    const name = page.locator(".strip-name");
    const toFirst = async (): Promise<void> => {
      await goTo(page, "first");
      await expect.poll(() => name.textContent()).toBe("My first fingerboard");
    };
    await page.goto(inject("address"));
    await toFirst();
    await type(page, "Scale", "25");
    await drop(page, "nylon.json", await readFile(join(root, "examples/nylon-650.json"), "utf8"));
    await page.getByText("nylon.json is open").waitFor();
    await expect.poll(() => page.evaluate(() => location.hash)).toMatch(/^#\/parts/);
    await expect.poll(() => page.getByRole("heading", { name: "Fingerboard", level: 1 }).count()).toBe(1);
    expect(await name.textContent()).not.toBe("My first fingerboard");
    await toFirst();
    await expect.poll(() => page.getByRole("textbox", { name: "Scale", exact: true }).first().inputValue()).toBe("25");
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it("says beside the field what is wrong with a text, and leaves the design as it was", async () => {
    const { page } = await visit();
    await page.goto(`${inject("address")}#/numbers`);
    await type(page, "Scale", "25.4.4");
    const field = page.getByRole("textbox", { name: "Scale", exact: true }).first();
    await expect.poll(() => field.getAttribute("aria-invalid")).toBe("true");
    await field.press("Escape");
    await expect.poll(() => field.inputValue()).toBe("25.4");
    await page.context().close();
  });

  it("undoes and redoes an edit", async () => {
    const { page } = await visit();
    await page.goto(`${inject("address")}#/numbers`);
    const scale = page.getByRole("textbox", { name: "Scale", exact: true }).first();
    await type(page, "Scale", "24.9");
    await page.getByRole("button", { name: /^Undo/ }).click();
    await expect.poll(() => scale.inputValue()).toBe("25.4");
    await page.getByRole("button", { name: /^Redo/ }).click();
    await expect.poll(() => scale.inputValue()).toBe("24.9");
    await page.context().close();
  });

  it("takes a number typed into a dimension of the drawing, and refuses nonsense beside it", async () => {
    const { page, faults } = await visit(820, 1180);
    await page.goto(`${inject("address")}#/parts/fingerboard`);
    await page.getByRole("button", { name: "1.75 in: change" }).click();
    const field = page.locator(".board-editor input");
    await field.fill("wide");
    await field.press("Enter");
    await expect.poll(() => field.getAttribute("aria-invalid")).toBe("true");
    await field.fill("1 11/16");
    await field.press("Enter");
    await expect.poll(() => page.getByRole("button", { name: "1.688 in: change" }).count()).toBe(1);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it("opens a dropped design file and refuses a picture, with what was open untouched", async () => {
    const { page } = await visit();
    const scale = page.getByRole("textbox", { name: "Scale", exact: true }).first();
    await page.goto(`${inject("address")}#/numbers`);
    await drop(page, "picture.json", "\u0089PNG\r\n\u001a\n0000");
    await expect.poll(() => page.getByText(/picture\.json was not opened/).count()).toBeGreaterThan(0);
    expect(await scale.inputValue()).toBe("25.4");
    await drop(page, "nylon.json", await readFile(join(root, "examples/nylon-650.json"), "utf8"));
    await expect.poll(() => scale.inputValue()).toMatch(/^650/);
    await page.context().close();
  });

  it("writes the same bytes as the command line", async () => {
    const { page } = await visit();
    const example = join(root, "examples/tenor-ukulele.json");
    await drop(page, "tenor-ukulele.json", await readFile(example, "utf8"));
    await expect.poll(() => page.getByText("tenor-ukulele.json is open").count()).toBeGreaterThan(0);
    await page.goto(`${inject("address")}#/sheets`);
    await page.getByRole("button", { name: "none", exact: true }).click();
    await page.getByRole("checkbox", { name: /Fret slots/ }).click();
    const coming = page.waitForEvent("download");
    await page.getByRole("button", { name: "SVG", exact: true }).click();
    const fromBrowser = await saved(await coming);
    execFileSync(
      "npx",
      ["tsx", "src/cli/main.ts", "templates", example, "--out", dir, "--template", "fret-slots", "--format", "svg"],
      { cwd: root },
    );
    expect(Buffer.from(fromBrowser).equals(await readFile(join(dir, "fingerboard-fret-slots.svg")))).toBe(true);
    await page.context().close();
  });
});
