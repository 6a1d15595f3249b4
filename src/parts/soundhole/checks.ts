/** The hole against board, bridge and body; the rosette's channels against each other and the top. */
import { vec } from "../../geometry/vec.ts";
import type { Check, Finding } from "../contract.ts";
import { GEOMETRY, PRACTICE, SAME, atLeast, fine } from "../finding.ts";
import { outlineFindings } from "../outline-findings.ts";
import type { RingMeasure, SoundholeMeasures } from "./measure.ts";
import type { SoundholeParams } from "./numbers.ts";

type HoleCheck = Check<SoundholeParams, SoundholeMeasures>;

const outline: HoleCheck = {
  id: "outline",
  title: "The outline of the hole is whole",
  limits: {},
  run: ({ p, m }) =>
    p.shape === "free"
      ? outlineFindings(
          { whole: m.outline !== undefined, crossings: m.crossings, troubles: m.troubles, shape: "hole" },
          {
            fine: "The outline of the hole is closed and crosses itself nowhere.",
            crosses: "The outline of the hole crosses itself.",
            none: "The points of the hole span no area.",
            mend: "Set at least three points.",
          },
        )
      : [],
};

const place: HoleCheck = {
  id: "place",
  title: "One number says where the hole is",
  limits: {},
  run: ({ p, m }) => {
    const off = [
      { id: "board", word: "the board", said: p.fromBoard, is: m.toBoard },
      { id: "bridge", word: "the bridge", said: p.fromBridge, is: m.toBridge },
    ].filter(({ said, is }) => Math.abs(said - is) > SAME);
    if (off.length === 0) return m.outline ? [fine("place", "The hole lies where its numbers put it.", GEOMETRY, "hole")] : [];
    return off.map(({ id, word, said, is }): Finding => ({
      id: `place/${id}`,
      severity: "stop",
      says: `The hole is given as {needed} from ${word}, and its middle puts it at {measured}.`,
      measured: is,
      needed: said,
      bound: "same",
      quantity: "length",
      basis: GEOMETRY,
      mend: "Take back one of the numbers for its place.",
      shape: "hole",
    }));
  },
};

const board: HoleCheck = {
  id: "hole-board",
  title: "The hole keeps clear of the board",
  limits: {
    least: { label: "Least from the board to the hole", value: 0, quantity: "length", basis: PRACTICE },
    under: { label: "Greatest reach of the rosette under the board", value: 40, quantity: "length", basis: PRACTICE },
  },
  run: ({ m, limits }) => {
    if (!m.outline) return [];
    const at = vec(m.frontX, m.middleY);
    const least = limits["least"]!;
    const open: Finding =
      m.toBoard >= least - 1e-9
        ? {
            ...fine("hole-board", "The board ends {measured} before the hole.", PRACTICE, "hole"),
            measured: m.toBoard,
            quantity: "length",
            at,
          }
        : {
            id: "hole-board",
            severity: "look",
            says:
              m.toBoard < 0 ? "The board reaches {measured} into the hole." : "The board ends only {measured} before the hole.",
            measured: Math.abs(m.toBoard),
            needed: least,
            bound: "least",
            quantity: "length",
            basis: PRACTICE,
            mend: "Move the hole towards the bridge, or end the board sooner.",
            at,
            shape: "hole",
          };
    const outer = farthest(m.rings);
    if (!outer) return [open];
    const most = limits["under"]!;
    const far = m.underBoard > most + 1e-9;
    return [
      open,
      {
        id: "hole-board/rosette",
        severity: far ? "look" : "fine",
        says:
          m.underBoard === 0
            ? "The rosette keeps clear of the board."
            : `The rosette runs {measured} under the end of the board: it must be in and level before the board is glued on.`,
        ...(m.underBoard === 0
          ? {}
          : { measured: m.underBoard, needed: most, bound: "most" as const, quantity: "length" as const }),
        basis: PRACTICE,
        mend: far ? "Bring the rings nearer to the hole, or move it towards the bridge." : "",
        at,
        shape: outer.id,
      },
    ];
  },
};

const bridge: HoleCheck = {
  id: "hole-bridge",
  title: "Hole and rosette keep clear of the bridge",
  limits: {
    hole: { label: "Least from the hole to the bridge", value: 25, quantity: "length", basis: PRACTICE },
    rosette: { label: "Least from the rosette to the bridge", value: 5, quantity: "length", basis: PRACTICE },
  },
  run: ({ m, limits }) => {
    const outer = farthest(m.rings);
    return [
      ...(m.holeAtBridge
        ? [
            atLeast({
              id: "hole-bridge",
              measured: m.holeAtBridge.distance,
              needed: limits["hole"]!,
              stopBelow: 0.001,
              fine: "The hole keeps {measured} from the bridge.",
              short:
                m.holeAtBridge.distance < 0.001
                  ? "The hole runs under the bridge."
                  : "The hole comes within {measured} of the bridge.",
              mend: "Move the hole towards the board, or make it smaller.",
              basis: PRACTICE,
              at: m.holeAtBridge.at,
              shape: "hole",
            }),
          ]
        : []),
      ...(m.rosetteAtBridge && outer
        ? [
            atLeast({
              id: "hole-bridge/rosette",
              measured: m.rosetteAtBridge.distance,
              needed: limits["rosette"]!,
              stopBelow: 0.001,
              fine: `The ${outer.name} keeps {measured} from the bridge.`,
              short:
                m.rosetteAtBridge.distance < 0.001
                  ? `The ${outer.name} runs under the bridge.`
                  : `The ${outer.name} comes within {measured} of the bridge.`,
              mend: "Bring the rings nearer to the hole, or move it towards the board.",
              basis: PRACTICE,
              at: m.rosetteAtBridge.at,
              shape: outer.id,
            }),
          ]
        : []),
    ];
  },
};

