import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { run } from "../../src/cli/main.ts";

let dir: string;
beforeEach(async () => {
  dir = await mkdtemp(join(tmpdir(), "gramil-cli-"));
});
afterEach(() => rm(dir, { recursive: true }));

async function gramil(...argv: string[]): Promise<{ code: number; err: string }> {
  const err: string[] = [];
  const code = await run(argv, { line: () => {}, note: (text) => err.push(text) });
  return { code, err: err.join("\n") };
}

/** A steel-string with initials, and copies of other letters. */
async function ordered(first: string, ...copies: readonly string[]): Promise<string> {
  const file = join(dir, "steel.json");
  await gramil("new", "--kind", "steel-string", "-o", file);
  const design = JSON.parse(await readFile(file, "utf8")) as { parts: Record<string, unknown> };
  design.parts["initials"] = { kind: "inlay", text: first, face: "lato" };
  const numbered = copies.map((text, i) => ({ number: String(22 + i), own: { "initials.text": text } }));
  await writeFile(file, JSON.stringify({ ...design, order: { number: "21" }, copies: numbered }));
  return file;
}
const templates = (file: string, ...more: string[]) =>
  gramil("templates", file, "--out", join(dir, "out"), "--part", "initials", "--format", "svg", ...more);

describe("templates of a design with copies", () => {
  it("say for which copies a part gives none, and are made of the others", async () => {
    const { code, err } = await templates(await ordered("A", "木", "B", "木"));
    expect(code).toBe(0);
    expect(err.split("\n")).toEqual([expect.stringMatching(/^initials gives no template for No\. 22 and 24: .*木/)]);
  });

  it("are made of the copies where only the first gives none", async () => {
    const { code, err } = await templates(await ordered("木", "B"));
    expect({ code, err }).toMatchObject({ code: 0, err: expect.stringMatching(/^initials gives no template for No\. 21: /) });
  });

  it("are refused where no copy gives any", async () => {
    expect(await templates(await ordered("木", "木"))).toMatchObject({
      code: 2,
      err: expect.stringMatching(/木 \(U\+6728\): initials \(Choose a face/),
    });
  });
});
