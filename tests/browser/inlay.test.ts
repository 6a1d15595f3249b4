/**
 * Initials let into a headstock, in a real browser: typed, looked at, saved as SVG. The files are read back by svg-pathdata, and the gap between pocket and
 * piece is measured by the JTS Topology Suite: neither knows anything of this program.
 */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { SVGPathData } from "svg-pathdata";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { run } from "../../src/cli/main.ts";
import { jtsLeft, jtsOffset, toJts, type Jts } from "../geometry/jts.ts";
import { openChromium } from "./chromium.ts";
import { add, type } from "./part-visit.ts";
import { goTo, savedBy, visit } from "./visit.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

async function choose(page: Page, label: string, option: string | RegExp): Promise<void> {
  await page.getByRole("combobox", { name: label }).click();
  await page.getByRole("option", { name: option }).first().click();
}

async function addPart(page: Page, kind: string): Promise<void> {
  await goTo(page, "parts");
  await add(page, kind);
}

/** Waits until what was changed last is kept in the browser. */
async function kept(page: Page): Promise<void> {
  await page.waitForTimeout(600);
  await page.getByText(/^saved in this browser/).waitFor();
}

/** Waits until the legend says that all is worked out. */
const settled = (page: Page): Promise<void> => page.locator(".inlay-legend[data-state=final]").waitFor();

async function svgsOf(page: Page, titles: readonly RegExp[]): Promise<string[]> {
  await goTo(page, "sheets");
  await page.getByRole("heading", { name: /^\d+ sheets? of/ }).waitFor({ timeout: 90_000 });
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
    await expect.poll(() => page.locator(".parts-summary").innerText()).toMatch(/in the headstock/);
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
    // No letters at all is an inlay of figures alone.
    await type(page, "Letters", "");
    await expect.poll(() => page.locator(".inlay-verdict").innerText()).toMatch(/There is nothing to inlay yet/);
    await type(page, "Letters", "AB");
    await expect.poll(() => page.locator(".inlay-verdict").innerText()).toMatch(/all strokes survive/);
    expect(complaints).toEqual([]);
    await close();
  });
});

/** Chooses a file by the field's own button. */
async function chooseFont(page: Page, name: string, buffer: Uint8Array): Promise<void> {
  const button = page.getByRole("button", { name: /^Choose a(nother)? font file$/ });
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), button.click()]);
  await chooser.setFiles({ name, mimeType: "font/ttf", buffer: Buffer.from(buffer) });
}

describe("a font file of the maker's own", () => {
  const whole = (path: string): Promise<Buffer> => readFile(resolve(import.meta.dirname, "../..", path));

  it("is refused with a reason where it is damaged, huge or none, and then the letters stay as they were", async () => {
    const { page, complaints, close } = await visit(browser, inject("address"));
    await addPart(page, "Inlay");
    await settled(page);
    await choose(page, "Face", "A font file of yours");
    await expect.poll(() => page.locator(".inlay-verdict").innerText()).toMatch(/No font file is chosen yet/);
    const strokes = await whole("tests/data/fonts/strokes.ttf");
    const flipped = Uint8Array.from(strokes, (byte, i) => (i === strokes.length >> 1 ? byte ^ 0x40 : byte));
    for (const [name, bytes, reason] of [
      ["flipped.ttf", flipped, /flipped\.ttf was not taken in: .*does not match its checksum/],
      ["short.ttf", strokes.subarray(0, strokes.length - 400), /short\.ttf was not taken in: .*damaged/],
      ["huge.otf", new Uint8Array(5_000_001), /huge\.otf was not taken in: it is larger than 5 MB/],
      ["letter.ttf", Buffer.from("Dear maker"), /letter\.ttf was not taken in: .*is no font/],
      ["packed.woff", Buffer.concat([Buffer.from("wOF2"), Buffer.alloc(300)]), /packed\.woff was not taken in: .*WOFF2/],
    ] as const) {
      await chooseFont(page, name, bytes);
      await page.locator(".tell-title").filter({ hasText: reason }).first().waitFor();
    }
    await expect.poll(() => page.locator(".inlay-verdict").innerText()).toMatch(/No font file is chosen yet/);
    expect(complaints).toEqual([]);
    await close();
  });

  it("goes with the design: it is there after the page is loaded again, and the saved file gives the same letters on the command line", async () => {
    const { page, complaints, close } = await visit(browser, inject("address"));
    await addPart(page, "Inlay");
    await settled(page);
    await type(page, "Letters", "Ro");
    await choose(page, "Face", "A font file of yours");
    await chooseFont(page, "own.woff", await whole("public/faces/pirata-one-latin-400-normal.woff"));
    await page.getByText("Pirata One, 13 kB, goes with the design wherever it is opened.").waitFor();
    await settled(page);
    // A face of .ttf that lacks a letter names it; the one before is back by undo.
    await chooseFont(page, "strokes.ttf", await whole("tests/data/fonts/strokes.ttf"));
    await expect.poll(() => page.locator(".inlay-verdict").innerText()).toMatch(/Gramil Strokes has no R \(U\+0052\)/);
    await page.keyboard.press("Control+z");
    await page.getByText("Pirata One, 13 kB").waitFor();
    await kept(page);
    await page.reload();
    await goTo(page, "parts/inlay");
    await settled(page);
    await page.getByText("Pirata One, 13 kB").waitFor();
    const saved = await savedBy(page, () => page.keyboard.press("Control+s"));
    const [fromBrowser] = await svgsOf(page, [/^Pocket, Ro/]);
    const out = await mkdtemp(join(tmpdir(), "gramil-own-face-"));
    const file = join(out, "design.json");
    await writeFile(file, saved.bytes);
    const said: string[] = [];
    const words = { line: (text: string) => said.push(text), note: (text: string) => said.push(text) };
    const code = await run(
      ["templates", file, "--out", out, "--part", "inlay", "--template", "pocket", "--format", "svg"],
      words,
    );
    expect(code, said.join("\n")).toBe(0);
    expect(fromBrowser).toBe(await readFile(join(out, "inlay-pocket.svg"), "utf8"));
    expect(complaints).toEqual([]);
    await rm(out, { recursive: true });
    await close();
  });
});

