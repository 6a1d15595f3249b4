import { clearance } from "../../geometry/clearance.ts";
import { nearestOnPath } from "../../geometry/nearest.ts";
import type { Path } from "../../geometry/path.ts";
import { transformPoint } from "../../geometry/transform.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { pathWinding } from "../../geometry/winding.ts";
import type { Check, Finding, Sources } from "../contract.ts";
import { atLeast, fine, GEOMETRY, leastBy, PRACTICE } from "../finding.ts";
import { onDrawing } from "./draw.ts";
import type { Brace, BracingMeasures } from "./measure.ts";
import type { BracingParams } from "./numbers.ts";

type BracingCheck = Check<BracingParams, BracingMeasures>;

const topBraces = (m: BracingMeasures): readonly Brace[] => m.braces.filter(({ plate }) => plate === "top");

/** A place on the instrument, where it is drawn. */
const drawnAt = (from: Sources, plate: Brace["plate"], at: Vec): Vec => transformPoint(onDrawing(plate, from), at);

/** How far a place lies inside a closed path; below 0 outside. */
const insideBy = (path: Path, at: Vec): number => (pathWinding(path, at) !== 0 ? 1 : -1) * nearestOnPath(path, at).distance;

/** Air between two closed paths; below 0 where one lies in the other or they cross. */
function airBetween(a: Path, b: Path): { readonly air: number; readonly at: Vec } {
  const found = clearance(a, b);
  const meet = found.distance === 0 || pathWinding(a, b.start) !== 0 || pathWinding(b, a.start) !== 0;
  return { air: meet ? -found.distance : found.distance, at: found.a };
}

const pinsClear: BracingCheck = {
  id: "pins-clear",
  title: "The pins come down beside the braces",
  limits: { air: { label: "Least air", value: 1, quantity: "length", basis: PRACTICE } },
  run: ({ m, from, limits }): Finding[] => {
    const bridge = from.get("bridge");
    const holes = bridge?.host?.holes ?? [];
    const worst = leastBy(
      holes.flatMap((hole, i) =>
        topBraces(m).map((brace) => ({ brace, string: bridge!.pins[i]?.string ?? i + 1, ...airBetween(brace.outline, hole) })),
      ),
      ({ air }) => air,
    );
    if (!worst) return [];
    return [
      atLeast({
        id: "pins-clear",
        measured: Math.max(0, worst.air),
        needed: limits["air"]!,
        stopBelow: 1e-6,
        fine: `The pins clear every brace, the ${worst.brace.name} by {measured}.`,
        short:
          worst.air <= 0
            ? `The pin of string ${worst.string} comes down on the ${worst.brace.name}.`
            : `The pin of string ${worst.string} clears the ${worst.brace.name} by only {measured}.`,
        mend: "Move the brace, or set the pins nearer to or farther from the saddle.",
        basis: PRACTICE,
        at: drawnAt(from, "top", worst.at),
        shape: `brace-${worst.brace.id}`,
      }),
    ];
  },
};

const pinsCovered: BracingCheck = {
  id: "pins-covered",
  title: "The bridge plate takes the pins",
  limits: { margin: { label: "Least wood round a pin", value: 5, quantity: "length", basis: PRACTICE } },
  run: ({ m, from, limits }): Finding[] => {
    const bridge = from.get("bridge");
    if (!bridge || bridge.pins.length === 0) return [];
    const plate = m.bridgePlate?.outline;
    if (!plate)
      return [
        {
          id: "pins-covered",
          severity: "look",
          says: "There is no bridge plate for the pins to hold against.",
          basis: PRACTICE,
          mend: "Add a bridge plate.",
        },
      ];
    const radius = holeRadius(bridge.host?.holes[0]);
    const worst = leastBy(
      bridge.pins.map(({ string, at }) => ({ string, wood: insideBy(plate, vec(...at)) - radius, at: vec(...at) })),
      ({ wood }) => wood,
    )!;
    return [
      atLeast({
        id: "pins-covered",
        measured: worst.wood,
        needed: limits["margin"]!,
        stopBelow: 0,
        fine: "At least {measured} of the bridge plate is left round the pins.",
        short: `Only {measured} of the bridge plate is left round the pin of string ${worst.string}.`,
        mend: "Make the bridge plate larger there.",
        basis: PRACTICE,
        at: drawnAt(from, "top", worst.at),
        shape: "bridge-plate",
      }),
    ];
  },
};

const holeRadius = (hole: Path | undefined): number => {
  const [first] = hole?.segments ?? [];
  return hole && first?.kind === "arc" ? Math.hypot(hole.start.x - first.centre.x, hole.start.y - first.centre.y) : 0;
};

