/** What a place shows when it is gone to anew, and what is said before and after sheets are saved. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { openChromium } from "./chromium.ts";
import { openExample } from "./follow-help.ts";
import { add, type } from "./part-visit.ts";
import { goTo, savedBy, visit } from "./visit.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

const address = (): string => inject("address");
const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true };
const laidOut = (page: Page): Promise<void> =>
  page.getByRole("heading", { name: /^\d+ sheets? of/ }).waitFor({ timeout: 60_000 });
const scrolled = (page: Page): Promise<number> => page.evaluate(() => scrollY);
const scrolledTo = (page: Page, y: number): Promise<number> =>
  page.evaluate((to) => {
    scrollTo({ top: to, behavior: "instant" });
    return scrollY;
  }, y);

describe("on a narrow window", () => {
  it("a place opens at its top, wherever the place before was scrolled to", async () => {
    const { page, close } = await visit(browser, address(), PHONE);
    await goTo(page, "parts");
    await page.locator(".parts-panel .numf").first().waitFor();
    for (const place of ["Fit", "Numbers"]) {
      // A place can be scrolled as soon as what it shows has come.
      await expect.poll(() => scrolledTo(page, 700)).toBeGreaterThan(300);
      await page.getByRole("link", { name: new RegExp(`^${place}`) }).click();
      await page.locator("main h1").first().waitFor();
      await expect.poll(() => scrolled(page)).toBe(0);
    }
    await close();
  });

  it("the numbers of a chosen point are read whole under a finger", async () => {
    const { page, close } = await visit(browser, address(), PHONE);
    await goTo(page, "parts");
    await add(page, "Free shape");
    await page.locator(".board-surface").focus();
    await page.keyboard.press(".");
    // Points that nobody has moved follow their shape and have no fields yet.
    await page.keyboard.press("ArrowRight");
    for (const name of ["x of point 1", "y of point 1"]) {
      const field = page.getByRole("textbox", { name, exact: true });
      // 6.5rem at 16 px.
      expect((await field.boundingBox())!.width).toBeGreaterThanOrEqual(104);
      expect(await field.evaluate((input) => input.scrollWidth <= input.clientWidth)).toBe(true);
    }
    await close();
  });
});

describe("the sheets", () => {
  it("of another design are never shown under this one's name, and its parts are named as on their boards", async () => {
    const { page, complaints, close } = await visit(browser, address());
    await goTo(page, "parts");
    for (const name of ["Inlay", "Inlay 2"]) {
      await page.getByRole("button", { name: "Add a part" }).click();
      await page.getByRole("menuitem", { name: /^Inlay/ }).click();
      await page.getByRole("heading", { name, exact: true, level: 1 }).waitFor();
    }
    await expect.poll(() => page.getByRole("heading", { name: "Numbers of the inlay 2" }).count()).toBe(1);
    await goTo(page, "sheets");
    await laidOut(page);
    const whole = page.getByRole("checkbox", { name: "Inlay 2", exact: true });
    await whole.click();
    await expect.poll(() => page.getByText("left out").count()).toBeGreaterThan(0);
    await whole.click();
    await expect.poll(() => page.getByText("left out").count()).toBe(0);
    await laidOut(page);
    const before = await page.locator(".sheets h1").textContent();

    await openExample(page);
    // Read in one go, since it goes by.
    const meanwhile = await page.waitForFunction(() => {
      const title = document.querySelector(".sheets h1")?.textContent;
      const save = [...document.querySelectorAll<HTMLButtonElement>(".sheets button")].find(
        (one) => one.textContent === "Save PDF",
      );
      const shown = document.querySelectorAll(".sheets-pages svg.sheet, .assembly").length;
      return title === "Laying out the sheets" && { shown, saves: save?.ariaDisabled !== "true" };
    });
    expect(before).toMatch(/^\d/);
    expect(await meanwhile.jsonValue()).toEqual({ shown: 0, saves: false });
    await laidOut(page);
    await expect.poll(() => page.getByRole("button", { name: "Save PDF" }).isDisabled()).toBe(false);
    expect(complaints).toEqual([]);
    await close();
  });

  it("say what does not fit, and what is no longer as it was cut, before and after they are saved", async () => {
    const { page, close } = await visit(browser, address());
    await goTo(page, "order");
    await page.getByRole("button", { name: "Enter a cut" }).click();
    await page.getByRole("button", { name: "Enter it" }).click();
    await goTo(page, "numbers");
    await type(page, "Scale", "25 in");
    await goTo(page, "parts/fingerboard");
    await type(page, "Thickness", "3 mm");
    await goTo(page, "sheets");
    await laidOut(page);
    await page
      .getByText(/No longer as cut on \d{4}-\d\d-\d\d: up to .* off/)
      .first()
      .waitFor();
    const foot = page.locator(".sheets-foot");
    const count = Number(
      await page
        .locator(".place-stops")
        .first()
        .textContent()
        .then((text) => /\d+/.exec(text ?? "")?.[0]),
    );
    expect(count).toBeGreaterThan(1);
    await foot.getByText(`${count} things do not fit: look at Fit before cutting.`).waitFor();
    const notes = page.locator(".tell");
    for (const name of ["Save PDF", "Save PDF", "SVG"])
      await savedBy(page, () => page.getByRole("button", { name, exact: true }).click());
    await notes.getByText(`Saved, but ${count} things do not fit`).waitFor();
    await expect.poll(() => notes.count()).toBe(1);
    await expect.poll(() => notes.textContent()).toContain("-svg.zip");
    expect(await notes.textContent()).not.toContain("Print");
    await notes.getByRole("button", { name: "Look at Fit" }).click();
    await page.getByRole("heading", { name: "Something does not fit" }).waitFor();
    await page.getByRole("heading", { name: "Since it was cut" }).waitFor();
    await page.getByText(/Fingerboard, .*No longer as cut on/).waitFor();
    await close();
  });

  it("that are saved are told of for some seconds, in words that are read whole on a phone", async () => {
    const { page, close } = await visit(browser, address(), PHONE);
    await goTo(page, "sheets");
    await laidOut(page);
    await savedBy(page, () => page.getByRole("button", { name: "Save PDF" }).click());
    const note = page.locator(".tell");
    await note.getByText("Saved.").waitFor();
    expect(await note.locator(".tell-words p").evaluateAll((all) => all.every((one) => one.scrollWidth <= one.clientWidth))).toBe(
      true,
    );
    await note.waitFor({ state: "detached", timeout: 20_000 });
    await close();
  });
});

describe("what is told and shown beside the work", () => {
  it("a note with an undo goes with the next step; examples are drawn whole, and none is cut off", async () => {
    const { page, complaints, close } = await visit(browser, address());
    await goTo(page, "parts/nut");
    await page.getByRole("button", { name: "More about the nut" }).click();
    await page.getByRole("menuitem", { name: "Take this part out" }).click();
    const note = page.locator(".tell").getByText("Nut is taken out.");
    await note.waitFor();
    await page.getByRole("button", { name: "mm", exact: true }).first().click();
    await note.waitFor({ state: "detached" });

    await goTo(page, "order");
    await page.getByRole("button", { name: "New instrument" }).click();
    const dialog = page.getByRole("dialog", { name: "A new instrument" });
    const examples = dialog.locator("section", { has: page.getByRole("heading", { name: "Worked examples" }) });
    await expect.poll(() => examples.locator("svg.dsvg").count()).toBeGreaterThan(5);
    await expect.poll(() => dialog.locator(".kind-picture:empty").count()).toBe(0);
    const shapes = await examples.locator("svg.dsvg").evaluateAll((all) =>
      all.map((one) => ({
        width: (one as SVGSVGElement).viewBox.baseVal.width,
        height: (one as SVGSVGElement).viewBox.baseVal.height,
      })),
    );
    // A bare board is less than a fifth as wide as it is long; with its body an instrument is more than a quarter.
    for (const { width, height } of shapes) expect(height / width).toBeGreaterThan(0.25);
    const body = dialog.locator(".dlg-body");
    expect(await body.evaluate((one) => one.scrollHeight <= one.clientHeight)).toBe(true);
    expect(complaints).toEqual([]);
    await close();
  });
});
