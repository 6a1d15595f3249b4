import { describe, expect, it } from "vitest";
import { EMPTY_DRAWING } from "../../src/drawing/drawing.ts";
import type { Part } from "../../src/parts/contract.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { DesignNumbers } from "../../src/parts/derived.ts";
import type { AnyPart } from "../../src/parts/registry.ts";

/** A small house of three parts: the instrument, a board that reads it, a knob that reads nothing. */
const said = { label: "A number", help: "", group: "All" };
type Numbers = { readonly size: number };
type Measured = { readonly twice: number; readonly tallRad: number };
const plain = (kind: string, reads: readonly string[], measure: Part<Numbers, Measured>["measure"]): AnyPart =>
  ({
    kind,
    label: kind,
    about: "",
    version: 1,
    migrations: [],
    reads,
    measureNames: ["twice"],
    params: { size: { ...said, label: `Size of the ${kind}`, type: "length", min: 0, max: 1000, fallback: 10 } },
    measure,
    draw: () => EMPTY_DRAWING,
    summary: () => [],
    templates: () => [],
    checks: [
      {
        id: "big",
        title: "",
        limits: { most: { label: "", value: 100, quantity: "length", basis: "" } },
        run: ({ m, limits }: { m: Measured; limits: Record<string, number> }) => [
          { id: "big", severity: m.twice > limits["most"]! ? "stop" : "fine", says: "", basis: "", mend: "" },
        ],
      },
    ],
  }) as unknown as AnyPart;

const house = [
  plain("instrument", [], (p) => ({ twice: p.size * 2, tallRad: 1 })),
  plain("board", ["instrument"], (p, from) => ({
    twice: p.size * 2 + (from.get("instrument" as never) as unknown as Measured).twice,
    tallRad: 1,
  })),
  plain("knob", [], (p) => ({ twice: p.size * 2, tallRad: 1 })),
];
const design = (over: Partial<DesignNumbers> = {}): DesignNumbers => ({
  units: "mm",
  instrument: { size: 20 },
  parts: { board: { kind: "board", size: 30 }, knob: { kind: "knob" } },
  ...over,
});
const measuresOf = (numbers: DesignNumbers, id: string): unknown =>
  createDeriver(house)(numbers).parts.find((part) => part.id === id)?.measures;

