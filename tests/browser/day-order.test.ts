import { execFileSync } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { packArchive } from "../../src/document/archive.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { readDesign } from "../../src/document/read.ts";
import { writeDesign } from "../../src/document/write.ts";
import { openChromium } from "./chromium.ts";
import { openExample } from "./follow-help.ts";
import { goTo, openFile, savedBy, visit } from "./visit.ts";

const root = resolve(import.meta.dirname, "../..");
const plain = { serviceWorkers: "block" } as const;
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
    await expect.poll(() => number.inputValue()).toBe("");
    await number.fill("47");
    await number.press("Enter");
    await page.getByText(/Number 47 is taken by No\. 47, Tenor guitar/).waitFor();
    await number.press("Escape");
    await page.getByRole("button", { name: "take the next number, 48" }).click();
    await expect.poll(() => number.inputValue()).toBe("48");
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

describe("what comes from elsewhere", () => {
  it("as an archive: its designs stand among the others at once, each with its picture, and open", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    await goTo(page, "order");
    const designs = (["ukulele", "octave-mandolin"] as const).map((kind) => ({
      id: kind,
      name: `${kind}.json`,
      text: writeDesign(newDesign(kind)),
    }));
    const buffer = Buffer.from(packArchive({ designs, settings: {} }));
    await openFile(page, { name: "designs.zip", mimeType: "application/zip", buffer });
    await page.getByText("2 designs were taken in.").waitFor();
    for (const title of ["Tenor ukulele", "Octave mandolin"]) {
      const card = page.locator(".kept-card", { hasText: title });
      await card.locator(".kept-picture svg path").first().waitFor({ state: "attached" });
    }
    await page.getByRole("button", { name: "Octave mandolin", exact: true }).click();
    await expect.poll(() => page.locator(".strip-name").textContent()).toBe("Octave mandolin");
    expect(here.complaints).toEqual([]);
    await here.close();
  });

  it("as a file that ends in the middle: it opens with what it has, and says where it ends", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    await goTo(page, "numbers");
    const text = await readFile(join(root, "examples/nylon-650.json"), "utf8");
    const cut = text.slice(0, text.indexOf("}", text.indexOf('"kind": "neck"')));
    await openFile(page, { name: "cut.json", mimeType: "application/json", buffer: Buffer.from(cut) });
    const dialog = page.getByRole("dialog", { name: "Opened, with repairs" });
    await dialog.getByText(/the file ends behind this, in the middle .*: whatever followed is lost/).waitFor();
    await dialog.getByRole("button", { name: "Go on" }).click();
    const whole = JSON.parse(text) as { readonly instrument: object };
    const { bytes } = await savedBy(page, () => page.keyboard.press("Control+s"));
    const read = readDesign(bytes);
    expect(read).toMatchObject({ ok: true, repairs: [], design: { instrument: whole.instrument } });
    expect(here.complaints).toEqual([]);
    await here.close();
  });
});
