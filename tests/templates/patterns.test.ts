import * as fc from "fast-check";
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Design } from "../../src/document/design.ts";
import { readDesign } from "../../src/document/read.ts";
import { asCircle } from "../../src/geometry/path.ts";
import { flatten } from "../../src/geometry/flatten.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { makingsOf } from "../../src/parts/makings.ts";
import { shapesOf } from "../../src/templates/edge.ts";
import { makePatterns, type Pattern } from "../../src/templates/patterns.ts";
import { templatesOf } from "../../src/templates/template.ts";

const folder = new URL("../../examples/", import.meta.url);
const EXAMPLES = readdirSync(folder).filter((name) => name.endsWith(".json"));

function exampleOf(name: string): Design {
  const read = readDesign(readFileSync(new URL(name, folder), "utf8"));
  if (!read.ok) throw new Error(read.message);
  return read.design;
}

const CONTEXT = { say: (mm: number) => `${mm.toFixed(2)} mm`, number: "14", fingerprint: "7F3-A2C" };

function patternsOf(design: Design, templates: NonNullable<Design["templates"]>): Pattern[] {
  const said = { ...design, templates };
  const derived = createDeriver()(said);
  return makePatterns(templatesOf(derived), makingsOf(said, derived), CONTEXT);
}

const pinsOf = ({ made }: Pattern): { x: number; y: number }[] =>
  made.ok
    ? shapesOf(made.value.drawing)
        .filter(({ id }) => id.startsWith("index-pin"))
        .map(({ path }) => asCircle(path)!.centre)
    : [];

describe("index pins", () => {
  it.each(EXAMPLES)("%s: stand at the same places in every template of the board, clear of slots and edges", (name) => {
    const patterns = patternsOf(exampleOf(name), { fingerboard: { pin: "3 mm" } });
    const withPins = patterns.filter((pattern) => pinsOf(pattern).length > 0);
    // Blank and slots at least, and what else the board has on its centre line.
    const names = withPins.map(({ source }) => source.id);
    expect(names).toContain("fingerboard/blank-outline");
    expect(names).toContain("fingerboard/fret-slots");
    expect(names.every((id) => id.startsWith("fingerboard/"))).toBe(true);
    const [first] = withPins;
    expect(pinsOf(first!)).toHaveLength(2);
    for (const pattern of withPins) expect(pinsOf(pattern)).toEqual(pinsOf(first!));
    for (const { source, made } of withPins) {
      expect(made.ok && made.value.cautions).toBeUndefined();
      for (const shape of shapesOf(source.drawing).filter(({ role }) => role !== "centre"))
        for (const p of flatten(shape.path, 0.05))
          for (const pin of pinsOf(first!)) expect(Math.hypot(p.x - pin.x, p.y - pin.y)).toBeGreaterThan(1.5);
    }
  });

  it("stand where the maker says, and tell that they meet a slot there", () => {
    // Fret 12 of the 650 mm scale lies at 325 mm.
    const patterns = patternsOf(exampleOf("nylon-650.json"), {
      fingerboard: { pin: "3 mm", pinStart: "20 mm", pinEnd: "325.4 mm" },
    });
    const slots = patterns.find(({ source }) => source.id === "fingerboard/fret-slots")!;
    expect(pinsOf(slots).map(({ x }) => x)).toEqual([20, 325.4]);
    expect(slots.made.ok && slots.made.value.cautions?.join()).toMatch(/second index pin meets/);
  });
});

describe("the patterns of a design", () => {
  it("say why one cannot be made, and make the others", () => {
    const patterns = patternsOf(exampleOf("nylon-650.json"), {
      "fingerboard/blank-outline": { follow: "bush", template: "outside", cut: "blind-recess" },
      "nut/blank": { bit: "wide" },
    });
    const refused = patterns.filter(({ made }) => !made.ok);
    expect(refused.map(({ source }) => source.id)).toEqual(["fingerboard/blank-outline", "nut/blank"]);
    expect(refused[1]!.made).toMatchObject({ ok: false, error: { path: "templates.nut/blank.bit" } });
  });

  it("are the templates of the parts where nothing is said", () => {
    for (const name of EXAMPLES)
      for (const { source, made } of patternsOf(exampleOf(name), {})) expect(made).toEqual({ ok: true, value: source });
  });

  it("are finite drawings with unique ids or refused in words, whatever is asked", { timeout: 240_000 }, () => {
    const choice = (...words: string[]) => fc.constantFrom(...words);
    const size = fc.double({ min: 1, max: 40, noNaN: true });
    const making = fc.record(
      {
        follow: choice("line", "bearing", "bush", "moved"),
        template: choice("inside", "outside"),
        cut: choice("piece", "opening", "blind-recess"),
        bush: size,
        bearing: size,
        bit: size,
        partnerBush: size,
        moved: fc.double({ min: -40, max: 40, noNaN: true }),
        corners: choice("sharp", "round"),
        master: choice("none", "same", "reverse"),
        masterBush: size,
        half: choice("whole", "left", "right"),
        mirrored: fc.boolean(),
        fixing: choice("none", "tabs", "ears"),
        fixingWidth: fc.double({ min: 3, max: 60, noNaN: true }),
        pilot: fc.double({ min: 0.5, max: 5, noNaN: true }),
        lettered: fc.boolean(),
      },
      { requiredKeys: [] },
    );
    const designs = ["nylon-650.json", "two-scale-baritone.json"].map(exampleOf);
    fc.assert(
      fc.property(fc.nat(designs.length - 1), making, fc.boolean(), (which, raw, pinned) => {
        const design = designs[which]!;
        const patterns = patternsOf(design, {
          "fingerboard/blank-outline": raw,
          "fingerboard/markers": raw,
          "nut/front-view": raw,
          ...(pinned ? { fingerboard: { pin: 3 }, nut: { pin: 2 } } : {}),
        });
        for (const { made } of patterns) {
          if (!made.ok) {
            expect(made.error.message).not.toBe("");
            expect(made.error.mend).not.toBe("");
            continue;
          }
          const shapes = shapesOf(made.value.drawing);
          expect(new Set(shapes.map(({ id }) => id)).size).toBe(shapes.length);
          for (const { path, holes = [] } of shapes)
            for (const loop of [path, ...holes])
              expect(flatten(loop, 0.1).every(({ x, y }) => Number.isFinite(x) && Number.isFinite(y))).toBe(true);
        }
      }),
      { numRuns: 60 },
    );
  });
});
