import { describe, expect, it } from "vitest";
import type { Design } from "../../src/document/design.ts";
import { addPart, removePart, renamePart } from "../../src/document/edit-parts.ts";
import { createDeriver } from "../../src/parts/derive.ts";

const start: Design = {
  format: "gramil-design",
  version: 1,
  units: "mm",
  instrument: {
    nutWidth: "= fingerboard.widthAtEnd - 10 mm",
    strings: ["1", { gauge: "= fingerboard.thickness / 6", note: "fingerb." }],
  },
  parts: {
    fingerboard: { kind: "fingerboard", widthAtEnd: "55 mm", overhang: "= fingerboard.thickness + myfingerboard.thickness" },
    nut: { kind: "nut", thickness: "= fingerboard.thickness" },
  },
  measured: {
    "parts.fingerboard.overhang": { value: "8 mm" },
    "parts.nut.thickness": { value: "5 mm" },
    "instrument.scale": { value: "650 mm" },
  },
};

const valuesOf = (of: Design): unknown =>
  createDeriver()(of).parts.map(({ kind, fields }) => [kind, fields.map(({ value }) => value)]);

describe("parts of a design", () => {
  it("are added with nothing said of them, under their kind, numbered from the second on", () => {
    const second = addPart(start, "fingerboard");
    expect(second.ok && second.value.id).toBe("fingerboard2");
    expect(second.ok && second.value.design.parts.fingerboard2).toEqual({ kind: "fingerboard" });
    const third = second.ok && addPart(second.value.design, "fingerboard");
    expect(third && third.ok && third.value.id).toBe("fingerboard3");
    expect(addPart(start, "instrument").ok).toBe(false);
    expect(addPart(start, "toString").ok).toBe(false);
  });

  it("are taken out with what was measured of them, and with nothing else", () => {
    const result = removePart(start, "fingerboard");
    expect(result.ok && result.value).toEqual({
      ...start,
      parts: { nut: start.parts.nut },
      measured: { "parts.nut.thickness": { value: "5 mm" }, "instrument.scale": { value: "650 mm" } },
    });
    expect(removePart(start, "toString").ok).toBe(false);
  });

  it("keep their place, their measured numbers and the formulas that name them under another id", () => {
    const result = renamePart(start, "fingerboard", "board");
    expect(result.ok && result.value).toEqual({
      ...start,
      instrument: {
        nutWidth: "= board.widthAtEnd - 10 mm",
        strings: ["1", { gauge: "= board.thickness / 6", note: "fingerb." }],
      },
      parts: {
        board: { kind: "fingerboard", widthAtEnd: "55 mm", overhang: "= board.thickness + myfingerboard.thickness" },
        nut: { kind: "nut", thickness: "= board.thickness" },
      },
      measured: {
        "parts.board.overhang": { value: "8 mm" },
        "parts.nut.thickness": { value: "5 mm" },
        "instrument.scale": { value: "650 mm" },
      },
    });
    expect(result.ok && Object.keys(result.value.parts)).toEqual(["board", "nut"]);
  });

  it("settle to the same numbers under another id", () => {
    const { overhang: _, ...board } = start.parts.fingerboard!;
    const design = { ...start, parts: { ...start.parts, fingerboard: { ...board, kind: "fingerboard" } } };
    const renamed = renamePart(design, "fingerboard", "ünter");
    if (!renamed.ok) throw new Error(renamed.error.message);
    expect(
      createDeriver()(design).problems.filter(({ path }) => path.includes("fingerboard") || path.includes("strings")),
    ).toEqual([]);
    expect(JSON.stringify(valuesOf(design)).match(/\d+/g)!.length).toBeGreaterThan(20);
    expect(valuesOf(renamed.value)).toEqual(valuesOf(design));
  });

  it("cannot take a name that no path can hold, or one that is taken", () => {
    for (const name of ["", "a.b", "a[0]", "instrument", "2nd", "nut", "a b"])
      expect(renamePart(start, "fingerboard", name).ok, name).toBe(false);
    expect(renamePart(start, "none", "x").ok).toBe(false);
    const same = renamePart(start, "nut", "nut");
    expect(same.ok && same.value).toBe(start);
  });
});
