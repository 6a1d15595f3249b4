/** Whether the guard can be made, lies clear, and hides what it must. */
import { tightestHollow } from "../../geometry/drawn/bends.ts";
import type { Check, Finding } from "../contract.ts";
import { GEOMETRY, PRACTICE, atLeast, fine } from "../finding.ts";
import { outlineFindings } from "../outline-findings.ts";
import type { PickguardMeasures, Room } from "./measure.ts";
import type { PickguardParams } from "./numbers.ts";

type GuardCheck = Check<PickguardParams, PickguardMeasures>;

/** Two edges that are meant to run side by side are each drawn within this, mm. */
const DRAWN = 0.01;

const outline: GuardCheck = {
  id: "outline",
  title: "The outline is whole",
  limits: {},
  run: ({ m }) =>
    outlineFindings(
      { whole: m.outline !== undefined, crossings: m.crossings, troubles: m.troubles },
      {
        crosses: "The outline of the pickguard crosses itself.",
        apart: "Move the points apart, or bring the ends nearer to each other.",
        none: "The points of the pickguard span no area.",
        mend: "Set at least three points.",
      },
    ),
};

/** Room that a typed gap asks for: on it is a stop, less than the gap a matter to look at. */
function kept(
  id: string,
  room: Room | undefined,
  needed: number,
  words: { readonly from: string; readonly on: string; readonly mend: string },
): Finding[] {
  if (!room) return [];
  const severity = room.distance >= needed - DRAWN ? "fine" : room.distance < -DRAWN ? "stop" : "look";
  return [
    {
      id,
      severity,
      says:
        severity === "fine"
          ? `The guard keeps {measured} from ${words.from}.`
          : severity === "stop"
            ? `The guard ${words.on} by {measured}.`
            : `The guard comes within {measured} of ${words.from}, and {needed} is wanted.`,
      measured: severity === "stop" ? -room.distance : Math.max(0, room.distance),
      needed,
      bound: "least",
      quantity: "length",
      basis: PRACTICE,
      mend: severity === "fine" ? "" : words.mend,
      at: room.at,
      shape: "outline",
    },
  ];
}

const board: GuardCheck = {
  id: "guard-board",
  title: "The guard keeps clear of the board",
  limits: {},
  run: ({ p, m }) =>
    kept("guard-board", m.atBoard, p.boardGap, {
      from: "the board",
      on: "runs under the board",
      mend: "End it at a lesser angle, or make its end narrower.",
    }),
};

const bridge: GuardCheck = {
  id: "guard-bridge",
  title: "The guard keeps clear of the bridge",
  limits: {},
  run: ({ p, m }) =>
    kept("guard-bridge", m.atBridge, p.bridgeGap, {
      from: "the bridge",
      on: "runs under the bridge",
      mend: "Begin it at a greater angle, or make the belly or the band less.",
    }),
};

const rosette: GuardCheck = {
  id: "guard-rosette",
  title: "The guard keeps clear of the rosette",
  limits: {},
  run: ({ p, m }) =>
    kept("guard-rosette", m.atRosette, p.ringGap, {
      from: "the rosette",
      on: "runs over the rosette",
      mend: "Move its points out, or take them back so that it follows the rosette.",
    }),
};

const edge: GuardCheck = {
  id: "guard-body",
  title: "The guard lies on the top",
  limits: {},
  run: ({ p, m }) =>
    kept("guard-body", m.inBody, p.edgeGap, {
      from: "the edge of the top",
      on: "runs over the edge of the top",
      mend: "Make the band less, or move the points in.",
    }),
};

const bends: GuardCheck = {
  id: "hollow-bends",
  title: "A cutter can follow every hollow",
  limits: { radius: { label: "Radius of the cutter", value: 3, quantity: "length", basis: PRACTICE } },
  run: ({ m, limits }) => {
    const tightest = m.outline && tightestHollow(m.outline);
    if (!tightest) return [];
    const needed = limits["radius"]!;
    return [
      atLeast({
        id: "hollow-bends",
        measured: tightest.radius,
        needed,
        fine: "The tightest hollow has a radius of {measured}.",
        short: "A hollow with a radius of {measured} is tighter than the cutter; finish it by file.",
        mend: "Round the hollow, or use a smaller cutter.",
        basis: PRACTICE,
        at: tightest.at,
        shape: "outline",
      }),
    ];
  },
};

const adhesive: GuardCheck = {
  id: "adhesive",
  title: "The adhesive is one sheet",
  limits: {},
  run: ({ p, m }) => {
    if (!m.outline) return [];
    if (m.adhesive)
      return [
        p.adhesiveInset === 0
          ? fine("adhesive", "Guard and adhesive are trimmed flush together.", PRACTICE, "outline")
          : fine("adhesive", "The adhesive is one sheet within the guard.", GEOMETRY, "adhesive"),
      ];
    return [
      {
        id: "adhesive",
        severity: "look",
        says: "So far inside its edge the guard has no room for one whole sheet of adhesive.",
        basis: GEOMETRY,
        mend: "Cut the adhesive nearer to the edge.",
        shape: "outline",
      },
    ];
  },
};

const old: GuardCheck = {
  id: "covers-old",
  title: "The new guard hides the old one",
  limits: { least: { label: "Least beyond the old edge", value: 0.5, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    if (p.old === "none") return [];
    if (m.old.length === 0)
      return [
        {
          id: "covers-old",
          severity: "look",
          says: `There is no old outline to hide: ${m.oldFault}.`,
          basis: GEOMETRY,
          mend: "Set its points, or choose an SVG file with closed outlines.",
        },
      ];
    const { cover } = m;
    if (!cover) return [];
    if (cover.margin >= 0)
      return [
        atLeast({
          id: "covers-old",
          measured: cover.margin,
          needed: limits["least"]!,
          fine: "The new guard covers the old outline by at least {measured}.",
          short: "The new guard covers the old outline, but only by {measured} where they come nearest.",
          mend: "Move the guard's edge out there: a scar is never as sharp as its drawing.",
          basis: PRACTICE,
          at: cover.at,
          shape: "outline",
        }),
      ];
    return cover.bare.slice(0, 12).map(({ out, at }, i): Finding => ({
      id: `covers-old/${i + 1}`,
      severity: "stop",
      says: "The old outline stands {measured} out from under the new guard here.",
      measured: out,
      needed: 0,
      bound: "most",
      quantity: "length",
      basis: GEOMETRY,
      mend: "Move the guard's edge out over it, or make the band wider.",
      at,
      shape: `bare-${i + 1}`,
    }));
  },
};

export const pickguardChecks: readonly GuardCheck[] = [outline, board, bridge, rosette, edge, bends, adhesive, old];
