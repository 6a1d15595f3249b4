import { clearance } from "../../geometry/clearance.ts";
import { nearestOnPath } from "../../geometry/nearest.ts";
import { vec } from "../../geometry/vec.ts";
import { roomInside } from "../../geometry/cover.ts";
import { pathWinding } from "../../geometry/winding.ts";
import type { Check, Finding, Severity } from "../contract.ts";
import { atLeast, GEOMETRY, PRACTICE } from "../finding.ts";
import { outlineFindings } from "../outline-findings.ts";
import { slotPath } from "./draw.ts";
import type { BridgeMeasures } from "./measure.ts";
import type { BridgeParams } from "./numbers.ts";

type BridgeCheck = Check<BridgeParams, BridgeMeasures>;

const outline: BridgeCheck = {
  id: "outline",
  title: "The outline is whole",
  limits: {},
  run: ({ m }) =>
    outlineFindings(
      { whole: m.outline !== undefined, crossings: m.crossings, troubles: m.troubles },
      {
        crosses: "The outline of the bridge crosses itself.",
        none: "The points of the bridge span no area.",
        mend: "Set at least three points.",
      },
    ),
};

const strings: BridgeCheck = {
  id: "setback-known",
  title: "Every string has its place on the saddle",
  limits: {},
  run: ({ m }) => {
    const unknown = m.strings.filter(({ setback }) => setback === undefined).map(({ string }) => string);
    if (m.strings.length === 0) return [];
    const fine = unknown.length === 0;
    return [
      {
        id: "setback-known",
        severity: fine ? "fine" : "look",
        says: fine
          ? "The saddle is set by every string."
          : `No setback can be worked out for string ${unknown.join(", ")}: the saddle goes by the others.`,
        basis: "stretching and stiffness of the string, worked out",
        mend: fine ? "" : "Give the string its note and a gauge that holds it, or set the saddle by hand.",
      },
    ];
  },
};

const residual: BridgeCheck = {
  id: "saddle-residual",
  title: "A straight saddle serves all strings",
  limits: {},
  run: ({ p, m }) => {
    if (m.strings.filter(({ setback }) => setback !== undefined).length < 2) return [];
    const fine = m.saddle.spread <= p.saddleThickness + 1e-9;
    return [
      {
        id: "saddle-residual",
        severity: fine ? "fine" : "look",
        says: fine
          ? "The places where the strings want to end lie within {measured} along a straight saddle {needed} thick."
          : "The places where the strings want to end lie {measured} apart, more than the saddle's {needed}.",
        measured: m.saddle.spread,
        needed: p.saddleThickness,
        bound: "most",
        quantity: "length",
        basis: GEOMETRY,
        mend: fine ? "" : "Use a thicker saddle, or split it.",
        shape: "saddle",
      },
    ];
  },
};

