/** Starting patterns of our own, led by the body, the soundhole and the bridge; each brace runs to the inside of the sides. */
import { rayHits } from "../../geometry/intersect.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { add, scale, sub, unit, vec, type Vec } from "../../geometry/vec.ts";
import type { Sources } from "../contract.ts";
import { instrumentOf, type Body, type BraceRecord, type BracingParams } from "./numbers.ts";

/** What leads the pattern, in the body's own axes: x from the join, y to the treble side. */
interface Led {
  readonly length: number;
  /** The soundhole's edges along the centre line; where it would usually be in a body without one. */
  readonly holeFront: number;
  readonly holeBack: number;
  readonly saddle: number;
  /** Ends of a straight line through a point on the inside of the sides, less what a brace stops short of them. */
  readonly across: (through: Vec, way: Vec) => readonly [Vec, Vec] | undefined;
}

/** Between the end of a brace and the side, mm: its end lies in the lining. */
const SHORT = 3;

function ledBy(body: Body, from: Sources): Led | undefined {
  const { side, joinX } = instrumentOf(from);
  const inside = body.inside ?? body.outline;
  if (!inside) return undefined;
  const hole = from.get("soundhole")?.outline;
  const box = hole && pathBounds(hole);
  const place = (v: Vec): Vec => vec(joinX + v.x, side * v.y);
  return {
    length: body.length,
    holeFront: box ? box.minX - joinX : 0.23 * body.length,
    holeBack: box ? box.maxX - joinX : 0.43 * body.length,
    saddle: (from.get("bridge")?.saddleX ?? instrumentOf(from).scale) - joinX,
    across: (through, way) => {
      const [at, along] = [place(through), vec(way.x, side * way.y)];
      const ends = [along, scale(along, -1)].map((direction) => rayHits([inside], at, direction)[0]);
      if (!ends.every((reach) => reach !== undefined && reach > 2 * SHORT)) return undefined;
      const [ahead, back] = ends as [number, number];
      return [add(through, scale(unit(way), -(back - SHORT))), add(through, scale(unit(way), ahead - SHORT))];
    },
  };
}

type Section = Pick<BraceRecord, "width" | "height" | "endHeight" | "scoop">;

const brace = (name: string, ends: readonly [Vec, Vec] | undefined, section: Section): BraceRecord[] =>
  ends ? [{ name, fromAlong: ends[0].x, fromAcross: ends[0].y, toAlong: ends[1].x, toAcross: ends[1].y, ...section }] : [];

const square = vec(0, 1);

/** Sections as shares of the body's length, so that a ukulele has lighter braces than a guitar. */
function sectionsOf(length: number): {
  readonly main: Section;
  readonly light: Section;
  readonly fan: Section;
  readonly back: Section;
} {
  const share = length / 490;
  const section = (width: number, height: number, endHeight: number, scoop: number): Section => ({
    width: Math.max(2, width * share),
    height: Math.max(2, height * share),
    endHeight: Math.max(0.5, endHeight * share),
    scoop: scoop * share,
  });
  return {
    main: section(8, 15, 2, 60),
    light: section(6, 10, 1.5, 40),
    fan: section(6, 6, 1, 35),
    back: section(8, 15, 2, 60),
  };
}

export function startingTop(p: BracingParams, from: Sources): BraceRecord[] {
  const body = from.get("body");
  const led = body?.build === "hollow" ? ledBy(body, from) : undefined;
  if (!led || p.pattern === "none") return [];
  const { main, light, fan } = sectionsOf(led.length);
  const upper = brace("upper brace", led.across(vec(led.holeFront / 2, 0), square), main);
  if (p.pattern === "ladder")
    return [
      ...upper,
      ...brace("brace over the hole", led.across(vec(led.holeFront - 14, 0), square), main),
      ...brace("brace under the hole", led.across(vec(led.holeBack + 14, 0), square), main),
      ...brace("brace behind the bridge", led.across(vec((led.saddle + led.length) / 2, 0), square), light),
    ];
  if (p.pattern === "fan")
    return [
      ...upper,
      ...brace("brace over the hole", led.across(vec(led.holeFront - 12, 0), square), main),
      ...brace("brace under the hole", led.across(vec(led.holeBack + 14, 0), square), main),
      ...fanBraces(p, led, fan),
    ];
  const crossing = vec(led.holeBack + p.behindHole, 0);
  const half = p.crossAngle / 2;
  // The angle opens towards the tail.
  const legs = [1, -1].map((sign) => vec(Math.cos(half), sign * Math.sin(half)));
  return [
    ...upper,
    ...brace("cross, to the treble", led.across(crossing, legs[0]!), main),
    ...brace("cross, to the bass", led.across(crossing, legs[1]!), main),
    ...toneBars(led, crossing, legs, light),
    ...[1, -1].flatMap((sign) => fingers(led, crossing, legs[sign === 1 ? 0 : 1]!, sign, light)),
  ];
}

