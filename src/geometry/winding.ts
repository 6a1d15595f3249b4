import type { Path } from "./path.ts";
import { monotoneParts, piecesOf, pointAt, type Piece } from "./segment.ts";
import type { Vec } from "./vec.ts";

/**
 * How often the closed path runs round p, counter-clockwise positive; exact on curves. An open path counts as closed by a straight side.
 * For p on the path itself either neighbour's number comes out.
 */
export function pathWinding(path: Path, p: Vec): number {
  const pieces = piecesOf(path);
  const end = pieces.at(-1)?.segment.to ?? path.start;
  const closing: Piece[] = path.closed ? [] : [{ from: end, segment: { kind: "line", to: path.start } }];
  return [...pieces, ...closing].reduce((sum, piece) => sum + crossingsRightOf(piece, p), 0);
}

/** True where p lies inside what the closed paths cover by the nonzero rule. */
export const isInside = (paths: readonly Path[], p: Vec): boolean =>
  paths.reduce((sum, path) => sum + pathWinding(path, p), 0) !== 0;

/** Crossings of the level ray from p towards +x: up counts 1, down -1. */
function crossingsRightOf(piece: Piece, p: Vec): number {
  if (piece.segment.kind === "line") return monotoneCrossing(piece, p);
  if (piece.segment.kind === "arc") {
    const { centre, to } = piece.segment;
    const radius = Math.hypot(to.x - centre.x, to.y - centre.y) * (1 + 1e-9);
    // The whole circle passes by.
    if (Math.abs(p.y - centre.y) > radius || p.x > centre.x + radius) return 0;
  }
  let count = 0;
  for (const part of monotoneParts(piece)) count += monotoneCrossing(part, p);
  return count;
}

function monotoneCrossing(piece: Piece, p: Vec): number {
  const a = piece.from;
  const b = piece.segment.to;
  // Half open, so that a ray through a joint counts it once.
  if (a.y <= p.y === b.y <= p.y) return 0;
  const way = b.y > a.y ? 1 : -1;
  if (Math.min(a.x, b.x) > p.x) return way;
  if (Math.max(a.x, b.x) < p.x) return 0;
  let low = 0;
  let high = 1;
  if (piece.segment.kind === "line") low = high = (p.y - a.y) / (b.y - a.y);
  while (high - low > 1e-15) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    const q = pointAt(piece, middle);
    if (q.y > p.y === b.y > p.y) high = middle;
    else low = middle;
  }
  return pointAt(piece, (low + high) / 2).x > p.x ? way : 0;
}
