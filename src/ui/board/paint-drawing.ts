/** The drawing on the canvas: tinted areas, hatching, lines, words. px of the page; y is turned over by the viewport alone. */
import type { Shape, Text } from "../../drawing/drawing.ts";
import { boundsMeet, growBounds, type Bounds } from "../../geometry/bounds.ts";
import type { Path } from "../../geometry/path.ts";
import type { Colours } from "./colours.ts";
import { penFor, type Pen } from "./line-types.ts";
import { paintText } from "./paint-text.ts";
import type { Indexed, ShapeIndex } from "./shape-index.ts";
import { snapFor, tracePath } from "./trace.ts";
import { seen, toScreen, type View } from "./viewport.ts";

export type Canvas = CanvasRenderingContext2D;

const HATCH_PX = 7;
/** Width of the edge round what is lost or added. */
const SLIVER_PX = 2.5;
/** Paths in one stroke. Far more in one are slower by twenty times without a graphics card, since its edges are then sorted together. */
const AT_ONCE = 40;

export function paintDrawing(
  canvas: Canvas,
  index: ShapeIndex,
  texts: readonly Text[],
  view: View,
  colours: Colours,
  ratio: number,
): void {
  const sight = growBounds(seen(view), 4 / view.camera.pxPerMm);
  for (const layer of index.layers) {
    const shapes = layer.shapes.filter((one) => boundsMeet(one.bounds, sight));
    for (const one of shapes) if (one.shape.tint) paintTint(canvas, one, sight, view, colours);
    paintLines(
      canvas,
      shapes.map((one) => one.shape).filter(({ tint }) => tint !== "lost" && tint !== "added"),
      view,
      colours,
      ratio,
    );
  }
  for (const text of texts) if (!text.loud) paintText(canvas, text, view, colours);
}

/** The signs and words of stops, to be painted over everything else. */
export function paintStops(
  canvas: Canvas,
  index: ShapeIndex,
  texts: readonly Text[],
  view: View,
  colours: Colours,
  ratio: number,
): void {
  const sight = growBounds(seen(view), 4 / view.camera.pxPerMm);
  const stops = index.all.filter(({ shape, bounds }) => shape.tint === "stop" && boundsMeet(bounds, sight));
  for (const one of stops) paintTint(canvas, one, sight, view, colours);
  paintLines(
    canvas,
    stops.map(({ shape }) => shape),
    view,
    colours,
    ratio,
  );
  for (const text of texts) if (text.loud) paintText(canvas, text, view, colours);
}

const pathsOf = (shape: Shape): readonly Path[] => [shape.path, ...(shape.holes ?? [])];

function paintTint(canvas: Canvas, { shape, bounds }: Indexed, sight: Bounds, view: View, colours: Colours): void {
  canvas.beginPath();
  for (const path of pathsOf(shape)) tracePath(canvas, path, view);
  const { fill, lines, way, edge } = tintOf(shape.tint, colours);
  if (fill !== undefined) {
    canvas.fillStyle = fill;
    canvas.fill("evenodd");
  }
  if (lines === undefined) return;
  canvas.save();
  canvas.clip("evenodd");
  hatch(canvas, bounds, sight, view, lines, way);
  canvas.restore();
  if (edge === undefined) return;
  // Slivers thinner than a pixel must be seen all the same.
  canvas.beginPath();
  for (const path of pathsOf(shape)) tracePath(canvas, path, view);
  canvas.strokeStyle = edge;
  canvas.lineWidth = SLIVER_PX;
  canvas.setLineDash([]);
  canvas.stroke();
}

interface Tint {
  readonly fill?: string;
  readonly lines?: string;
  readonly way?: "rising" | "falling";
  readonly edge?: string;
}

function tintOf(tint: Shape["tint"], colours: Colours): Tint {
  switch (tint) {
    case "waste":
      return { lines: colours.waste };
    case "lost":
    case "stop":
      return { fill: colours.lost, lines: colours.sheet, edge: colours.lost };
    case "added":
      return { fill: colours.addedWash, lines: colours.added, way: "falling", edge: colours.added };
    case "inlay":
      return { fill: colours.inlay };
    default:
      return { fill: colours.wood };
  }
}

/** Lines at 45 degrees over what is seen of the box. They lie fast on the drawing, so that they do not swim while it is moved. */
function hatch(
  canvas: Canvas,
  bounds: Bounds,
  sight: Bounds,
  view: View,
  colour: string,
  way: "rising" | "falling" = "rising",
): void {
  const a = toScreen(view, { x: Math.max(bounds.minX, sight.minX), y: Math.min(bounds.maxY, sight.maxY) });
  const b = toScreen(view, { x: Math.min(bounds.maxX, sight.maxX), y: Math.max(bounds.minY, sight.minY) });
  const origin = toScreen(view, { x: 0, y: 0 });
  const step = HATCH_PX * Math.SQRT2;
  const high = b.y - a.y;
  canvas.beginPath();
  if (way === "rising") {
    const first = a.x + a.y - ((((a.x + a.y - origin.x - origin.y) % step) + step) % step);
    for (let sum = first; sum <= b.x + b.y; sum += step) {
      canvas.moveTo(sum - a.y, a.y);
      canvas.lineTo(sum - a.y - high, b.y);
    }
  } else {
    const least = a.x - b.y;
    const first = least - ((((least - origin.x + origin.y) % step) + step) % step);
    for (let gap = first; gap <= b.x - a.y; gap += step) {
      canvas.moveTo(gap + a.y, a.y);
      canvas.lineTo(gap + b.y, b.y);
    }
  }
  canvas.strokeStyle = colour;
  canvas.lineWidth = 1;
  canvas.setLineDash([]);
  canvas.stroke();
}

/** Strokes shapes that share a pen together. */
function paintLines(canvas: Canvas, shapes: readonly Shape[], view: View, colours: Colours, ratio: number): void {
  const byPen = new Map<string, { readonly pen: Pen; readonly paths: Path[] }>();
  for (const shape of shapes) {
    const key = `${shape.line} ${shape.role === "guide"}`;
    const group = byPen.get(key) ?? { pen: penFor(shape, view.camera.pxPerMm), paths: [] };
    group.paths.push(...pathsOf(shape));
    byPen.set(key, group);
  }
  for (const { pen, paths } of byPen.values()) strokePaths(canvas, paths, pen, colours[pen.ink], view, ratio);
}

/** Strokes paths with one pen. */
export function strokePaths(
  canvas: Canvas,
  paths: readonly Path[],
  pen: Pick<Pen, "width" | "dash">,
  colour: string,
  view: View,
  ratio: number,
): void {
  const width = Math.max(1, Math.round(pen.width * ratio)) / ratio;
  const snap = snapFor(width, ratio);
  canvas.strokeStyle = colour;
  canvas.lineWidth = width;
  canvas.lineJoin = "round";
  canvas.lineCap = "butt";
  canvas.setLineDash([...pen.dash]);
  for (let i = 0; i < paths.length; i += AT_ONCE) {
    canvas.beginPath();
    for (const path of paths.slice(i, i + AT_ONCE)) tracePath(canvas, path, view, snap);
    canvas.stroke();
  }
  canvas.setLineDash([]);
}
