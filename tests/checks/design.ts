/** Designs for the tests of checks: a starting design with values set as they are typed. */
import type { Design } from "../../src/document/design.ts";
import { addPart } from "../../src/document/edit-parts.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { setValue } from "../../src/document/set-value.ts";
import { findingsOf, findingsOn, type PlacedFinding } from "../../src/checks/findings.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { Derived } from "../../src/parts/derived.ts";

/** A steel-string with further parts added, and values set in order. */
export function designWith(kinds: readonly string[], values: Readonly<Record<string, unknown>> = {}): Design {
  let design: Design = newDesign("steel-string");
  for (const kind of kinds) {
    if (Object.values(design.parts).some((part) => part.kind === kind)) continue;
    const added = addPart(design, kind);
    if (!added.ok) throw new Error(added.error.message);
    design = added.value.design;
  }
  for (const [path, value] of Object.entries(values)) {
    const set = setValue(design, path, value);
    if (!set.ok) throw new Error(`${path}: ${set.error.message}`);
    design = set.value;
  }
  return design;
}

export const findingsFor = (design: Design): readonly PlacedFinding[] => findingsOf(design, derivedOf(design));

/** What stands on one part, also what concerns it and stands on another. */
export const findingsOnPart = (design: Design, partId: string): readonly PlacedFinding[] =>
  findingsOn(design, derivedOf(design), partId);

function derivedOf(design: Design): Derived {
  const derived = createDeriver()(design);
  if (derived.problems.length > 0) throw new Error(derived.problems.map(({ path, message }) => `${path}: ${message}`).join("\n"));
  return derived;
}

/** The finding of a part by its id; fails where there is none. */
export function finding(design: Design, partId: string, id: string): PlacedFinding {
  const all = findingsFor(design);
  const found = all.find((one) => one.partId === partId && one.id === id);
  if (!found) throw new Error(`no ${partId} ${id} among ${all.map((one) => `${one.partId} ${one.id}`).join(", ")}`);
  return found;
}
