/** The check bars: 100 mm and 4 in, across and along the sheet, with room to note what they measure once the paper is glued down. */
import { SMALL, type Pen } from "./pen.ts";
import { textWidth } from "../lettering.ts";

/** A bar of 4 in is 101.6 mm. */
const FOUR_INCHES = 101.6;
export const INCH = FOUR_INCHES / 4;

/** Room that a pair of bars takes: along its length and across, mm. */
export const BARS_LENGTH = FOUR_INCHES + 3;
export const BARS_DEPTH = 11;

/** Where the bars begin within their room. */
const BEGIN = 1.5;

/**
 * Both bars with their zero at one line, within the room whose lower left corner is (x, y): lying, or standing with its scale read from the
 * right. The bars themselves are single lines of exactly 100 mm and 101.6 mm.
 */
export function drawBars(pen: Pen, x: number, y: number, way: "across" | "along"): void {
  pen.layer("check-bars");
  // u runs along the bars, v across them.
  const [px, py] =
    way === "across"
      ? [(u: number, _v: number) => x + u, (_u: number, v: number) => y + v]
      : [(_u: number, v: number) => x + BARS_DEPTH - v, (u: number, _v: number) => y + u];
  const line = (u0: number, v0: number, u1: number, v1: number, name: string): void =>
    pen.line(px(u0, v0), py(u0, v0), px(u1, v1), py(u1, v1), "narrow", name);
  const text = (u: number, v: number, said: string, align: "start" | "middle" | "end", strong = false): void =>
    pen.text(px(u, v), py(u, v), said, SMALL, { align, upward: way === "along", strong });

  const [metric, inch] = [6, 4.8];
  line(BEGIN, metric, BEGIN + 100, metric, `100 mm ${way}`);
  line(BEGIN, inch, BEGIN + FOUR_INCHES, inch, `4 in ${way}`);
  for (let mm = 0; mm <= 100; mm += 10) line(BEGIN + mm, metric, BEGIN + mm, metric + (mm % 50 === 0 ? 2.4 : 1.2), `${mm} mm`);
  for (let half = 0; half <= 8; half++)
    line(BEGIN + (half * INCH) / 2, inch, BEGIN + (half * INCH) / 2, inch - (half % 2 === 0 ? 2.4 : 1.2), `${half / 2} in`);
  const [above, below] = [metric + 3, inch - 3 - SMALL];
  text(BEGIN, above, "0", "middle", true);
  text(BEGIN + 50, above, "50", "middle");
  text(BEGIN + 100, above, "100 mm", "end", true);
  for (let n = 1; n < 4; n++) text(BEGIN + n * INCH, below, String(n), "middle");
  text(BEGIN + FOUR_INCHES, below, "4 in", "end", true);
  const note = "glued down:";
  text(BEGIN + 4, above, note, "start");
  line(BEGIN + 5 + textWidth(note, SMALL), above - 0.4, BEGIN + 46, above - 0.4, "note");
}
