/** For hands that do not use a mouse and eyes that want it larger: the main job by keys alone, text at 200 %, less motion, audits of what opens on top. */
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { readDesign } from "../../src/document/read.ts";
import { readPdf } from "../export/read-pdf.ts";
import { openChromium } from "./chromium.ts";
import { openExample } from "./follow-help.ts";
import { violations } from "./violations.ts";
import { goTo, savedBy, visit } from "./visit.ts";

const plain = { serviceWorkers: "block" } as const;
let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

/** What has the focus, as it is named. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const element = document.activeElement;
    const by = element?.getAttribute("aria-labelledby");
    const text = by ? document.getElementById(by)?.textContent : element?.textContent;
    return element?.getAttribute("aria-label") ?? text?.trim() ?? "";
  });

/** What has the focus and does not show it. */
const unseenFocus = (page: Page): Promise<string | undefined> =>
  page.evaluate(() => {
    const element = document.activeElement;
    if (!element || element === document.body) return undefined;
    const style = getComputedStyle(element);
    const around = element.closest(".numf-box") ?? element;
    const after = getComputedStyle(element, "::after");
    const shown =
      after.outlineStyle !== "none" ||
      (after.content !== "none" && after.borderTopStyle !== "none") ||
      style.outlineStyle !== "none" ||
      style.boxShadow !== "none" ||
      getComputedStyle(around).outlineStyle !== "none";
    return shown || element.matches(":focus-visible") === false ? undefined : element.outerHTML.slice(0, 160);
  });

/** Goes on by Tab until something so named has the focus, and shows it. */
async function tabTo(page: Page, name: RegExp, most = 80): Promise<void> {
  for (let i = 0; i < most; i++) {
    if (name.test(await focused(page))) {
      expect(await unseenFocus(page)).toBe(undefined);
      return;
    }
    await page.keyboard.press("Tab");
  }
  throw new Error(`the focus never came to ${String(name)}`);
}

describe("the keyboard alone", () => {
  it("takes an order, changes a number, looks at the checks, and prints", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    const titleIs = (title: RegExp) => expect.poll(() => page.locator("main h1").first().textContent()).toMatch(title);
    await page.keyboard.press("Alt+1");
    await titleIs(/Designs in this browser/);
    await tabTo(page, /^Number$/);
    await page.keyboard.type("14");
    await page.keyboard.press("Enter");
    await tabTo(page, /^Player$/);
    await page.keyboard.type("H. Rowan");
    await page.keyboard.press("Tab");

    await page.keyboard.press("Alt+2");
    await titleIs(/Numbers of the instrument/);
    await tabTo(page, /^Width at the nut/);
    await page.keyboard.press("Control+a");
    await page.keyboard.type("1 11/16");
    await page.keyboard.press("Enter");

    await page.keyboard.press("Alt+4");
    await titleIs(/fit/i);
    await page.keyboard.press("Alt+5");
    await titleIs(/sheets? of/);
    await tabTo(page, /^Save PDF$/, 400);
    const pdf = await savedBy(page, () => page.keyboard.press("Enter"));
    expect(Buffer.from(pdf.bytes.subarray(0, 5)).toString()).toBe("%PDF-");

    const { bytes } = await savedBy(page, () => page.keyboard.press("Control+s"));
    const read = readDesign(bytes);
    expect(read).toMatchObject({
      ok: true,
      design: { order: { number: "14", player: "H. Rowan" }, instrument: { nutWidth: "1 11/16" } },
    });
    expect(here.complaints).toEqual([]);
    await here.close();
  });

  it("begins another instrument, gives it a part, looks at a check and its limit, and prints it", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    const press = (key: string) => page.keyboard.press(key);
    const titleIs = (title: RegExp) => expect.poll(() => page.locator("main h1").first().textContent()).toMatch(title);
    await press("Alt+1");
    await titleIs(/Designs in this browser/);
    await tabTo(page, /^New instrument$/);
    await press("Enter");
    await page.getByRole("dialog", { name: "A new instrument" }).waitFor();
    await tabTo(page, /Nylon-string guitar/);
    await press("Enter");

    await titleIs(/Numbers of the instrument/);
    await expect.poll(() => page.locator(".strip-name").textContent()).toBe("Nylon-string guitar");
    await tabTo(page, /^Width at the nut/);
    await press("Control+a");
    await page.keyboard.type("51.5");
    await press("Enter");

    await press("Alt+3");
    await titleIs(/^Fingerboard$/);
    await tabTo(page, /^Add a part$/);
    await press("Enter");
    await page.getByRole("menu").waitFor();
    for (let i = 0; i < 20 && !(await focused(page)).startsWith("Pickguard"); i++) await press("ArrowDown");
    expect(await focused(page)).toMatch(/^Pickguard/);
    expect(await unseenFocus(page)).toBe(undefined);
    await press("Enter");
    await titleIs(/^Pickguard$/);

    await press("Alt+4");
    await titleIs(/fit/i);
    await tabTo(page, /^limits?: /);
    await press("Enter");
    await page.locator(".finding .numf-in").first().waitFor();
    await press("Alt+5");
    await titleIs(/sheets? of/);
    await tabTo(page, /^Save PDF$/, 400);
    const pdf = await savedBy(page, () => press("Enter"));
    const { pages } = await readPdf(pdf.bytes);
    const words = pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join(" ");
    expect(words).toMatch(/Pickguard/i);

    const { bytes } = await savedBy(page, () => press("Control+s"));
    const read = readDesign(bytes);
    expect(read).toMatchObject({
      ok: true,
      repairs: [],
      design: {
        order: { title: "Nylon-string guitar" },
        instrument: { nutWidth: "51.5" },
        parts: { pickguard: { kind: "pickguard" } },
      },
    });
    expect(here.complaints).toEqual([]);
    await here.close();
  });

  it("sees the focus on everything that it comes to", async () => {
    const here = await visit(browser, inject("address"), plain);
    const { page } = here;
    for (const place of ["order", "numbers", "help"]) {
      await goTo(page, place);
      for (let i = 0; i < 25; i++) {
        await page.keyboard.press("Tab");
        expect(await unseenFocus(page), place).toBe(undefined);
      }
    }
    await here.close();
  });
});

