import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { findingsOf } from "../../src/checks/findings.ts";
import { deriveLettered } from "../../src/cli/design-file.ts";
import { run } from "../../src/cli/main.ts";
import type { Design } from "../../src/document/design.ts";
import { readDesign } from "../../src/document/read.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { designWith, findingsFor } from "./design.ts";
import { FAULTS } from "./faulty.ts";

const folder = resolve(import.meta.dirname, "../data/faulty");
const fileOf = (name: string): string => resolve(folder, `${name}.json`);

function open(name: string): Design {
  const read = readDesign(new Uint8Array(readFileSync(fileOf(name))));
  if (!read.ok) throw new Error(read.message);
  return read.design;
}

describe("eight invented faulty designs", () => {
  it("are all that lie in their folder", () => {
    const files = readdirSync(folder).filter((name) => name.endsWith(".json"));
    expect(files.toSorted()).toEqual(FAULTS.map(({ file }) => `${file}.json`).toSorted());
    expect(FAULTS).toHaveLength(8);
  });

  it.each(FAULTS)("$file is caught on the $part with its number and its place", (fault) => {
    const found = findingsFor(open(fault.file)).find(({ partId, id }) => partId === fault.part && id === fault.id);
    expect(found?.severity).toBe(fault.severity);
    expect(Math.abs(found!.measured! - fault.measured)).toBeLessThanOrEqual(fault.within);
    if (fault.needed !== undefined) expect(found!.needed).toBeCloseTo(fault.needed, 9);
    if (fault.shape !== undefined) expect(found!.shape).toBe(fault.shape);
    if (fault.at) expect(fault.at(found!.at!), JSON.stringify(found!.at)).toBe(true);
    expect(found!.says).toMatch(fault.says);
    expect(found!.mend).not.toBe("");
    expect(found!.basis).not.toBe("");
  });

  it("are not caught where nothing is wrong: a new design with every part passes all of these checks", () => {
    const sound = findingsFor(designWith(["bridge", "headstock", "body", "soundhole", "sides", "bracing", "pickguard"])).filter(
      ({ severity }) => severity !== "fine",
    );
    expect(sound).toEqual([]);
  });

  it("move a plate across the grain by what the handbook's figures give", () => {
    // Damp: 65 % at 20 °C is 11.996 %, the shop's 45 % is 8.485 %: 3.511 %. The plate's length moves by its own C_R, the head's width by its own.
    const { species } = JSON.parse(readFileSync("tests/data/wood.json", "utf8")) as { species: { id: string; C_R: number }[] };
    const radial = (id: string) => species.find((wood) => wood.id === id)!.C_R;
    const derived = createDeriver()(open("cross-grain-plate"));
    const [joint] = derived.parts.find(({ kind }) => kind === "headstock")!.materials().joints!;
    const byHand = Math.hypot(
      joint!.along * radial("rosewood-indian") * 3.511,
      joint!.across * radial("mahogany-american") * 3.511,
    );
    const found = findingsFor(open("cross-grain-plate")).find(({ id }) => id === "seasons/plate-on-head")!;
    expect(Math.abs(found.measured! - byHand)).toBeLessThan(0.001);
  });
});

describe("gramil check", () => {
  it.each(FAULTS)(
    "gives for $file the findings of the screen, and exit code 1 where one says stop",
    async ({ file, severity }) => {
      const lines: string[] = [];
      const code = await run(["check", fileOf(file), "--json"], { line: (text) => lines.push(text), note: () => undefined });
      const told = JSON.parse(lines.join("\n")) as { findings: { sentence: string }[] };
      const design = open(file);
      const here = JSON.parse(JSON.stringify(findingsOf(design, deriveLettered(design)))) as object[];
      expect(told.findings.map((finding) => ({ ...finding, sentence: undefined }))).toEqual(here);
      expect(code).toBe(severity === "stop" ? 1 : 0);
    },
  );
});