describe("deriving a design", () => {
  it("measures every part from its numbers and from what it reads", () => {
    const derived = createDeriver(house)(design());
    expect(derived.problems).toEqual([]);
    expect(derived.parts.map((part) => [part.id, part.measures])).toEqual([
      ["board", { twice: 100, tallRad: 1 }],
      ["knob", { twice: 20, tallRad: 1 }],
    ]);
  });

  it("works out only what depends on a change", () => {
    const derive = createDeriver(house);
    const before = derive(design());
    expect(derive.measured()).toBe(3);
    const after = derive(design({ parts: { board: { kind: "board", size: 31 }, knob: { kind: "knob" } } }));
    expect(derive.measured()).toBe(4);
    expect(after.parts[1]?.measures).toBe(before.parts[1]?.measures);
    derive(design({ instrument: { size: 21 } }));
    expect(derive.measured()).toBe(6);
    derive(design({ instrument: { size: "= 20 mm + 1 mm" } }));
    expect(derive.measured()).toBe(6);
  });

  it("draws anew what only the drawing has read, and only once it has been drawn", () => {
    const board = {
      ...plain("board", ["instrument"], (p, from) => ({
        twice: p.size,
        tallRad: (from.get("instrument" as never) as unknown as Measured).tallRad,
      })),
      draw: (_p: unknown, _m: unknown, from: { get: (kind: never) => unknown }) => ({
        layers: [{ name: String((from.get("instrument" as never) as Measured).twice), shapes: [] }],
        dimensions: [],
      }),
    } as unknown as AnyPart;
    const derive = createDeriver([house[0]!, board]);
    const sized = (size: number) => {
      const before = derive.measured();
      const part = derive(design({ instrument: { size }, parts: { board: { kind: "board" } } })).parts[0]!;
      return { shown: () => part.drawing().layers[0]!.name, measured: derive.measured() - before, measures: part.measures };
    };
    const first = sized(1);
    expect(first.measured).toBe(2);
    // Not drawn yet: the board has read nothing that changed, and what is drawn then is of its own time.
    const second = sized(2);
    expect(second.measured).toBe(1);
    expect(second.measures).toBe(first.measures);
    expect(second.shown()).toBe("4");
    expect(first.shown()).toBe("2");
    // Drawn: now its drawing hangs on the number.
    const third = sized(3);
    expect(third.measured).toBe(2);
    expect(third.shown()).toBe("6");
    expect(second.shown()).toBe("4");
  });

  it("gives formulas the instrument's numbers by bare name, other parts' by dotted name, and their measures", () => {
    expect(
      measuresOf(
        design({ parts: { board: { kind: "board" }, knob: { kind: "knob", size: "= instrument.size + 1 mm" } } }),
        "knob",
      ),
    ).toMatchObject({ twice: 42 });
    expect(
      measuresOf(design({ parts: { board: { kind: "board" }, knob: { kind: "knob", size: "= board.twice" } } }), "knob"),
    ).toMatchObject({ twice: 120 });
  });

  it("tells a formula in the instrument that needs what is measured from it", () => {
    const { problems } = createDeriver(house)(design({ instrument: { size: "= board.twice" } }));
    expect(problems.length).toBeGreaterThan(0);
    expect(problems.map((p) => p.path)).toContain("instrument.size");
  });

  it("names a known dimension near to an unknown one", () => {
    const { problems } = createDeriver(house)(
      design({ parts: { knob: { kind: "knob", size: "= bord.size" }, board: { kind: "board" } } }),
    );
    expect(problems[0]).toMatchObject({ path: "parts.knob.size", mend: "Did you mean board.size?" });
  });

  it("stops only the parts that wait for a bad number", () => {
    const derived = createDeriver(house)(design({ instrument: { size: "wide" } }));
    expect(derived.parts.map((part) => part.measures === undefined)).toEqual([true, false]);
    expect(derived.parts[0]?.problems[0]?.message).toContain("waits for");
    expect(derived.parts[0]?.drawing()).toBe(EMPTY_DRAWING);
  });

  it("keeps a part of an unknown kind out, and says so", () => {
    const derived = createDeriver(house)(design({ parts: { lute: { kind: "lute" } } }));
    expect(derived.parts).toEqual([]);
    expect(derived.problems[0]).toMatchObject({ path: "parts.lute.kind" });
  });

  it("lets a measured value take back a given one of the same balance", () => {
    const board = (numbers: Partial<DesignNumbers>) =>
      createDeriver()({
        units: "mm",
        instrument: {},
        parts: { neckboard: { kind: "fingerboard", widthAtJoin: "56" } },
        ...numbers,
      }).parts[0]!;
    expect(board({}).fields.find((f) => f.key === "widthAtJoin")).toMatchObject({ state: "given", value: 56 });
    const built = board({ measured: { "parts.neckboard.widthAtEnd": { value: "58" } } });
    expect(built.fields.find((f) => f.key === "widthAtEnd")).toMatchObject({ state: "measured", value: 58 });
    expect(built.fields.find((f) => f.key === "widthAtJoin")?.state).toBe("follows");
    expect(built.findings().filter((f) => f.severity === "stop")).toEqual([]);
  });

  it("lets a dimension name the numbers of the very part it stands on", () => {
    const { parts } = createDeriver()({ units: "mm", instrument: {}, parts: { second: { kind: "fingerboard" } } });
    const edits = parts[0]!.drawing().dimensions.flatMap((d) => d.edits ?? []);
    expect(edits).toContain("parts.second.widthAtEnd");
    expect(edits.filter((path) => path.startsWith("parts.fingerboard"))).toEqual([]);
  });

  it("lets the maker change a limit", () => {
    const severity = (numbers: DesignNumbers): string | undefined =>
      createDeriver(house)(numbers).parts[0]?.findings()[0]?.severity;
    expect(severity(design({ limits: {} }))).toBe("fine");
    expect(severity(design({ limits: { "board.big.most": "3 in" } }))).toBe("stop");
  });

  it("keeps findings of an earlier answer as they were", () => {
    const derive = createDeriver(house);
    const before = derive(design());
    derive(design({ instrument: { size: 900 } }));
    expect(before.parts[0]?.findings()[0]?.severity).toBe("fine");
  });
});
