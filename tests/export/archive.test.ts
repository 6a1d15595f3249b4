import * as fc from "fast-check";
import { unzipSync } from "fflate";
import { spawnSync } from "node:child_process";
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { archiveOf, safeName } from "../../src/export/archive.ts";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const file = (name: string, text = name) => ({ name, bytes: () => bytes(text) });

describe("names that every system takes", () => {
  it("are letters, digits, dots, dashes and underscores, whatever was asked for", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 200 }), (name) => {
        const safe = safeName(name);
        expect(safe).toMatch(/^[A-Za-z0-9_][A-Za-z0-9._-]*$/);
        expect(safe.length).toBeLessThanOrEqual(81);
        expect(safe).not.toMatch(/\.\.|[. ]$/);
        // The device names of the DOS family, as its file systems' documentation lists them (from memory).
        expect(safe).not.toMatch(/^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i);
      }),
      { numRuns: 500 },
    );
  });

  it("keep what can be kept", () => {
    expect(safeName("fingerboard-blank-outline.svg")).toBe("fingerboard-blank-outline.svg");
    expect(safeName("../../etc/Gänse küche: 1/2.pdf")).toBe("etc-Ganse-kuche-1-2.pdf");
    expect(safeName("CON.pdf")).toBe("_CON.pdf");
    expect(safeName("...")).toBe("file");
  });
});

describe("the archive", () => {
  it("gives every file back, names told apart even where capitals alone differ", async () => {
    const zip = await archiveOf([
      file("a.svg", "one"),
      file("A.svg", "two"),
      file("a.svg", "three"),
      file("b.pdf", "%PDF".repeat(500)),
    ]);
    const out = unzipSync(zip);
    expect(Object.keys(out)).toEqual(["a.svg", "A-2.svg", "a-3.svg", "b.pdf"]);
    expect(Object.values(out).map((data) => new TextDecoder().decode(data).slice(0, 5))).toEqual([
      "one",
      "two",
      "three",
      "%PDF%",
    ]);
  });

  it("is the same, byte for byte, in every time zone", async () => {
    const zone = process.env["TZ"];
    const zips: Uint8Array[] = [];
    for (const tz of ["Pacific/Kiritimati", "America/St_Johns", "UTC"]) {
      process.env["TZ"] = tz;
      zips.push(await archiveOf([file("a.svg"), file("b.pdf")]));
    }
    if (zone === undefined) delete process.env["TZ"];
    else process.env["TZ"] = zone;
    expect(zips.every((zip) => Buffer.compare(Buffer.from(zip), Buffer.from(zips[0]!)) === 0)).toBe(true);
  });

  it("asks for each file when its turn comes, tells progress, and stops where it is told to", async () => {
    const control = new AbortController();
    const asked: string[] = [];
    const progress: number[] = [];
    const files = ["a", "b", "c"].map((name) => ({
      name,
      bytes: () => {
        asked.push(name);
        if (name === "b") control.abort(new Error("enough"));
        return Promise.resolve(bytes(name));
      },
    }));
    await expect(archiveOf(files, { signal: control.signal, onProgress: (done) => progress.push(done) })).rejects.toThrow(
      "enough",
    );
    expect(asked).toEqual(["a", "b"]);
    expect(progress[0]).toBeCloseTo(1 / 3);
  });

  it("is read by an independent program", async (context) => {
    const probe = spawnSync("python3", ["-c", "import zipfile"]);
    if (probe.status !== 0) return context.skip("python3 is not installed: its zipfile module is the independent reader");
    const path = join(mkdtempSync(join(tmpdir(), "gramil-")), "job.zip");
    writeFileSync(path, await archiveOf([file("a.svg", "<svg/>".repeat(99)), file("b.pdf", "%PDF")]));
    const script =
      "import sys,zipfile;z=zipfile.ZipFile(sys.argv[1]);print(z.testzip(),[(i.filename,i.date_time,len(z.read(i))) for i in z.infolist()])";
    const { stdout } = spawnSync("python3", ["-c", script, path], { encoding: "utf8" });
    expect(stdout.trim()).toBe("None [('a.svg', (1980, 1, 1, 0, 0, 0), 594), ('b.pdf', (1980, 1, 1, 0, 0, 0), 4)]");
  });
});
