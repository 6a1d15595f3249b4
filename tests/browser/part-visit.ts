/** A visit to the drawing board of parts, and what is done there again and again. */
import type { Browser, Page } from "playwright-core";
import { expect, inject } from "vitest";
import type { Design } from "../../src/document/design.ts";
import { readDesign } from "../../src/document/read.ts";
import type { Path } from "../../src/geometry/path.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { DerivedPart } from "../../src/parts/derived.ts";
import { goTo, savedBy, visit, type Visit } from "./visit.ts";

/** Opens the parts of a new design in mm. */
export async function parts(browser: Browser, options: Parameters<typeof visit>[2] = {}): Promise<Visit> {
  const here = await visit(browser, inject("address"), options);
  await goTo(here.page, "parts");
  await here.page.getByRole("button", { name: "mm", exact: true }).first().click();
  return here;
}

/** Adds a part and waits for what its board has: the tools of an outline's points, or the legend of an inlay. */
export async function add(page: Page, kind: string): Promise<void> {
  await page.getByRole("button", { name: "Add a part" }).click();
  await page.getByRole("menuitem", { name: new RegExp(`^${kind}`) }).click();
  await page.getByRole("heading", { name: kind, exact: true, level: 1 }).waitFor();
  await page.locator(".points-bar, .inlay-legend").first().waitFor();
}

/** Chooses a file by a button. */
export async function choose(page: Page, button: string, path: string): Promise<void> {
  const [chooser] = await Promise.all([
    page.waitForEvent("filechooser"),
    page.getByRole("button", { name: button, exact: true }).click(),
  ]);
  await chooser.setFiles(path);
}

export async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByRole("textbox", { name: label, exact: true }).first();
  await field.fill(text);
  await field.press("Enter");
}

/** The design as the page saves it; it must read back whole. */
export async function saved(page: Page): Promise<{ design: Design; text: string }> {
  const { bytes } = await savedBy(page, () => page.keyboard.press("Control+s"));
  const text = Buffer.from(bytes).toString();
  const read = readDesign(text);
  if (!read.ok) throw new Error(read.message);
  expect(read.repairs).toEqual([]);
  return { design: read.design, text };
}

export const derived = (design: Design, id: string): DerivedPart => createDeriver()(design).parts.find((part) => part.id === id)!;
export const outlineOf = (design: Design, id: string): Path =>
  derived(design, id)
    .drawing()
    .layers.flatMap(({ shapes }) => shapes)
    .find((shape) => shape.id === "outline")!.path;

export const onBoard = (page: Page): Promise<void> => page.locator(".board-surface").focus();
