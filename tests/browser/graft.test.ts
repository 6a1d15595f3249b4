/** The end graft's template as it is saved: its purfling mitred with a binding of another thickness. */
import { readFile } from "node:fs/promises";
import { join, resolve } from "node:path";
import { describe, expect, inject, it } from "vitest";
import { readPdf } from "../export/read-pdf.ts";
import { openChromium } from "./chromium.ts";
import { drop } from "./follow-help.ts";
import { goTo, savedBy, visit } from "./visit.ts";

const EXAMPLE = "parlour-steel-string.json";
/** Machines may be busy. */

describe("the purfling of an end graft", () => {
  it("of 0.035 in meets a binding of 0.020 in along a mitre that is drawn as it is cut, 30.2 degrees from the top's edge", async () => {
    const browser = await openChromium();
    const { page, complaints } = await visit(browser, inject("address"));
    await drop(page, EXAMPLE, await readFile(join(resolve(import.meta.dirname, "../../examples"), EXAMPLE), "utf8"));
    await page.getByText(`${EXAMPLE} is open`).waitFor();
    await goTo(page, "sheets");
    await page.getByRole("heading", { name: /^\d+ sheets? of/ }).waitFor({ timeout: 120_000 });
    await page.getByRole("button", { name: "none", exact: true }).click();
    await page.getByRole("checkbox", { name: "End graft", exact: true }).click();
    await page.locator(".sheets-pages[aria-busy=false]").waitFor();
    const { bytes } = await savedBy(page, () => page.getByRole("button", { name: "Save PDF" }).click());
    const [sheet] = (await readPdf(bytes)).pages;
    const lines = sheet!.pieces
      .filter(({ inForm, points }) => inForm && points.length === 2)
      .map(({ points: [a, b] }) => ({ from: a!, across: Math.abs(b!.x - a!.x), along: Math.abs(b!.y - a!.y) }));
    // By hand: the graft narrows from 7/8 to 5/8 in over 4 1/8 in; its edge leans by atan(0.125 / 4.125). The mitre falls by the binding's
    // 0.020 in and goes out by the strip's 0.035 in square to the edge: 0.035 / cos - 0.020 tan.
    const lean = Math.atan(0.125 / 4.125);
    const [down, out] = [0.02 * 25.4, (0.035 / Math.cos(lean) - 0.02 * Math.tan(lean)) * 25.4];
    const isMitre = (across: number, along: number): boolean => Math.abs(across - out) < 0.005 && Math.abs(along - down) < 0.005;
    const mitres = lines.filter(({ across, along }) => isMitre(across, along) || isMitre(along, across));
    expect(mitres).toHaveLength(1);
    expect(complaints).toEqual([]);
    await browser.close();
  }, 180_000);
});
