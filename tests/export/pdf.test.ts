import { describe, expect, it } from "vitest";
import { vec } from "../../src/geometry/vec.ts";
import { pdfOf, type PdfOptions } from "../../src/export/pdf/writer.ts";
import { layOut } from "../../src/sheets/lay-out.ts";
import { bodyHalf, box, bridge, fingerboard, sheetOptions, templateOf } from "../sheets/synthetic-templates.ts";
import { fonts } from "./fonts.ts";
import { readPdf } from "./read-pdf.ts";

const OPTIONS: PdfOptions = { fonts, title: "No. 14, Tenor guitar: templates", number: "14", date: "2026-03-09" };
const JOB = layOut([fingerboard(), bodyHalf(), bridge(), box("nut", 45, 9)], sheetOptions());

describe("a PDF file", { timeout: 60_000 }, () => {
  it("has title, number and date in its properties", async () => {
    const { info } = await readPdf(await pdfOf(JOB, OPTIONS));
    expect(info).toMatchObject({
      Title: OPTIONS.title,
      Keywords: "14",
      CreationDate: "D:20260309120000Z",
      ModDate: "D:20260309120000Z",
      Creator: "Gramil",
    });
  });

  it("asks for no scaling in print and shows its title", async () => {
    const { preferences } = await readPdf(await pdfOf(JOB, OPTIONS));
    expect(preferences).toEqual({ DisplayDocTitle: true, PrintScaling: "None" });
  });

  it("is the same, byte for byte, every time and in every time zone", async () => {
    const first = await pdfOf(JOB, OPTIONS);
    const zone = process.env["TZ"];
    process.env["TZ"] = "Pacific/Kiritimati";
    const again = await pdfOf(JOB, OPTIONS);
    if (zone === undefined) delete process.env["TZ"];
    else process.env["TZ"] = zone;
    expect(Buffer.compare(Buffer.from(first), Buffer.from(again))).toBe(0);
  });

  it("writes a template once, however many sheets show it", async () => {
    const set = layOut([bodyHalf()], sheetOptions());
    expect(set.sheets.length).toBeGreaterThan(2);
    const text = Buffer.from(await pdfOf(set, OPTIONS)).toString("latin1");
    expect(text.match(/\/Subtype \/Form/g)).toHaveLength(1);
  });

  it("tells how far it has come, rising to 1", async () => {
    const seen: number[] = [];
    await pdfOf(JOB, { ...OPTIONS, onProgress: (done) => seen.push(done) });
    expect(seen.at(-1)).toBe(1);
    expect(seen.every((done, i) => done >= (seen[i - 1] ?? 0))).toBe(true);
    expect(seen.length).toBeGreaterThan(3);
  });

  it("stops where it is told to, with the reason given", async () => {
    const control = new AbortController();
    const reason = new Error("the maker changed their mind");
    const done = pdfOf(JOB, { ...OPTIONS, signal: control.signal, onProgress: () => control.abort(reason) });
    await expect(done).rejects.toBe(reason);
    await expect(pdfOf(JOB, { ...OPTIONS, signal: AbortSignal.abort(reason) })).rejects.toBe(reason);
  });

  it("lets the event loop turn while it works", async () => {
    let turns = 0;
    const timer = setInterval(() => turns++, 1);
    await pdfOf(
      layOut(
        Array.from({ length: 6 }, (_, i) => bodyHalfNamed(i)),
        sheetOptions({ share: false }),
      ),
      OPTIONS,
    );
    clearInterval(timer);
    expect(turns).toBeGreaterThan(1);
  });

  it("carries letters that the face lacks as their plain forms", async () => {
    const set = layOut([box("nut", 45, 9)], sheetOptions({ order: { number: "Ž-7", title: "Łuk 木", player: "Ångström" } }));
    const { pages } = await readPdf(await pdfOf(set, OPTIONS));
    const said = pages.map((page) => page.texts.map(({ text }) => text).join(" ")).join(" ");
    expect(said).toContain("Z-7");
    expect(said).toContain("Ångström");
    expect(said).toContain("?");
  });

  it("a date that is none and a font that is none are refused", async () => {
    await expect(pdfOf(JOB, { ...OPTIONS, date: "spring" })).rejects.toThrow("spring");
    await expect(
      pdfOf(JOB, { ...OPTIONS, fonts: { regular: new Uint8Array([1, 2, 3, 4, 5]), strong: fonts.strong } }),
    ).rejects.toThrow();
  });

  it("writes warnings on a template in the bold face, and nothing else of it", async () => {
    const plain = box("nut", 80, 40);
    const texts = ["nut", "STOP"].map((text, i) => ({
      id: text,
      at: vec(10, 10 + 10 * i),
      text,
      height: 4,
      align: "start" as const,
      ...(text === "STOP" ? { loud: true } : {}),
    }));
    const layers = [...plain.drawing.layers, { name: "words", shapes: [], texts }];
    const set = layOut([{ ...plain, drawing: { ...plain.drawing, layers } }], sheetOptions());
    const { pages } = await readPdf(await pdfOf(set, OPTIONS));
    const said = pages.flatMap((page) => page.texts).filter(({ text, size }) => ["nut", "STOP"].includes(text) && size > 5.5);
    expect(said.map(({ text, font }) => [text, font])).toEqual([
      ["nut", "GRAMIL+AtkinsonHyperlegibleMono-Regular"],
      ["STOP", "GRAMIL+AtkinsonHyperlegibleMono-Strong"],
    ]);
  });

  it("shows the waste as a grey band on the side away from the part, under the line", async () => {
    const set = layOut([box("nut", 80, 40)], sheetOptions({ waste: "grey" }));
    const { pages } = await readPdf(await pdfOf(set, OPTIONS));
    const wide = pages[0]!.pieces.filter((piece) => piece.inForm && piece.width > 7);
    const outline = pages[0]!.pieces.filter((piece) => piece.inForm && piece.width < 1);
    expect(wide).toHaveLength(4);
    expect(outline.length).toBeGreaterThan(3);
  });
});

const bodyHalfNamed = (i: number) => ({ ...bodyHalf(), ...templateOf("body", `half-${i}`, []), drawing: bodyHalf().drawing });
