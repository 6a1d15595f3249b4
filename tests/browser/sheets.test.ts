/** The Sheets place in a real browser: a printer measured and corrected, a template made for a bush, joints moved, the whole job saved. */
import { unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { readPdf, type ReadPage, type ReadPdf } from "../export/read-pdf.ts";
import { openChromium } from "./chromium.ts";
import { openExample } from "./follow-help.ts";
import { goTo, savedBy, visit } from "./visit.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

async function sheets(): Promise<{ page: Page; complaints: readonly string[]; close: () => Promise<void> }> {
  const here = await visit(browser, inject("address"));
  await goTo(here.page, "sheets");
  await here.page.getByRole("heading", { name: /^\d+ sheets? of/ }).waitFor();
  return here;
}

/** Ticks one template and no other. */
async function only(page: Page, name: string): Promise<void> {
  await page.getByRole("button", { name: "none", exact: true }).click();
  await page.getByRole("checkbox", { name, exact: true }).click();
  await page.locator(".sheets-pages[aria-busy=false]").waitFor();
}

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByRole("textbox", { name: label, exact: true }).first();
  await field.fill(text);
  await field.press("Enter");
}

const pdfSaved = async (page: Page): Promise<ReadPdf> =>
  readPdf((await savedBy(page, () => page.getByRole("button", { name: "Save PDF" }).click())).bytes);

/** Lengths of the straight strokes that are no part of a template, across and along. */
function bars(page: ReadPage): { across: number[]; along: number[] } {
  const lines = page.pieces.filter((piece) => !piece.inForm && piece.points.length === 2);
  const long = (level: boolean): number[] =>
    lines
      .filter(({ points: [a, b] }) => (level ? Math.abs(a!.y - b!.y) : Math.abs(a!.x - b!.x)) < 1e-6)
      .map(({ points: [a, b] }) => Math.hypot(b!.x - a!.x, b!.y - a!.y));
  return { across: long(true), along: long(false) };
}
const holds = (lengths: readonly number[], wanted: number): boolean => lengths.some((l) => Math.abs(l - wanted) < 0.01);

describe("a printer", () => {
  it("that prints 0.4 % short is measured by its test sheet, and what it prints of the next file is true", async () => {
    const { page, complaints, close } = await sheets();
    await page
      .getByRole("radio", { name: "mm" })
      .or(page.getByRole("button", { name: "mm", exact: true }))
      .first()
      .click();
    await page.getByRole("button", { name: "Measure a printer" }).click();
    const dialog = page.getByRole("dialog", { name: "Measure a printer" });
    const sheet = await savedBy(page, () => dialog.getByRole("button", { name: "Save the test sheet" }).click());
    const drawn = await readPdf(sheet.bytes);
    const long = bars(drawn.pages[0]!);
    const [across, along] = [Math.max(...long.across), Math.max(...long.along)];
    // What this printer makes of the bars, as a rule shows it.
    await type(page, "Name", "shop laser");
    await type(page, "Bar across", `${(across * 0.996).toFixed(2)} mm`);
    await type(page, "Bar along", `${(along * 0.996).toFixed(2)} mm`);
    expect(await dialog.getByText(/too short across/).textContent()).toMatch(/0\.40 %.*1\.0040 times as wide/);
    await dialog.getByRole("button", { name: "Correct by this" }).click();
    await dialog.waitFor({ state: "detached" });

    const pdf = await pdfSaved(page);
    for (const one of pdf.pages) {
      const printed = bars(one);
      const [onPaperAcross, onPaperAlong] = [printed.across, printed.along].map((lengths) => lengths.map((l) => l * 0.996));
      expect(holds(onPaperAcross!, 100), "100 mm across, as printed").toBe(true);
      expect(holds(onPaperAlong!, 100), "100 mm along, as printed").toBe(true);
      expect(one.texts.map(({ text }) => text).join(" ")).toMatch(/shop laser,? corrected x 1\.0040, y 1\.0040/);
    }
    await page.reload();
    await page
      .getByText(/1\.0040/)
      .first()
      .waitFor();
    expect(complaints).toEqual([]);
    await close();
  });

  it("over 2 % off is warned of: the sheet was fitted to the page", async () => {
    const { page, close } = await sheets();
    await page.getByRole("button", { name: "Measure a printer" }).click();
    await type(page, "Name", "x");
    await type(page, "Bar across", "6.8");
    await type(page, "Bar along", "8.5");
    await expect.poll(() => page.getByText(/over 2 %/).count()).toBe(1);
    await close();
  });
});