/** Two bars behind the bridge, slanted, from the cross's bass leg towards the treble side of the tail. */
function toneBars(led: Led, crossing: Vec, legs: readonly Vec[], section: Section): BraceRecord[] {
  const way = unit(vec(0.45, 1));
  return [0.05, 0.17].flatMap((share, i): BraceRecord[] => {
    // Where the bass leg has come that far behind the saddle.
    const reach = (led.saddle + share * led.length - crossing.x) / legs[1]!.x;
    const start = add(crossing, scale(legs[1]!, reach));
    const ends = led.across(start, way);
    const name = `tone bar ${i + 1}`;
    return ends && start.y < -10
      ? brace(name, [add(start, scale(way, 8)), stopBefore(ends[1], start, crossing, legs[0]!)], section)
      : [];
  });
}

/** The end of a bar, or where it would meet the treble leg of the cross, less a little. */
function stopBefore(end: Vec, start: Vec, crossing: Vec, leg: Vec): Vec {
  const way = unit(sub(end, start));
  const denominator = way.x * leg.y - way.y * leg.x;
  const off = sub(crossing, start);
  const reach = (off.x * leg.y - off.y * leg.x) / denominator;
  const length = Math.hypot(end.x - start.x, end.y - start.y);
  return reach > 0 && reach < length ? add(start, scale(way, reach - 8)) : end;
}

/** Two short braces from a leg of the cross out to the side, square to the leg. */
function fingers(led: Led, crossing: Vec, leg: Vec, sign: number, section: Section): BraceRecord[] {
  const out = vec(-leg.y * sign, leg.x * sign);
  return [0.32, 0.62].flatMap((share, i): BraceRecord[] => {
    const start = add(crossing, scale(leg, share * (led.length - crossing.x) * 0.75));
    const ends = led.across(start, out);
    return brace(`finger ${i + 1}, ${sign === 1 ? "treble" : "bass"}`, ends && [add(start, scale(out, 8)), ends[1]], section);
  });
}

/** Fans that run together before the hole, under the bridge. */
function fanBraces(p: BracingParams, led: Led, section: Section): BraceRecord[] {
  const start = led.holeBack + 14 + 8;
  const meet = led.holeFront - 0.25 * led.length;
  const spread = 0.46 * led.length;
  return Array.from({ length: p.fans }, (_, i): BraceRecord[] => {
    const share = p.fans > 1 ? i / (p.fans - 1) - 0.5 : 0;
    const way = unit(vec(led.saddle - meet, share * spread));
    const at = (x: number): Vec => vec(x, ((x - meet) * way.y) / way.x);
    const ends = led.across(at(led.saddle), way);
    return brace(`fan ${i + 1}`, ends && [at(Math.max(start, ends[0].x)), ends[1]], section);
  }).flat();
}

/** Ladders across the back, spread between the blocks. */
export function startingBack(from: Sources): BraceRecord[] {
  const body = from.get("body");
  const led = body?.build === "hollow" ? ledBy(body, from) : undefined;
  if (!led) return [];
  const { back } = sectionsOf(led.length);
  return [0.2, 0.4, 0.62, 0.83].flatMap((share, i) =>
    brace(`back brace ${i + 1}`, led.across(vec(share * led.length, 0), square), back),
  );
}
