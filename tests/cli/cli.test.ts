import { existsSync } from "node:fs";
import { mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { run } from "../../src/cli/main.ts";

let dir: string;
beforeEach(async () => {
  dir = await mkdtemp(join(tmpdir(), "gramil-cli-"));
});
afterEach(() => rm(dir, { recursive: true }));

const examples = resolve(import.meta.dirname, "../../examples");
const steel = (): string => join(dir, "steel.json");

async function gramil(...argv: string[]): Promise<{ code: number; out: string; err: string }> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await run(argv, { line: (text) => out.push(text), note: (text) => err.push(text) });
  return { code, out: out.join("\n"), err: err.join("\n") };
}

interface Board {
  readonly frets: { readonly number: number; readonly fromNut: number }[];
  readonly widthAtNut: number;
  readonly boundWidthAtNut: number;
  readonly blankWidthAtNut: number;
  readonly blankWidthAtEnd: number;
  readonly length: number;
}
const boardOf = (out: string): Board => (JSON.parse(out) as { parts: { fingerboard: Board } }).parts.fingerboard;

describe("the command line", () => {
  it.each(["steel-string", "classical", "ukulele"])("makes a whole %s whose own checks say no stop", async (kind) => {
    expect(await gramil("new", "--kind", kind, "-o", steel())).toMatchObject({ code: 0, err: "" });
    expect(await gramil("check", steel())).toMatchObject({ code: 0, err: "" });
  });

  it("gives the ends of the bound board 43 / 57 / 470 with 2.413 as 38.1735 and 52.1735", async () => {
    // By hand: tan(alpha) = 7/470, so each side takes 2.413 / cos(alpha) = 2.4132676; 43 - 2 x 2.4132676 = 38.1734648.
    await gramil("new", "--kind", "steel-string", "-o", steel(), "--set", "units=mm");
    const set = ["nutWidth=43", "fingerboard.length=470", "fingerboard.widthAtEnd=57", "fingerboard.binding=2.413 mm"].flatMap(
      (s) => ["--set", s],
    );
    const { out, err, code } = await gramil("measure", steel(), "--json", ...set);
    expect({ err, code }).toEqual({ err: "", code: 0 });
    const board = boardOf(out);
    expect(board.boundWidthAtNut).toBeCloseTo(43, 9);
    expect(board.blankWidthAtNut).toBeCloseTo(38.1734648, 6);
    expect(board.blankWidthAtEnd).toBeCloseTo(52.1734648, 6);
    expect(board.length).toBeCloseTo(470, 9);
  });

  it("lets the spread follow when the third nut number is set", async () => {
    await gramil("new", "--kind", "steel-string", "-o", steel());
    const { out } = await gramil("measure", steel(), "--json", "--set", "nutWidth=1 11/16 in", "--set", "nutMargin=3 mm");
    const { instrument } = JSON.parse(out) as { instrument: { nutSpread: number; nutWidth: number } };
    expect(instrument.nutSpread).toBeCloseTo(42.8625 - 6, 9);
  });

  it("writes one SVG and one PDF a template, and lists them", async () => {
    await gramil("new", "--kind", "ukulele", "-o", steel());
    expect(
      await gramil("templates", steel(), "--out", join(dir, "out"), "--part", "fingerboard", "--paper", "letter"),
    ).toMatchObject({ code: 0, err: "" });
    const list = JSON.parse(await readFile(join(dir, "out", "templates.json"), "utf8")) as {
      templates: { file: string; role: string; widthMm: number }[];
    };
    const files = (await readdir(join(dir, "out"))).toSorted();
    expect([...list.templates.map((t) => t.file), "templates.json"].toSorted()).toEqual(files);
    expect(list.templates.every((t) => t.role !== "" && t.widthMm > 10)).toBe(true);
  });

  it("makes a template as the design says, tells its corners that come out round, and refuses one that covers its own recess", async () => {
    await gramil("new", "--kind", "ukulele", "-o", steel());
    const blank = "templates.fingerboard/blank-outline";
    const made = (...sets: string[]) =>
      gramil(
        "templates",
        steel(),
        "--out",
        join(dir, "out"),
        "--template",
        "blank-outline",
        ...[`${blank}.follow=bush`, `${blank}.bush=15.9 mm`, `${blank}.bit=3 mm`, ...sets].flatMap((set) => ["--set", set]),
      );
    const { code, err } = await made();
    expect(code).toBe(0);
    // Near side (15.9 - 3)/2 = 6.45: each of the four sharp corners of the board is cut off at that radius.
    expect(err).toMatch(/^fingerboard\/blank-outline: 4 outward corners sharper than 6\.45 mm come out round/);
    const list = JSON.parse(await readFile(join(dir, "out", "templates.json"), "utf8")) as {
      templates: { lineIs: string; cautions: string[] }[];
    };
    expect(list.templates[0]!.lineIs).toMatch(
      /^outside template for a 15\.9 mm bush with a 3 mm bit, 6\.45 mm inside of the edge/,
    );
    expect(list.templates[0]!.cautions.length).toBeGreaterThan(0);
    const refused = await made(`${blank}.cut=blind-recess`);
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(/cover the wood.*: templates\.fingerboard\/blank-outline \(Make it an inside template/);
  });

  it("moves the joints of a tiled template as the design says", async () => {
    await gramil("new", "--kind", "steel-string", "-o", steel());
    const bytes = async (name: string, ...sets: string[]): Promise<Buffer> => {
      await gramil("templates", steel(), "--out", join(dir, name), "--template", "blank-outline", "--format", "pdf", ...sets);
      return readFile(join(dir, name, "fingerboard-blank-outline.pdf"));
    };
    const still = await bytes("a");
    const moved = await bytes("b", "--set", "templates.fingerboard/blank-outline.jointAcross=9 mm");
    expect(moved.equals(still)).toBe(false);
    expect((await bytes("c", "--set", "templates.fingerboard/blank-outline.jointAcross=0")).equals(still)).toBe(true);
  });

  it("gives the same bytes twice", async () => {
    await gramil("new", "--kind", "ukulele", "-o", steel());
    const bytes = async (name: string): Promise<Buffer> => {
      await gramil("templates", steel(), "--out", join(dir, name), "--template", "fret-slots");
      return readFile(join(dir, name, "fingerboard-fret-slots.pdf"));
    };
    expect((await bytes("a")).equals(await bytes("b"))).toBe(true);
  });

  it.each([
    ["an unknown command", ["carve"], /no command carve/],
    ["an unknown option", ["measure", "x.json", "--sett", "a=b"], /no option --sett/],
    ["a missing file", ["measure", "nowhere.json"], /nowhere\.json cannot be read: there is no such file/],
    ["a missing folder name", ["templates", "STEEL"], /--out DIR is missing/],
    ["an unknown kind", ["new", "--kind", "sitar", "-o", "x.json"], /no kind sitar/],
    ["an unknown paper", ["templates", "STEEL", "--out", "OUT", "--paper", "b9"], /b9/],
    ["an unknown template", ["templates", "STEEL", "--out", "OUT", "--template", "wing"], /wing.*fret-slots/],
    [
      "a test sheet of a paper too small for its bars",
      ["test-sheet", "--paper", "a5", "-o", "OUT"],
      /no room for bars of 150 mm/,
    ],
    ["an arrangement without a file", ["arrangement", "STEEL"], /-o FILE is missing/],
    [
      "an arrangement too large for its paper",
      ["arrangement", "STEEL", "-o", "OUT", "--scale", "1:1"],
      /1:1 is too large for A3/,
    ],
    ["a scale that is none", ["arrangement", "STEEL", "-o", "OUT", "--scale", "big"], /--scale big is no scale/],
    ["a factor for metres", ["templates", "STEEL", "--out", "OUT", "--printer", "2,1"], /not two factors/],
    ["an unknown number, with the nearest", ["measure", "STEEL", "--set", "nutWidht=43"], /nutWidth/],
    ["a text that is no length", ["measure", "STEEL", "--set", "nutWidth=wide"], /instrument\.nutWidth/],
    ["a negative width", ["measure", "STEEL", "--set", "nutWidth=-43 mm"], /instrument\.nutWidth/],
    ["a thousand million frets", ["measure", "STEEL", "--set", "frets=1000000000"], /instrument\.frets/],
    ["not a number", ["measure", "STEEL", "--set", "scale=NaN"], /instrument\.scale/],
  ])("refuses %s in one line with exit code 2, and writes nothing", async (_, argv, message) => {
    await gramil("new", "--kind", "steel-string", "-o", steel());
    const { code, err, out } = await gramil(
      ...argv.map((word) => (word === "STEEL" ? steel() : word === "OUT" ? join(dir, "out") : word)),
    );
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(err).toMatch(message);
    expect(err.split("\n")).toHaveLength(1);
    expect(existsSync(join(dir, "out"))).toBe(false);
  });

  it.each([
    ["empty", ""],
    ["half a file", '{ "format": "gramil-design", "version": 1, "instru'],
    ["a picture", "\u0089PNG\r\n\u001a\n0000"],
    ["another program's file", '{"name":"x"}'],
    ["a later version", '{ "format": "gramil-design", "version": 99, "units": "mm", "instrument": {}, "parts": {} }'],
  ])("refuses a file that is %s in one line", async (_, text) => {
    await writeFile(steel(), text);
    const { code, err } = await gramil("measure", steel());
    expect(code).toBe(2);
    expect(err.split("\n")).toHaveLength(1);
    expect(err).toContain("steel.json");
    expect(await readFile(steel(), "utf8")).toBe(text);
  });

  it("says why an inlay gives no template: alone it is refused, among others it is told", async () => {
    await gramil("new", "--kind", "steel-string", "-o", steel());
    const design = JSON.parse(await readFile(steel(), "utf8")) as { parts: Record<string, unknown> };
    design.parts["initials"] = { kind: "inlay", text: "A木", face: "lato" };
    await writeFile(steel(), JSON.stringify(design));
    const out = join(dir, "out");
    const alone = await gramil("templates", steel(), "--out", out, "--part", "initials");
    expect(alone).toMatchObject({
      code: 2,
      out: "",
      err: expect.stringMatching(/木 \(U\+6728\): initials \(Choose a face/) as string,
    });
    expect(alone.err.split("\n")).toHaveLength(1);
    const among = await gramil("templates", steel(), "--out", out, "--format", "svg");
    expect(among).toMatchObject({ code: 0, err: expect.stringMatching(/^initials gives no template: .*木/) as string });
  });

  it("refuses 200 strings and names the limit", async () => {
    await gramil("new", "--kind", "steel-string", "-o", steel());
    const strings = JSON.stringify(Array.from({ length: 200 }, () => ({ gauge: "0.012 in" })));
    const { code, err } = await gramil("measure", steel(), "--set", `strings=${strings}`);
    expect(code).toBe(2);
    expect(err).toMatch(/200/);
  });
});

describe("the examples", async () => {
  const names = existsSync(examples) ? (await readdir(examples)).filter((name) => name.endsWith(".json")) : [];

  it("are there", () => {
    expect(names.length).toBeGreaterThanOrEqual(7);
  });

  it.each(names)(
    "%s loads without a repair, passes its checks with nothing even to look at, and gives templates of every part",
    async (name) => {
      const file = join(examples, name);
      expect(await gramil("measure", file, "--json")).toMatchObject({ code: 0, err: "" });
      const check = await gramil("check", file);
      expect(check).toMatchObject({ code: 0, err: "" });
      expect(check.out).toContain("0 to stop at, 0 to look at");
      // Their sheets are read back elsewhere, those of one also written here.
      const formats = name.startsWith("tenor") ? "svg,pdf" : "svg";
      const { code, err, out } = await gramil("templates", file, "--out", join(dir, "out"), "--format", formats);
      expect({ code, err }).toEqual({ code: 0, err: "" });
      for (const template of [
        "fingerboard-fret-slots",
        "neck-carving-gauges",
        "neck-side-profile",
        "headstock-outline",
        "bridge-locating",
        "body-whole",
        "sides-side-bass",
        "bracing-top-plan",
        "soundhole-hole",
        "port-opening",
        "pickguard-outline",
      ])
        for (const format of formats.split(",")) expect(out).toContain(`${template}.${format}`);
      const whole = join(dir, "arrangement.pdf");
      expect(await gramil("arrangement", file, "-o", whole)).toMatchObject({ code: 0, err: "" });
      expect((await readFile(whole)).subarray(0, 5).toString()).toBe("%PDF-");
    },
    60_000,
  );
});

describe("a damaged design file", () => {
  it.each([
    ["cut off", (text: string) => text.slice(0, text.indexOf('"bridge"') + 60)],
    ["with a quote lost in its middle", (text: string) => text.replace('"kind": "bridge"', '"kind": bridge"')],
  ])("%s: is refused by all that looks at it or cuts from it, and nothing is written", async (_how, damage) => {
    const half = join(dir, "half.json");
    await writeFile(half, damage(await readFile(join(examples, "nylon-650.json"), "utf8")));
    for (const command of [
      ["check", half],
      ["measure", half],
      ["templates", half, "--out", join(dir, "half")],
      ["report", half, "-o", join(dir, "half.pdf")],
    ])
      expect(await gramil(...command)).toMatchObject({
        code: 2,
        err: expect.stringContaining("only a part of the file can be read"),
      });
    expect([existsSync(join(dir, "half")), existsSync(join(dir, "half.pdf"))]).toEqual([false, false]);
  });
});

describe("the report", () => {
  it("is a PDF of the whole order, the same bytes each time", async () => {
    const [one, two] = [join(dir, "one.pdf"), join(dir, "two.pdf")];
    const example = join(examples, "nylon-650.json");
    const { code, out, err } = await gramil("report", example, "-o", one, "--paper", "a4", "--json");
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect((JSON.parse(out) as { pages: number }).pages).toBeGreaterThan(1);
    await gramil("report", example, "-o", two, "--paper", "a4");
    const [first, second] = [await readFile(one), await readFile(two)];
    expect(first.subarray(0, 5).toString()).toBe("%PDF-");
    expect(first.equals(second)).toBe(true);
  });

  it("refuses a roll of paper and a design that cannot be worked out, with nothing written", async () => {
    const file = join(dir, "report.pdf");
    const example = join(examples, "nylon-650.json");
    expect(await gramil("report", example, "-o", file, "--paper", "cubit")).toMatchObject({ code: 2 });
    expect(await gramil("report", example, "-o", file, "--set", "nutWidth=wide")).toMatchObject({ code: 2 });
    expect(await gramil("report", example)).toMatchObject({ code: 2, err: expect.stringContaining("-o FILE.pdf is missing") });
    expect(existsSync(file)).toBe(false);
  });

  it("prints the empty measuring form, and gives the numbers of one copy", async () => {
    const form = join(dir, "form.pdf");
    expect(await gramil("form", "-o", form, "--units", "in")).toMatchObject({ code: 0, err: "" });
    expect((await readFile(form)).subarray(0, 5).toString()).toBe("%PDF-");
    await gramil("new", "--kind", "steel-string", "-o", steel());
    const design = JSON.parse(await readFile(steel(), "utf8")) as object;
    await writeFile(steel(), JSON.stringify({ ...design, copies: [{ number: "22", own: { "instrument.nutWidth": "43 mm" } }] }));
    const { out } = await gramil("measure", steel(), "--json", "--copy", "22");
    expect((JSON.parse(out) as { instrument: { nutWidth: number } }).instrument.nutWidth).toBeCloseTo(43, 9);
    expect(await gramil("measure", steel(), "--copy", "99")).toMatchObject({
      code: 2,
      err: "there is no copy numbered 99 (known: 22)",
    });
  });
});
