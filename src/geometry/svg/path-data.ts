/**
 * SVG path data: every command, absolute and relative, with the compact ways of writing numbers and flags. Source: W3C, SVG 2, chapter 9
 * and appendix B.2 (arcs by their ends).
 */
import { arcThrough } from "../arc.ts";
import { arc, cubic, line, type Path, type Segment } from "../path.ts";
import { rotation, scaling, compose, transformPath } from "../transform.ts";
import { add, cross, distance, dot, lerp, norm, scale, sub, turned, vec, type Vec } from "../vec.ts";
import { SvgFault } from "./fault.ts";

/** Segments in one path. */
const MOST_SEGMENTS = 20_000;
const LARGEST = 1e7;
const NUMBER = /[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;
const GAP = /[\s,]*/y;
const ARGUMENTS: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7, Z: 0 };

/** The subpaths in the axes of the data (y as written). Throws `SvgFault` where the data breaks off or is no path data. */
export function readPathData(text: string): Path[] {
  // A field and no variable: see the reader of JSON, where Chromium 147 lost steps of one.
  const cursor = { at: 0 };
  const wrong = (): never => {
    throw new SvgFault(
      `path data cannot be read at character ${cursor.at + 1}: "${text.slice(cursor.at, cursor.at + 12)}"`,
      "Save the file as plain SVG again.",
    );
  };
  const gap = (): void => {
    GAP.lastIndex = cursor.at;
    cursor.at += GAP.exec(text)?.[0].length ?? 0;
  };
  const number = (): number => {
    gap();
    NUMBER.lastIndex = cursor.at;
    const found = NUMBER.exec(text)?.[0];
    if (found === undefined) return wrong();
    const value = Number(found);
    if (!(Math.abs(value) <= LARGEST)) return wrong();
    cursor.at += found.length;
    return value;
  };
  const flag = (): boolean => {
    gap();
    const c = text[cursor.at];
    if (c !== "0" && c !== "1") return wrong();
    cursor.at++;
    return c === "1";
  };

  const paths: Path[] = [];
  let start: Vec | undefined;
  let here = vec(0, 0);
  let segments: Segment[] = [];
  let lastCubic: Vec | undefined;
  let lastQuadratic: Vec | undefined;
  let count = 0;
  const finish = (closed: boolean): void => {
    if (start && (segments.length > 0 || closed)) {
      if (closed && distance(here, start) > 0) segments.push(line(start));
      if (segments.length > 0) paths.push({ start, segments, closed });
    }
    segments = [];
  };
  const put = (...more: Segment[]): void => {
    count += more.length;
    if (count > MOST_SEGMENTS) throw new SvgFault(`a path has more than ${MOST_SEGMENTS} segments`, "Simplify it first.");
    segments.push(...more.filter((one) => one.kind !== "line" || distance(here, one.to) > 0));
    here = more.at(-1)?.to ?? here;
  };

  gap();
  let command = "";
  while (cursor.at < text.length) {
    const c = text[cursor.at]!;
    if (/[MmLlHhVvCcSsQqTtAaZz]/.test(c)) {
      command = c;
      cursor.at++;
    } else if (command === "" || /[Zz]/.test(command)) wrong();
    const upper = command.toUpperCase();
    if (!start && upper !== "M") wrong();
    const origin = command === upper ? vec(0, 0) : here;
    const point = (): Vec => add(origin, vec(number(), number()));
    let cubicHandle: Vec | undefined;
    let quadraticHandle: Vec | undefined;
    if (ARGUMENTS[upper] === undefined) wrong();
    switch (upper) {
      case "M":
        finish(false);
        start = here = point();
        command = command === "M" ? "L" : "l";
        break;
      case "Z":
        finish(true);
        here = start!;
        break;
      case "L":
        put(line(point()));
        break;
      case "H":
        put(line(vec(origin.x + number(), here.y)));
        break;
      case "V":
        put(line(vec(here.x, origin.y + number())));
        break;
      case "C":
      case "S": {
        const c1 = upper === "C" ? point() : lastCubic ? sub(scale(here, 2), lastCubic) : here;
        const c2 = point();
        const to = point();
        cubicHandle = c2;
        put(cubic(c1, c2, to));
        break;
      }
      case "Q":
      case "T": {
        const q: Vec = upper === "Q" ? point() : lastQuadratic ? sub(scale(here, 2), lastQuadratic) : here;
        const to = point();
        quadraticHandle = q;
        put(cubic(lerp(here, q, 2 / 3), lerp(to, q, 2 / 3), to));
        break;
      }
      case "A": {
        const [rx, ry, degrees] = [number(), number(), number()];
        const [large, sweep] = [flag(), flag()];
        put(...arcByEnds(here, point(), Math.abs(rx), Math.abs(ry), (degrees * Math.PI) / 180, large, sweep));
        break;
      }
    }
    lastCubic = cubicHandle;
    lastQuadratic = quadraticHandle;
    gap();
  }
  finish(false);
  return paths;
}

/** An elliptical arc by its ends: worked out where the ellipse is a circle of radius 1, and carried back. */
function arcByEnds(from: Vec, to: Vec, rx: number, ry: number, tilt: number, large: boolean, sweep: boolean): Segment[] {
  if (distance(from, to) === 0) return [];
  if (rx === 0 || ry === 0) return [line(to)];
  const squeeze = (v: Vec): Vec => {
    const u = turned(v, -tilt);
    return vec(u.x / rx, u.y / ry);
  };
  const [a, b] = [squeeze(from), squeeze(to)];
  const half = distance(a, b) / 2;
  // Radii that are too small grow until they reach.
  const grown = Math.max(1, half);
  const height = Math.sqrt(Math.max(0, grown * grown - half * half));
  const across = scale(sub(b, a), 1 / (2 * half));
  const side = large === sweep ? -1 : 1;
  const centre = add(lerp(a, b, 0.5), scale(vec(-across.y, across.x), side * height));
  const back = compose(scaling(rx, ry), rotation(tilt));
  // A full turn less a hair stays two arcs, whose centre rounding cannot lose.
  const middle = turnedHalfway(a, b, centre, sweep);
  const unitPath: Path = { start: a, segments: [arc(middle, centre, sweep), arc(b, centre, sweep)], closed: false };
  const carried = transformPath(back, unitPath).segments;
  const ended = [...carried.slice(0, -1), { ...carried.at(-1)!, to }];
  if (Math.abs(rx - ry) > 1e-12 * rx) return ended;
  // Beginning and end as written, on a circle that passes through them.
  const via = carried[0]!.to;
  const round = arcThrough(from, via, to);
  return round ? [arc(via, round.centre, round.ccw), arc(to, round.centre, round.ccw)] : [line(to)];
}

/** The point half way round from a to b. */
function turnedHalfway(a: Vec, b: Vec, centre: Vec, ccw: boolean): Vec {
  const [u, v] = [sub(a, centre), sub(b, centre)];
  const angle = Math.atan2(cross(u, v), dot(u, v));
  const sweep = ccw ? (angle < 0 ? angle + 2 * Math.PI : angle) : angle > 0 ? angle - 2 * Math.PI : angle;
  return add(centre, scale(turned(u, sweep / 2), norm(v) / norm(u)));
}
