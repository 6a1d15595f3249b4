import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { equilibriumMoisturePct } from "../../src/lutherie/equilibrium-moisture.ts";
import {
  coefficientAcross,
  movementRule,
  pairMovement,
  pieceMovement,
  straightLineMovement,
  strainAcross,
  wideRangeMovement,
  type Cut,
  type WoodPiece,
} from "../../src/lutherie/wood-movement.ts";
import { movementWords, pairWords } from "../../src/lutherie/wood-movement-words.ts";
import { WOOD_SPECIES, woodSpecies } from "../../src/lutherie/wood-species.ts";

const ACROSS = Math.PI / 2;
const piece = (id: string, cut: Cut, grain = 0): WoodPiece => ({ species: woodSpecies(id)!, cut, grain });
const cuts = fc.constantFrom<Cut>("quartersawn", "riftsawn", "flatsawn");
const pieces = fc.record({
  species: fc.constantFrom(...WOOD_SPECIES),
  cut: cuts,
  grain: fc.double({ min: -4, max: 4, noNaN: true }),
});
const moistures = fc.double({ min: 0, max: 30, noNaN: true });

const show = (mm: number): string => `${mm.toFixed(2)} mm`;

/** Growth of a piece that loses 2 %, between two points (dx, dy) apart: along the unit vector across its grain. */
function moveBetween({ grain, species, cut }: WoodPiece, dx: number, dy: number): [number, number] {
  const n: [number, number] = [-Math.sin(grain), Math.cos(grain)];
  const grown = coefficientAcross(species, cut) * -2 * (dx * n[0] + dy * n[1]);
  return [grown * n[0], grown * n[1]];
}

describe("movement across the grain", () => {
  it("moves the handbook's example board of 232 mm by 232 x 0.00245 x 3 = 1.705 mm for 3 % (Wood Handbook, ch. 13, under Eq. 13-2)", () => {
    expect(straightLineMovement(232, 0.00245, { fromPct: 8, toPct: 11 })).toBeCloseTo(1.7052, 9);
    // The same in inches as the handbook prints it: 9.15 in grow by 0.067 in.
    expect(straightLineMovement(9.15, 0.00245, { fromPct: 8, toPct: 11 })).toBeCloseTo(0.067, 3);
  });

  it("shrinks a quartersawn Sitka half of 200 mm by 0.680 mm from a shop at 45 % to a room at 30 % RH, 20 °C", () => {
    // 8.485 -> 6.188 %: 200 x 0.00148 x (-2.297) = -0.680
    const change = { fromPct: equilibriumMoisturePct(20, 45), toPct: equilibriumMoisturePct(20, 30) };
    const { x, y, rule } = pieceMovement(piece("spruce-sitka", "quartersawn"), { x: 500, y: 200 }, change);
    expect(y).toBeCloseTo(-0.68, 3);
    expect(x).toBeCloseTo(0, 15);
    expect(rule).toBe("straight-line");
  });

  // 400 mm of back, 2 % up: 400 x C x 2, worked by hand from the printed coefficients; the ebony board loses 2 %.
  it.each([
    ["rosewood-indian", "flatsawn", 400, 2, 1.608],
    ["maple-sugar", "flatsawn", 400, 2, 2.824],
    ["spruce-sitka", "quartersawn", 400, 2, 1.184],
    ["ebony-african", "quartersawn", 56, -2, -0.364],
  ] as const)("moves %s, %s, %d mm wide by the worked figure for %d %%", (id, cut, width, moisturePct, expected) => {
    const change = { fromPct: 9, toPct: 9 + moisturePct };
    expect(pieceMovement(piece(id, cut), { x: 0, y: width }, change).y).toBeCloseTo(expected, 9);
  });

  it("takes the mean of the two coefficients for riftsawn wood", () => {
    expect(coefficientAcross(woodSpecies("spruce-sitka")!, "riftsawn")).toBeCloseTo((0.00148 + 0.00263) / 2, 12);
  });

  it("keeps to the straight line from 6 to 14 % and says so, and to the wide-range rule outside", () => {
    expect(movementRule({ fromPct: 6, toPct: 14 })).toBe("straight-line");
    expect(movementRule({ fromPct: 14, toPct: 6 })).toBe("straight-line");
    expect(movementRule({ fromPct: 5.99, toPct: 10 })).toBe("wide-range");
    expect(movementRule({ fromPct: 10, toPct: 14.01 })).toBe("wide-range");
  });

  it("loses the whole shrinkage from green (30 %) to ovendry by the wide-range rule, which is what shrinkage means", () => {
    expect(wideRangeMovement(100, 7.5, { fromPct: 30, toPct: 0 })).toBeCloseTo(-7.5, 12);
  });

  it("comes back to the same size after any detour by the wide-range rule, as Eq. 13-3 is a straight line in moisture", () => {
    fc.assert(
      fc.property(moistures, moistures, fc.double({ min: 0.5, max: 20, noNaN: true }), (fromPct, toPct, shrinkagePct) => {
        const there = 100 + wideRangeMovement(100, shrinkagePct, { fromPct, toPct });
        const back = there + wideRangeMovement(there, shrinkagePct, { fromPct: toPct, toPct: fromPct });
        expect(back).toBeCloseTo(100, 9);
      }),
    );
  });

  it("joins the two rules without a step: from 10 % both give the same, so 14.01 % moves next to nothing more than 14 %", () => {
    for (const species of WOOD_SPECIES) {
      const inside = strainAcross(species, "flatsawn", { fromPct: 10, toPct: 14 });
      const outside = strainAcross(species, "flatsawn", { fromPct: 10, toPct: 14.0001 });
      expect(Math.abs(outside - inside)).toBeLessThan(1e-6);
    }
  });

  it("refuses moisture below 0 and above 30 %, and what is no number", () => {
    const sitka = piece("spruce-sitka", "quartersawn");
    for (const [fromPct, toPct] of [
      [-1, 10],
      [10, 30.1],
      [Number.NaN, 10],
      [10, Number.NaN],
    ] as const) {
      expect(() => pieceMovement(sitka, { x: 1, y: 1 }, { fromPct, toPct })).toThrow(RangeError);
    }
    expect(() => pieceMovement(sitka, { x: -1, y: 1 }, { fromPct: 8, toPct: 9 })).toThrow(RangeError);
    expect(() => pieceMovement({ ...sitka, grain: Number.NaN }, { x: 1, y: 1 }, { fromPct: 8, toPct: 9 })).toThrow(RangeError);
  });
});