describe("a template", () => {
  it("is made for a guide bush by what is typed beside its sheets, undone with one key, and refused in words", async () => {
    const { page, complaints, close } = await sheets();
    await only(page, "Outline");
    await page.getByRole("button", { name: /how Outline is followed$/ }).click();
    const choose = async (label: string, option: string): Promise<void> => {
      await page.getByRole("combobox", { name: label }).click();
      await page.getByRole("option", { name: option, exact: true }).click();
    };
    await choose("Followed by", "A guide bush");
    await type(page, "Guide bush", "15.9 mm");
    await type(page, "Bit", "3 mm");
    await page
      .locator(".making-line")
      .getByText(/^Outside template for a 0\.626 in bush/)
      .waitFor();
    await expect.poll(() => page.getByText(/4 outward corners sharper than 0\.254 in/).count()).toBe(1);
    const pdf = await pdfSaved(page);
    // Near side 6.45: the template's end at the nut is 12.9 mm narrower than the board, but for the slant of its sides (under 0.02 mm).
    const ends = pdf.pages.flatMap(({ pieces }) =>
      pieces
        .filter(({ inForm, points }) => inForm && points.length === 2)
        .map(({ points: [a, b] }) => Math.hypot(b!.x - a!.x, b!.y - a!.y)),
    );
    expect(holds(ends, 44.45), "the board's own end, dashed").toBe(true);
    expect(ends.some((length) => Math.abs(length - (44.45 - 12.9)) < 0.3)).toBe(true);

    await choose("What is cut", "A recess");
    await page.getByText(/Not made: an outside template would cover/).waitFor();
    await page.getByRole("heading", { name: "No sheet yet" }).waitFor();
    await page.keyboard.press("Control+z");
    await page.getByRole("heading", { name: /^\d+ sheets? of/ }).waitFor();
    expect(complaints).toEqual([]);
    await close();
  });

  it("has its joints dragged by 10 mm, and the design says so", async () => {
    const { page, close } = await sheets();
    await only(page, "Outline");
    const first = page.locator(".assembly-joined .sheet-svg").first();
    const box = (await first.boundingBox())!;
    const width = Number((await first.getAttribute("viewBox"))!.split(" ")[2]);
    await page.mouse.move(box.x + 30, box.y + 30);
    await page.mouse.down();
    await page.mouse.move(box.x + 30 + (10 * box.width) / width, box.y + 30, { steps: 4 });
    await page.mouse.up();
    await page.getByRole("button", { name: /how Outline is followed$/ }).click();
    await expect.poll(() => page.getByRole("textbox", { name: "Moved across", exact: true }).inputValue()).toBe("10");
    await close();
  });
});

describe("the joints", () => {
  it("are moved by the arrow keys as by dragging, and undone", async () => {
    const { page, complaints, close } = await sheets();
    await only(page, "Outline");
    const joined = page.getByRole("region", { name: /arrow keys move the joints/ });
    await joined.focus();
    await page.keyboard.press("Shift+ArrowRight");
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowUp");
    await page.getByRole("button", { name: /how Outline is followed$/ }).click();
    await expect.poll(() => page.getByRole("textbox", { name: "Moved across", exact: true }).inputValue()).toBe("11");
    await expect.poll(() => page.getByRole("textbox", { name: "Moved up", exact: true }).inputValue()).toBe("1");
    await page.keyboard.press("Control+z");
    await expect.poll(() => page.getByRole("textbox", { name: "Moved up", exact: true }).inputValue()).toBe("0");
    expect(complaints).toEqual([]);
    await close();
  });
});

