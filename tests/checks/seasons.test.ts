import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { airOf, movementOf, wordsOfPair, wordsOfPiece } from "../../src/checks/seasons.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { designWith, finding } from "./design.ts";

const moved = (values: Readonly<Record<string, unknown>>, kinds: readonly string[] = ["shape"]) => {
  const design = designWith(kinds, values);
  return movementOf(design, createDeriver()(design))!;
};
const show = (mm: number): string => `${mm.toFixed(2)} mm`;

/** A flat piece 100 long and 232 wide. */
const PLATE = {
  "shape.start": "rectangle",
  "shape.length": "100 mm",
  "shape.width": "232 mm",
  "wood.shape/piece.sawn": "flatsawn",
};

describe("the seasons of a design", () => {
  it("take the moisture of the air from the handbook's table: 21.1 °C, 30, 50 and 75 % give 6.2, 9.2 and 14.4 (Table 4-2) within 0.06", () => {
    const air = airOf({ shopC: 21.1, shopHumidityPct: 50, homeC: 21.1, dryHumidityPct: 30, dampHumidityPct: 75 });
    for (const [value, printed] of [
      [air.shopPct, 9.2],
      [air.dryPct, 6.2],
      [air.dampPct, 14.4],
    ] as const)
      expect(Math.abs(value - printed)).toBeLessThanOrEqual(0.06);
  });

  it("move a piece across its grain: Sitka, quartersawn, 200 mm, from 45 to 30 % at 20 °C shrinks by 0.680", () => {
    // 8.485 -> 6.188 %: 200 x 0.00148 x (-2.297) = -0.680, grain along the instrument.
    const { pieces } = moved({
      ...PLATE,
      "shape.width": "200 mm",
      "wood.shape/piece.species": "spruce-sitka",
      "wood.shape/piece.sawn": "quartersawn",
      "seasons.dryHumidityPct": 30,
    });
    const piece = pieces.find(({ placed }) => placed.id === "shape/piece")!;
    expect(piece.across).toBeCloseTo(200, 9);
    expect(piece.moved.dry).toBeCloseTo(-0.68, 3);
  });

  it("turn with the grain: laid across the instrument, the length of the piece is what moves", () => {
    const { pieces } = moved({ ...PLATE, "wood.shape/piece.species": "maple-sugar", "wood.shape/piece.grain": "90" });
    const piece = pieces.find(({ placed }) => placed.id === "shape/piece")!;
    expect(piece.across).toBeCloseTo(100, 9);
  });

  it("move each wood of the table by its printed coefficient for 1 % between 6 and 14 %", () => {
    const { species } = JSON.parse(readFileSync("tests/data/wood.json", "utf8")) as {
      species: { id: string; C_T: number }[];
    };
    for (const { id, C_T } of species) {
      const { pieces, air } = moved({ ...PLATE, "wood.shape/piece.species": id, "seasons.dryHumidityPct": 35 });
      const piece = pieces.find(({ placed }) => placed.id === "shape/piece")!;
      expect(piece.moved.dry).toBeCloseTo(232 * C_T * (air.dryPct - air.shopPct), 9);
    }
  });

  it("leave out what is no wood", () => {
    expect(moved({}, []).pieces.map(({ placed }) => placed.id)).not.toContain("nut/nut");
  });

  it("tell of a glued pair what each does by hand: ebony board on mahogany neck, over the width at the join", () => {
    const { pairs, air } = moved({ "seasons.dryHumidityPct": 35, "seasons.dampHumidityPct": 60 }, []);
    const pair = pairs.find(({ placed }) => placed.id === "neck/board-on-neck")!;
    const { first, second } = pair;
    const width = pair.placed.joint.across;
    const by = (pct: number) => width * (first.species.movement.radial - second.species.movement.radial) * (pct - air.shopPct);
    expect(pair.moved.dry.y).toBeCloseTo(by(air.dryPct), 9);
    expect(pair.moved.damp.y).toBeCloseTo(by(air.dampPct), 9);
    expect(wordsOfPair(pair, air, "dry", show).join(" ")).toMatch(
      /Across the instrument, over .* the neck shaft wants to be .* longer than the fingerboard/,
    );
    expect(wordsOfPiece(second, air, "dry", show).join(" ")).toContain("0.00325");
  });
});

describe("the check of glued pairs", () => {
  const values = { "wood.fingerboard/board.grain": "90" };

  it("lets the starting design pass, and finds a board laid with its grain across the neck", () => {
    expect(finding(designWith([]), "neck", "seasons/board-on-neck").severity).toBe("fine");
    const crossed = finding(designWith([], values), "neck", "seasons/board-on-neck");
    expect(crossed.severity).toBe("stop");
    // Along the join's 360 mm the board now moves across its grain: 355.6 x 0.00325 x 3.51 % = 4.1; the corners slide farther.
    expect(crossed.measured).toBeGreaterThan(3.5);
    expect(crossed.measured).toBeLessThan(4.6);
  });

  it("looks just above the slide that is allowed and not just below it, and keeps to the maker's own limit", () => {
    const slide = finding(designWith([]), "neck", "seasons/board-on-neck").measured!;
    const at = (limit: number) =>
      finding(designWith([], { "limits.whole.seasons.slide": limit }), "neck", "seasons/board-on-neck");
    expect(at(slide - 0.001).severity).toBe("look");
    expect(at(slide + 0.001).severity).toBe("fine");
    expect(at(slide - 0.001).needed).toBeCloseTo(slide - 0.001, 9);
  });

  it("is left alone by numbers that do not matter to it", () => {
    const plain = finding(designWith([]), "neck", "seasons/board-on-neck");
    const other = designWith([], { "fingerboard.crownHeight": "1.3 mm", "nut.thickness": "5 mm" });
    expect(finding(other, "neck", "seasons/board-on-neck")).toEqual(plain);
  });
});
