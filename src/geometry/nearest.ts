import { arcSweep } from "./arc.ts";
import { bernsteinProduct, bernsteinRoots } from "./bernstein.ts";
import { cubicPoints } from "./bezier.ts";
import { boundsDistance } from "./bounds.ts";
import type { Path } from "./path.ts";
import { boxedPiecesOf, pointAt, type Piece } from "./segment.ts";
import { cross, distance, dot, sub, type Vec } from "./vec.ts";

/** The point of a path nearest to some point: how far it is, where it lies and on which segment at which parameter. */
export interface Nearest {
  readonly point: Vec;
  readonly distance: number;
  readonly index: number;
  readonly t: number;
}

/** The point of the path nearest to p; of several the first. Exact for lines and arcs, to rounding for cubics. */
export function nearestOnPath(path: Path, p: Vec): Nearest {
  let best: Nearest = { point: path.start, distance: distance(path.start, p), index: 0, t: 0 };
  const at = { minX: p.x, maxX: p.x, minY: p.y, maxY: p.y };
  boxedPiecesOf(path).forEach(({ piece, box }, index) => {
    if (boundsDistance(box, at) >= best.distance) return;
    const found = nearestOnPiece(piece, p);
    if (found.distance < best.distance) best = { ...found, index };
  });
  return best;
}

/** The point of one piece nearest to p. */
export function nearestOnPiece(piece: Piece, p: Vec): { readonly point: Vec; readonly distance: number; readonly t: number } {
  let best = { point: piece.from, distance: distance(piece.from, p), t: 0 };
  for (const t of [...feetOf(piece, p), 1]) {
    const point = pointAt(piece, t);
    const away = distance(point, p);
    if (away < best.distance) best = { point, distance: away, t };
  }
  return best;
}

/** Parameters in [0, 1] at which the line to p stands square on the piece. */
export function feetOf({ from, segment }: Piece, p: Vec): number[] {
  switch (segment.kind) {
    case "line": {
      const along = sub(segment.to, from);
      const square = dot(along, along);
      const t = square > 0 ? dot(sub(p, from), along) / square : 0;
      return t >= 0 && t <= 1 ? [t] : [];
    }
    case "arc": {
      const sweep = arcSweep(from, segment);
      const u = sub(from, segment.centre);
      const v = sub(p, segment.centre);
      if (sweep === 0 || (v.x === 0 && v.y === 0)) return [];
      const near = Math.atan2(cross(u, v), dot(u, v));
      const turn = 2 * Math.PI;
      // The near foot, and the far one across the centre.
      return [near, near + Math.PI].flatMap((angle) => {
        const ahead = (((angle * Math.sign(sweep)) % turn) + turn) % turn;
        return ahead <= Math.abs(sweep) ? [ahead / Math.abs(sweep)] : [];
      });
    }
    case "cubic": {
      const [a, b, c, d] = cubicPoints(from, segment);
      // (B(t) - p) . B'(t) = 0, of degree 5.
      const x = bernsteinProduct([a.x - p.x, b.x - p.x, c.x - p.x, d.x - p.x], [b.x - a.x, c.x - b.x, d.x - c.x]);
      const y = bernsteinProduct([a.y - p.y, b.y - p.y, c.y - p.y, d.y - p.y], [b.y - a.y, c.y - b.y, d.y - c.y]);
      return bernsteinRoots(x.map((value, i) => value + y[i]!));
    }
  }
}
