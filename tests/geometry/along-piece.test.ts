import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { alongPiece } from "../../src/geometry/along-piece.ts";
import { arc, cubic, line } from "../../src/geometry/path.ts";
import { pointAt, type Piece } from "../../src/geometry/segment.ts";
import { distance, vec } from "../../src/geometry/vec.ts";

/** Length from the start to t in chords, which is short by less than their number squared allows. */
function chords(piece: Piece, t: number, count = 4000): number {
  let sum = 0;
  for (let i = 0; i < count; i++) sum += distance(pointAt(piece, (t * i) / count), pointAt(piece, (t * (i + 1)) / count));
  return sum;
}

const from = vec(0, 0);
const pieces: readonly (readonly [string, Piece])[] = [
  ["a line", { from, segment: line(vec(30, 40)) }],
  ["an arc", { from, segment: arc(vec(20, 0), vec(10, 0), true) }],
  ["a cubic", { from, segment: cubic(vec(20, 60), vec(70, -10), vec(90, 30)) }],
  ["a cubic with a cusp", { from, segment: cubic(vec(60, 60), vec(0, 60), vec(60, 0)) }],
  ["a cubic that turns back on its own line", { from, segment: cubic(vec(50, 0), vec(-20, 0), vec(30, 0)) }],
  ["a cubic that starts on its handle", { from, segment: cubic(from, vec(10, 30), vec(40, 30)) }],
];

describe.each(pieces)("along %s", (_, piece) => {
  const along = alongPiece(piece);

  it("lengths are those of its chords", () => {
    for (const t of [0, 0.03, 0.125, 0.4, 0.5, 0.77, 1]) expect(along.lengthTo(t)).toBeCloseTo(chords(piece, t), 3);
    expect(along.lengthTo(1)).toBeCloseTo(along.length, 9);
  });

  it("a length is found again where it was measured", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (share) => {
        const asked = share * along.length;
        const t = along.at(asked);
        expect(t).toBeGreaterThanOrEqual(0);
        expect(t).toBeLessThanOrEqual(1);
        expect(along.lengthTo(t)).toBeCloseTo(asked, 8);
      }),
    );
  });
});

it("a piece of no length has its end at once", () => {
  for (const segment of [line(from), cubic(from, from, from)]) {
    const along = alongPiece({ from, segment });
    expect([along.length, along.lengthTo(0.5), along.at(0)]).toEqual([0, 0, 1]);
  }
});
