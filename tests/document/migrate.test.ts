import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { VERSION } from "../../src/document/design.ts";
import { FILE_MIGRATIONS, upgrade, upgradePart } from "../../src/document/migrate.ts";
import { readDesign } from "../../src/document/read.ts";
import type { Migration } from "../../src/parts/contract.ts";
import { REGISTRY, type AnyPart } from "../../src/parts/registry.ts";

const folder = new URL("../data/designs/", import.meta.url);
const samples = readdirSync(folder);

const STEPS: readonly Migration[] = [
  { from: 1, name: "spread is called nutSpread", apply: ({ spread, ...rest }) => ({ ...rest, nutSpread: spread }) },
  { from: 2, name: "gauges in a list", apply: ({ gauges, ...rest }) => ({ ...rest, strings: String(gauges).split(" ") }) },
];

describe("older files", () => {
  it("have a frozen sample of each version that opens without repairs, unknown keys and all", () => {
    for (let version = 1; version <= VERSION; version++)
      expect(samples.filter((name) => name.startsWith(`v${version}-`))).not.toEqual([]);
    for (const name of samples) {
      const text = readFileSync(new URL(name, folder), "utf8");
      const read = readDesign(text);
      expect(read, name).toMatchObject({ ok: true, repairs: [], design: { version: VERSION } });
      expect(JSON.stringify(read).match(/unknown key, kept/g)?.length ?? 0, name).toBe(
        text.match(/unknown key, kept/g)?.length ?? 0,
      );
    }
  });

  it("go up step by step, each step once, and keep the keys that no step knows", () => {
    const raw = { version: 1, spread: "38 mm", gauges: "12 16", odd: [1] };
    expect(upgrade(raw, "the file", 3, STEPS)).toEqual({
      ok: true,
      value: { version: 3, nutSpread: "38 mm", strings: ["12", "16"], odd: [1] },
    });
    expect(upgrade({ version: 2, gauges: "1" }, "the file", 3, STEPS)).toEqual({
      ok: true,
      value: { version: 3, strings: ["1"] },
    });
    expect(raw).toEqual({ version: 1, spread: "38 mm", gauges: "12 16", odd: [1] });
  });

  it("of this version are the same object, and so is a part that says no version while there is only one", () => {
    const raw = { version: 3 };
    const same = upgrade(raw, "the file", 3, STEPS);
    expect(same.ok && same.value).toBe(raw);
    const silent = { kind: "nut" };
    const part = upgrade(silent, "the part nut", 1, []);
    expect(part.ok && part.value).toBe(silent);
  });

  it("bring parts up by their own steps", () => {
    const part = { kind: "nut", version: 3, migrations: STEPS } as unknown as AnyPart;
    expect(upgradePart({ kind: "nut", spread: 1, gauges: "9" }, "nut2", part)).toEqual({
      ok: true,
      value: { kind: "nut", version: 3, nutSpread: 1, strings: ["9"] },
    });
    expect(upgradePart({ kind: "nut", version: 4 }, "nut2", part)).toEqual({
      ok: false,
      error: {
        message: "the part nut2 is of version 4, and this Gramil knows versions up to 3",
        mend: expect.any(String) as string,
      },
    });
  });

  it.each([null, "1", 0, 1.5, -1])("of version %j are refused", (version) => {
    expect(upgrade({ version }, "the file", 3, STEPS).ok).toBe(false);
  });

  it("never meet a version without its step: every chain in the program is whole", () => {
    const chains = [
      { what: "the file", version: VERSION as number, steps: FILE_MIGRATIONS },
      ...REGISTRY.map((part) => ({ what: part.kind as string, version: part.version, steps: part.migrations })),
    ];
    for (const { what, version, steps } of chains)
      expect(
        steps.map(({ from }) => from),
        what,
      ).toEqual(Array.from({ length: version - 1 }, (_, i) => i + 1));
    expect(() => upgrade({ version: 1 }, "the file", 4, STEPS)).toThrow(/no step leads the file from version 3 to 4/);
  });
});
