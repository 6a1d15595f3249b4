/**
 * What a round cutter does in a sharp corner of an angle, by plane geometry of a circle that touches both sides. Lengths in mm, areas in mm2,
 * angles in radians, above 0 and below a half turn.
 */

/** From the corner's tip to the nearest that a cutter of `radius` reaches: r (1 / sin(angle / 2) - 1). */
export const cornerTip = (radius: number, angle: number): number => radius * (1 / Math.sin(checked(angle) / 2) - 1);

/** Area between the tip and the circle: r^2 (1 / tan(angle / 2) - (pi - angle) / 2). */
export const cornerArea = (radius: number, angle: number): number =>
  radius ** 2 * (1 / Math.tan(checked(angle) / 2) - (Math.PI - angle) / 2);

/**
 * The gap on the corner's bisector between a pocket rounded by `pocketRadius` and a piece rounded by `pieceRadius` (0 for sharp) whose sides
 * stand off by `gap`: g / sin + (B - A)(1 / sin - 1), sin of half the angle. Below 0 the piece jams by so much.
 */
export function cornerGap(pocketRadius: number, pieceRadius: number, gap: number, angle: number): number {
  const sine = Math.sin(checked(angle) / 2);
  return gap / sine + (pieceRadius - pocketRadius) * (1 / sine - 1);
}

function checked(angle: number): number {
  if (!(angle > 0 && angle < Math.PI)) throw new RangeError("corner: the angle lies between none and a half turn");
  return angle;
}
