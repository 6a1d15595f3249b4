/** The general arrangement as a maker uses it: look at it, press a part, read the distances, take the sheet for the wall. */
import { execFileSync } from "node:child_process";
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, join, resolve } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import type { MeasuresByKind } from "../../src/parts/contract.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { Derived } from "../../src/parts/derived.ts";
import { arrange } from "../../src/parts/general-arrangement.ts";
import { readPdf, straight } from "../export/read-pdf.ts";
import { openChromium } from "./chromium.ts";
import { goTo, openFile, savedBy, visit, type Visit } from "./visit.ts";

const root = resolve(import.meta.dirname, "../..");
const EXAMPLE = join(root, "examples/showpiece-tenor-guitar.json");
/** Machines may be busy. */

let browser: Browser;
let dir: string;
let derived: Derived;
let here: Visit;
beforeAll(async () => {
  browser = await openChromium();
  dir = await mkdtemp(join(tmpdir(), "gramil-arrangement-"));
  const read = readDesign(await readFile(EXAMPLE, "utf8"));
  if (!read.ok) throw new Error(read.message);
  derived = createDeriver()(read.design);
  here = await visit(browser, inject("address"));
  await whole(here.page);
}, 120_000);
afterAll(async () => {
  await here.close();
  await browser.close();
  await rm(dir, { recursive: true });
});

async function open(page: Page, file: string): Promise<void> {
  await openFile(page, file);
  await page.getByText(`${basename(file)} is open`).waitFor();
}

/** The example open, at the whole instrument. */
async function whole(page: Page): Promise<void> {
  await open(page, EXAMPLE);
  await goTo(page, "parts/(whole)");
  await page.getByRole("application", { name: /Drawing of Whole instrument/ }).waitFor();
  // The letters on the head are worked out beside the page.
  await page.getByRole("button", { name: "Inlay", exact: true }).last().waitFor();
}

const measuresOf = <K extends keyof MeasuresByKind>(kind: K): MeasuresByKind[K] =>
  [derived.instrument, ...derived.parts].find((part) => part.kind === kind)!.measures as MeasuresByKind[K];

/** Inches as they are said: to a thousandth, without zeros that say nothing. */
const inches = (mm: number): string => `${Number((mm / 25.4).toFixed(3))} in`;

/** Lengths are said to half a thousandth of an inch, mm. */
const SAID = 0.0005 * 25.4 + 1e-9;

/** What is said as "12 3/4 + 0.005 in", "12 3/4 - 0.005 in" or "10.349 in", mm. */
function mmOf(text: string): number {
  const [, whole = "0", over = "0", under = "1", sign = "+", rest = "0"] =
    /^([\d.]+)(?: (\d+)\/(\d+))?(?: ([+-]) ([\d.]+))? in$/.exec(text) ?? [];
  return 25.4 * (Number(whole) + Number(over) / Number(under) + Number(`${sign}${rest}`));
}

/** Goes over the board as one looks for a part, until the board names it; where that is. */
async function findOnBoard(page: Page, name: RegExp): Promise<{ readonly x: number; readonly y: number }> {
  const box = (await page.locator(".board-surface").boundingBox())!;
  const note = page.locator(".board-note");
  for (const share of [0.42, 0.38, 0.46, 0.33, 0.5, 0.72, 0.76, 0.8])
    for (let x = box.x + 60; x < box.x + box.width - 20; x += 9) {
      const y = box.y + share * box.height;
      await page.mouse.move(x, y);
      if ((await note.count()) > 0 && name.test((await note.first().textContent()) ?? "")) return { x, y };
    }
  throw new Error(`${name} is nowhere on the board`);
}

