/** The braces as they lie on the plates: their outlines from the front, where they cross, how their glued faces are arched. */
import { segmentPath, polygon, rectangle, type Path } from "../../geometry/path.ts";
import { intersectPaths } from "../../geometry/intersect.ts";
import { add, angleBetween, distance, leftOf, scale, sub, unit, vec, type Vec } from "../../geometry/vec.ts";
import type { DomedPlate } from "../../lutherie/domed-plate.ts";
import type { Sources } from "../contract.ts";
import { instrumentOf, placeOn, type BraceRecord, type BracingParams } from "./numbers.ts";

export interface Brace {
  /** `top-3` */
  readonly id: string;
  readonly plate: "top" | "back";
  /** Counted from 1 within its plate. */
  readonly number: number;
  readonly name: string;
  /** Middles of its ends, on the instrument. */
  readonly from: Vec;
  readonly to: Vec;
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly endHeight: number;
  readonly scoop: number;
  readonly outline: Path;
  /** Radius of its glued face; absent for a straight one. */
  readonly radius?: number;
}

export interface BraceCrossing {
  readonly first: string;
  readonly second: string;
  readonly at: Vec;
  readonly angleRad: number;
  /** From each brace's first end to the middle of the joint. */
  readonly alongFirst: number;
  readonly alongSecond: number;
}

export interface Patch {
  readonly id: string;
  readonly name: string;
  readonly outline: Path;
  readonly thickness: number;
  readonly plate: "top" | "back";
}

export interface BracingMeasures {
  /** From the first of the top to the last of the back; those without a length are left out. */
  readonly braces: readonly Brace[];
  readonly crossings: readonly BraceCrossing[];
  readonly patches: readonly Patch[];
  readonly bridgePlate?: { readonly outline: Path; readonly thickness: number };
  readonly topRadius?: number;
  readonly backRadius?: number;
  /** All braces of each plate laid end to end. */
  readonly topLength: number;
  readonly backLength: number;
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    bracing: BracingMeasures;
  }
}

/** Shorter than this, mm, there is no brace. */
const SHORTEST = 1;

export function measureBracing(p: BracingParams, from: Sources): BracingMeasures {
  const body = from.get("body");
  const sides = from.get("sides");
  const flat: DomedPlate = { neck: { x: 0, height: 0 }, tail: { x: 1, height: 0 }, bulges: "up" };
  const [top, back] = [body?.top ?? flat, sides?.back ?? { ...flat, bulges: "down" as const }];
  const braces = [
    ...p.top.flatMap((record, i) => braceOf(record, "top", i + 1, top, from)),
    ...p.back.flatMap((record, i) => braceOf(record, "back", i + 1, back, from)),
  ];
  const sum = (plate: Brace["plate"]): number =>
    braces.filter((one) => one.plate === plate).reduce((total, { length }) => total + length, 0);
  const plate = bridgePlateOf(p, from);
  return {
    braces,
    crossings: crossingsOf(braces),
    patches: [...patchesOf(p, from), ...stripsOf(p, from, braces)],
    ...(plate ? { bridgePlate: { outline: plate, thickness: p.plateThickness } } : {}),
    ...(top.radius === undefined ? {} : { topRadius: top.radius }),
    ...(back.radius === undefined ? {} : { backRadius: back.radius }),
    topLength: sum("top"),
    backLength: sum("back"),
  };
}

function braceOf(record: BraceRecord, plate: Brace["plate"], number: number, on: DomedPlate, from: Sources): Brace[] {
  const [a, b] = [placeOn(from, record.fromAlong, record.fromAcross), placeOn(from, record.toAlong, record.toAcross)];
  const length = distance(a, b);
  if (!(length > SHORTEST)) return [];
  const way = scale(sub(b, a), 1 / length);
  const out = scale(leftOf(way), record.width / 2);
  const arch = archOf(on, a, b);
  return [
    {
      id: `${plate}-${number}`,
      plate,
      number,
      name: record.name.trim() === "" ? `brace ${number}` : record.name.trim(),
      from: a,
      to: b,
      length,
      width: record.width,
      height: record.height,
      endHeight: Math.min(record.endHeight, record.height),
      scoop: Math.min(record.scoop, length / 2),
      outline: polygon([sub(a, out), sub(b, out), add(b, out), add(a, out)]),
      ...(arch === undefined ? {} : { radius: arch }),
    },
  ];
}