describe("the waste side", () => {
  it("is shown in grey on the sheets as they will be printed, and hatched in the file", async () => {
    const { page, complaints, close } = await sheets();
    expect(await page.locator(".ink-waste").count()).toBe(0);
    await page
      .getByRole("button", { name: "Grey" })
      .or(page.getByRole("radio", { name: "Grey" }))
      .first()
      .click();
    await page.locator(".ink-waste").first().waitFor({ state: "attached" });
    const lines = async (): Promise<number> =>
      (await pdfSaved(page)).pages[0]!.pieces.filter(({ inForm, points }) => inForm && points.length === 2).length;
    const grey = await lines();
    await page
      .getByRole("button", { name: "Hatched" })
      .or(page.getByRole("radio", { name: "Hatched" }))
      .first()
      .click();
    await page.locator(".ink-waste").first().waitFor({ state: "detached" });
    expect(await lines()).toBeGreaterThan(grey + 100);
    expect(complaints).toEqual([]);
    await close();
  });
});

describe("the whole job", () => {
  it("is saved as one archive with sheets, SVG files and the design, the same bytes twice", async () => {
    const { page, close } = await sheets();
    const save = () => savedBy(page, () => page.getByRole("button", { name: "All in one archive" }).click());
    const first = await save();
    await page.waitForTimeout(2100);
    const second = await save();
    expect(first.name).toMatch(/\.zip$/);
    expect(Buffer.from(first.bytes).equals(Buffer.from(second.bytes))).toBe(true);
    const names = Object.keys(unzipSync(first.bytes));
    expect(names[0]).toMatch(/\.pdf$/);
    expect(names).toContain("fingerboard-blank-outline.svg");
    expect(names).toContain("all-templates.svg");
    expect(names.at(-1)).toMatch(/\.json$/);
    await close();
  });
});

describe("a job that takes its time to lay out", () => {
  it("tells how far it is, is stopped and taken up again, and stands there at once on the way back", async () => {
    const here = await visit(browser, inject("address"));
    const { page } = here;
    const laid = page.getByRole("heading", { name: /^\d+ sheets of/ });
    await openExample(page);
    await goTo(page, "sheets");
    const bar = page.getByRole("progressbar", { name: "Laying out the sheets" });
    const far = await bar.evaluate((element) => (element as HTMLProgressElement).value);
    await expect.poll(() => bar.evaluate((element) => (element as HTMLProgressElement).value)).toBeGreaterThan(far);
    await page.getByRole("button", { name: "Stop laying out" }).click();
    await page.getByText("Stopped before the sheets were laid out.").waitFor();
    await page.waitForTimeout(1000);
    expect(await laid.count()).toBe(0);
    await page.getByRole("button", { name: "Lay them out" }).click();
    await laid.waitFor({ timeout: 60_000 });
    expect(await bar.count()).toBe(0);

    await goTo(page, "order");
    await page.evaluate(() => {
      location.hash = "#/sheets";
    });
    // Laying out anew would take seconds.
    expect(await page.locator(".sheets h1").textContent()).toMatch(/^\d+ sheets of/);
    expect(here.complaints).toEqual([]);
    await here.close();
  });
});

describe("the screen", () => {
  it("measured by a card shows the board at true size with one key, and remembers it", async () => {
    const { page, close } = await visit(browser, inject("address"));
    await goTo(page, "parts/fingerboard");
    await page.getByRole("button", { name: "measure it" }).click();
    const dialog = page.getByRole("dialog", { name: "True size on this screen" });
    // 428 px as wide as a card of 85.60 mm: 5 px a mm.
    await dialog.getByRole("slider", { name: "Width of the outline" }).fill("428");
    await dialog.getByRole("button", { name: "This is true" }).click();
    await dialog.waitFor({ state: "detached" });
    await page.keyboard.press("1");
    await expect.poll(() => page.locator(".board-scale").textContent()).toBe("1 : 1 on this screen");
    // Each press of plus zooms by a quarter: 6.25 px a mm against a true 5.
    await page.reload();
    await page.locator(".board-scale").waitFor();
    await page.keyboard.press("1");
    await expect.poll(() => page.locator(".board-scale").textContent()).toBe("1 : 1 on this screen");
    expect(await page.getByRole("button", { name: "measure it" }).count()).toBe(0);
    await close();
  });
});
