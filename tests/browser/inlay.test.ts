/**
 * Initials let into a headstock, in a real browser: typed, looked at, saved as SVG. The files are read back by svg-pathdata, and the gap between pocket and
 * piece is measured by the JTS Topology Suite: neither knows anything of this program.
 */
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { SVGPathData } from "svg-pathdata";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { run } from "../../src/cli/main.ts";
import { jtsLeft, jtsOffset, toJts, type Jts } from "../geometry/jts.ts";
import { openChromium } from "./chromium.ts";
import { goTo, savedBy, visit } from "./visit.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

async function type(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByRole("textbox", { name: label, exact: true }).first();
  await field.fill(text);
  await field.press("Enter");
}

async function choose(page: Page, label: string, option: string | RegExp): Promise<void> {
  await page.getByRole("combobox", { name: label }).click();
  await page.getByRole("option", { name: option }).first().click();
}

async function addPart(page: Page, label: string): Promise<void> {
  await goTo(page, "parts");
  await page.getByRole("button", { name: "Add a part" }).click();
  await page.getByRole("menuitem", { name: new RegExp(`^${label}`) }).click();
  await page.getByRole("heading", { name: label, level: 1 }).waitFor();
}

/** Waits until the legend says that all is worked out. */
const settled = (page: Page): Promise<void> => page.locator(".inlay-legend[data-state=final]").waitFor();

async function svgsOf(page: Page, titles: readonly RegExp[]): Promise<string[]> {
  await goTo(page, "sheets");
  await page.getByRole("heading", { name: /^\d+ sheets? of/ }).waitFor();
  await page.getByRole("button", { name: "none", exact: true }).click();
  for (const title of titles) await page.getByRole("checkbox", { name: title }).click();
  await page.getByRole("heading", { name: /^\d+ sheets? of/ }).waitFor();
  const { name, bytes } = await savedBy(page, () => page.getByRole("button", { name: "SVG", exact: true }).click());
  const decode = (file: Uint8Array): string => new TextDecoder().decode(file);
  return name.endsWith(".svg") ? [decode(bytes)] : Object.values(unzipSync(bytes)).map(decode);
}

type Point = { x: number; y: number };

/** The closed rings of all shapes of a role, arcs turned into cubics by svg-pathdata and those cut into chords of a few microns' bow. */
function ringsOf(svg: string, role: string): Point[][] {
  const paths = (svg.match(/<path [^>]*>/g) ?? []).filter((tag) => tag.includes(`data-role="${role}"`));
  return paths.flatMap((tag) => {
    const rings: Point[][] = [];
    let at: Point = { x: 0, y: 0 };
    for (const command of new SVGPathData(/ d="([^"]*)"/.exec(tag)![1]!).toAbs().normalizeHVZ(false).normalizeST().aToC()
      .commands) {
      if (command.type === SVGPathData.MOVE_TO) rings.push([]);
      if (command.type === SVGPathData.CLOSE_PATH) continue;
      if (command.type === SVGPathData.CURVE_TO)
        for (let k = 1; k <= 32; k++) {
          const t = k / 32;
          const mix = (p: number, a: number, b: number, q: number): number =>
            (1 - t) ** 3 * p + 3 * (1 - t) ** 2 * t * a + 3 * (1 - t) * t * t * b + t ** 3 * q;
          rings.at(-1)!.push({
            x: mix(at.x, command.x1, command.x2, command.x),
            y: mix(at.y, command.y1, command.y2, command.y),
          });
        }
      if (!("x" in command) || !("y" in command)) continue;
      at = { x: command.x, y: command.y };
      if (command.type !== SVGPathData.CURVE_TO) rings.at(-1)!.push(at);
    }
    return rings.map((ring) => ring.filter((p, i) => Math.hypot(p.x - ring.at(i - 1)!.x, p.y - ring.at(i - 1)!.y) > 1e-9));
  });
}

function aboutMiddle(rings: readonly Point[][]): Point[][] {
  const all = rings.flat();
  const middle = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;
  const [x, y] = [middle(all.map((p) => p.x)), middle(all.map((p) => p.y))];
  return rings.map((ring) => ring.map((p) => ({ x: p.x - x, y: p.y - y })));
}

const areaOf = (ring: readonly Point[]): number =>
  ring.reduce((sum, p, i) => sum + ring.at(i - 1)!.x * p.y - p.x * ring.at(i - 1)!.y, 0) / 2;

/** Rings nested by which of them lies in which, outer ones by their size. */
function regionOf(rings: readonly Point[][]): { outer: Point[]; holes: Point[][] }[] {
  const isIn = (p: Point, ring: readonly Point[]): boolean =>
    ring.reduce((inside, b, i) => {
      const a = ring.at(i - 1)!;
      return a.y > p.y !== b.y > p.y && p.x < ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y) + a.x ? !inside : inside;
    }, false);
  const around = (ring: Point[]): Point[][] => rings.filter((other) => other !== ring && isIn(ring[0]!, other));
  const outers = rings.filter((ring) => around(ring).length % 2 === 0);
  return outers.map((outer) => ({
    outer: areaOf(outer) > 0 ? outer : outer.toReversed(),
    holes: rings
      .filter((ring) => around(ring).length % 2 === 1 && around(ring).every((one) => one === outer || !outers.includes(one)))
      .map((hole) => (areaOf(hole) < 0 ? hole : hole.toReversed())),
  }));
}