describe("a guide bush", () => {
  it("gives its template where it can follow the letters, and else the reason in the verdict itself", async () => {
    const { page, complaints, close } = await visit(browser, inject("address"));
    await goTo(page, "parts");
    await page.getByRole("button", { name: "mm", exact: true }).first().click();
    await addPart(page, "Inlay");
    await settled(page);
    const verdict = (): Promise<string> => page.locator(".inlay-verdict").innerText();
    await choose(page, "Cut with", "Guide bush and template");
    // A bush of 12 mm on a bit of 3 mm leaves inward corners of (12 - 3) / 2 and the gap.
    await expect.poll(verdict).toMatch(/nothing of the letters is as wide as the corners of 4\.55 mm/);
    await type(page, "Letters", "H");
    await type(page, "Size", "60 mm");
    await expect.poll(verdict).toMatch(/all strokes survive this set of bushes and bits/);
    // The window is the pocket moved out by (12 - 3) / 2 = 4.5 mm: its box is 9 mm larger each way. The saved file says so.
    const [first, second] = await svgsOf(page, [/^Pocket, H/, /^Inside template for pocket/]);
    const [window, pocket] = first!.includes('id="inside-1"') ? [first!, second!] : [second!, first!];
    const width = (svg: string, role: string): number => {
      const xs = ringsOf(svg, role).flatMap((ring) => ring.map(({ x }) => x));
      return Math.max(...xs) - Math.min(...xs);
    };
    expect(width(window, "cut") - width(pocket, "pocket")).toBeCloseTo(9, 2);
    await goTo(page, "parts/inlay");
    await choose(page, "Templates", /^One outside/);
    await expect.poll(verdict).toMatch(/This set of bushes and bits breaks a stroke/);
    await choose(page, "Templates", /^One inside/);
    await type(page, "Bush for the pocket", "2 mm");
    await expect.poll(verdict).toMatch(/The bit for the pocket, 3 mm, does not pass through its bush of 2 mm/);
    await type(page, "Bush for the pocket", "17 mm");
    await type(page, "Bush for the inlay piece", "10 mm");
    await expect.poll(verdict).toMatch(/larger than its pocket by 0\.5 mm all round/);
    expect(complaints).toEqual([]);
    await close();
  });
});

describe("interlaced letters", () => {
  it("are turned at a crossing by a key, by its number, and back by undo", async () => {
    const { page, complaints, close } = await visit(browser, inject("address"));
    await goTo(page, "parts");
    await page.getByRole("button", { name: "mm", exact: true }).first().click();
    await addPart(page, "Inlay");
    await settled(page);
    await type(page, "Letters", "OQ");
    await choose(page, "Face", /Lato/);
    await type(page, "Size", "20 mm");
    await choose(page, "Arrangement", "Interlaced");
    await type(page, "Overlap", "9 mm");
    await page.getByRole("tab", { name: "Crossings 2" }).click();
    const said = (): Promise<string[]> =>
      page
        .locator(".inlay-crossings li")
        .getByRole("button", { name: /^Crossing/ })
        .allInnerTexts();
    await expect.poll(said).toEqual(["Crossing 1: O over Q", "Crossing 2: Q over O"]);
    await page.getByRole("button", { name: "Turn crossing 2: O over Q" }).focus();
    await page.keyboard.press("Enter");
    await expect.poll(said).toEqual(["Crossing 1: O over Q", "Crossing 2: O over Q"]);
    await expect.poll(() => page.getByRole("textbox", { name: "Turned crossings" }).inputValue()).toBe("2");
    // O lies over Q all round: its ring is one piece, and of Q the part inside and the one outside are left.
    await settled(page);
    expect((await svgsOf(page, [/^Pocket, OQ/]))[0]!.match(/data-role="pocket"/g)).toHaveLength(3);
    await goTo(page, "parts/inlay");
    await page.keyboard.press("Control+z");
    await page.getByRole("tab", { name: "Crossings 2" }).click();
    await expect.poll(said).toEqual(["Crossing 1: O over Q", "Crossing 2: Q over O"]);
    await type(page, "Turned crossings", "1 2");
    await expect.poll(said).toEqual(["Crossing 1: Q over O", "Crossing 2: O over Q"]);
    expect(complaints).toEqual([]);
    await close();
  });
});

describe("a pocket that was cut", () => {
  it("is held against the one drawn now, with its letters, also after the page is loaded again", async () => {
    const { page, complaints, close } = await visit(browser, inject("address"));
    await addPart(page, "Inlay");
    await settled(page);
    await goTo(page, "order");
    await page.getByRole("button", { name: "Enter a cut" }).click();
    await choose(page, "Template", /pocket, AB/);
    await page.getByRole("button", { name: "Enter it" }).click();
    const cut = page.locator(".cuts-list li");
    await expect.poll(() => cut.innerText()).toMatch(/still matches/);
    await kept(page);
    await page.reload();
    await goTo(page, "order");
    await expect.poll(() => cut.innerText()).toMatch(/Inlay, pocket, AB[^]*still matches/);
    await goTo(page, "parts/inlay");
    await settled(page);
    await type(page, "Size", "14 mm");
    await goTo(page, "order");
    await expect.poll(() => cut.innerText()).toMatch(/up to .* off at pocket/);
    expect(complaints).toEqual([]);
    await close();
  });
});
