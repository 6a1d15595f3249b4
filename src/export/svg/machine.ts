/** Drawings made ready for machines: lines that meet joined, one sense of running for all, what lies inside before what lies around it. */
import type { Drawing, Layer, Role, Shape } from "../../drawing/drawing.ts";
import { moveLayer } from "../../drawing/move.ts";
import { pathArea } from "../../geometry/measure.ts";
import { regionOf } from "../../geometry/outline.ts";
import { endOf, type Path } from "../../geometry/path.ts";
import { isInRegion } from "../../geometry/region.ts";
import { piecesOf, pointAt, reversePath } from "../../geometry/segment.ts";
import { translation } from "../../geometry/transform.ts";
import { distance, type Vec } from "../../geometry/vec.ts";
import type { Template } from "../../templates/template.ts";

/** What the order and the sense of running mean, for the file's description. */
export const ORDER_SAID =
  "Cuts stand in their order: what lies inside another comes before it. Outer edges run counter-clockwise as seen, edges of holes in them clockwise; circles have no direction.";

const CUTS: ReadonlySet<Role> = new Set(["cut", "pocket", "plug", "drill", "slot"]);
const isCut = ({ role }: Shape): boolean => CUTS.has(role);

/** Ends nearer to each other than this are one, mm: a tenth of what files promise. */
const MEET = 0.001;

/** The drawing with its cuts joined, turned and in order; what is not cut keeps its place before them. */
export function forMachine(drawing: Drawing): Drawing {
  const layers = drawing.layers.map((layer) => ({ ...layer, shapes: joined(layer.shapes).map(turned) }));
  const depthOf = depths(layers.flatMap(({ shapes }) => shapes));
  const ordered = layers.map((layer): Layer => {
    const cuts = layer.shapes.filter(isCut).toSorted((a, b) => depthOf(b) - depthOf(a));
    return { ...layer, shapes: [...layer.shapes.filter((shape) => !isCut(shape)), ...cuts] };
  });
  // A layer's own place is that of its outermost cut.
  const place = ({ shapes }: Layer): number => Math.min(Infinity, ...shapes.filter(isCut).map(depthOf));
  return { dimensions: [], layers: ordered.toSorted((a, b) => (place(a) === place(b) ? 0 : place(b) - place(a))) };
}

type Passes = NonNullable<Template["passes"]>;

/** The drawing with the ways of the cutters that clear its recess, a layer a cutter: `passes-first`. They are run along, no edges. */
export function withPasses(drawing: Drawing, passes: Passes): Drawing {
  const layers = passes.map(({ name, diameter, paths }): Layer => ({
    name: `passes-${name}`,
    shapes: paths.map((path, i) => ({
      id: `pass-${name}-${i + 1}`,
      role: "guide",
      line: "narrow",
      path,
      name: `pass ${i + 1} of a ${diameter} mm cutter`,
    })),
  }));
  return { ...drawing, layers: [...layers, ...drawing.layers] };
}

/** What the layers of passes mean, for the file's description; empty where there are none. */
export const passesSaid = (passes: Passes): string =>
  passes
    .map(({ name, diameter, paths }) => {
      const ways = paths.length === 1 ? "1 way" : `${paths.length} ways`;
      return `Layer passes-${name}: ${ways} of the centre of a ${diameter} mm cutter, in order, that clear the recess before its edge is cut.`;
    })
    .join(" ");

/** How many closed cuts a cut lies in; one that runs out over an edge, as a slot may, lies in it. */
function depths(shapes: readonly Shape[]): (shape: Shape) => number {
  const cuts = shapes.filter(isCut);
  const closed = cuts
    .filter(({ path }) => path.closed)
    .map((shape) => ({ shape, region: regionOf([shape.path], 0.01), area: Math.abs(pathArea(shape.path)) }));
  const known = new Map(
    cuts.map((shape) => {
      const area = shape.path.closed ? Math.abs(pathArea(shape.path)) : 0;
      const around = closed.filter(
        (other) => other.shape !== shape && other.area > area && middles(shape.path).some((p) => isInRegion(other.region, p)),
      );
      return [shape, around.length] as const;
    }),
  );
  return (shape) => known.get(shape) ?? 0;
}

