import { execFile } from "node:child_process";
import { readFile } from "node:fs/promises";
import { resolve } from "node:path";
import { promisify } from "node:util";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { FAULTS } from "../checks/faulty.ts";
import { openChromium } from "./chromium.ts";
import { goTo, savedBy, visit } from "./visit.ts";

const root = resolve(import.meta.dirname, "../..");

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

/** Drops a design file on the page and waits until it is open. */
async function drop(page: Page, file: string): Promise<void> {
  const data = await page.evaluateHandle(
    ([name, text]) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([text!], name!));
      return transfer;
    },
    [`${file}.json`, await readFile(resolve(root, `tests/data/faulty/${file}.json`), "utf8")],
  );
  for (const event of ["dragenter", "dragover", "drop"]) await page.dispatchEvent("main", event, { dataTransfer: data });
  await page.getByText(`${file}.json is open`).waitFor();
}

interface Told {
  readonly counts: Readonly<Record<"stop" | "look" | "fine", number>>;
  readonly findings: readonly { readonly sentence: string; readonly severity: string }[];
}

async function told(file: string): Promise<Told> {
  const work = promisify(execFile)(
    process.execPath,
    ["--import", "tsx", "src/cli/main.ts", "check", `tests/data/faulty/${file}.json`, "--json"],
    { cwd: root, maxBuffer: 1 << 26 },
  );
  // A stop ends the program with 1, which comes as an error that carries what was written.
  const { stdout } = await work.catch((error: unknown) => error as { readonly stdout: string });
  return JSON.parse(stdout) as Told;
}

const plain = (text: string): string => text.replace(/\s+/g, " ").trim();

describe("the eight faulty designs on screen", () => {
  it.each(FAULTS)("$file shows the findings that gramil check gives, and the place", async (fault) => {
    const here = await visit(browser, inject("address"));
    const { page } = here;
    await drop(page, fault.file);
    await goTo(page, "fit");
    const command = await told(fault.file);
    const grave = command.findings.filter(({ severity }) => severity !== "fine").map(({ sentence }) => plain(sentence));
    const shown = async (): Promise<string[]> =>
      (await page.locator(".finding-stop .finding-says, .finding-look .finding-says").allTextContents()).map(plain);
    await expect.poll(shown).toEqual(grave);
    const item = page.locator(".finding", { hasText: fault.says }).first();
    await item.hover();
    // The part with the place, or the shape, beside the list.
    await page.locator(".fit-side .dsvg").first().waitFor();
    if (fault.at) await expect.poll(() => page.locator(".fit-side .dsvg-ring").count()).toBeGreaterThan(0);
    await item.getByRole("button", { name: /^Show the place/ }).click();
    await expect.poll(() => page.evaluate(() => location.hash)).toBe(`#/parts/${fault.part}`);
    expect(here.complaints).toEqual([]);
    await here.close();
  });
});

describe("limits of checks", () => {
  it("are changed beside the finding, shown as changed, and taken back by undo", async () => {
    const here = await visit(browser, inject("address"));
    const { page } = here;
    await drop(page, "slots-into-the-binding");
    await goTo(page, "fit");
    const item = page.locator(".finding", { hasText: "short of the binding" }).first();
    await item.getByRole("button", { name: /^limits?: / }).click();
    const field = item.getByRole("textbox").first();
    await field.fill("0 mm");
    await field.press("Enter");
    await page.locator(".finding-fine", { hasText: "limit changed by you" }).first().waitFor();
    await expect.poll(() => page.locator(".finding-look").count()).toBe(0);
    await page.keyboard.press("Escape");
    await page.locator(".strip").getByRole("button", { name: /^Undo/ }).click();
    await page.locator(".finding-look", { hasText: "short of the binding" }).waitFor();
    expect(here.complaints).toEqual([]);
    await here.close();
  });
});

