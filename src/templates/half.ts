/** Drawings cut in half along their centre line, and turned over. */
import type { Drawing, Layer, Shape } from "../drawing/drawing.ts";
import { moveLayer } from "../drawing/move.ts";
import { intersectPaths } from "../geometry/intersect.ts";
import { pathsBounds } from "../geometry/measure.ts";
import { pathsOf } from "../geometry/outline.ts";
import { line, segmentPath, type Path } from "../geometry/path.ts";
import { partOf, piecesOf, pointAt, type Piece } from "../geometry/segment.ts";
import { mirroring } from "../geometry/transform.ts";
import { add, distance, scale, sub, vec, type Vec } from "../geometry/vec.ts";
import { alongLine, asOutline, besideLine, type CentreLine } from "./edge.ts";

/** Points nearer to each other than this are one, mm. */
const ONE = 1e-6;

/**
 * The part of the drawing on one side of its centre line, closed shapes closed along it, the centre line itself kept. Undefined where the
 * line only touches a shape's edge, so that nobody can tell the halves apart.
 */
export function halfOf(drawing: Drawing, centre: CentreLine, side: "left" | "right"): Drawing | undefined {
  const sign = side === "left" ? 1 : -1;
  let fails = false;
  const layers = drawing.layers.map((layer): Layer => {
    const shapes = layer.shapes.flatMap((shape): Shape[] => {
      if (shape.role === "centre" && liesOn(shape.path, centre)) return [shape];
      const halved = shape.path.closed
        ? halfLoops(pathsOf(asOutline(shape)), centre, sign)
        : openRuns(shape.path, centre, sign).map((path) => ({ path, holes: [] }));
      if (!halved) fails = true;
      return (halved ?? []).map(({ path, holes }, i) => {
        const { holes: _, ...rest } = shape;
        return { ...rest, id: i === 0 ? shape.id : `${shape.id}-${i + 1}`, path, ...(holes.length > 0 ? { holes } : {}) };
      });
    });
    return { ...layer, shapes, texts: (layer.texts ?? []).filter(({ at }) => besideLine(centre, at) * sign >= 0) };
  });
  return fails ? undefined : { ...drawing, layers };
}

const liesOn = (path: Path, centre: CentreLine): boolean =>
  [path.start, ...path.segments.map(({ to }) => to)].every((p) => Math.abs(besideLine(centre, p)) < ONE);

/** The centre line carried on beyond everything that is halved. */
function cutter(paths: readonly Path[], { from, way }: CentreLine): Path {
  const { minX, minY, maxX, maxY } = pathsBounds(paths);
  const reach = distance(from, vec((minX + maxX) / 2, (minY + maxY) / 2)) + Math.hypot(maxX - minX, maxY - minY) + 1;
  return segmentPath(sub(from, scale(way, reach)), add(from, scale(way, reach)));
}

/** A run of pieces on the wanted side. */
interface Run {
  readonly pieces: readonly Piece[];
  readonly start: Vec;
  readonly end: Vec;
}

/** The path in runs on the wanted side; a closed path wholly on it is one run that ends where it starts. */
function runsOf(path: Path, centre: CentreLine, sign: number): Run[] {
  const cuts = intersectPaths(path, cutter([path], centre));
  const parts = piecesOf(path).flatMap((piece, index) => {
    const ts = cuts.filter((cut) => cut.first === index && cut.s > 1e-9 && cut.s < 1 - 1e-9).map((cut) => cut.s);
    const bounds = [0, ...ts.toSorted((a, b) => a - b), 1];
    return bounds.slice(1).map((t1, i) => partOf(piece, bounds[i]!, t1));
  });
  const wanted = parts.map((part) => besideLine(centre, pointAt(part, 0.5)) * sign > ONE);
  const from = path.closed ? wanted.findIndex((on, i) => on && !wanted[(i + wanted.length - 1) % wanted.length]) : 0;
  if (from < 0) return wanted[0] ? [runOf(parts)] : [];
  const runs: Run[] = [];
  let pieces: Piece[] = [];
  for (let k = 0; k <= parts.length; k++) {
    const i = (from + k) % parts.length;
    if (k < parts.length && wanted[i]) pieces.push(parts[i]!);
    else if (pieces.length > 0) {
      runs.push(runOf(pieces));
      pieces = [];
    }
  }
  return runs;
}

const runOf = (pieces: readonly Piece[]): Run => ({
  pieces,
  start: pieces[0]!.from,
  end: pieces.at(-1)!.segment.to,
});

const openRuns = (path: Path, centre: CentreLine, sign: number): Path[] =>
  runsOf(path, centre, sign).map(({ start, pieces }) => ({
    start,
    segments: pieces.map((piece) => piece.segment),
    closed: false,
  }));

/** An outline's loops cut along the line and closed again along it; undefined where the ends on the line do not pair. */
function halfLoops(
  loops: readonly Path[],
  centre: CentreLine,
  sign: number,
): { readonly path: Path; readonly holes: readonly Path[] }[] | undefined {
  const whole: Path[] = [];
  const runs: Run[] = [];
  for (const [i, loop] of loops.entries()) {
    for (const run of runsOf(loop, centre, sign)) {
      if (distance(run.start, run.end) > ONE) runs.push(run);
      else if (i > 0) whole.push(loop);
      else return [{ path: loop, holes: loops.slice(1) }];
    }
  }
  // Along the line the inside lies between the first end and the second, the third and the fourth.
  const ends = runs
    .flatMap((run) => [
      { run, first: true, along: alongLine(centre, run.start) },
      { run, first: false, along: alongLine(centre, run.end) },
    ])
    .toSorted((a, b) => a.along - b.along);
  const partner = (run: Run): Run | undefined => {
    const at = ends.findIndex((end) => end.run === run && !end.first);
    const other = ends[at % 2 === 0 ? at + 1 : at - 1];
    return other?.first ? other.run : undefined;
  };
  const left = new Set(runs);
  const closed: Path[] = [];
  for (const first of runs) {
    if (!left.has(first)) continue;
    const segments: Path["segments"][number][] = [];
    let run: Run | undefined = first;
    while (run && left.delete(run)) {
      const next = partner(run);
      if (!next) return undefined;
      segments.push(...run.pieces.map((piece) => piece.segment), line(next.start));
      run = next;
    }
    if (run !== first) return undefined;
    closed.push({ start: first.start, segments, closed: true });
  }
  return closed.map((path, i) => ({ path, holes: i === 0 ? whole : [] }));
}

/** The drawing turned over about the line; lettering keeps its place and stays readable. */
export const mirrorDrawing = ({ layers }: Drawing, { from, way }: Pick<CentreLine, "from" | "way">): Drawing => ({
  dimensions: [],
  layers: layers.map((layer) => moveLayer(mirroring(from, way), layer)),
});
