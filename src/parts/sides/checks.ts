import { bendOf } from "../../lutherie/binding-bend.ts";
import type { Check, Finding } from "../contract.ts";
import { atLeast, fine, GEOMETRY, leastBy, PRACTICE, SAME } from "../finding.ts";
import type { SideMark, SidesMeasures } from "./measure.ts";
import { hollowOf, type SidesParams } from "./numbers.ts";
import { seenAtEdge, seenAtMark } from "./places.ts";

type SidesCheck = Check<SidesParams, SidesMeasures>;

/** The ends of a side, the treble one's first. */
const atNeck = ({ name }: SideMark): number => (name === "neck" ? 0 : 1);
const atTail = ({ name }: SideMark): number => (name === "tail" ? 0 : 1);

const onBody: SidesCheck = {
  id: "body",
  title: "There is a body to bend them to",
  limits: {},
  run: ({ m, from }): Finding[] => {
    if (m.pieces.length > 0) return [fine("body", "The sides follow the body's outline.")];
    const body = from.get("body");
    return [
      {
        id: "body",
        severity: "stop",
        says:
          body === undefined
            ? "There is no body for the sides to follow."
            : body.build === "solid"
              ? "The body is solid and has no sides."
              : "The body has no outline for the sides to follow.",
        basis: GEOMETRY,
        mend:
          body?.build === "solid" ? "Take the sides out of the design, or make the body hollow." : "Add a body with an outline.",
      },
    ];
  },
};

const dome: SidesCheck = {
  id: "back-dome",
  title: "The back's dome spans the body",
  limits: {},
  run: ({ p, m }): Finding[] => {
    if (p.backRadius === undefined || m.pieces.length === 0) return [];
    if (m.backRadius !== undefined && m.backRadius <= p.backRadius + SAME)
      return [fine("back-dome", "The dome of the back reaches the whole edge.")];
    return [
      {
        id: "back-dome",
        severity: "stop",
        says: "A dome of {measured} is too tight for this back, which needs {needed} at least.",
        measured: p.backRadius,
        ...(m.backRadius === undefined ? {} : { needed: m.backRadius, bound: "least" }),
        quantity: "length",
        basis: GEOMETRY,
        mend: "Give the back a flatter dome.",
        ...seenAtMark(m, ({ along }) => along),
      },
    ];
  },
};

const depth: SidesCheck = {
  id: "depth",
  title: "Depth for both linings",
  limits: { least: { label: "Least depth beside the linings", value: 10, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, limits }): Finding[] => {
    if (m.pieces.length === 0) return [];
    return [
      atLeast({
        id: "depth",
        measured: m.leastDepth,
        needed: 2 * p.liningHeight + limits["least"]!,
        stopBelow: 2 * p.liningHeight,
        fine: "The sides are {measured} deep where they are shallowest.",
        short: "The sides are only {measured} deep where they are shallowest; both linings want {needed}.",
        mend: "Make the sides deeper, the domes flatter, or the linings lower.",
        basis: PRACTICE,
        ...seenAtMark(m, (mark) => mark.depth),
      }),
    ];
  },
};

const heel: SidesCheck = {
  id: "heel",
  title: "The heel stands on the side",
  limits: {},
  run: ({ m, from }): Finding[] => {
    const neck = from.get("neck");
    if (!neck || m.pieces.length === 0) return [];
    return [
      atLeast({
        id: "heel",
        measured: m.depthNeck,
        needed: neck.heelDepth,
        fine: "The side is {measured} deep at the neck, the heel {needed}.",
        short: "The heel is {needed} deep, the side at the neck only {measured}.",
        mend: "Make the heel shallower or the sides deeper at the neck.",
        basis: GEOMETRY,
        ...seenAtMark(m, atNeck),
      }),
    ];
  },
};

const tongue: SidesCheck = {
  id: "neck-block",
  title: "The neck block holds the joint",
  limits: { beside: { label: "Least wood beside the tongue", value: 10, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, from, limits }): Finding[] => {
    const neck = from.get("neck");
    if (!neck || m.pieces.length === 0 || !(neck.tongueWidth > 0)) return [];
    return [
      atLeast({
        id: "neck-block",
        measured: (p.neckBlockWidth - neck.tongueWidth) / 2,
        needed: limits["beside"]!,
        stopBelow: 3,
        fine: "{measured} of the neck block is left on each side of the neck's tongue.",
        short: "Only {measured} of the neck block is left on each side of the neck's tongue.",
        mend: "Make the neck block wider.",
        basis: PRACTICE,
        ...seenAtMark(m, atNeck),
      }),
    ];
  },
};

const channels: SidesCheck = {
  id: "channel-lining",
  title: "Lining behind the channels",
  limits: { least: { label: "Least lining", value: 2, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, from, limits }): Finding[] => {
    const body = hollowOf(from);
    if (!body || m.pieces.length === 0) return [];
    // A channel no deeper than the plate cuts nothing of the side.
    const deep = [
      ...body.topLedges.filter(({ height }) => height > body.topThickness),
      ...body.backLedges.filter(({ height }) => height > body.backThickness),
    ];
    const worst = leastBy(deep, ({ inset }) => -inset);
    if (!worst) return [];
    return [
      atLeast({
        id: "channel-lining",
        measured: m.thickness + p.liningWidth - worst.inset,
        needed: limits["least"]!,
        stopBelow: 0.01,
        fine: `{measured} of side and lining is left behind the channel for the ${worst.name}.`,
        short: `Only {measured} of side and lining is left behind the channel for the ${worst.name}.`,
        mend: "Use wider linings or a thinner binding.",
        basis: PRACTICE,
        ...seenAtMark(m, atTail, body.topLedges.includes(worst) ? 0 : -p.depthTail),
      }),
    ];
  },
};

