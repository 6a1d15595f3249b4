import { describe, expect, it } from "vitest";
import { cutStates } from "../../src/report/cut-state.ts";
import { nameOf } from "../../src/sheets/words.ts";
import { addPart } from "../../src/document/edit-parts.ts";
import { newDesign } from "../../src/document/new-design.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { blanksOf } from "../../src/parts/wood.ts";
import { templatesOf } from "../../src/templates/template.ts";

describe("two parts of a kind", () => {
  const one = addPart(newDesign("steel-string"), "shape");
  if (!one.ok) throw new Error(one.error.message);
  const two = addPart(one.value.design, "shape");
  if (!two.ok) throw new Error(two.error.message);
  const [first, second] = [one.value.id, two.value.id];
  const design = { ...two.value.design, cuts: [] };
  const derived = createDeriver()(design);
  const templates = templatesOf(derived);
  const of = (id: string) => templates.find(({ partId }) => partId === id)!;

  it("are told apart in the strips, in the cutting list and in the cuts", () => {
    expect([first, second]).toEqual(["shape", "shape2"]);
    expect(nameOf(of(first))).toMatch(/^Free shape/);
    expect(nameOf(of(second))).toMatch(/^Shape 2, /);
    expect(blanksOf(design, derived).map(({ partLabel }) => partLabel)).toEqual(
      expect.arrayContaining(["Free shape", "Shape 2"]),
    );
    const cut = {
      date: "2025-05-19",
      part: second,
      template: of(second).name,
      fingerprint: "",
      numbers: { units: design.units, instrument: design.instrument, parts: design.parts },
    };
    const [state] = cutStates({ ...design, cuts: [cut] }, derived, (_name, other) => createDeriver()(other));
    expect(state!.name).toMatch(/^Shape 2, /);
  });
});