/**
 * Radius of the circle in which an upright plane through both places cuts the plate's sphere: sqrt(R² - d²), d its distance from the
 * sphere's middle. The middle lies under the middle of the chord from neck to tail, moved by what the chord leans.
 */
function archOf({ radius, neck, tail, bulges }: DomedPlate, a: Vec, b: Vec): number | undefined {
  if (radius === undefined) return undefined;
  const [dx, dz] = [tail.x - neck.x, tail.height - neck.height];
  const half = Math.hypot(dx, dz) / 2;
  const down = Math.sqrt(Math.max(0, radius * radius - half * half));
  const sign = bulges === "up" ? 1 : -1;
  const centre = vec((neck.x + tail.x) / 2 + (sign * down * dz) / (2 * half), 0);
  const way = unit(sub(b, a));
  const off = Math.abs((centre.x - a.x) * way.y - (centre.y - a.y) * way.x);
  return Math.sqrt(Math.max(1, radius * radius - off * off));
}

function crossingsOf(braces: readonly Brace[]): BraceCrossing[] {
  return braces.flatMap((first, i) =>
    braces.slice(i + 1).flatMap((second): BraceCrossing[] => {
      if (first.plate !== second.plate) return [];
      const [found] = intersectPaths(segmentPath(first.from, first.to), segmentPath(second.from, second.to));
      if (!found) return [];
      const turn = Math.abs(angleBetween(sub(first.to, first.from), sub(second.to, second.from)));
      return [
        {
          first: first.id,
          second: second.id,
          at: found.point,
          angleRad: turn,
          alongFirst: distance(first.from, found.point),
          alongSecond: distance(second.from, found.point),
        },
      ];
    }),
  );
}

function bridgePlateOf(p: BracingParams, from: Sources): Path | undefined {
  if (!p.bridgePlate || !(p.plateFront + p.plateBack > SHORTEST)) return undefined;
  const saddle = from.get("bridge")?.saddleX ?? instrumentOf(from).scale;
  const [front, back] = [saddle - p.plateFront, saddle + p.plateBack];
  const [near, far] = [p.plateSpanFront / 2, p.plateSpanBack / 2];
  return polygon([vec(front, -near), vec(back, -far), vec(back, far), vec(front, near)]);
}

const patchesOf = (p: BracingParams, from: Sources): Patch[] =>
  p.patches.map((patch, i) => {
    const middle = placeOn(from, patch.along, patch.across);
    const [l, w] = [patch.length / 2, patch.width / 2];
    return {
      id: `patch-${i + 1}`,
      name: patch.name.trim() === "" ? `patch ${i + 1}` : patch.name.trim(),
      outline: rectangle(middle.x - l, middle.y - w, middle.x + l, middle.y + w),
      thickness: patch.thickness,
      plate: "top",
    };
  });

/** Thickness of the strip over the back's seam. */
const STRIP = 2;

/** The strip over the back's seam, between the blocks and the braces that cross it. */
function stripsOf(p: BracingParams, from: Sources, braces: readonly Brace[]): Patch[] {
  const body = from.get("body");
  if (!(p.seamStrip > 0) || body?.build !== "hollow" || !body.outline) return [];
  const sides = from.get("sides");
  const start = body.neckX + body.sideThickness + (sides?.neckBlock.length ?? 0);
  const end = body.tailX - body.sideThickness - (sides?.tailBlock.length ?? 0);
  const cuts = braces
    .filter(({ plate }) => plate === "back")
    .flatMap((brace): [number, number][] => {
      const [found] = intersectPaths(
        segmentPath(brace.from, brace.to),
        segmentPath(vec(start, 0), vec(Math.max(end, start + 1), 0)),
      );
      const across = Math.abs(unit(sub(brace.to, brace.from)).y);
      if (!found || across < 0.1) return [];
      const half = brace.width / 2 / across;
      return [[found.point.x - half, found.point.x + half]];
    })
    .toSorted((a, b) => a[0] - b[0]);
  const strips: Patch[] = [];
  let x = start;
  for (const [from0, to0] of [...cuts, [end, end] as [number, number]]) {
    if (from0 - x > SHORTEST)
      strips.push({
        id: `strip-${strips.length + 1}`,
        name: "strip over the seam",
        outline: rectangle(x, -p.seamStrip / 2, from0, p.seamStrip / 2),
        thickness: STRIP,
        plate: "back",
      });
    x = Math.max(x, to0);
  }
  return strips;
}