describe("the general arrangement", () => {
  it("shows every example whole, on dark narrow paper too: each part to be gone to, each distance read", async () => {
    const { page, complaints, close } = await visit(browser, inject("address"), {
      viewport: { width: 820, height: 1180 },
      colorScheme: "dark",
    });
    for (const name of (await readdir(join(root, "examples"))).filter((file) => file.endsWith(".json"))) {
      await open(page, join(root, "examples", name));
      await goTo(page, "parts/(whole)");
      await page.getByRole("application", { name: /Drawing of Whole instrument/ }).waitFor();
      const parts = page.locator(".whole-parts");
      for (const part of ["Neck", "Headstock", "Bridge", "Body", "Sides", "Bracing", "Soundhole", "Side port", "Pickguard"])
        await parts.getByRole("button", { name: part, exact: true }).waitFor();
      const distances = await page.locator(".whole-distances dd").allTextContents();
      expect(distances, name).toHaveLength(12);
      for (const distance of distances) expect(distance, name).toMatch(/^\d[\d ./+-]* (mm|in)$/);
    }
    expect(complaints).toEqual([]);
    await close();
  }, 180_000);

  it("says what lies between the parts, and leads to the part that is pressed", async () => {
    const { page } = here;
    const [joinX, saddle] = [measuresOf("instrument").joinX, measuresOf("bridge").saddleX];
    const body = measuresOf("body");
    const said = async (label: string): Promise<number> =>
      mmOf((await page.locator(".whole-distances div", { hasText: label }).first().locator("dd").textContent()) ?? "");
    // The saddle lies behind the end of the scale by its compensation: from the nut to the join and on to it.
    expect(Math.abs((await said("Nut to join")) - joinX)).toBeLessThan(SAID);
    expect(Math.abs((await said("Join to saddle")) - (saddle - joinX))).toBeLessThan(SAID);
    expect(Math.abs((await said("Nut to saddle")) - saddle)).toBeLessThan(SAID);
    expect(Math.abs((await said("Join to tail")) - (body.tailX - body.neckX))).toBeLessThan(SAID);
    expect(saddle).toBeGreaterThan(measuresOf("instrument").scale);

    // Both views and what lies on the head are told to those who do not see the board.
    const words = (await page.getByRole("region", { name: "Board: Whole instrument" }).textContent()) ?? "";
    for (const part of ["Bridge", "Side port", "Headstock", "Neck", "hole at the tail", "Inlay: pocket 1"])
      expect(words).toContain(part);

    const at = await findOnBoard(page, /^Bridge/);
    await page.mouse.click(at.x, at.y);
    await expect.poll(() => page.locator("main h1").first().textContent()).toBe("Bridge");
    await goTo(page, "parts/(whole)");
    const side = await findOnBoard(page, /^Side port/);
    await page.mouse.click(side.x, side.y);
    await expect.poll(() => page.locator("main h1").first().textContent()).toBe("Side port");
    expect(here.complaints).toEqual([]);
  }, 180_000);

  it("is saved as one sheet at the chosen scale, not for cutting, the same as from the command line, and measures what it says", async () => {
    const { page } = here;
    await goTo(page, "parts/(whole)");
    const sheet = page.getByRole("region", { name: "Overview sheet" });
    for (const [list, option] of [
      ["Paper", "A3"],
      ["Scale", "1:4"],
    ] as const) {
      await sheet.getByLabel(list).click();
      await page.getByRole("option", { name: option, exact: true }).click();
    }
    const { name, bytes } = await savedBy(page, () => sheet.getByRole("button", { name: "Save the overview" }).click());
    expect(name).toMatch(/arrangement\.pdf$/);

    const { pages } = await readPdf(bytes);
    expect(pages).toHaveLength(1);
    const texts = pages[0]!.texts.map(({ text }) => text).join(" ");
    expect(texts).toContain("General arrangement, 1:4");
    expect(texts).toContain("Not for cutting");
    expect(texts).toContain("From the bass side");
    const [joinX, saddle] = [measuresOf("instrument").joinX, measuresOf("bridge").saddleX];
    expect(texts).toContain(`${inches(joinX)} nut to join`);
    // Lines a quarter as long as the instrument is: from the front over all, nut to saddle, join to tail; from the side the body's depth.
    const lengths = straight(pages[0]!, false).map(({ a, b }) => Math.hypot(b.x - a.x, b.y - a.y));
    const told = new Map(arrange(derived).distances.map(({ id, value }) => [id, value]));
    for (const mm of [told.get("overall")!, saddle, told.get("body")!, measuresOf("sides").depthTail])
      expect(Math.min(...lengths.map((length) => Math.abs(length - mm / 4))), inches(mm)).toBeLessThan(0.02);

    const out = join(dir, "arrangement.pdf");
    execFileSync("npx", ["tsx", "src/cli/main.ts", "arrangement", EXAMPLE, "-o", out, "--paper", "a3", "--scale", "1:4"], {
      cwd: root,
    });
    expect(Buffer.from(bytes).equals(await readFile(out))).toBe(true);
    expect(here.complaints).toEqual([]);
  }, 180_000);
});
