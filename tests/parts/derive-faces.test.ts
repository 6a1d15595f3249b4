import { describe, expect, it } from "vitest";
import { EMPTY_DRAWING } from "../../src/drawing/drawing.ts";
import type { Face } from "../../src/lettering/face.ts";
import type { Part, Sources } from "../../src/parts/contract.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { DesignNumbers } from "../../src/parts/derived.ts";
import type { AnyPart } from "../../src/parts/registry.ts";

const face = (name: string): { readonly ok: true; readonly value: Face } => ({ ok: true, value: plainFace(name) });
const plainFace = (name: string): Face => ({
  name,
  unitsPerEm: 1000,
  ascender: 800,
  descender: -200,
  capHeight: 700,
  xHeight: 500,
  glyphs: new Map(),
  whole: true,
  kerning: { from: "none", lookups: [] },
});

const nameOf = (read: ReturnType<Sources["face"]>): string | undefined => (read?.ok ? read.value.name : undefined);

interface Numbers {
  readonly face: string;
}
const plain = (kind: string, measure: (p: Numbers, from: Sources) => unknown): AnyPart =>
  ({
    kind,
    label: kind,
    about: "",
    version: 1,
    migrations: [],
    reads: [],
    params: { face: { label: "Face", help: "", group: "All", type: "text", maxLength: 40, fallback: "cinzel" } },
    measure,
    draw: () => EMPTY_DRAWING,
    summary: () => [],
    templates: () => [],
    checks: [
      {
        id: "name",
        title: "",
        limits: {},
        run: ({ p, from }: { p: Numbers; from: Sources }) => [
          { id: "name", severity: "fine", says: nameOf(from.face(p.face)) ?? "", basis: "", mend: "" },
        ],
      },
    ],
  }) as unknown as AnyPart satisfies Part<unknown, unknown>;

const house = [
  plain("instrument", () => ({})),
  plain("letters", (p, from) => ({ name: nameOf(from.face(p.face)) })),
  plain("knob", () => ({})),
];
const design: DesignNumbers = {
  units: "mm",
  instrument: {},
  parts: {
    first: { kind: "letters" },
    second: { kind: "letters", face: "lato" },
    knob: { kind: "knob" },
  },
};
const names = (derived: ReturnType<ReturnType<typeof createDeriver>>): unknown[] =>
  derived.parts.filter(({ kind }) => (kind as string) === "letters").map(({ measures }) => (measures as { name: unknown }).name);

const WANTED = [
  { id: "cinzel", wanted: "" },
  { id: "lato", wanted: "" },
];

describe("faces for the parts", () => {
  it("are those given, and the answer names all that were asked for", () => {
    const derive = createDeriver(house);
    const without = derive(design);
    expect(names(without)).toEqual([undefined, undefined]);
    expect(without.faces).toEqual(WANTED);
    const withBoth = derive(design, {
      faces: new Map([
        ["cinzel", face("Cinzel")],
        ["lato", face("Lato")],
      ]),
    });
    expect(names(withBoth)).toEqual(["Cinzel", "Lato"]);
    expect(withBoth.faces).toEqual(WANTED);
  });

  it("that come later work out anew exactly the parts that asked for them", () => {
    const derive = createDeriver(house);
    const cinzel = face("Cinzel");
    const before = derive(design, { faces: new Map([["cinzel", cinzel]]) });
    expect(derive.measured()).toBe(4);
    const after = derive(design, {
      faces: new Map([
        ["cinzel", cinzel],
        ["lato", face("Lato")],
      ]),
    });
    expect(derive.measured()).toBe(5);
    expect(names(after)).toEqual(["Cinzel", "Lato"]);
    expect(after.parts[0]?.measures).toBe(before.parts[0]?.measures);
    derive(design, {
      faces: new Map([
        ["cinzel", cinzel],
        ["pinyon-script", face("Pinyon Script")],
      ]),
    });
    expect(derive.measured()).toBe(6);
  });

  it("stay what they were for findings that are asked for later", () => {
    const derive = createDeriver(house);
    const before = derive(design, { faces: new Map([["cinzel", face("Cinzel")]]) });
    derive(design, { faces: new Map([["cinzel", face("Other")]]) });
    expect(before.parts[0]?.findings()[0]?.says).toBe("Cinzel");
  });
});