describe("pairMovement", () => {
  const drier = { fromPct: 9, toPct: 7 };

  it("works a bridge glued across a top by hand: each moves across its own grain only", () => {
    // Rosewood bridge 150 x 30, grain across (y), flatsawn: along x 30 x 0.00201 x (-2) = -0.1206, along y 0.
    // Sitka top, grain along x, quartersawn: along x 0, along y 150 x 0.00148 x (-2) = -0.444.
    const { x, y, corner } = pairMovement(
      piece("rosewood-indian", "flatsawn", ACROSS),
      piece("spruce-sitka", "quartersawn"),
      { x: 30, y: 150 },
      drier,
    );
    expect(x).toBeCloseTo(-0.1206, 9);
    expect(y).toBeCloseTo(0.444, 9);
    expect(corner).toBeCloseTo(Math.hypot(0.1206, 0.444), 9);
  });

  it("finds two pieces of one wood and one grain to move together", () => {
    fc.assert(
      fc.property(pieces, moistures, moistures, (a, fromPct, toPct) => {
        const { x, y, corner } = pairMovement(a, a, { x: 80, y: 60 }, { fromPct, toPct });
        expect([x, y, corner]).toEqual([0, 0, 0]);
      }),
    );
  });

  it("finds slanting grain that the axes hide: 45 degrees either way, equal along x and y, slides at the corners", () => {
    // Strain difference is pure shear e: over a square of 100 the diagonal's ends part by e x 100 sqrt 2.
    const a = piece("maple-sugar", "flatsawn", Math.PI / 4);
    const b = piece("maple-sugar", "flatsawn", -Math.PI / 4);
    const { x, y, corner } = pairMovement(a, b, { x: 100, y: 100 }, drier);
    expect(Math.abs(x) + Math.abs(y)).toBeLessThan(1e-12);
    expect(corner).toBeCloseTo(0.00353 * 2 * 100 * Math.SQRT2, 9);
  });

  it("gives a corner slip that no pair of points of the rectangle exceeds (sampled on a grid)", () => {
    const a = piece("ebony-african", "flatsawn", 0.4);
    const b = piece("spruce-sitka", "quartersawn", 1.3);
    const glued = { x: 90, y: 40 };
    const { corner } = pairMovement(a, b, glued, drier);
    let greatest = 0;
    for (let dx = -90; dx <= 90; dx += 5) {
      for (let dy = -40; dy <= 40; dy += 5) {
        const [ax, ay] = moveBetween(a, dx, dy);
        const [bx, by] = moveBetween(b, dx, dy);
        greatest = Math.max(greatest, Math.hypot(ax - bx, ay - by));
      }
    }
    expect(corner).toBeCloseTo(greatest, 9);
  });

  it("changes sign when the pieces change places, and is finite for every wood and every moisture it accepts", () => {
    fc.assert(
      fc.property(pieces, pieces, moistures, moistures, (a, b, fromPct, toPct) => {
        const one = pairMovement(a, b, { x: 70, y: 30 }, { fromPct, toPct });
        const other = pairMovement(b, a, { x: 70, y: 30 }, { fromPct, toPct });
        expect(one.x).toBeCloseTo(-other.x, 12);
        expect(one.y).toBeCloseTo(-other.y, 12);
        expect(one.corner).toBeCloseTo(other.corner, 12);
        expect(Number.isFinite(one.corner)).toBe(true);
      }),
    );
  });
});

describe("words for movement", () => {
  it("tells the rule, the coefficient, its basis and the result", () => {
    const words = movementWords(piece("ebony-african", "quartersawn"), 56, { fromPct: 9, toPct: 7 }, show).join(" ");
    expect(words).toContain("9.0 %");
    expect(words).toContain("0.00325");
    expect(words).toContain("computed from shrinkage");
    expect(words).toContain("56.00 mm shrinks by 0.36 mm.");
    expect(movementWords(piece("spruce-sitka", "quartersawn"), 200, { fromPct: 9, toPct: 5 }, show).join(" ")).toContain(
      "Eq. 13-3",
    );
  });

  it("names both pieces, the axis and the amount, and is silent about an axis that does not move", () => {
    const plate = { ...piece("rosewood-indian", "quartersawn", ACROSS), name: "plate" };
    const top = { ...piece("rosewood-indian", "quartersawn", 0), name: "top" };
    expect(pairWords(plate, top, { x: 0, y: 100 }, { fromPct: 9, toPct: 7 }, show)).toEqual([
      "Across the instrument, over 100.00 mm, the plate wants to be 0.18 mm longer than the top.",
      "From corner to corner the two would slide by 0.18 mm if they were free.",
    ]);
    expect(pairWords(top, { ...top, name: "back" }, { x: 50, y: 100 }, { fromPct: 9, toPct: 7 }, show)).toEqual([
      "The top and the back move together.",
    ]);
  });
});
