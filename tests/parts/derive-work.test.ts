import { describe, expect, it } from "vitest";
import { EMPTY_DRAWING, type Drawing } from "../../src/drawing/drawing.ts";
import { segmentPath } from "../../src/geometry/path.ts";
import { vec } from "../../src/geometry/vec.ts";
import type { Answerer } from "../../src/parts/answers.ts";
import type { Answered, Part, Work } from "../../src/parts/contract.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { DesignNumbers } from "../../src/parts/derived.ts";
import type { AnyPart } from "../../src/parts/registry.ts";

interface Numbers {
  readonly size: number;
}
type Half = Answered<number> | undefined;

const runs: string[] = [];
const halve: Work<{ readonly size: number }, number> = {
  name: "halve",
  steps: ({ size }) =>
    [1, 0].map((off) => () => {
      runs.push(`${size} off by ${off}`);
      return size / 2 + off;
    }),
};

const line = (id: string): Drawing => ({
  layers: [{ name: id, shapes: [{ id, role: "cut", line: "visible", path: segmentPath(vec(0, 0), vec(1, 0)), name: id }] }],
  dimensions: [],
});

const plain = (kind: string, given: Partial<Part<Numbers, unknown>>): AnyPart =>
  ({
    kind,
    label: kind,
    about: "",
    version: 1,
    migrations: [],
    reads: [],
    params: { size: { label: "Size", help: "", group: "All", type: "length", min: 0, max: 100, fallback: 8 } },
    measure: () => ({}),
    draw: () => EMPTY_DRAWING,
    summary: () => [],
    templates: () => [],
    checks: [],
    ...given,
  }) as unknown as AnyPart;

const house = [
  plain("instrument", {}),
  plain("board", { draw: () => line("edge") }),
  plain("guest", {
    measure: (p, from) => ({ half: from.worked(halve, { size: p.size }) }),
    onHost: () => ({ kind: "board" as never, layers: line("leaf").layers }),
  }),
];
const design = (size: number): DesignNumbers => ({
  units: "mm",
  instrument: {},
  parts: { board: { kind: "board" }, second: { kind: "board" }, guest: { kind: "guest", size } },
});
type Derived = ReturnType<ReturnType<typeof createDeriver>>;
const halfOf = ({ parts }: Derived): Half => (parts.find(({ id }) => id === "guest")!.measures as { half: Half }).half;
const idsOf = (derived: Derived, id: string): string[] =>
  derived.parts
    .find((part) => part.id === id)!
    .drawing()
    .layers.flatMap(({ shapes }) => shapes.map((shape) => shape.id));

describe("heavy work of a part", () => {
  it("is done on the spot where nobody else answers, once for each question and by its last step", () => {
    runs.length = 0;
    const derive = createDeriver(house);
    expect(halfOf(derive(design(8)))).toEqual({ answer: 4, state: "final" });
    derive(design(8));
    expect(halfOf(derive(design(10)))).toEqual({ answer: 5, state: "final" });
    expect(runs).toEqual(["8 off by 0", "10 off by 0"]);
  });

  it("that somebody else answers is waited for, and works the part out anew when it comes", () => {
    const derive = createDeriver(house);
    let known: Answered<unknown> | undefined;
    const asked: unknown[] = [];
    const answer: Answerer = (asker, work, question) => {
      asked.push([asker, work.name, question]);
      return known;
    };
    const first = derive(design(8), { answer });
    expect([halfOf(first), first.waiting]).toEqual([undefined, true]);
    expect(first.parts.filter(({ waiting }) => waiting).map(({ id }) => id)).toEqual(["guest"]);
    expect(asked[0]).toEqual(["parts.guest", "halve", { size: 8 }]);
    known = { answer: 3.9, state: "coarse" };
    const coarse = derive(design(8), { answer });
    expect([halfOf(coarse), coarse.waiting]).toEqual([known, true]);
    known = { answer: 4, state: "final" };
    const last = derive(design(8), { answer });
    expect([halfOf(last), last.waiting]).toEqual([known, false]);
    const measured = derive.measured();
    expect(derive(design(8), { answer }).waiting).toBe(false);
    expect(derive.measured()).toBe(measured);
  });
});

describe("what lies on another part", () => {
  it("is drawn on the first part of its kind, under names of its own, and the drawing stays the same object", () => {
    const derive = createDeriver(house);
    const first = derive(design(8));
    expect(idsOf(first, "board")).toEqual(["edge", "guest-leaf"]);
    expect(idsOf(first, "second")).toEqual(["edge"]);
    expect(derive(design(8)).parts[0]!.drawing()).toBe(first.parts[0]!.drawing());
  });
});
