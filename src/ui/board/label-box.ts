/** Boxes that stand at an angle on the board, and whether they meet each other, a line, or the edge. px, y down. */
import type { Px } from "./viewport.ts";

export interface LabelBox {
  readonly centre: Px;
  readonly width: number;
  readonly height: number;
  /** Radians, clockwise as seen on the screen. */
  readonly angle: number;
}

/** An upright rectangle of the board. */
export interface Room {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export type Stroke = readonly [Px, Px];

export function cornersOf({ centre, width, height, angle }: LabelBox): Px[] {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([i, j]) => {
    const x = (i! * width) / 2;
    const y = (j! * height) / 2;
    return { x: centre.x + x * c - y * s, y: centre.y + x * s + y * c };
  });
}

/** The box grown by `margin` px on every side. */
export const grown = (box: LabelBox, margin: number): LabelBox => ({
  ...box,
  width: box.width + 2 * margin,
  height: box.height + 2 * margin,
});

/** Half the diagonal: nothing of the box is further from its centre. */
const reachOf = ({ width, height }: LabelBox): number => Math.hypot(width, height) / 2;

/** True where two boxes share more than an edge. */
export function boxesMeet(a: LabelBox, b: LabelBox): boolean {
  if (Math.hypot(a.centre.x - b.centre.x, a.centre.y - b.centre.y) >= reachOf(a) + reachOf(b)) return false;
  return !parted(cornersOf(a), cornersOf(b), [a.angle, b.angle]);
}

/** True where the line runs through the box. */
export function strokeMeets(box: LabelBox, [a, b]: Stroke): boolean {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const square = dx * dx + dy * dy;
  const { x, y } = box.centre;
  const t = square > 0 ? Math.min(1, Math.max(0, ((x - a.x) * dx + (y - a.y) * dy) / square)) : 0;
  if (Math.hypot(x - a.x - t * dx, y - a.y - t * dy) >= reachOf(box)) return false;
  return !parted(cornersOf(box), [a, b], [box.angle, Math.atan2(dy, dx)]);
}

export const boxInside = (box: LabelBox, room: Room): boolean =>
  cornersOf(box).every((p) => p.x >= room.left && p.x <= room.right && p.y >= room.top && p.y <= room.bottom);

/** Two convex shapes are apart if they are so along one of their sides' directions or square to one (separating axes). */
function parted(a: readonly Px[], b: readonly Px[], angles: readonly number[]): boolean {
  return angles
    .flatMap((angle) => [angle, angle + Math.PI / 2])
    .some((angle) => {
      const c = Math.cos(angle);
      const s = Math.sin(angle);
      const spread = (points: readonly Px[]): [number, number] => {
        const along = points.map((p) => p.x * c + p.y * s);
        return [Math.min(...along), Math.max(...along)];
      };
      const [a0, a1] = spread(a);
      const [b0, b1] = spread(b);
      return a1 <= b0 + 1e-9 || b1 <= a0 + 1e-9;
    });
}

/** The part of the line inside the room (Liang and Barsky's clipping); undefined where none is. */
export function clipped([a, b]: Stroke, room: Room): Stroke | undefined {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  let from = 0;
  let to = 1;
  for (const [step, gap] of [
    [-dx, a.x - room.left],
    [dx, room.right - a.x],
    [-dy, a.y - room.top],
    [dy, room.bottom - a.y],
  ] as const) {
    if (step === 0) {
      if (gap < 0) return undefined;
    } else if (step < 0) from = Math.max(from, gap / step);
    else to = Math.min(to, gap / step);
  }
  if (from > to) return undefined;
  return [
    { x: a.x + from * dx, y: a.y + from * dy },
    { x: a.x + to * dx, y: a.y + to * dy },
  ];
}
