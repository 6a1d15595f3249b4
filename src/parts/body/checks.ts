import { bendOf } from "../../lutherie/binding-bend.ts";
import type { Check, Finding, Severity } from "../contract.ts";
import { fine, GEOMETRY, PRACTICE, SAME } from "../finding.ts";
import { outlineFindings } from "../outline-findings.ts";
import type { BodyMeasures } from "./measure.ts";
import type { BodyParams } from "./numbers.ts";

type BodyCheck = Check<BodyParams, BodyMeasures>;

const outline: BodyCheck = {
  id: "outline",
  title: "The outline is whole",
  limits: {},
  run: ({ m }) =>
    outlineFindings(
      { whole: m.outline !== undefined && m.treble !== undefined, crossings: m.crossings },
      {
        crosses: "The outline of the body crosses itself.",
        apart: "Make the ends or bouts less full, or move the points apart.",
        none: m.outline ? "The outline does not lie about the centre line." : `There is no outline: ${m.fault}.`,
        mend: "Change the measures, or set more points.",
      },
    ),
};

const atJoin: BodyCheck = {
  id: "at-join",
  title: "The body begins at the join",
  limits: {},
  run: ({ m }) => {
    if (!m.outline || !m.treble) return [];
    const off = Math.abs(m.neckX - m.joinX);
    if (off < SAME) return [fine("at-join", "The body begins on the centre line where the neck joins it.", GEOMETRY, "outline")];
    return [
      {
        id: "at-join",
        severity: "stop",
        says: "The edge of the body lies {measured} from the join fret on the centre line.",
        measured: off,
        needed: 0,
        bound: "most",
        quantity: "length",
        basis: GEOMETRY,
        mend: "Set the point at the neck to 0.",
        shape: "outline",
      },
    ];
  },
};

const dome: BodyCheck = {
  id: "dome",
  title: "The dome spans the body",
  limits: {},
  run: ({ p, m }) => {
    if (p.build === "solid" || p.topRadius === undefined || !m.outline) return [];
    if (m.topRadius !== undefined && m.topRadius <= p.topRadius + SAME)
      return [fine("dome", "The dome of the top reaches the whole edge.", GEOMETRY)];
    return [
      {
        id: "dome",
        severity: "stop",
        says: "A dome of {measured} is too tight for this body, which needs {needed} at least.",
        measured: p.topRadius,
        ...(m.topRadius === undefined ? {} : { needed: m.topRadius, bound: "least" }),
        quantity: "length",
        basis: GEOMETRY,
        mend: "Give the top a flatter dome.",
      },
    ];
  },
};

const channels: BodyCheck = {
  id: "channels",
  title: "Binding and purfling find room round the edge",
  limits: {},
  run: ({ m }) => {
    const ledges = [...m.topLedges, ...m.backLedges];
    if (!m.outline || ledges.length === 0) return [];
    const lost = ledges.find(({ path }) => path === undefined);
    if (!lost) return [fine("channels", "Every channel runs round the whole edge.", GEOMETRY)];
    return [
      {
        id: "channels",
        severity: "stop",
        says: `The wall of the channel for ${lost.name}, {measured} in from the edge, cannot follow the outline everywhere.`,
        measured: lost.inset,
        quantity: "length",
        basis: GEOMETRY,
        mend: "Use thinner layers, or a rounder outline.",
        ...(m.tightest.bout ? { at: m.tightest.bout.at, shape: "outline" } : {}),
      },
    ];
  },
};

const BENDS = "radius over thickness: 30 cold, 20 perhaps (E. Wengert, The Wood Doctor's Rx), 12 hot, common practice";

const bends: BodyCheck = {
  id: "strip-bends",
  title: "Strips bend round the edge",
  limits: {},
  run: ({ m }) => {
    const { bout, hollow } = m.tightest;
    const layers = [...m.topLedges, ...m.backLedges];
    if (!m.outline || layers.length === 0) return [];
    const worst = layers
      .flatMap((layer) => [
        // A strip's inner face is the tighter one round a bout, its outer face in a hollow.
        ...(bout ? [{ layer, radius: bout.radius - layer.inset, at: bout.at }] : []),
        ...(hollow ? [{ layer, radius: hollow.radius + layer.inset - layer.thickness, at: hollow.at }] : []),
      ])
      .toSorted((a, b) => a.radius / a.layer.thickness - b.radius / b.layer.thickness)[0];
    if (!worst) return [fine("strip-bends", "The edge bends nowhere.", BENDS)];
    const bend = worst.radius > 0 ? bendOf(worst.layer.thickness, worst.radius) : "too-tight";
    const { name } = worst.layer;
    const severity: Severity = bend === "too-tight" ? "look" : "fine";
    return [
      {
        id: "strip-bends",
        severity,
        says:
          bend === "too-tight"
            ? `The ${name} has to follow a radius of {measured}, tighter than {needed}, which a hot iron can do.`
            : bend === "hot"
              ? `The ${name} has to be bent on a hot iron: the tightest radius is {measured}.`
              : `The ${name} bends ${bend === "cold" ? "" : "perhaps "}cold round the tightest radius of {measured}.`,
        measured: Math.max(0, worst.radius),
        needed: 12 * worst.layer.thickness,
        bound: "least",
        quantity: "length",
        basis: BENDS,
        mend: severity === "fine" ? "" : "Use thinner strips, or laminate them; or make the outline rounder there.",
        at: worst.at,
        shape: "outline",
      },
    ];
  },
};

const lean: BodyCheck = {
  id: "router-lean",
  title: "A router on the domed top",
  limits: { most: { label: "Greatest lean", value: (3 * Math.PI) / 180, quantity: "angle", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    if (!m.outline || m.topRadius === undefined || p.binding.length === 0) return [];
    const most = limits["most"]!;
    const ok = m.greatestLeanRad <= most + 1e-9;
    return [
      {
        id: "router-lean",
        severity: ok ? "fine" : "look",
        says: ok
          ? "A router that rides the top leans by {measured} at most: keep it square to the sides for the channels."
          : "A router that rides the top leans by up to {measured}, and the channels with it.",
        measured: m.greatestLeanRad,
        needed: most,
        bound: "most",
        quantity: "angle",
        basis: GEOMETRY,
        mend: ok ? "" : "Guide the router by the sides, not by the top.",
        ...(m.greatestLeanAt ? { at: m.greatestLeanAt, shape: "outline" } : {}),
      },
    ];
  },
};

const inside: BodyCheck = {
  id: "inside",
  title: "The sides leave a hollow",
  limits: {},
  run: ({ p, m }): Finding[] => {
    if (!m.outline || p.build === "solid") return [];
    if (m.inside) return [fine("inside", "The outline less the sides is whole.", GEOMETRY, "inside")];
    return [
      {
        id: "inside",
        severity: "stop",
        says: "Sides {measured} thick cannot follow the outline.",
        measured: p.sideThickness,
        quantity: "length",
        basis: GEOMETRY,
        mend: "Make the sides thinner or the outline rounder.",
        shape: "outline",
      },
    ];
  },
};

export const bodyChecks: readonly BodyCheck[] = [outline, atJoin, dome, inside, channels, bends, lean];