describe("an offcut", () => {
  it("is entered, a blank laid on it by hand and by a search, and printed as a placement sheet", async () => {
    const here = await visit(browser, inject("address"));
    const { page } = here;
    await drop(page, "cross-grain-plate");
    await goTo(page, "fit/offcut");
    await page.getByRole("button", { name: "Enter an offcut" }).click();
    const panel = page.getByRole("complementary", { name: "Numbers of the offcut" });
    const type = async (name: string, text: string): Promise<void> => {
      const field = panel.getByRole("textbox", { name, exact: true }).first();
      await field.fill(text);
      await field.press("Enter");
    };
    await type("Length", "260 mm");
    await type("Width", "60 mm");
    await page.getByRole("combobox", { name: "Blank to lay" }).click();
    await page.getByRole("option", { name: "Bridge", exact: true }).click();
    await page.getByRole("button", { name: "Lay it on" }).click();
    const piece = page.getByRole("button", { name: /^1\. Bridge/ });
    await piece.waitFor();
    // By the keyboard out of the wood, then back by the search.
    await piece.focus();
    for (let i = 0; i < 8; i++) await page.keyboard.press("Shift+ArrowRight");
    await page
      .getByText(/reaches out of the sound wood by/)
      .first()
      .waitFor();
    await page.getByRole("button", { name: "Find a place for Bridge" }).click();
    await page.getByText("Bridge: it fits.").first().waitFor();
    await page.getByText(/lies in the wood, .* to spare beyond its allowance/).waitFor();
    // By the mouse.
    const before = await page.locator(".offcut-own").first().getAttribute("d");
    const box = (await piece.boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 200, box.y + box.height / 2, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => page.locator(".offcut-own").first().getAttribute("d")).not.toBe(before);
    await page.locator(".strip").getByRole("button", { name: /^Undo/ }).click();
    await expect.poll(() => page.locator(".offcut-own").first().getAttribute("d")).toBe(before);
    const sheet = await savedBy(page, () => page.getByRole("button", { name: "Placement sheet" }).click());
    expect(sheet.name).toMatch(/placement\.pdf$/);
    expect(Buffer.from(sheet.bytes.subarray(0, 5)).toString()).toBe("%PDF-");
    // Too narrow for the bridge's allowance: the answer is sure.
    await type("Width", "20 mm");
    await page.getByRole("button", { name: "Find a place for Bridge" }).click();
    await page.getByText("Bridge: it does not fit.").first().waitFor();
    expect(here.complaints).toEqual([]);
    await here.close();
  });
});

describe("seasons, list and versions", () => {
  it("follow the humidity and the grain that are typed, and tell how the numbers come about", async () => {
    const here = await visit(browser, inject("address"));
    const { page } = here;
    await drop(page, "cross-grain-plate");
    await goTo(page, "fit/seasons");
    const pair = page.locator(".fitp-item", { hasText: "Headplate on the head" }).first();
    await pair.locator(".says-look").waitFor();
    const damp = page.getByRole("textbox", { name: /Dampest air/ });
    await damp.fill("50");
    await damp.press("Enter");
    const dry = page.getByRole("textbox", { name: /Driest air/ });
    await dry.fill("40");
    await dry.press("Enter");
    await pair.locator(".says-fine").waitFor();
    await page.getByRole("button", { name: "How the numbers come about" }).first().click();
    await page.getByText(/Eq\. 4-5/).waitFor();
    await page.getByRole("button", { name: /woods: figures, sources/ }).click();
    await page.getByRole("button", { name: "Sources of African ebony" }).click();
    await page.getByText(/Movement:/).waitFor();
    expect(here.complaints).toEqual([]);
    await here.close();
  });

  it("save the cutting list as a table and on paper", async () => {
    const here = await visit(browser, inject("address"));
    const { page } = here;
    await drop(page, "cross-grain-plate");
    await goTo(page, "fit/cutting-list");
    await page.getByRole("button", { name: "1,5" }).click();
    const table = await savedBy(page, () => page.getByRole("button", { name: "Save table (CSV)" }).click());
    const rows = Buffer.from(table.bytes).toString("utf8").split("\r\n");
    expect(rows[0]).toMatch(/^What;Part;Item;Wood;Pieces;Length mm/);
    expect(rows.some((row) => row.startsWith("piece;Fingerboard;Fingerboard;African ebony;1;"))).toBe(true);
    const paper = await savedBy(page, () => page.getByRole("button", { name: "Save PDF" }).click());
    expect(Buffer.from(paper.bytes.subarray(0, 5)).toString()).toBe("%PDF-");
    expect(here.complaints).toEqual([]);
    await here.close();
  });

  it("lay the design beside an older state of it", async () => {
    const here = await visit(browser, inject("address"));
    const { page } = here;
    await drop(page, "cross-grain-plate");
    await goTo(page, "order");
    await page.getByRole("button", { name: "Enter a cut" }).click();
    await page.getByRole("button", { name: "Enter it" }).click();
    await goTo(page, "numbers");
    const width = page.getByRole("textbox", { name: "Width at the nut" }).first();
    await width.fill("44 mm");
    await width.press("Enter");
    await goTo(page, "fit/compare");
    await page.getByRole("combobox", { name: "The other version" }).click();
    await page
      .getByRole("option", { name: /^When / })
      .first()
      .click();
    await page.getByRole("heading", { name: "Templates to cut again" }).waitFor();
    await page
      .getByRole("row", { name: /^Width at the nut/ })
      .first()
      .waitFor();
    await expect.poll(() => page.locator(".compare-part").count()).toBeGreaterThan(0);
    expect(here.complaints).toEqual([]);
    await here.close();
  });
});
