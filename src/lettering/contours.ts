import { cubic, line, type Path, type Segment } from "../geometry/path.ts";
import { lerp, vec, type Vec } from "../geometry/vec.ts";
import type { Command } from "./font-library.ts";
import { Damage } from "./trouble.ts";

/** Furthest that a point of an outline may stand from the origin, in ems. The widest letters of any script come to about 15. */
const FURTHEST_EMS = 100;

/**
 * Drawing commands as closed paths, moved by `shift` along x, font units. Quadratic curves become the cubics that are the same curves: their
 * handles stand two thirds of the way to the quadratic's. Sides of no length and contours of fewer than two sides are left out. Throws
 * `Damage` where a number is no number or far off the em.
 */
export function contoursOf(commands: readonly Command[], unitsPerEm: number, shift: number): Path[] {
  const paths: Path[] = [];
  let start: Vec | undefined;
  let at = vec(0, 0);
  let segments: Segment[] = [];
  const point = (x: number, y: number): Vec => {
    if (!(Math.hypot(x, y) <= FURTHEST_EMS * unitsPerEm)) throw new Damage("a letter reaches beyond all measure");
    return vec(x + shift, y);
  };
  const lineTo = (to: Vec): void => {
    if (to.x !== at.x || to.y !== at.y) segments.push(line(to));
    at = to;
  };
  const curveTo = (c1: Vec, c2: Vec, to: Vec): void => {
    if ([c1, c2, to].some((p) => p.x !== at.x || p.y !== at.y)) segments.push(cubic(c1, c2, to));
    at = to;
  };
  const close = (): void => {
    if (!start) return;
    lineTo(start);
    if (segments.length > 1) paths.push({ start, segments, closed: true });
    start = undefined;
    segments = [];
  };
  for (const command of commands) {
    if (command.type === "M") {
      close();
      at = point(command.x, command.y);
      start = at;
    } else if (command.type === "Z") close();
    else if (!start) throw new Damage("an outline starts nowhere");
    else if (command.type === "L") lineTo(point(command.x, command.y));
    else if (command.type === "Q") {
      const handle = point(command.x1, command.y1);
      const to = point(command.x, command.y);
      curveTo(lerp(at, handle, 2 / 3), lerp(to, handle, 2 / 3), to);
    } else curveTo(point(command.x1, command.y1), point(command.x2, command.y2), point(command.x, command.y));
  }
  close();
  return paths;
}
