import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { jobArchive } from "../../src/export/job.ts";
import { layOut } from "../../src/sheets/lay-out.ts";
import type { SheetOptions } from "../../src/sheets/sheet.ts";
import { bodyHalf, bridge, fingerboard, sheetOptions } from "../sheets/synthetic-templates.ts";
import { fonts } from "./fonts.ts";

const TEMPLATES = [fingerboard(), bodyHalf(), bridge()];
const DESIGN = { stem: "14-tenor-guitar", text: "{}\n" };
const archive = (options: Partial<SheetOptions> = {}, watch: Parameters<typeof jobArchive>[4] = {}) =>
  jobArchive(TEMPLATES, sheetOptions(options), fonts, DESIGN, watch);

describe("a whole job in one archive", { timeout: 120_000 }, () => {
  it("holds the sheets, every template for a machine, all of them in one file, and the design", async () => {
    const files = unzipSync(await archive());
    expect(Object.keys(files)).toEqual([
      "14-tenor-guitar.pdf",
      "fingerboard-blank-outline.svg",
      "body-half.svg",
      "bridge-outline.svg",
      "all-templates.svg",
      "14-tenor-guitar.json",
    ]);
    expect(new TextDecoder().decode(files["14-tenor-guitar.json"])).toBe("{}\n");
    expect(new TextDecoder().decode(files["14-tenor-guitar.pdf"]!.subarray(0, 5))).toBe("%PDF-");
  });

  it("is the same bytes on another day, and other bytes only for another order date", async () => {
    const now = Date.now;
    const first = await archive();
    Date.now = () => now() + 40 * 86_400_000;
    try {
      expect(Buffer.from(await archive()).equals(Buffer.from(first))).toBe(true);
      expect(Buffer.from(await archive({ date: "2026-03-10" })).equals(Buffer.from(first))).toBe(false);
    } finally {
      Date.now = now;
    }
  });

  it("is the same bytes from sheets that are laid out already", async () => {
    const set = layOut(TEMPLATES, sheetOptions());
    expect(Buffer.from(await archive({}, { set })).equals(Buffer.from(await archive()))).toBe(true);
  });

  it("tells how far it is, never back, from the first sheet to all done", async () => {
    const told: number[] = [];
    await archive({}, { onProgress: (done) => told.push(done) });
    expect(told.length).toBeGreaterThan(TEMPLATES.length);
    for (const [i, done] of told.entries()) {
      expect(done).toBeGreaterThanOrEqual(told[i - 1] ?? 0);
      expect(done).toBeLessThanOrEqual(1 + 1e-12);
    }
    expect(told.at(-1)).toBeCloseTo(1, 12);
  });

  it("stops where it is cancelled, with the reason given", async () => {
    const controller = new AbortController();
    const told: number[] = [];
    const running = archive(
      {},
      {
        signal: controller.signal,
        onProgress: (done) => {
          told.push(done);
          controller.abort(new Error("no paper"));
        },
      },
    );
    await expect(running).rejects.toThrow("no paper");
    expect(told.at(-1)).toBeLessThan(1);
  });
});
