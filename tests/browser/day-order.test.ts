import { execFileSync } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { openChromium } from "./chromium.ts";
import { openExample } from "./follow-help.ts";
import { goTo, savedBy, visit } from "./visit.ts";

const root = resolve(import.meta.dirname, "../..");
const plain = { serviceWorkers: "block" } as const;
const SLOW = { timeout: 30_000 };
let browser: Browser;
let dir: string;
beforeAll(async () => {
  browser = await openChromium();
  dir = await mkdtemp(join(tmpdir(), "gramil-order-"));
});
afterAll(async () => {
  await browser.close();
  await rm(dir, { recursive: true });
});

describe("the order", () => {
  it("is saved as a report with the same bytes as the command line's", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    await openExample(page);
    await goTo(page, "order");
    const report = await savedBy(page, () => page.getByRole("button", { name: "Save the report" }).click());
    const design = await savedBy(page, () => page.keyboard.press("Control+s"));
    const [file, pdf] = [join(dir, "design.json"), join(dir, "report.pdf")];
    await writeFile(file, design.bytes);
    execFileSync("npx", ["tsx", "src/cli/main.ts", "report", file, "-o", pdf], { cwd: root });
    expect(Buffer.from(report.bytes).equals(await readFile(pdf))).toBe(true);
    expect(here.complaints).toEqual([]);
    await here.close();
  });

  it("takes the next number of the series, and refuses one that another instrument has", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    await openExample(page);
    await goTo(page, "order");
    await page
      .getByRole("button", { name: /^More about No\. 47/ })
      .first()
      .click();
    await page.getByRole("menuitem", { name: /Begin another from this one/ }).click();
    const number = page.getByRole("textbox", { name: "Number", exact: true });
    await expect.poll(() => number.inputValue(), SLOW).toBe("");
    await number.fill("47");
    await number.press("Enter");
    await page.getByText(/Number 47 is taken by No\. 47, Tenor guitar/).waitFor();
    await number.press("Escape");
    await page.getByRole("button", { name: "take the next number, 48" }).click();
    await expect.poll(() => number.inputValue(), SLOW).toBe("48");
    await here.close();
  });

  it("is found by the sign on one of its sheets, after the numbers have changed and another design is open", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    await openExample(page);
    await goTo(page, "order");
    await page.getByRole("button", { name: "Enter a cut" }).click();
    await page.getByRole("button", { name: "Enter it" }).click();
    const sign = (await page.locator(".cuts-foot .num").textContent()) ?? "";
    await page.getByText("still matches").waitFor();
    await page.keyboard.press("Alt+2");
    const scale = page.getByRole("textbox", { name: "Scale", exact: true }).first();
    await scale.fill("24.1");
    await scale.press("Enter");
    await goTo(page, "order");
    await page.getByText(/^ ?up to .* off at /).waitFor();
    // Some more designs, so that there is something to search among.
    for (let i = 0; i < 4; i++) {
      await page.getByRole("button", { name: "New instrument" }).click();
      await page.locator(".kind").first().click();
      await page.getByRole("dialog").waitFor({ state: "detached" });
      await goTo(page, "order");
    }
    await page.getByRole("searchbox", { name: "Search the designs" }).fill(sign.toLowerCase());
    await page.getByText(`the sheet with the sign ${sign} is of this one`).waitFor();
    await page.getByRole("button", { name: /^No\. 47/ }).click();
    await page.getByRole("button", { name: "back to its numbers" }).click();
    await page.getByText("still matches").waitFor();
    const { bytes } = await savedBy(page, () => page.keyboard.press("Control+s"));
    const read = readDesign(bytes);
    expect(read.ok && read.design.cuts?.[0]?.fingerprint).toBe(sign);
    await here.close();
  });
});
