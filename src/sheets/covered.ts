/** Lines that lie under wood drawn over them are left out, as a pen would leave them out. */
import type { Drawing, Layer, Shape } from "../drawing/drawing.ts";
import { boundsMeet, type Bounds } from "../geometry/bounds.ts";
import { intersectPieces } from "../geometry/intersect.ts";
import { pathBounds } from "../geometry/measure.ts";
import type { Path } from "../geometry/path.ts";
import { partOf, pieceBounds, piecesOf, pointAt, type Piece } from "../geometry/segment.ts";
import { pathWinding } from "../geometry/winding.ts";

interface Cover {
  readonly path: Path;
  readonly pieces: readonly { readonly piece: Piece; readonly box: Bounds }[];
  readonly box: Bounds;
  readonly layer: number;
}

/** Bits of a line shorter than this share of a segment are none. */
const LEAST = 1e-6;

/** The same drawing without what later layers' wood covers. Dashed lines stand for what is behind wood, and stay. */
export function withoutCovered(drawing: Drawing): Drawing {
  const covers = drawing.layers.flatMap((layer, i) =>
    layer.shapes.filter(({ tint, path }) => tint === "wood" && path.closed).map(({ path }) => coverOf(path, i)),
  );
  return {
    ...drawing,
    layers: drawing.layers.map((layer, i) =>
      seen(
        layer,
        covers.filter((cover) => cover.layer > i),
      ),
    ),
  };
}

const coverOf = (path: Path, layer: number): Cover => ({
  path,
  pieces: piecesOf(path).map((piece) => ({ piece, box: pieceBounds(piece) })),
  box: pathBounds(path),
  layer,
});

const seen = (layer: Layer, covers: readonly Cover[]): Layer => ({
  ...layer,
  shapes: layer.shapes.flatMap((shape): Shape[] => {
    if (shape.line === "hidden" || shape.line === "centre") return [shape];
    const box = pathBounds(shape.path);
    const over = covers.filter((cover) => boundsMeet(box, cover.box));
    if (over.length === 0) return [shape];
    return runsOutside(shape.path, over).map((path, k) => ({ ...shape, id: `${shape.id}-${k + 1}`, path }));
  }),
});

/** The stretches of a path that lie in no cover. */
function runsOutside(path: Path, covers: readonly Cover[]): Path[] {
  const runs: { start: Piece["from"]; segments: Piece["segment"][] }[] = [];
  let open = false;
  for (const piece of piecesOf(path)) {
    const box = pieceBounds(piece);
    const cuts = covers
      .flatMap((cover) => cover.pieces.filter((other) => boundsMeet(box, other.box)))
      .flatMap((other) => intersectPieces(piece, other.piece).map(({ s }) => s))
      .toSorted((a, b) => a - b);
    const ends = [0, ...cuts, 1];
    for (let i = 1; i < ends.length; i++) {
      const [t0, t1] = [ends[i - 1]!, ends[i]!];
      if (t1 - t0 <= LEAST) continue;
      const middle = pointAt(piece, (t0 + t1) / 2);
      if (covers.some((cover) => pathWinding(cover.path, middle) !== 0)) {
        open = false;
        continue;
      }
      const part = partOf(piece, t0, t1);
      if (open) runs.at(-1)!.segments.push(part.segment);
      else runs.push({ start: part.from, segments: [part.segment] });
      open = true;
    }
  }
  return runs.map(({ start, segments }) => ({ start, segments, closed: false }));
}
