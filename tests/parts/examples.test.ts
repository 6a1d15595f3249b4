import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { deriveLettered } from "../../src/cli/design-file.ts";
import { readDesign } from "../../src/document/read.ts";
import type { Design } from "../../src/document/design.ts";
import type { MeasuresByKind } from "../../src/parts/contract.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { RawRecord } from "../../src/parts/derived.ts";
import { expectSound } from "./sound.ts";

const folder = resolve(import.meta.dirname, "../../examples");
const names = readdirSync(folder).filter((name) => name.endsWith(".json"));

function open(name: string): Design {
  const read = readDesign(new Uint8Array(readFileSync(resolve(folder, name))));
  if (!read.ok) throw new Error(`${name}: ${read.message}`);
  return read.design;
}

const boardOf = (name: string): MeasuresByKind["fingerboard"] =>
  createDeriver()(open(name)).parts.find((part) => part.kind === "fingerboard")!.measures as MeasuresByKind["fingerboard"];

describe("the examples", () => {
  it.each(names)("%s derives in sound drawings, and its checks find nothing even to look at", (name) => {
    const derived = deriveLettered(open(name));
    expect(derived.problems).toEqual([]);
    for (const part of [derived.instrument, ...derived.parts]) {
      expectSound(part);
      expect(part.findings().filter((finding) => finding.severity !== "fine")).toEqual([]);
    }
  });

  it("show together what instrument, board and nut can do", () => {
    const shown = new Set<string>();
    for (const name of names) {
      const { instrument, parts } = open(name);
      const board: RawRecord = parts["fingerboard"] ?? {};
      if (instrument["handed"] === "left") shown.add("left-handed");
      if (instrument["bassScale"]) shown.add("two scales");
      if (instrument["courses"]) shown.add("courses");
      if (instrument["zeroFret"]) shown.add("zero fret");
      if (instrument["marginTo"] === "edge") shown.add("margin to the edge");
      if (instrument["spacing"] === "equal-centre") shown.add("equal centres");
      if (board["slots"] === "stopped") shown.add("stopped slots");
      if (board["bindEnd"]) shown.add("bound end");
      if (board["radiusAtEnd"]) shown.add("compound radius");
      for (const key of ["end", "markerShape"]) if (board[key]) shown.add(String(board[key]));
    }
    expect([...shown].toSorted()).toEqual([
      "angled",
      "bar",
      "bound end",
      "compound radius",
      "courses",
      "curved",
      "diamond",
      "equal centres",
      "left-handed",
      "margin to the edge",
      "stopped slots",
      "two scales",
      "zero fret",
    ]);
  });

  it("come out at the numbers worked by hand", () => {
    // 24.9 in, fret 12: 12.45 in = 316.23 mm. Blank at the nut of the bound board: 1 13/16 in = 46.0375, sides open by
    // (2 9/32 - 1 13/16) x 25.4 = 11.90625 over 316.23: tan(alpha) = 0.018825, 1 / cos(alpha) = 1.000177; less 2 x 2.413 x 1.000177.
    const parlour = boardOf("parlour-steel-string.json");
    expect(parlour.frets[12]!.fromNut).toBeCloseTo(316.23, 9);
    expect(parlour.blankWidthAtNut).toBeCloseTo(46.0375 - 4.826854, 5);
    // 650 mm, fret 19: 433.0885 (published table).
    expect(boardOf("nylon-650.json").frets[19]!.fromNut).toBeCloseTo(433.0885, 4);
    // 430 mm, fret 14: 238.4568 (published table).
    expect(boardOf("tenor-ukulele.json").joinX).toBeCloseTo(238.4568, 4);
    // 28.5 and 27 in at fret 12: 14.25 and 13.5 in.
    const baritone = boardOf("two-scale-baritone.json").frets[12]!;
    expect([baritone.bassFromNut, baritone.trebleFromNut]).toEqual([expect.closeTo(361.95, 9), expect.closeTo(342.9, 9)]);
  });
});
