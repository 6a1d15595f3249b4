import { readdirSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { deriveLettered } from "../../src/cli/design-file.ts";
import { readDesign } from "../../src/document/read.ts";
import type { Design } from "../../src/document/design.ts";
import type { MeasuresByKind } from "../../src/parts/contract.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import type { RawRecord } from "../../src/parts/derived.ts";
import { arrange, ownerOf } from "../../src/parts/general-arrangement.ts";
import { templatesOf } from "../../src/templates/template.ts";
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

/** What every one is made by. */
const TEMPLATES: Readonly<Record<string, string>> = {
  fingerboard: "blank-outline fret-slots side-markers",
  nut: "front-view blank",
  neck: "plan side-profile channels transition carving-gauges carving-set heel-front heel-cap saddle-top",
  headstock: "outline drilling headplate",
  bridge: "outline locating",
  body: "whole",
  sides: "side-treble side-bass",
  bracing: "top-plan back-plan top-braces back-braces back-dome-gauge",
  soundhole: "hole rosette",
  port: "opening insert wrapped ring",
  pickguard: "outline adhesive",
};
/** What only some are made by. */
const ALIKE = "neck/facets-back neck/facets-side body/half body/mould-outside body/mould-inside";
const CUTAWAY =
  "body/half-treble body/half-bass body/mould-outside-treble body/mould-inside-treble body/mould-outside-bass body/mould-inside-bass";
const SCARF = "headstock/scarf";
const TONGUE = "neck/joint-inside neck/joint-outside";
const BOUND = "body/top-channels body/back-channels";
const MARKED = "fingerboard/markers fingerboard/radius-gauges";
const BINDING = "fingerboard/bound-outline";
const DOMED = "bracing/top-dome-gauge bridge/foot";
const OWN: Readonly<Record<string, string>> = {
  "left-handed-steel-string": `neck/facets-back neck/facets-side ${CUTAWAY} ${TONGUE} ${BOUND} ${MARKED} ${DOMED} bracing/bridge-plate`,
  "nylon-650": `${ALIKE} ${SCARF} ${TONGUE} ${BOUND} bracing/bridge-plate`,
  "octave-mandolin": `${ALIKE} ${SCARF} ${MARKED} ${BINDING} bridge/feet bridge/foot headstock/rod-cover`,
  "parlour-steel-string": `${ALIKE} ${SCARF} ${TONGUE} ${BOUND} ${MARKED} ${BINDING} bracing/bridge-plate sides/end-graft pickguard/over-old`,
  "showpiece-tenor-guitar": `neck/facets-back-bass neck/facets-side-bass neck/facets-back-treble neck/facets-side-treble ${CUTAWAY} ${SCARF} ${TONGUE} ${BOUND} ${MARKED} ${BINDING} ${DOMED} bracing/bridge-plate headstock/rod-cover sides/side-treble-2 sides/accent-block endGraft/outline rodCover/outline inlay/as-designed inlay/pocket inlay/plug inlay/passes inlay/coupon`,
  "tenor-ukulele": `${ALIKE} ${SCARF} ${MARKED} bracing/bridge-plate`,
  "two-scale-baritone": `neck/facets-back neck/facets-side ${CUTAWAY} ${SCARF} ${TONGUE} ${BOUND} ${MARKED} ${BINDING} bracing/bridge-plate headstock/rod-cover`,
};

describe("the examples", () => {
  it("are seven", () => expect(names).toEqual(Object.keys(OWN).map((name) => `${name}.json`)));

  it.each(names)(
    "%s is a whole instrument: each part gives every template that it is made by, and the overview shows them all",
    (name) => {
      const derived = deriveLettered(open(name));
      const wanted = [
        ...Object.entries(TEMPLATES).flatMap(([part, list]) => list.split(" ").map((template) => `${part}/${template}`)),
        ...OWN[name.replace(".json", "")]!.split(" "),
      ];
      expect(
        templatesOf(derived)
          .map(({ id }) => id)
          .toSorted(),
      ).toEqual(wanted.toSorted());
      const { dimensioned, distances } = arrange(derived);
      const shown = new Set(dimensioned.layers.flatMap(({ shapes }) => shapes.map(({ id }) => ownerOf(derived, id)?.kind)));
      for (const kind of Object.keys(TEMPLATES)) expect(shown, kind).toContain(kind);
      expect(distances.map(({ id }) => id)).toEqual([
        "board-to-hole",
        "hole-to-bridge",
        "bridge-to-tail",
        "nut-to-join",
        "join-to-saddle",
        "nut-to-12",
        "12-to-saddle",
        "nut-to-saddle",
        "body",
        "overall",
        "depth-tail",
        "depth-neck",
      ]);
    },
  );

  it("are not all alike: necks, heads, bridges, bracings, guards and ports each come in more than one way", () => {
    const ways = (part: string, ...keys: string[]): number =>
      new Set(names.map((name) => JSON.stringify(keys.map((key) => (open(name).parts[part] as RawRecord)[key])))).size;
    expect(ways("neck", "firstDepth", "secondDepth")).toBe(7);
    expect(ways("neck", "firstShape")).toBeGreaterThanOrEqual(5);
    expect(ways("neck", "joint")).toBe(3);
    expect(ways("headstock", "rows", "start")).toBeGreaterThanOrEqual(5);
    expect(ways("bridge", "type")).toBe(3);
    expect(ways("bracing", "pattern")).toBeGreaterThanOrEqual(3);
    expect(ways("pickguard", "material", "thickness")).toBe(7);
    expect(ways("port", "length", "width")).toBe(7);
  });

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
