import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fretDistance, fretOn, fretShare, layScales, type ScaleLayout } from "../../src/lutherie/fret-positions.ts";
import { lineAcross } from "../../src/lutherie/transverse-line.ts";

const nut = { bass: -18.23, treble: 18.23 };
const saddle = { bass: -27.5, treble: 27.5 };
const lay = (bassScale: number, trebleScale: number, squareFret: number): ScaleLayout =>
  layScales({ bassScale, trebleScale, squareFret, nut, saddle });

const number = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

describe("two scales", () => {
  it("give exactly the frets of one scale where both are equal", () => {
    const layout = lay(645.16, 645.16, 7);
    for (let n = 0; n <= 36; n++) {
      expect(fretOn(layout.bass, n).x).toBe(fretDistance(645.16, n));
      expect(fretOn(layout.treble, n).x).toBe(fretDistance(645.16, n));
    }
  });

  it("come to the frets of one scale as the difference goes to nothing", () => {
    for (const difference of [1, 1e-3, 1e-6]) {
      const layout = lay(650 + difference, 650, 9);
      for (let n = 0; n <= 24; n++)
        expect(Math.abs(fretOn(layout.bass, n).x - fretDistance(650, n))).toBeLessThanOrEqual(difference);
    }
  });

  it("lay lengths off along the centre line, not along slanting strings, which would fall 0.033 mm short at fret 12", () => {
    // From 36.46 apart at the nut to 55 at the saddle each outer string leans by (55 - 36.46) / 2 = 9.27 in 645.16.
    // Laid off along the string, fret 12 lies at 322.58 cos(atan(9.27 / 645.16)) = 322.58 x 0.9998968 = 322.5467.
    const along = 322.58 * Math.cos(Math.atan(9.27 / 645.16));
    expect(fretOn(lay(645.16, 645.16, 7).bass, 12).x - along).toBeCloseTo(0.033, 3);
  });

  it("by a case worked by hand: 710 and 675 mm, square at fret 7", () => {
    // k(7) = 1 - 2^(-7/12) = 0.332580073. Skew (710 - 675) k = 11.640302553, half of it to each side of x = 0.
    // Nut: bass -5.820151, treble 5.820151. Fret 7: bass -5.820151 + 710 k = 230.311701, treble 5.820151 + 675 k = 230.311701.
    // Fret 12: bass -5.820151 + 355 = 349.179849, treble 5.820151 + 337.5 = 343.320151.
    const layout = lay(710, 675, 7);
    expect(layout.bass.nut.x).toBeCloseTo(-5.820151, 5);
    expect(layout.treble.nut.x).toBeCloseTo(5.820151, 5);
    expect(fretOn(layout.bass, 7).x).toBeCloseTo(230.311701, 5);
    expect(fretOn(layout.treble, 7).x).toBeCloseTo(230.311701, 5);
    expect(fretOn(layout.bass, 12).x).toBeCloseTo(349.179849, 5);
    expect(fretOn(layout.treble, 12).x).toBeCloseTo(343.320151, 5);
  });

  it("keep the named fret square and the nut line through the middle, whatever the numbers", () => {
    fc.assert(
      fc.property(
        number(300, 900),
        number(300, 900),
        fc.integer({ min: 0, max: 36 }),
        number(10, 60),
        number(-2, 2),
        number(10, 90),
        (bassScale, trebleScale, squareFret, spread, shift, saddleSpread) => {
          const layout = layScales({
            bassScale,
            trebleScale,
            squareFret,
            nut: { bass: shift - spread / 2, treble: shift + spread / 2 },
            saddle: { bass: -saddleSpread / 2, treble: saddleSpread / 2 },
          });
          expect(fretOn(layout.bass, squareFret).x).toBeCloseTo(fretOn(layout.treble, squareFret).x, 9);
          expect(lineAcross(layout.bass.nut, layout.treble.nut).x0).toBeCloseTo(0, 9);
          expect(layout.bass.saddle.x - layout.bass.nut.x).toBeCloseTo(bassScale, 9);
          expect(fretOn(layout.treble, 12).x - layout.treble.nut.x).toBeCloseTo(trebleScale * fretShare(12), 9);
        },
      ),
    );
  });
});
