import { describe, expect, it } from "vitest";
import { laidOn, ownPiece, soundWood, wantedOf } from "../../src/checks/offcut.ts";
import { regionArea } from "../../src/geometry/region.ts";
import { findPlace } from "../../src/lutherie/offcut-search.ts";
import type { MeasuresByKind } from "../../src/parts/contract.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { blanksOf } from "../../src/parts/wood.ts";
import { designWith, finding, findingsFor } from "./design.ts";

/** A plate of 100 by 40, 4 thick, with 2 all round and 0.5 to plane, on a board of 200 by 60 by 5. */
const BOARD = {
  "shape.start": "rectangle",
  "shape.length": "100 mm",
  "shape.width": "40 mm",
  "shape.thickness": "4 mm",
  "wood.shape/piece.species": "ebony-african",
  "wood.shape/piece.allowance": "2 mm",
  "wood.shape/piece.planing": "0.5 mm",
  "offcut.length": "200 mm",
  "offcut.width": "60 mm",
  "offcut.thickness": "5 mm",
};
const laid = (pieces: readonly object[], more: Readonly<Record<string, unknown>> = {}) =>
  designWith(["shape", "offcut"], { ...BOARD, "offcut.pieces": pieces, ...more });
const piece = (x: number, y: number, more: object = {}) => ({ blank: "shape/piece", x, y, ...more });

describe("a blank laid on an offcut by hand", () => {
  it("has what is left to the wood's edge beyond its allowance of 2: of 12 at the end and 10 at the sides, 8", () => {
    const found = finding(laid([piece(62, 30)]), "offcut", "offcut-place/piece-1");
    expect(found.severity).toBe("fine");
    // Along x there are 62 - 50 = 12 to the end, less 2; along y 30 - 20 = 10, less 2.
    expect(found.measured).toBeCloseTo(8, 1);
    expect(finding(laid([piece(52.1, 30)]), "offcut", "offcut-place/piece-1").measured).toBeCloseTo(0.1, 1);
  });

  it("is looked at when its allowance does not fit and stopped when it reaches out itself, with the place", () => {
    expect(finding(laid([piece(51.9, 30)]), "offcut", "offcut-place/piece-1").severity).toBe("look");
    const out = finding(laid([piece(45, 30)]), "offcut", "offcut-place/piece-1");
    expect(out).toMatchObject({ severity: "stop" });
    expect(out.measured).toBeCloseTo(5, 9);
    expect(out.at?.x).toBeCloseTo(-5, 9);
  });

  it("may not cover a knot", () => {
    const knots = [{ x: 80, y: 30, width: "6 mm" }];
    expect(finding(laid([piece(80, 30)], { "offcut.knots": knots }), "offcut", "offcut-place/piece-1").severity).toBe("stop");
    expect(finding(laid([piece(140, 30)], { "offcut.knots": knots }), "offcut", "offcut-place/piece-1").severity).toBe("fine");
  });

  it("needs the wood thick enough for what is planed off", () => {
    const at = (thickness: string) =>
      finding(laid([piece(100, 30)], { "offcut.thickness": thickness }), "offcut", "offcut-thickness/piece-1").severity;
    expect([at("4.51 mm"), at("4.49 mm"), at("3.99 mm")]).toEqual(["fine", "look", "stop"]);
  });

  it("keeps its grain within the slant that is allowed, either way round", () => {
    const at = (turn: string) => finding(laid([piece(100, 30, { turn })]), "offcut", "offcut-grain/piece-1").severity;
    expect([at("2.9"), at("3.1"), at("-3.1"), at("178")]).toEqual(["fine", "look", "look", "fine"]);
  });

  it("is a saw cut away from its neighbour", () => {
    const at = (x: number) =>
      finding(laid([piece(52, 20), piece(x, 20)], { "offcut.length": "250 mm" }), "offcut", "offcut-apart/pieces");
    // 52 + 50 + 2 + 1.5 + 2 + 50 = 157.5
    expect(at(157.51).severity).toBe("fine");
    expect(at(157.51).measured).toBeCloseTo(1.51, 9);
    expect(at(157.49).severity).toBe("look");
    expect(at(155.9).severity).toBe("stop");
  });

  it("names a blank that the design does not have", () => {
    expect(finding(laid([{ blank: "back/plate", x: 1, y: 1 }]), "offcut", "offcut-place/piece-1").says).toContain("back/plate");
  });

  it("changes nothing else: numbers of other parts leave its findings alone", () => {
    const plain = laid([piece(62, 30)]);
    const other = laid([piece(62, 30)], { "fingerboard.crownHeight": "1.3 mm", "instrument.frets": 19 });
    const of = (design: typeof plain) => findingsFor(design).filter(({ partId }) => partId === "offcut");
    expect(of(other)).toEqual(of(plain));
  });
});

describe("what a search is given", () => {
  it("is the piece with its grain along x, its allowance as margin, and the turns that the slant allows", () => {
    const design = laid([], { "wood.shape/piece.grain": "90" });
    const derived = createDeriver()(design);
    const offcut = derived.parts.find(({ id }) => id === "offcut")!.measures as MeasuresByKind["offcut"];
    const placed = blanksOf(design, derived).find(({ id }) => id === "shape/piece")!;
    const { size } = ownPiece(placed.blank, Math.PI / 2);
    expect([size.maxX - size.minX, size.maxY - size.minY].map((v) => Math.round(v * 1e6) / 1e6)).toEqual([40, 100]);
    const wanted = wantedOf(placed, offcut)!;
    expect(wanted.margin).toBeCloseTo(2, 1);
    expect(wanted.turns.map(({ from, to }) => to - from)).toEqual(
      [Math.PI / 30, Math.PI / 30].map((v) => expect.closeTo(v, 12) as number),
    );
    const wood = soundWood(offcut)!;
    expect(regionArea(wood)).toBeCloseTo(200 * 60, 3);
    // 100 across its grain does not go on a board of 60 with its grain along.
    expect(findPlace(wood, wanted).answer).toBe("does-not-fit");
  });

  it("lays a found place as it was found", () => {
    const design = laid([]);
    const derived = createDeriver()(design);
    const offcut = derived.parts.find(({ id }) => id === "offcut")!.measures as MeasuresByKind["offcut"];
    const blanks = blanksOf(design, derived);
    const found = findPlace(
      soundWood(offcut)!,
      wantedOf(
        blanks.find(({ id }) => id === "shape/piece")!,
        offcut,
      )!,
    );
    if (found.answer !== "fits") throw new Error(found.answer);
    const { x, y, turn, flipped } = found.pose;
    const [lies] = laidOn({ ...offcut, pieces: [{ blank: "shape/piece", x, y, turn: turn - offcut.grain, flipped }] }, blanks);
    expect(lies!.spare).toBeCloseTo(found.spare, 6);
  });
});