/** Points of the path that are no ends of it, since a slot may begin on the edge that it lies in. */
const middles = (path: Path): Vec[] => piecesOf(path).map((piece) => pointAt(piece, 0.5));

/** Open cuts of one role and line that meet end to end, joined into one, closed where the ends meet. Slots stay single saw cuts. */
function joined(shapes: readonly Shape[]): Shape[] {
  const done: Shape[] = [];
  const left = new Set(shapes);
  for (const shape of shapes) {
    if (!left.delete(shape)) continue;
    let { path } = shape;
    if (isCut(shape) && shape.role !== "slot" && !path.closed) {
      for (;;) {
        if (distance(path.start, endOf(path)) <= MEET && path.segments.length > 1) {
          path = closedUp(path);
          break;
        }
        const next = [...left].find((other) => isAlike(shape, other) && meets(path, other.path));
        if (!next) break;
        left.delete(next);
        path = chained(path, next.path);
      }
    }
    done.push(path === shape.path ? shape : { ...shape, path });
  }
  return done;
}

const isAlike = (a: Shape, b: Shape): boolean => a.role === b.role && a.line === b.line && !b.path.closed;

const meets = (a: Path, b: Path): boolean =>
  [a.start, endOf(a)].some((p) => [b.start, endOf(b)].some((q) => distance(p, q) <= MEET));

/** `b` set to whichever end of `a` it meets, either way round. */
function chained(a: Path, b: Path): Path {
  const toEnd = (p: Vec): boolean => distance(endOf(a), p) <= MEET;
  if (toEnd(b.start)) return linked(a, b);
  if (toEnd(endOf(b))) return linked(a, reversePath(b));
  return distance(a.start, endOf(b)) <= MEET ? linked(b, a) : linked(reversePath(b), a);
}

const linked = (a: Path, b: Path): Path => ({ start: a.start, segments: [...a.segments, ...b.segments], closed: false });

function closedUp(path: Path): Path {
  const last = path.segments.at(-1)!;
  return { start: path.start, segments: [...path.segments.slice(0, -1), { ...last, to: path.start }], closed: true };
}

/** Closed cuts counter-clockwise, the holes in them clockwise. */
function turned(shape: Shape): Shape {
  if (!isCut(shape) || !shape.path.closed) return shape;
  const run = (path: Path, sign: 1 | -1): Path => (Math.sign(pathArea(path)) === -sign ? reversePath(path) : path);
  return {
    ...shape,
    path: run(shape.path, 1),
    ...(shape.holes ? { holes: shape.holes.map((hole) => run(hole, -1)) } : {}),
  };
}

/** Drawings side by side in rows, each of its own name: layers `<name>/<layer>`. */
export function sideBySide(
  drawings: readonly { readonly name: string; readonly drawing: Drawing; readonly box: Box }[],
): Drawing {
  const width = Math.max(LEAST_ROW, ...drawings.map(({ box }) => box.maxX - box.minX));
  let [x, y, deep] = [0, 0, 0];
  const layers = drawings.flatMap(({ name, drawing, box }): Layer[] => {
    const [wide, high] = [box.maxX - box.minX, box.maxY - box.minY];
    if (x > 0 && x + wide > width) {
      y -= deep + APART;
      [x, deep] = [0, 0];
    }
    const shift = { x: x - box.minX, y: y - box.maxY };
    x += wide + APART;
    deep = Math.max(deep, high);
    return drawing.layers.map((layer) => moved(layer, name, shift));
  });
  return { layers, dimensions: [] };
}

interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Between drawings, mm: room for a cutter to pass. */
const APART = 20;
/** Rows are at least this wide, mm. */
const LEAST_ROW = 600;

function moved(layer: Layer, owner: string, shift: Vec): Layer {
  const { name, shapes, texts = [] } = moveLayer(translation(shift), layer);
  const owned = <T extends { readonly id: string }>(one: T): T => ({ ...one, id: `${owner}-${one.id}` });
  return { name: `${owner}/${name}`, shapes: shapes.map(owned), texts: texts.map(owned) };
}