const saddleCovered: BracingCheck = {
  id: "saddle-covered",
  title: "The bridge plate lies under the saddle",
  limits: {},
  run: ({ m, from }): Finding[] => {
    const bridge = from.get("bridge");
    const plate = m.bridgePlate?.outline;
    if (!bridge || !plate) return [];
    const worst = leastBy(
      bridge.saddle.ends.map((end) => ({ by: insideBy(plate, vec(...end)), at: vec(...end) })),
      ({ by }) => by,
    )!;
    return [
      atLeast({
        id: "saddle-covered",
        measured: worst.by,
        needed: 0,
        fine: "The bridge plate reaches {measured} past the saddle.",
        short: "An end of the saddle lies outside the bridge plate.",
        mend: "Make the bridge plate longer across, or wider before the saddle.",
        basis: PRACTICE,
        at: drawnAt(from, "top", worst.at),
        shape: "bridge-plate",
      }),
    ];
  },
};

const holeClear: BracingCheck = {
  id: "soundhole-clear",
  title: "No brace crosses the soundhole",
  limits: { air: { label: "Least top round the hole", value: 4, quantity: "length", basis: PRACTICE } },
  run: ({ m, from, limits }): Finding[] => {
    const hole = from.get("soundhole")?.outline;
    if (!hole) return [];
    const things = [
      ...topBraces(m).map(({ id, name, outline }) => ({ shape: `brace-${id}`, name, outline })),
      ...(m.bridgePlate ? [{ shape: "bridge-plate", name: "bridge plate", outline: m.bridgePlate.outline }] : []),
    ];
    const worst = leastBy(
      things.map((thing) => ({ thing, ...airBetween(thing.outline, hole) })),
      ({ air }) => air,
    );
    if (!worst) return [];
    return [
      atLeast({
        id: "soundhole-clear",
        measured: Math.max(0, worst.air),
        needed: limits["air"]!,
        stopBelow: 1e-6,
        fine: `The ${worst.thing.name} keeps {measured} from the soundhole, every other brace more.`,
        short:
          worst.air <= 0
            ? `The ${worst.thing.name} lies across the soundhole.`
            : `The ${worst.thing.name} comes within {measured} of the soundhole.`,
        mend: "Move the brace, or make the hole smaller.",
        basis: PRACTICE,
        at: drawnAt(from, "top", worst.at),
        shape: worst.thing.shape,
      }),
    ];
  },
};

const inBody: BracingCheck = {
  id: "in-body",
  title: "The braces lie in the body",
  limits: {},
  run: ({ m, from }): Finding[] => {
    const body = from.get("body");
    const inside = body?.inside;
    if (!inside)
      return [
        {
          id: "in-body",
          severity: "stop",
          says: body?.build === "solid" ? "A solid body has no bracing." : "There is no hollow body to brace.",
          basis: GEOMETRY,
          mend: body?.build === "solid" ? "Take the bracing out of the design." : "Add a hollow body.",
        },
      ];
    const worst = leastBy(
      m.braces.flatMap((brace) => [brace.from, brace.to].map((at) => ({ brace, at, by: insideBy(inside, at) }))),
      ({ by }) => by,
    );
    if (!worst) return [];
    return [
      atLeast({
        id: "in-body",
        measured: worst.by,
        needed: 0,
        stopBelow: 0,
        fine: "Every brace ends inside the sides, the nearest {measured} from them.",
        short: `The ${worst.brace.name} runs out through the side.`,
        mend: "Shorten the brace.",
        basis: GEOMETRY,
        at: drawnAt(from, worst.brace.plate, worst.at),
        shape: `brace-${worst.brace.id}`,
      }),
    ];
  },
};

const depth: BracingCheck = {
  id: "brace-depth",
  title: "The braces find room in the depth of the body",
  limits: {},
  run: ({ m, from }): Finding[] => {
    const sides = from.get("sides");
    const tallest = leastBy(m.braces, ({ height }) => -height);
    if (!sides || sides.pieces.length === 0 || !tallest) return [];
    if (tallest.height < sides.leastDepth / 2)
      return [fine("brace-depth", "Every brace leaves more than half of the depth free.")];
    return [
      {
        id: "brace-depth",
        severity: "look",
        says: `The ${tallest.name} is {measured} high in a body {needed} deep.`,
        measured: tallest.height,
        needed: sides.leastDepth,
        bound: "most",
        quantity: "length",
        basis: GEOMETRY,
        mend: "Make the brace lower.",
        shape: `brace-${tallest.id}`,
      },
    ];
  },
};

export const bracingChecks: readonly BracingCheck[] = [inBody, holeClear, pinsClear, pinsCovered, saddleCovered, depth];
