import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  fretPlaneOverTop,
  gapUnderExtension,
  heelUndercut,
  resetAtHeel,
  solveChain,
  stringOverFrets,
  type ChainUnknown,
  type HeightChain,
} from "../../src/lutherie/neck-pitch.ts";

const CHAIN: HeightChain = {
  joinX: 358,
  saddleX: 648,
  scale: 648,
  topRiseAtJoin: 0,
  topRiseAtSaddle: 2,
  boardThickness: 6.35,
  fretHeight: 1.1,
  nutHeight: 0.4,
  actionAt12: 2.3,
  bridgeThickness: 9,
  saddleHeight: 3.5,
  pitch: 0,
};

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe("solveChain", () => {
  it("works the pitch by hand: 2 + 9 + 3.5 - (2·2.3 - 0.4) = 10.3 at the saddle, 7.45 at the join, atan(2.85/290) = 0.563 degrees", () => {
    const pitch = solveChain(CHAIN, "pitch");
    expect((pitch * 180) / Math.PI).toBeCloseTo(0.5631, 3);
    expect(Math.tan(pitch)).toBeCloseTo(2.85 / 290, 12);
  });

  it("lets any number lead: each unknown solved from the others comes back", () => {
    const chains = fc.record({
      joinX: number(280, 380),
      saddleX: number(560, 680),
      scale: number(560, 680),
      topRiseAtJoin: number(-1, 1),
      topRiseAtSaddle: number(-1, 5),
      boardThickness: number(4, 9),
      fretHeight: number(0.8, 1.5),
      nutHeight: number(0.1, 1),
      actionAt12: number(1.5, 4),
      bridgeThickness: number(6, 12),
      saddleHeight: number(1, 6),
      pitch: number(-0.05, 0.05),
    });
    fc.assert(
      fc.property(chains, (chain) => {
        const settled = { ...chain, pitch: solveChain(chain, "pitch") };
        for (const unknown of [
          "pitch",
          "bridgeThickness",
          "saddleHeight",
          "boardThickness",
          "actionAt12",
        ] satisfies ChainUnknown[]) {
          expect(solveChain(settled, unknown)).toBeCloseTo(settled[unknown], 8);
        }
      }),
    );
  });

  it("moves the saddle by twice what the action at 12 moves, on a saddle at the scale length", () => {
    const higher = solveChain({ ...CHAIN, actionAt12: 2.8 }, "saddleHeight") - solveChain(CHAIN, "saddleHeight");
    expect(higher).toBeCloseTo(1, 12);
  });

  it("refuses a saddle short of the join and heights that are no numbers", () => {
    expect(() => solveChain({ ...CHAIN, saddleX: 300 }, "pitch")).toThrow(RangeError);
    expect(() => solveChain({ ...CHAIN, bridgeThickness: Number.NaN }, "pitch")).toThrow(RangeError);
    expect(() => solveChain({ ...CHAIN, scale: 0 }, "pitch")).toThrow(RangeError);
  });
});

describe("fret plane and strings", () => {
  it("runs from the nut height over twice the action less the nut height at the scale length", () => {
    expect([0, 324, 648].map((x) => stringOverFrets(CHAIN, x))).toEqual([0.4, expect.closeTo(2.3, 12), expect.closeTo(4.2, 12)]);
  });

  it("lies board and fret over the join and meets string less its height at the saddle", () => {
    const chain = { ...CHAIN, pitch: solveChain(CHAIN, "pitch") };
    expect(fretPlaneOverTop(chain, 358, 0)).toBeCloseTo(7.45, 12);
    expect(fretPlaneOverTop(chain, 648, 2) + stringOverFrets(chain, 648)).toBeCloseTo(9 + 3.5, 12);
  });

  it("gaps a flat top by tan(pitch) times the extension: 0.02 rising over 80 is 1.6; a dome of 2 there makes it dig in by 0.4", () => {
    const chain = { ...CHAIN, pitch: Math.atan(0.02) };
    expect(gapUnderExtension(chain, 438, 0)).toBeCloseTo(1.6, 12);
    expect(gapUnderExtension(chain, 438, 2)).toBeCloseTo(-0.4, 12);
    expect(gapUnderExtension(chain, 358, 0)).toBeCloseTo(0, 12);
  });
});

describe("heel", () => {
  it("is cut back by its depth times the tangent: 90 deep at 1.5 degrees is 2.357", () => {
    expect(heelUndercut(90, (1.5 * Math.PI) / 180)).toBeCloseTo(2.3567, 4);
    expect(heelUndercut(90, 0)).toBe(0);
    expect(() => heelUndercut(-1, 0.1)).toThrow(RangeError);
    expect(() => heelUndercut(90, 2)).toThrow(RangeError);
  });

  it("loses 90 x 5 / 291 = 1.546 to raise the fret plane by 5 at a saddle 291 from the join", () => {
    expect(resetAtHeel(90, 5, 291)).toBeCloseTo(1.546, 3);
    // The same as the change of undercut between the two pitches, to the small angle.
    expect(resetAtHeel(90, 5, 291)).toBeCloseTo(heelUndercut(90, Math.atan(5 / 291)), 12);
    expect(() => resetAtHeel(90, 5, 0)).toThrow(RangeError);
    expect(() => resetAtHeel(90, Number.NaN, 291)).toThrow(RangeError);
  });
});
