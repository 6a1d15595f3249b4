/**
 * The saddle's top edge: for each string, how high it must stand over the fret plane carried on to the saddle.
 *
 *   height(y) = string over frets at the saddle - (R - sqrt(R² - y²)),  R the board's radius carried on to the saddle
 * The arch is that of the board's own cone carried on, so a string that runs up the cone keeps the action asked for all along
 * it; one that runs across it loses about (y_saddle - y_nut)² / 8R at fret 12, 0.03 mm on a usual guitar. Source: geometry of
 * the circle and the cone.
 */
import { fallOver } from "./board-radius.ts";
import { stringOverFrets } from "./neck-pitch.ts";

/** One string at the saddle: its place across, its own height over fret 12 and in the nut, mm. */
export interface StringAtSaddle {
  readonly y: number;
  readonly actionAt12: number;
  readonly nutHeight: number;
  /** Where its saddle stands, mm from the nut. */
  readonly x: number;
  /** Its scale length, mm. */
  readonly scale: number;
}

/** Height (mm) of the saddle under a string over the fret plane on the centre line; radius undefined for a flat board. */
export function saddleTop(string: StringAtSaddle, radius: number | undefined): number {
  if (!(string.scale > 0) || !Number.isFinite(string.x + string.y + string.actionAt12 + string.nutHeight)) {
    throw new RangeError("saddleTop: the string must be given by numbers, its scale above 0");
  }
  if (radius !== undefined && !(radius > Math.abs(string.y))) throw new RangeError("saddleTop: the string lies beyond the arch");
  return stringOverFrets(string, string.x) - fallOver(radius, 2 * string.y);
}
