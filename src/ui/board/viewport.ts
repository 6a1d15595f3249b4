/**
 * The way between the drawing (mm, y up) and the board (px of the page, y down). The only place where y is turned over.
 */
import type { Bounds } from "../../geometry/bounds.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import type { Camera } from "../../store/session-store.ts";

/** A place on the board: px of the page from its upper left corner, y down. */
export interface Px {
  readonly x: number;
  readonly y: number;
}

/** A board of some size with a camera over it. */
export interface View {
  readonly camera: Camera;
  readonly width: number;
  readonly height: number;
}

/** A strip along each edge, px: what lies over the board there, or what is to be kept clear. */
export interface Edges {
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly left: number;
}

export const NO_EDGES: Edges = { top: 0, right: 0, bottom: 0, left: 0 };

/** How far the board zooms: a 20 m view on a small screen, and a hundredth of a millimetre five pixels wide. */
export const LEAST_PX_PER_MM = 0.05;
export const MOST_PX_PER_MM = 500;

const within = (pxPerMm: number): number => Math.min(MOST_PX_PER_MM, Math.max(LEAST_PX_PER_MM, pxPerMm));

export const toScreen = ({ camera, width, height }: View, p: Vec): Px => ({
  x: width / 2 + (p.x - camera.centre.x) * camera.pxPerMm,
  y: height / 2 - (p.y - camera.centre.y) * camera.pxPerMm,
});

export const toWorld = ({ camera, width, height }: View, at: Px): Vec =>
  vec(camera.centre.x + (at.x - width / 2) / camera.pxPerMm, camera.centre.y - (at.y - height / 2) / camera.pxPerMm);

/** The angle of a line on the board, px and clockwise as screens have it, for an angle of the drawing in radians. */
export const toScreenAngle = (angle: number): number => -angle;

/** What of the drawing can be seen, mm. */
export function seen(view: View): Bounds {
  const a = toWorld(view, { x: 0, y: view.height });
  const b = toWorld(view, { x: view.width, y: 0 });
  return { minX: a.x, minY: a.y, maxX: b.x, maxY: b.y };
}

/** The camera that puts the point `world` of the drawing at the place `at` of the board. */
function holding(view: View, world: Vec, at: Px, pxPerMm: number): Camera {
  return {
    centre: vec(world.x - (at.x - view.width / 2) / pxPerMm, world.y + (at.y - view.height / 2) / pxPerMm),
    pxPerMm,
  };
}

/** The camera zoomed by `factor` (above 1: nearer), within the board's limits; what is under `at` stays there. */
export const zoomed = (view: View, at: Px, factor: number): Camera =>
  holding(view, toWorld(view, at), at, within(view.camera.pxPerMm * factor));

/** The camera with the drawing moved by (dx, dy) px. */
export const panned = (view: View, dx: number, dy: number): Camera => ({
  centre: vec(view.camera.centre.x - dx / view.camera.pxPerMm, view.camera.centre.y + dy / view.camera.pxPerMm),
  pxPerMm: view.camera.pxPerMm,
});

/** The camera after two fingers have moved from `from` to `to`: zoomed by how far they parted, moved with their middle. */
export function pinched(view: View, from: readonly [Px, Px], to: readonly [Px, Px]): Camera {
  const apart = ([a, b]: readonly [Px, Px]): number => Math.max(1, Math.hypot(a.x - b.x, a.y - b.y));
  const middle = ([a, b]: readonly [Px, Px]): Px => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });
  const pxPerMm = within((view.camera.pxPerMm * apart(to)) / apart(from));
  return holding(view, toWorld(view, middle(from)), middle(to), pxPerMm);
}

/** The camera that looks at `p` from where it is. */
export const lookingAt = (camera: Camera, p: Vec): Camera => ({ centre: p, pxPerMm: camera.pxPerMm });

/** The camera that shows all of `box` in the middle of what `clear` leaves of the board. A box without size is shown at 4 px a mm. */
export function fitted(box: Bounds, size: { readonly width: number; readonly height: number }, clear: Edges): Camera {
  const room = {
    width: Math.max(40, size.width - clear.left - clear.right),
    height: Math.max(40, size.height - clear.top - clear.bottom),
  };
  const wide = box.maxX - box.minX;
  const high = box.maxY - box.minY;
  const pxPerMm = wide > 0 || high > 0 ? within(Math.min(room.width / wide, room.height / high)) : 4;
  const camera: Camera = { centre: vec((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2), pxPerMm };
  return panned({ camera, ...size }, (clear.left - clear.right) / 2, (clear.top - clear.bottom) / 2);
}
