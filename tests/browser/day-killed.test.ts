/** The page is killed at random moments of a steady edit, loaded again and compared: nothing older than a second may be lost. */
import { cpus, loadavg } from "node:os";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { openChromium } from "./chromium.ts";

/** As many as `GRAMIL_KILLS` says; a run of 200 takes minutes, and every test run has some. */
const KILLS = Number(process.env["GRAMIL_KILLS"] ?? 24);
/** Long enough that a page which saves too late is caught: most kills come when more than a second's work has been typed. */
const LONGEST_EDIT_MS = 2400;
/** The promise: what was typed longer ago than this is there again. */
const NOTHING_OLDER_MS = 1000;
/** On a machine with more to do than it has cores a second is stretched, but stays well below the longest edit: else nothing could fail. */
const allowedMs = (): number => NOTHING_OLDER_MS * Math.min(1.5, Math.max(1, loadavg()[0]! / cpus().length));

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

interface Typed {
  readonly text: string;
  /** By the computer's clock, ms. */
  readonly at: number;
}

/** Numbers from 0 to 1 that are the same in every run (mulberry32). */
function randoms(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Types one length after the other into the scale and says each that the field has taken over: four in a second, more than any hand. */
const STEADY_EDIT = `(round) => {
  const scale = [...document.querySelectorAll("input")].find((one) => one.closest(".row")?.textContent.startsWith("Scale"));
  const put = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value").set;
  let n = 0;
  setInterval(async () => {
    const text = (600 + round + n / 1000).toFixed(3) + " mm";
    n += 1;
    scale.focus();
    put.call(scale, text);
    scale.dispatchEvent(new Event("input", { bubbles: true }));
    // The field takes a letter over when the script rests, as it does between two keys of a hand.
    await null;
    scale.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true }));
    await null;
    window.typed(text);
  }, 250);
}`;

async function scaleShown(page: Page): Promise<string> {
  const scale = page.getByRole("textbox", { name: "Scale", exact: true }).first();
  await scale.waitFor();
  return scale.inputValue();
}

/** One profile, killed over and over; each time the oldest lost number is looked for. */
async function killOverAndOver(context: BrowserContext, kills: number): Promise<void> {
  const random = randoms(7);
  const complaints: string[] = [];
  let typed: Typed[] = [];
  await context.exposeFunction("typed", (text: string) => typed.push({ text, at: Date.now() }));
  let killedAt = 0;
  let oldest = 0;
  for (let round = 0; round <= kills; round++) {
    const page = await context.newPage();
    page.on("pageerror", (error) => complaints.push(error.message));
    await page.goto(`${inject("address")}#/numbers`);
    const shown = await scaleShown(page);
    expect(complaints).toEqual([]);
    // A broken store would be told in a dialog or a note.
    expect(await page.locator(".dlg, .tell").count()).toBe(0);
    if (round > 0) {
      const allowed = allowedMs();
      const kept = typed.findIndex(({ text }) => `${parseFloat(text)}` === `${parseFloat(shown)}`);
      // Where none of them is there, all are lost.
      const first = typed[kept + 1];
      const age = first ? killedAt - first.at : 0;
      oldest = Math.max(oldest, age);
      expect(age, `round ${round}: ${shown} was there again`).toBeLessThan(allowed);
    }
    if (round === kills) break;
    typed = [];
    const cdp = await context.newCDPSession(page);
    const gone = new Promise<void>((done) => page.once("crash", () => done()));
    await page.evaluate(`(${STEADY_EDIT})(${round})`);
    await new Promise((done) => setTimeout(done, random() * LONGEST_EDIT_MS));
    killedAt = Date.now();
    cdp.send("Page.crash").catch(() => undefined);
    await gone;
    await page.close();
  }
  console.log(`${kills} kills: the oldest lost number was ${oldest} ms old`);
}

describe("a page that is killed", () => {
  it(
    `at ${KILLS} random moments of a steady edit loses nothing older than a second, and never the store`,
    { timeout: 60_000 + KILLS * 5000 },
    async () => {
      const context = await browser.newContext({ viewport: { width: 640, height: 480 }, serviceWorkers: "block" });
      await killOverAndOver(context, KILLS);
      await context.close();
    },
  );
});
