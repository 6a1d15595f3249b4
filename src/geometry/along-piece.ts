/** Lengths along one piece, for many questions: a cubic is integrated once between knots, and then only from the knot before. */
import { cubicPoints, speedAlong, type CubicPoints } from "./bezier.ts";
import { gauss, gaussShort, integrate } from "./quadrature.ts";
import { pieceLength, type Piece } from "./segment.ts";

export interface AlongPiece {
  /** Of the whole piece, mm. */
  readonly length: number;
  /** From its start to t in [0, 1], mm; exact for lines and arcs, to 1e-9 on a cubic. */
  readonly lengthTo: (t: number) => number;
  /** The t of a length in [0, the piece's]. */
  readonly at: (length: number) => number;
}

/** Stretches of a cubic that are integrated on their own. */
const STRETCHES = 8;
/** A rule on a stretch and the longer one on its halves may differ by so much, mm, for it to be taken for the length: its own error is far less on parts. */
const SMOOTH = 1e-10;

export function alongPiece(piece: Piece): AlongPiece {
  if (piece.segment.kind === "cubic") return alongCubic(cubicPoints(piece.from, piece.segment));
  const length = pieceLength(piece);
  return { length, lengthTo: (t) => length * t, at: (asked) => (length > 0 ? Math.min(1, asked / length) : 1) };
}

function alongCubic(p: CubicPoints): AlongPiece {
  const speed = speedAlong(p);
  const sums = [0];
  /** By stretch: how its parts are integrated. */
  const ways: (typeof gauss)[] = [];
  for (let k = 0; k < STRETCHES; k++) {
    const [a, b] = [k / STRETCHES, (k + 1) / STRETCHES];
    const middle = (a + b) / 2;
    const halves = gauss(speed, a, middle) + gauss(speed, middle, b);
    const way = [gaussShort, gauss].find((rule) => Math.abs(halves - rule(speed, a, b)) < SMOOTH);
    ways.push(way ?? ((f, from, to) => integrate(f, from, to, 1e-9)));
    sums.push(sums[k]! + (way ? halves : integrate(speed, a, b, 1e-9)));
  }
  const length = sums[STRETCHES]!;
  const lengthTo = (t: number): number => {
    const k = Math.min(STRETCHES - 1, Math.max(0, Math.floor(t * STRETCHES)));
    return sums[k]! + ways[k]!(speed, k / STRETCHES, t);
  };
  const at = (asked: number): number => {
    if (!(length > 0) || asked >= length) return 1;
    let k = 0;
    while (sums[k + 1]! < asked) k++;
    // Length rises with t: Newton's step where it stays in the bracket, else the middle.
    let [low, high] = [k / STRETCHES, (k + 1) / STRETCHES];
    let t = low + ((asked - sums[k]!) / (sums[k + 1]! - sums[k]! || 1)) * (high - low);
    for (let round = 0; round < 60; round++) {
      const error = sums[k]! + ways[k]!(speed, k / STRETCHES, t) - asked;
      if (Math.abs(error) < 1e-10) break;
      if (error > 0) high = t;
      else low = t;
      const next = t - error / speed(t);
      t = next > low && next < high ? next : (low + high) / 2;
    }
    return t;
  };
  return { length, lengthTo, at };
}