describe.each(["light", "dark"] as const)("on %s paper, the audit passes", (colorScheme) => {
  it("the help, and what opens on top of the places", async () => {
    const here = await visit(browser, inject("address"), { ...plain, colorScheme });
    const { page } = here;
    await openExample(page);
    await goTo(page, "help/order");
    expect(await violations(page, true), "help").toEqual([]);
    const opened: readonly (readonly [string, string, () => Promise<void>])[] = [
      ["order", "a cut", () => page.getByRole("button", { name: "Enter a cut" }).click()],
      ["order", "a new instrument", () => page.getByRole("button", { name: "New instrument" }).click()],
      ["order", "the menu of files", () => page.getByRole("button", { name: "Files" }).click()],
      ["numbers", "what a number is", () => page.getByRole("button", { name: "Scale", exact: true }).click()],
      ["numbers", "the keys", () => page.keyboard.press("?")],
    ];
    for (const [place, name, open] of opened) {
      await goTo(page, place);
      await open();
      await page.locator(".dlg, .pop").first().waitFor();
      await page.waitForTimeout(300);
      expect(await violations(page, true), name).toEqual([]);
      await page.keyboard.press("Escape");
      await page.locator(".dlg, .pop").first().waitFor({ state: "detached" });
    }
    await here.close();
  });
});

describe("enlarged", () => {
  it("to 200 %, every place can be read and used without scrolling sideways", async () => {
    // A window of 1440 by 900 at 200 % has 720 by 450 px of its own.
    const here = await visit(browser, inject("address"), { ...plain, viewport: { width: 720, height: 450 } });
    const { page } = here;
    await openExample(page);
    for (const place of ["order", "numbers", "parts/fingerboard", "fit", "sheets", "first", "help/sheets"]) {
      await goTo(page, place);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), place).toBeLessThanOrEqual(0);
    }
    await here.close();
  });
});

describe("with less motion", () => {
  it("nothing slides or fades for longer than a blink", async () => {
    const here = await visit(browser, inject("address"), { ...plain, reducedMotion: "reduce" });
    const { page } = here;
    await goTo(page, "order");
    await page.getByRole("button", { name: "Files" }).click();
    const longest = await page.evaluate(() =>
      Math.max(
        ...[...document.querySelectorAll("*")].flatMap((element) => {
          const { transitionDuration, animationDuration } = getComputedStyle(element);
          return [...transitionDuration.split(","), ...animationDuration.split(",")].map((text) =>
            text.trim().endsWith("ms") ? parseFloat(text) : parseFloat(text) * 1000,
          );
        }),
      ),
    );
    expect(longest).toBeLessThanOrEqual(20);
    await here.close();
  });
});

describe("a note", () => {
  it("covers nothing that can be pressed or typed into, at any size", async () => {
    for (const [width, height] of [
      [1440, 900],
      [1024, 768],
      [820, 1180],
      [390, 844],
    ] as const) {
      const here = await visit(browser, inject("address"), { ...plain, viewport: { width, height } });
      const { page } = here;
      for (const place of ["order", "numbers", "parts/fingerboard", "fit", "sheets", "first"]) {
        await goTo(page, place);
        await savedBy(page, () => page.keyboard.press("Control+s"));
        await page.locator(".tell").first().waitFor();
        const covered = await page.evaluate(() => {
          const { left, right, top, bottom } = document.querySelector(".tell")!.getBoundingClientRect();
          return [...document.querySelectorAll("main button, main a[href], main input")]
            .filter((element) => element.checkVisibility())
            .map((element) => ({ element, box: element.getBoundingClientRect() }))
            .filter(({ box }) => box.left < right && box.right > left && box.top < bottom && box.bottom > top)
            .map(({ element }) => element.outerHTML.slice(0, 120));
        });
        expect(covered, `${place} at ${width}`).toEqual([]);
      }
      await here.close();
    }
  });
});