const farthest = (rings: readonly RingMeasure[]): RingMeasure | undefined =>
  rings
    .filter(({ outer }) => outer)
    .reduce<RingMeasure | undefined>(
      (best, ring) => (best && best.distance + best.width >= ring.distance + ring.width ? best : ring),
      undefined,
    );

const body: HoleCheck = {
  id: "hole-body",
  title: "Hole and rosette lie on the top",
  limits: { edge: { label: "Least from the rosette to the edge", value: 15, quantity: "length", basis: PRACTICE } },
  run: ({ m, limits }) => {
    if (!m.rosetteInBody) return [];
    const { distance, at } = m.rosetteInBody;
    const what = m.rings.length > 0 ? "rosette" : "hole";
    return [
      atLeast({
        id: "hole-body",
        measured: distance,
        needed: limits["edge"]!,
        stopBelow: 0,
        fine: `The ${what} keeps {measured} from the edge of the top.`,
        short:
          distance < 0
            ? `The ${what} runs {measured} over the edge of the top.`
            : `The ${what} comes within {measured} of the edge.`,
        mend: "Move the hole, make it smaller, or bring the rings nearer to it.",
        basis: PRACTICE,
        at,
        shape: farthest(m.rings)?.id ?? "hole",
      }),
    ];
  },
};

const ringsApart: HoleCheck = {
  id: "ring-wood",
  title: "Wood stands between the channels",
  limits: {
    between: { label: "Least wood between two channels", value: 1, quantity: "length", basis: PRACTICE },
    hole: { label: "Least wood between the hole and a channel", value: 1.5, quantity: "length", basis: PRACTICE },
  },
  run: ({ m, limits }) => {
    const rings = m.rings.filter(({ inner, outer }) => inner && outer).toSorted((a, b) => a.distance - b.distance);
    if (rings.length === 0) return [];
    // What lies at no distance shares a channel, or binds the hole: that is meant.
    const gaps = rings
      .map((ring, i) => {
        const before = rings[i - 1];
        return {
          ring,
          wood: ring.distance - (before ? before.distance + before.width : 0),
          needed: before ? limits["between"]! : limits["hole"]!,
          beside: before ? `the ${before.name}` : "the hole",
        };
      })
      .filter(({ wood }) => Math.abs(wood) > SAME);
    const short = gaps.filter(({ wood, needed }) => wood < needed - 1e-9);
    if (short.length === 0)
      return [fine("ring-wood", "Between hole and channels enough wood is left, or none at all.", PRACTICE, rings[0]!.id)];
    return short.map(({ ring, wood, needed, beside }): Finding => ({
      id: `ring-wood/${ring.id}`,
      severity: wood < 0 ? "stop" : "look",
      says:
        wood < 0
          ? `The ${ring.name} runs {measured} over ${beside}.`
          : `Only {measured} of wood stands between the ${ring.name} and ${beside}; it breaks out when the channels are cut.`,
      measured: Math.abs(wood),
      needed,
      bound: "least",
      quantity: "length",
      basis: PRACTICE,
      mend: "Set the rings further apart, or let them touch and cut one channel for both.",
      shape: ring.id,
    }));
  },
};

const depth: HoleCheck = {
  id: "ring-depth",
  title: "Top is left under the channels",
  limits: { least: { label: "Least top under a channel", value: 1, quantity: "length", basis: PRACTICE } },
  run: ({ m, limits }) => {
    const needed = limits["least"]!;
    const deepest = m.rings.reduce<RingMeasure | undefined>(
      (best, ring) => (best && best.depth >= ring.depth ? best : ring),
      undefined,
    );
    if (!deepest) return [];
    const left = m.topThickness - deepest.depth;
    return [
      atLeast({
        id: "ring-depth",
        measured: left,
        needed,
        stopBelow: 0.001,
        fine: `{measured} of the top is left under the deepest channel, the ${deepest.name}.`,
        short:
          left < 0.001
            ? `The channel of the ${deepest.name} goes right through the top.`
            : `Only {measured} of the top is left under the ${deepest.name}.`,
        mend: "Make the channel shallower, or leave the top thicker there.",
        basis: PRACTICE,
        shape: deepest.id,
      }),
    ];
  },
};

const ringLines: HoleCheck = {
  id: "ring-lines",
  title: "Every ring goes round the hole",
  limits: {},
  run: ({ m }) => {
    if (!m.outline || m.rings.length === 0) return [];
    const lost = m.rings.filter(({ inner, outer }) => !inner || !outer);
    if (lost.length === 0) return [fine("ring-lines", "Every ring goes round the hole at its distance.", GEOMETRY)];
    return lost.map(({ id, name }): Finding => ({
      id: `ring-lines/${id}`,
      severity: "stop",
      says: `No line can be drawn round the hole for the ${name}: the outline turns back on itself there.`,
      basis: GEOMETRY,
      mend: "Open the hollows of the outline, or bring the ring nearer to the hole.",
      shape: "hole",
    }));
  },
};

export const soundholeChecks: readonly HoleCheck[] = [outline, place, board, bridge, body, ringsApart, depth, ringLines];