const slot: BridgeCheck = {
  id: "slot-wood",
  title: "Wood about the saddle's slot",
  limits: { least: { label: "Least wood", value: 3, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    const path = slotPath(p, m);
    if (!m.outline || !path || p.type === "floating") return [];
    const inside = pathWinding(m.outline, path.start) !== 0;
    const found = clearance(path, m.outline);
    const measured = inside ? found.distance : -found.distance;
    const needed = limits["least"]!;
    const severity: Severity = measured <= 0 ? "stop" : measured < needed - 1e-6 ? "look" : "fine";
    return [
      {
        id: "slot-wood",
        severity,
        says:
          severity === "fine"
            ? "At least {measured} of wood is left about the slot."
            : severity === "look"
              ? "Only {measured} of wood is left between the slot and the edge."
              : "The slot breaks through the edge of the bridge.",
        measured,
        needed,
        bound: "least",
        quantity: "length",
        basis: PRACTICE,
        mend: severity === "fine" ? "" : "Move the front edge forward, or make the saddle shorter.",
        at: found.b,
        shape: "saddle",
      },
    ];
  },
};

const pins: BridgeCheck = {
  id: "pin-wood",
  title: "Wood about the pins",
  limits: {
    edge: { label: "Least wood to the edge", value: 4, quantity: "length", basis: PRACTICE },
    slot: { label: "Least wood to the slot", value: 5, quantity: "length", basis: PRACTICE },
  },
  run: ({ p, m, limits }) => {
    const path = slotPath(p, m);
    const { outline: edge } = m;
    if (!edge || m.pins.length === 0) return [];
    const findings: Finding[] = [];
    const say = (id: string, measured: number, needed: number, what: string, mend: string, string: number): void => {
      const severity: Severity = measured <= 0 ? "stop" : measured < needed - 1e-6 ? "look" : "fine";
      const place = m.pins.find((pin) => pin.string === string)!.at;
      findings.push({
        id,
        severity,
        says:
          severity === "fine"
            ? `At least {measured} of wood is left between the pins and ${what}.`
            : `Only {measured} of wood is left between pin ${string} and ${what}.`,
        measured,
        needed,
        bound: "least",
        quantity: "length",
        basis: PRACTICE,
        mend: severity === "fine" ? "" : mend,
        at: vec(...place),
        shape: `pin-${string}`,
      });
    };
    const least = (away: (place: readonly [number, number]) => number): { readonly string: number; readonly away: number } =>
      m.pins.map(({ string, at }) => ({ string, away: away(at) })).toSorted((a, b) => a.away - b.away)[0]!;
    const toEdge = least(([x, y]) => {
      const at = vec(x, y);
      return (pathWinding(edge, at) !== 0 ? 1 : -1) * nearestOnPath(edge, at).distance - p.pinHole / 2;
    });
    say("pin-wood/edge", toEdge.away, limits["edge"]!, "the edge", "Move the back edge out, or the pins forward.", toEdge.string);
    if (path) {
      const toSlot = least(([x, y]) => nearestOnPath(path, vec(x, y)).distance - p.pinHole / 2);
      say("pin-wood/slot", toSlot.away, limits["slot"]!, "the slot", "Set the pins further behind the saddle.", toSlot.string);
    }
    return findings;
  },
};

const depth: BridgeCheck = {
  id: "slot-depth",
  title: "Wood under the saddle",
  limits: { least: { label: "Least wood", value: 2, quantity: "length", basis: PRACTICE } },
  run: ({ p, limits }) => {
    if (p.type === "floating") return [];
    const measured = p.thickness - p.slotDepth;
    const needed = limits["least"]!;
    const severity: Severity = measured <= 0 ? "stop" : measured < needed - 1e-9 ? "look" : "fine";
    return [
      {
        id: "slot-depth",
        severity,
        says:
          severity === "fine" ? "{measured} of wood is left under the slot." : "Only {measured} of wood is left under the slot.",
        measured,
        needed,
        bound: "least",
        quantity: "length",
        basis: PRACTICE,
        mend: severity === "fine" ? "" : "Make the slot shallower or the bridge thicker.",
        shape: "saddle",
      },
    ];
  },
};

const foot: BridgeCheck = {
  id: "saddle-on-foot",
  title: "The saddle stands on its foot",
  limits: {},
  run: ({ p, m }) => {
    if (p.type !== "floating") return [];
    const [bass, treble] = m.saddle.ends;
    const measured = p.footSpan / 2 - Math.max(Math.abs(bass[1]), Math.abs(treble[1]));
    const fine = measured >= -1e-9;
    return [
      {
        id: "saddle-on-foot",
        severity: fine ? "fine" : "look",
        says: fine
          ? "The foot reaches {measured} beyond the saddle."
          : "The saddle reaches beyond its foot, which is {measured} too short at one end.",
        measured: Math.abs(measured),
        needed: 0,
        bound: "least",
        quantity: "length",
        basis: GEOMETRY,
        mend: fine ? "" : "Make the foot longer or the saddle shorter.",
        shape: "foot-1",
      },
    ];
  },
};

const old: BridgeCheck = {
  id: "covers-old",
  title: "The new bridge covers the old footprint",
  limits: { least: { label: "Least beyond the old edge", value: 0.5, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    if (p.old === "none" || !m.outline) return [];
    if (!m.cover)
      return [
        {
          id: "covers-old",
          severity: "look",
          says: "The points of the old footprint span no area.",
          basis: GEOMETRY,
          mend: "Set at least three points.",
        },
      ];
    if (m.cover.margin >= 0)
      return [
        atLeast({
          id: "covers-old",
          measured: m.cover.margin,
          needed: limits["least"]!,
          fine: "The bridge covers the old footprint by at least {measured}.",
          short: "The bridge covers the old footprint, but only by {measured} where they come nearest.",
          mend: "Move the edge out there: a scar is never as sharp as its drawing.",
          basis: PRACTICE,
          at: m.cover.at,
          shape: "outline",
        }),
      ];
    return m.cover.bare.slice(0, 12).map(({ out, at }, i): Finding => ({
      id: `covers-old/${i + 1}`,
      severity: "stop",
      says: "The old footprint stands {measured} out from under the new bridge here.",
      measured: out,
      needed: 0,
      bound: "most",
      quantity: "length",
      basis: GEOMETRY,
      mend: "Make the bridge longer or wider there, or move the outline's points out over it.",
      at,
      shape: `bare-${i + 1}`,
    }));
  },
};

const onBody: BridgeCheck = {
  id: "on-body",
  title: "The bridge lies on the body",
  limits: { edge: { label: "Least top to the edge", value: 20, quantity: "length", basis: PRACTICE } },
  run: ({ m, from, limits }) => {
    const edge = from.get("body")?.outline;
    if (!edge || !m.outline) return [];
    const found = roomInside({ outer: m.outline, holes: [] }, { outer: edge, holes: [] });
    const lies = found.distance > 0;
    return [
      atLeast({
        id: "on-body",
        measured: found.distance,
        needed: limits["edge"]!,
        stopBelow: 2e-9,
        fine: "At least {measured} of the top is left between the bridge and the edge of the body.",
        short: lies
          ? "The bridge comes within {measured} of the edge of the body."
          : "The bridge does not lie on the body: its margin to the edge is {measured}.",
        mend: "Make the body longer or wider there, or the bridge shorter across; look at scale and join.",
        basis: PRACTICE,
        at: found.a,
        shape: "outline",
      }),
    ];
  },
};

export const bridgeChecks: readonly BridgeCheck[] = [outline, strings, residual, slot, pins, depth, foot, old, onBody];
