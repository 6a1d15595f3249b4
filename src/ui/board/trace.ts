/** Paths of the drawing laid down on a canvas as what they are: straight lines, arcs, cubics. */
import type { Path } from "../../geometry/path.ts";
import { angleOf, distance, sub, type Vec } from "../../geometry/vec.ts";
import { toScreen, toScreenAngle, type Px, type View } from "./viewport.ts";

/** What is needed of a canvas to lay a path down. */
export type Tracer = Pick<CanvasRenderingContext2D, "moveTo" | "lineTo" | "arc" | "bezierCurveTo" | "closePath">;

/** Where a line of some width is crisp: a place in px moved to the nearest whole or half device pixel. */
export type Snap = (px: number) => number;

/**
 * The snap for lines `width` px wide at `ratio` device pixels a px: lines of an odd count of device pixels run through the middle of a
 * pixel, even ones between two.
 */
export function snapFor(width: number, ratio: number): Snap {
  const half = Math.max(1, Math.round(width * ratio)) % 2 === 1 ? 0.5 : 0;
  return (px) => (Math.round(px * ratio - half) + half) / ratio;
}

/** Beyond this a side counts as slanted and is left where it is. */
const UPRIGHT_MM = 1e-6;

/**
 * Lays `path` down. With `snap`, sides that run level or upright are moved to the device pixels (by half a pixel at most), so that they
 * are not smeared over two.
 */
export function tracePath(canvas: Tracer, path: Path, view: View, snap?: Snap): void {
  const places = snap ? snapped(path, view, snap) : [path.start, ...path.segments.map((s) => s.to)].map((p) => toScreen(view, p));
  const first = places[0]!;
  canvas.moveTo(first.x, first.y);
  let from = path.start;
  path.segments.forEach((s, i) => {
    const end = places[i + 1]!;
    if (s.kind === "line") canvas.lineTo(end.x, end.y);
    else if (s.kind === "cubic") {
      const a = toScreen(view, s.c1);
      const b = toScreen(view, s.c2);
      canvas.bezierCurveTo(a.x, a.y, b.x, b.y, end.x, end.y);
    } else {
      const c = toScreen(view, s.centre);
      const radius = distance(from, s.centre) * view.camera.pxPerMm;
      // y is turned over, so what runs counter-clockwise in the drawing does so on the screen too when its angles are negated.
      canvas.arc(
        c.x,
        c.y,
        radius,
        toScreenAngle(angleOf(sub(from, s.centre))),
        toScreenAngle(angleOf(sub(s.to, s.centre))),
        s.ccw,
      );
    }
    from = s.to;
  });
  if (path.closed) canvas.closePath();
}

function snapped(path: Path, view: View, snap: Snap): Px[] {
  const corners: Vec[] = [path.start, ...path.segments.map((s) => s.to)];
  const places = corners.map((p) => ({ ...toScreen(view, p) }));
  // A closed path ends at its start: one place for both, so that what moves one moves the other.
  if (path.closed) places[places.length - 1] = places[0]!;
  path.segments.forEach((s, i) => {
    if (s.kind !== "line") return;
    const a = corners[i]!;
    const b = corners[i + 1]!;
    const plain = toScreen(view, a);
    if (Math.abs(a.x - b.x) < UPRIGHT_MM) places[i]!.x = places[i + 1]!.x = snap(plain.x);
    if (Math.abs(a.y - b.y) < UPRIGHT_MM) places[i]!.y = places[i + 1]!.y = snap(plain.y);
  });
  return places;
}