const RATIO = "radius over thickness 12 on a hot iron: common practice; 30 cold (E. Wengert, The Wood Doctor's Rx)";

const bending: SidesCheck = {
  id: "side-bends",
  title: "The sides can be bent",
  limits: {},
  run: ({ m, from }): Finding[] => {
    const body = hollowOf(from);
    const [bout, hollow] = [body?.tightest.bout, body?.tightest.hollow];
    if (!body || m.pieces.length === 0) return [];
    // The inner face is the tighter one round a bout, the outer one in a hollow.
    const worst = leastBy(
      [
        ...(bout ? [{ radius: bout.radius - m.thickness, at: bout.at }] : []),
        ...(hollow ? [{ radius: hollow.radius, at: hollow.at }] : []),
      ],
      ({ radius }) => radius,
    );
    if (!worst) return [fine("side-bends", "The sides are straight.", RATIO)];
    const bend = worst.radius > 0 ? bendOf(m.thickness, worst.radius) : "too-tight";
    return [
      {
        id: "side-bends",
        severity: bend === "too-tight" ? "look" : "fine",
        says:
          bend === "too-tight"
            ? "The sides have to follow a radius of {measured}, tighter than {needed}."
            : "The tightest bend of the sides is {measured}; a hot iron bends this thickness to {needed}.",
        measured: Math.max(0, worst.radius),
        needed: 12 * m.thickness,
        bound: "least",
        quantity: "length",
        basis: RATIO,
        mend: bend === "too-tight" ? "Make the sides thinner there, laminate them, or make the outline rounder." : "",
        ...seenAtEdge(m, worst.at),
      },
    ];
  },
};

const hole: SidesCheck = {
  id: "end-hole",
  title: "The hole at the tail",
  limits: { wood: { label: "Least wood to the side's edge", value: 12, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, limits }): Finding[] => {
    if (p.endHole === "none" || m.pieces.length === 0) return [];
    const radius = p.endHoleDiameter / 2;
    return [
      atLeast({
        id: "end-hole",
        measured: Math.min(p.endHoleDown, p.depthTail - p.endHoleDown) - radius,
        needed: limits["wood"]!,
        stopBelow: 0,
        fine: "{measured} of side is left between the hole at the tail and the nearer edge.",
        short: "Only {measured} of side is left between the hole at the tail and the nearer edge.",
        mend: "Set the hole nearer to the middle of the depth.",
        basis: PRACTICE,
        ...seenAtMark(m, atTail, -p.endHoleDown),
      }),
    ];
  },
};

const graft: SidesCheck = {
  id: "graft",
  title: "The end graft lies on the tail block",
  limits: { beside: { label: "Least tail block beside the graft", value: 5, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, limits }): Finding[] => {
    if (p.graft === "none" || m.pieces.length === 0) return [];
    return [
      atLeast({
        id: "graft",
        measured: (p.tailBlockWidth - Math.max(p.graftTop, p.graftBottom)) / 2 - p.graftPurfling,
        needed: limits["beside"]!,
        stopBelow: 0,
        fine: "{measured} of the tail block is left on each side of the end graft with its purfling.",
        short: "Beside the end graft with its purfling the tail block is left {measured} on each side.",
        mend: "Make the graft narrower or the tail block wider.",
        basis: PRACTICE,
        ...seenAtMark(m, atTail),
      }),
    ];
  },
};

const accent: SidesCheck = {
  id: "accent",
  title: "The accent block leaves enough of both sides of a horn",
  limits: { least: { label: "Least side left from its mitre on", value: 40, quantity: "length", basis: PRACTICE } },
  run: ({ m, limits }): Finding[] =>
    m.pieces.flatMap((piece): Finding[] => {
      const { atStart, atEnd } = piece.mitre;
      if (!atStart && !atEnd) return [];
      const [from, to] = [piece.marks[0]!, piece.marks.at(-1)!];
      return [
        atLeast({
          id: `accent/${piece.id}`,
          measured: piece.inner - (atStart?.inner ?? 0) - (atEnd?.inner ?? 0),
          needed: limits["least"]!,
          stopBelow: 0,
          fine: `{measured} of the ${piece.name} is left inside beyond its mitre.`,
          short: `Only {measured} of the ${piece.name} is left inside beyond its mitre.`,
          mend: "Make the accent block smaller, or the point blunter.",
          basis: PRACTICE,
          ...seenAtMark(m, (mark) => (mark === (atEnd ? to : from) ? 0 : 1)),
        }),
      ];
    }),
};

export const sidesChecks: readonly SidesCheck[] = [onBody, dome, depth, heel, tongue, channels, bending, hole, graft, accent];