describe("initials in a script face on the head of an order", () => {
  it("are cut by a 0.5 mm bit with a gap of 0.05 mm: the saved files keep 0.045 to 0.055 everywhere", async () => {
    const { page, complaints, strangers, close } = await visit(browser, inject("address"));
    await addPart(page, "Headstock");
    await addPart(page, "Inlay");
    await settled(page);
    expect(await page.locator(".parts-summary").innerText()).toMatch(/in the headstock/);
    await type(page, "Letters", "BO");
    await choose(page, "Face", /Great Vibes/);
    await type(page, "Size", "15 mm");
    await type(page, "Bit for the pocket", "0.5 mm");
    await type(page, "Glue gap", "0.05 mm");
    await page
      .getByRole("button", { name: "In place", exact: true })
      .or(page.getByRole("radio", { name: "In place" }))
      .first()
      .click();
    await settled(page);
    await expect.poll(() => page.locator(".inlay-verdict").innerText()).toMatch(/0\.5 mm bit/);
    const [first, second] = await svgsOf(page, [/^Pocket, BO/, /^Inlay pieces?, BO/]);
    const [pocketFile, plugFile] = first!.includes('data-role="pocket"') ? [first!, second!] : [second!, first!];
    // Each file has its own zero: the middles of the two boxes are laid on each other, which a gap alike all round leaves where they are.
    const pocket = regionOf(aboutMiddle(ringsOf(pocketFile, "pocket")));
    const plug = regionOf(aboutMiddle(ringsOf(plugFile, "plug")));
    expect(pocket.length).toBeGreaterThan(1);
    expect(plug.length).toBe(pocket.length);
    expect(plug.reduce((n, { holes }) => n + holes.length, 0)).toBeGreaterThan(0);
    // The piece grown by 0.045 stays inside the pocket, grown by 0.055 it covers it all; chords and the offset's own take 0.0005 of that.
    const grown = (by: number): Jts => jtsOffset(plug, by);
    expect(jtsLeft(grown(0.0455), toJts(pocket))).toBeLessThan(1e-6);
    expect(jtsLeft(toJts(pocket), grown(0.0545))).toBeLessThan(1e-6);
    // And it is a real gap: the piece itself is well inside.
    expect(jtsLeft(toJts(pocket), plug)).toBeGreaterThan(0.5);
    expect(complaints).toEqual([]);
    expect(strangers).toEqual([]);
    await close();
  });

  it("come out of the browser to the byte as out of the command line", async () => {
    const file = resolve(import.meta.dirname, "../../examples/showpiece-tenor-guitar.json");
    const out = await mkdtemp(join(tmpdir(), "gramil-inlay-"));
    const { page, complaints, close } = await visit(browser, inject("address"));
    const data = await page.evaluateHandle(
      (text) => {
        const transfer = new DataTransfer();
        transfer.items.add(new File([text], "showpiece.json"));
        return transfer;
      },
      await readFile(file, "utf8"),
    );
    for (const event of ["dragenter", "dragover", "drop"]) await page.dispatchEvent("main", event, { dataTransfer: data });
    await goTo(page, "parts/inlay");
    await settled(page);
    const [fromBrowser] = await svgsOf(page, [/^Pocket, WO/]);
    const said: string[] = [];
    const code = await run(["templates", file, "--out", out, "--part", "inlay", "--template", "pocket", "--format", "svg"], {
      line: (text) => said.push(text),
      note: (text) => said.push(text),
    });
    expect(code, said.join("\n")).toBe(0);
    expect(fromBrowser).toBe(await readFile(join(out, "inlay-pocket.svg"), "utf8"));
    expect(complaints).toEqual([]);
    await rm(out, { recursive: true });
    await close();
  });
});

describe("the page", () => {
  it("keeps answering while 24 letters in a script face are worked out", async () => {
    const { page, close } = await visit(browser, inject("address"));
    await addPart(page, "Inlay");
    await settled(page);
    await choose(page, "Face", /Great Vibes/);
    await settled(page);
    // Gaps between the page's own frames while the letters are worked out elsewhere; the bound is that of a freeze, not of speed.
    await page.evaluate(() => {
      const gaps: number[] = [];
      let last = performance.now();
      const look = (): void => {
        const now = performance.now();
        gaps.push(now - last);
        last = now;
        setTimeout(look, 5);
      };
      look();
      Object.assign(window, { gapsSeen: gaps });
    });
    await type(page, "Letters", "Esther Kingsley of Hallow");
    await page.locator(".inlay-legend:not([data-state=final])").waitFor();
    await settled(page);
    const longest = await page.evaluate(() => Math.max(...(window as unknown as { gapsSeen: number[] }).gapsSeen));
    expect(longest).toBeLessThan(3000);
    await close();
  });

  it("names a letter that the face lacks, and goes on with the next", async () => {
    const { page, complaints, close } = await visit(browser, inject("address"));
    await addPart(page, "Inlay");
    await settled(page);
    await type(page, "Letters", "A木");
    await expect.poll(() => page.locator(".inlay-verdict").innerText()).toMatch(/has no 木 \(U\+6728\)/);
    await type(page, "Letters", "AB");
    await settled(page);
    expect(await page.locator(".inlay-verdict").innerText()).toMatch(/all strokes survive/);
    expect(complaints).toEqual([]);
    await close();
  });
});
