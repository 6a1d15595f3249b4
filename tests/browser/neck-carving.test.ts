/** A neck taken off another by a contour gauge, and one carved down until the player accepts it, on screen as the maker does it. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import type { Design } from "../../src/document/design.ts";
import { pathBounds } from "../../src/geometry/measure.ts";
import { nearestOnPath } from "../../src/geometry/nearest.ts";
import { vec } from "../../src/geometry/vec.ts";
import type { MeasuresByKind } from "../../src/parts/contract.ts";
import { readPdf } from "../export/read-pdf.ts";
import { openChromium } from "./chromium.ts";
import { derived, saved, type } from "./part-visit.ts";
import { goTo, savedBy, visit, type Visit } from "./visit.ts";

/** Machines may be busy. */

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

async function atNeck(): Promise<Visit> {
  const here = await visit(browser, inject("address"));
  await goTo(here.page, "parts/neck");
  await here.page.getByRole("application", { name: /Drawing of Neck/ }).waitFor();
  await here.page.getByRole("button", { name: "mm", exact: true }).first().click();
  return here;
}

const neckOf = (design: Design): MeasuresByKind["neck"] => derived(design, "neck").measures as MeasuresByKind["neck"];

describe("a contour gauge", () => {
  it("set against a neck gives its shoulders, each side its own, and the section runs through what was traced", async () => {
    const { page, complaints, close } = await atNeck();
    const region = page.getByRole("region", { name: "Section at the first fret measured" });
    const plain = neckOf((await saved(page)).design);
    // Outside: half the width at fret 1, straight between nut and join (fret 14), and the wood of 21.5 less a board of 6.35.
    const share = (1 - 2 ** (-1 / 12)) / (1 - 2 ** (-14 / 12));
    const half = (44.45 + (plain.widthAtJoin - 44.45) * share) / 2;
    const wood = 21.5 - 6.35;
    // Points of |across / half|^p + (down / wood)^p = 1: p 3 on the bass side, 2 on the treble, to a hundredth as read off a gauge.
    const points = [
      ...[0.35, 0.6, 0.85].map((s) => [-half * (1 - s ** 3) ** (1 / 3), s * wood]),
      ...[0.85, 0.6, 0.35].map((s) => [half * Math.sqrt(1 - s * s), s * wood]),
    ].map((pair) => pair.map((mm) => Number(mm.toFixed(2)))) as [number, number][];
    for (const [i, [across, down]] of points.entries()) {
      await region.getByRole("button", { name: "Add a point" }).click();
      await type(page, `point ${i + 1}, across`, `${across}`);
      await type(page, `point ${i + 1}, down`, `${down}`);
    }
    const numberIn = async (label: string): Promise<number> =>
      Number(await region.getByRole("textbox", { name: label, exact: true }).inputValue());
    await expect.poll(() => numberIn("Fullness")).toBeCloseTo(3, 1);
    await expect.poll(() => numberIn("Fullness, treble side")).toBeCloseTo(2, 1);
    await expect.poll(() => region.getByRole("combobox", { name: "Shoulders" }).textContent()).toContain("U");

    const { design } = await saved(page);
    const section = derived(design, "neck")
      .drawing()
      .layers.flatMap(({ shapes }) => shapes)
      .find(({ id }) => id === "section-1")!.path;
    const box = pathBounds(section);
    for (const [across, down] of points) {
      const traced = vec((box.minX + box.maxX) / 2 + across, box.maxY - down);
      expect(nearestOnPath(section, traced).distance, `${across}, ${down}`).toBeLessThan(0.03);
    }

    // A word for the shoulders takes the gauge's place.
    await region.getByRole("combobox", { name: "Shoulders" }).click();
    await page.getByRole("option", { name: "C", exact: true }).click();
    await expect.poll(() => numberIn("Fullness")).toBe(2);
    expect((await saved(page)).design.parts["neck"]).not.toHaveProperty("firstContour");
    await page.keyboard.press("Control+z");
    await expect.poll(() => numberIn("Fullness")).toBeCloseTo(3, 1);
    expect(complaints).toEqual([]);
    await close();
  }, 120_000);
});

describe("a neck carved down the set until the player accepts it", () => {
  it("is taken over as measured at both frets: drawings, gauges and sheets follow, and the plan stays beside it", async () => {
    const { page, complaints, close } = await atNeck();
    const before = (await saved(page)).design;
    for (const [which, accepted] of [20.7, 22.9].entries()) {
      await page.getByRole("button", { name: "Depth with the board", exact: true }).nth(which).click();
      await page.getByRole("button", { name: "Measured on the work" }).click();
      await type(page, "Measured", `${accepted} mm`);
      await type(page, "How it was taken", "callipers, accepted by the player");
      await page.getByRole("button", { name: "Done" }).click();
    }
    for (const planned of ["21.5", "23.5"])
      await page
        .getByText(new RegExp(`as measured; planned ${planned}`))
        .first()
        .waitFor({ state: "attached" });

    const { design } = await saved(page);
    expect(design.measured!["parts.neck.firstDepth"]).toMatchObject({ how: "callipers, accepted by the player" });
    expect(design.parts["neck"]).toEqual(before.parts["neck"]);
    const at = (from: Design, fret: number) => neckOf(from).places.find((place) => place.fret === fret)!.depthWithBoard;
    expect([at(before, 1), at(before, 10)]).toEqual([expect.closeTo(21.5, 9), expect.closeTo(23.5, 9)]);
    expect([at(design, 1), at(design, 10)]).toEqual([expect.closeTo(20.7, 9), expect.closeTo(22.9, 9)]);

    // On the sheets: the accepted depth at fret 1, and at fret 5 between both, (d5 - d1) / (d10 - d1) of the way.
    await goTo(page, "sheets");
    await page.getByRole("heading", { name: /^\d+ sheets? of/ }).waitFor();
    await page.getByRole("button", { name: "none", exact: true }).click();
    await page.getByRole("checkbox", { name: "Carving gauges", exact: true }).click();
    await page.locator(".sheets-pages[aria-busy=false]").waitFor();
    const { bytes } = await savedBy(page, () => page.getByRole("button", { name: "Save PDF" }).click());
    const said = (await readPdf(bytes)).pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join(" ");
    const d = (fret: number): number => 1 - 2 ** (-fret / 12);
    const fifth = 20.7 + (2.2 * (d(5) - d(1))) / (d(10) - d(1));
    expect(said).toMatch(/fret 1 +20\.70/);
    expect(said).toMatch(new RegExp(`fret 5 +${fifth.toFixed(2).replace(".", "\\.")}`));

    // The order tells by how much it came out thinner than planned.
    await goTo(page, "order");
    await page
      .getByText(/0\.8 mm less than planned/)
      .first()
      .waitFor();
    expect(complaints).toEqual([]);
    await close();
  }, 120_000);
});
