import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { findingsOf, limitOf, type PlacedFinding } from "../../src/checks/findings.ts";
import { deriveLettered } from "../../src/cli/design-file.ts";
import { readDesign } from "../../src/document/read.ts";
import type { Needed } from "../../src/parts/contract.ts";

const folder = resolve(import.meta.dirname, "../../examples");
const examples = readdirSync(folder).filter((name) => name.endsWith(".json"));

function findingsIn(name: string): readonly PlacedFinding[] {
  const read = readDesign(new Uint8Array(readFileSync(resolve(folder, name))));
  if (!read.ok) throw new Error(`${name}: ${read.message}`);
  return findingsOf(read.design, deriveLettered(read.design));
}

/** Lines that lie as drawn are held to this, mm. */
const DRAWN = 0.01;
/** Two lengths that belong together may differ by this where their check says no more, mm. */
const ALIKE = 1;

/** Whether what was measured keeps to what is needed, by the meaning of the words. */
function keeps(finding: PlacedFinding): boolean {
  const { measured = NaN, needed = NaN, bound } = finding;
  if (bound === "least") return measured >= needed - DRAWN;
  if (bound === "most") return measured <= needed + DRAWN;
  if (bound === "same") return Math.abs(measured - needed) <= ALIKE;
  return measured >= needed && finding.upTo !== undefined && measured <= finding.upTo;
}

describe("the limit of a finding", () => {
  it.each(examples)("is kept by every fine finding of %s, whichever way it bounds", (name) => {
    const found = findingsIn(name);
    const bounded = found.filter(({ severity, needed }) => severity === "fine" && needed !== undefined);
    expect(bounded.length).toBeGreaterThan(20);
    expect(bounded.filter((finding) => !keeps(finding)).map(({ partId, id }) => `${partId} ${id}`)).toEqual([]);
  });

  const said = (finding: Needed & { readonly says: string }) =>
    limitOf({ id: "one", severity: "look", basis: "", mend: "", ...finding }, (value) => `${value} mm`);
  it.each([
    [{ says: "Only {measured} of wood is left.", needed: 3, bound: "least" }, "At least 3 mm of wood"],
    [{ says: "{measured} of the bridge plate is left.", needed: 5, bound: "least" }, "At least 5 mm of the bridge plate"],
    [{ says: "The saddle stands at most {measured} over it.", needed: 6, bound: "most" }, "At most 6 mm"],
    [{ says: "The pitch is {measured}.", needed: -2, bound: "between", upTo: 3 }, "Between -2 mm and 3 mm"],
    [{ says: "It is {measured} wide.", needed: 4, bound: "same" }, "Needs 4 mm"],
    [{ says: "{measured} is left, and {needed} is needed.", needed: 4, bound: "least" }, undefined],
    [{ says: "All is well." }, undefined],
  ] as const)("is said by its kind: %o", (finding, words) => {
    expect(said(finding)).toBe(words);
  });
});
