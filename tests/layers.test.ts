import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

const home = resolve(import.meta.dirname, "..");
let house: string;

/** The rule names that the layer check breaks in a small house of the given files. */
function breaches(files: Readonly<Record<string, string>>): string[] {
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(dirname(join(house, file)), { recursive: true });
    writeFileSync(join(house, file), text);
  }
  let report: string;
  try {
    report = execFileSync(
      process.execPath,
      [
        join(home, "node_modules/dependency-cruiser/bin/dependency-cruise.mjs"),
        "src",
        "--config",
        ".dependency-cruiser.cjs",
        "--output-type",
        "json",
      ],
      {
        cwd: house,
        encoding: "utf8",
        maxBuffer: 1e8,
      },
    );
  } finally {
    rmSync(join(house, "src"), { recursive: true });
  }
  const { summary } = JSON.parse(report) as { summary: { violations: { rule: { name: string }; from: string; to: string }[] } };
  return summary.violations.map((v) => `${v.rule.name}: ${v.from} -> ${v.to}`);
}

beforeAll(() => {
  house = mkdtempSync(join(tmpdir(), "gramil-layers-"));
  cpSync(join(home, ".dependency-cruiser.cjs"), join(house, ".dependency-cruiser.cjs"));
  cpSync(join(home, "tsconfig.json"), join(house, "tsconfig.json"));
  symlinkSync(join(home, "node_modules"), join(house, "node_modules"));
});
afterAll(() => rmSync(house, { recursive: true }));

const leaf = "export const one = 1;\n";
const importOf = (from: string): string => `import { one } from "${from}";\nexport const two = one + one;\n`;

describe("the import table bites", () => {
  it("lets a downward import pass", () => {
    expect(breaches({ "src/geometry/a.ts": leaf, "src/lutherie/b.ts": importOf("../geometry/a.ts") })).toEqual([]);
  });

  it.each([
    ["an upward import", { "src/drawing/a.ts": leaf, "src/geometry/b.ts": importOf("../drawing/a.ts") }, "not-in-allowed"],
    [
      "a part that knows another part",
      { "src/parts/nut/a.ts": leaf, "src/parts/neck/b.ts": importOf("../nut/a.ts") },
      "part-to-part",
    ],
    [
      "a circle",
      {
        "src/units/a.ts": importOf("./b.ts")
          .replaceAll("two", "one")
          .replace("{ one }", "{ one as other }")
          .replace("one + one", "other"),
        "src/units/b.ts": importOf("./a.ts")
          .replaceAll("two", "one")
          .replace("{ one }", "{ one as other }")
          .replace("one + one", "other"),
      },
      "no-circular",
    ],
    [
      "React outside ui",
      { "src/store/a.ts": 'import { useState } from "react";\nexport const use = useState;\n' },
      "react-only-in-ui",
    ],
    [
      "the state library in a pure room",
      { "src/parts/a.ts": 'import { createStore } from "zustand/vanilla";\nexport const make = createStore;\n' },
      "state-library-only-in-store-and-ui",
    ],
    [
      "a Node module outside the command line",
      { "src/document/a.ts": 'import { readFileSync } from "node:fs";\nexport const read = readFileSync;\n' },
      "node-only-in-cli",
    ],
    [
      "a screen that knows a part's inside",
      { "src/parts/nut/a.ts": leaf, "src/ui/b.ts": importOf("../parts/nut/a.ts") },
      "not-in-allowed",
    ],
    [
      "a second file that clips",
      { "src/geometry/a.ts": 'import clipper from "clipper-lib";\nexport const lib = clipper;\n' },
      "clipper-behind-one-file",
    ],
    [
      "a second file that reads fonts",
      { "src/lettering/a.ts": 'import { parse } from "opentype.js/dist/opentype.mjs";\nexport const lib = parse;\n' },
      "font-library-behind-one-file",
    ],
  ])("catches %s", (_, files, rule) => {
    expect(breaches(files as Record<string, string>).join("\n")).toContain(rule);
  });
});
