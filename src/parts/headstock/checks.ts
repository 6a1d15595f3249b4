import { vec } from "../../geometry/vec.ts";
import { lerp } from "../../geometry/vec.ts";
import type { Check, Finding, Severity } from "../contract.ts";
import { GEOMETRY, PRACTICE } from "../finding.ts";
import { outlineFindings } from "../outline-findings.ts";
import type { HeadstockMeasures } from "./measure.ts";
import type { HeadstockParams } from "./numbers.ts";

type HeadCheck = Check<HeadstockParams, HeadstockMeasures>;
const DEGREE = Math.PI / 180;

const outline: HeadCheck = {
  id: "outline",
  title: "The outline is whole",
  limits: {},
  run: ({ m }) =>
    outlineFindings(
      { whole: m.outline !== undefined, crossings: m.crossings, troubles: m.troubles },
      {
        crosses: "The outline of the head crosses itself.",
        none: "The points of the head span no area.",
        mend: "Set at least two points beyond the nut.",
      },
    ),
};

const length: HeadCheck = {
  id: "head-length",
  title: "Head and neck are equally long",
  limits: { most: { label: "Greatest difference", value: 1, quantity: "length", basis: PRACTICE } },
  run: ({ m, from, limits }) => {
    const neck = from.get("neck");
    if (!neck || !m.outline) return [];
    const measured = m.startX - m.topX;
    const alike = Math.abs(measured - neck.headLength) <= limits["most"]! + 1e-6;
    return [
      {
        id: "head-length",
        severity: alike ? "fine" : "look",
        says: alike
          ? "The head is as long as the neck says, {measured}."
          : "The head is {measured} long, and the neck's side is drawn with a head of {needed}.",
        measured,
        needed: neck.headLength,
        bound: "same",
        quantity: "length",
        basis: PRACTICE,
        mend: alike ? "" : "Let the length of the head follow the neck, or give both the same.",
        at: vec(m.topX, 0),
        shape: "outline",
      },
    ];
  },
};

/** One finding about the worst of a list. */
function worst<T>(list: readonly T[], value: (entry: T) => number, make: (entry: T, value: number) => Finding): Finding[] {
  const [first] = list.toSorted((a, b) => value(a) - value(b));
  return first ? [make(first, value(first))] : [];
}

const edge: HeadCheck = {
  id: "tuner-edge",
  title: "Wood around the tuner holes",
  limits: { share: { label: "Least wood, in radii of the hole", value: 1, quantity: "number", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    if (p.rows === "slotted") return [];
    const needed = (limits["share"]! * p.hole) / 2;
    return worst(
      m.tuners,
      (tuner) => tuner.edgeWood,
      (tuner, measured) => {
        const severity: Severity = measured < 0 ? "stop" : measured < needed - 1e-6 ? "look" : "fine";
        return {
          id: "tuner-edge",
          severity,
          says:
            severity === "stop"
              ? `The hole of string ${tuner.string} breaks through the edge of the head.`
              : severity === "look"
                ? `Only {measured} of wood is left between the hole of string ${tuner.string} and the edge.`
                : "At least {measured} of wood is left between the holes and the edge.",
          measured,
          needed,
          bound: "least",
          quantity: "length",
          basis: PRACTICE,
          mend: severity === "fine" ? "" : "Set the tuners further from the edge, or widen the head.",
          at: tuner.at,
          shape: `tuner-${tuner.string}`,
        };
      },
    );
  },
};

const apart: HeadCheck = {
  id: "tuners-apart",
  title: "The machines clear each other",
  limits: {},
  run: ({ p, m }) => {
    if (p.rows === "slotted" || m.tuners.length < 2) return [];
    const pairs = m.tuners.flatMap((a, i) =>
      m.tuners.slice(i + 1).map((b) => ({
        a,
        b,
        gap: Math.max(Math.abs(a.at.x - b.at.x) - p.footprintLength, Math.abs(a.at.y - b.at.y) - p.footprintWidth),
      })),
    );
    return worst(
      pairs,
      ({ gap }) => gap,
      ({ a, b }, measured) => ({
        id: "tuners-apart",
        severity: measured < -1e-9 ? "stop" : "fine",
        says:
          measured < -1e-9
            ? `The machines of strings ${a.string} and ${b.string} overlap behind the head.`
            : "The machines clear each other by at least {measured} behind the head.",
        measured,
        needed: 0,
        bound: "least",
        quantity: "length",
        basis: GEOMETRY,
        mend: measured < -1e-9 ? "Set the tuners further apart, or turn smaller machines." : "",
        at: lerp(a.at, b.at, 0.5),
        shape: `machine-${a.string}`,
      }),
    );
  },
};

const flat: HeadCheck = {
  id: "machines-flat",
  title: "The machines lie on a flat back",
  limits: {},
  run: ({ p, m }) => {
    const { flatBackX } = m;
    if (p.rows === "slotted" || flatBackX === undefined) return [];
    return worst(
      m.tuners,
      ({ at }) => flatBackX - (at.x + p.footprintLength / 2),
      ({ string, at }, measured) => ({
        id: "machines-flat",
        severity: measured < -1e-9 ? "look" : "fine",
        says:
          measured < -1e-9
            ? `The machine of string ${string} stands on the bend into the neck, where the back is not flat.`
            : "The machines begin at least {measured} beyond the bend into the neck, on the flat of the back.",
        measured,
        needed: 0,
        bound: "least",
        quantity: "length",
        basis: GEOMETRY,
        mend:
          measured < -1e-9 ? "Move the first tuners away from the nut, or make the bend or the volute of the neck shorter." : "",
        at,
        shape: `machine-${string}`,
      }),
    );
  },
};

const passing: HeadCheck = {
  id: "string-clearance",
  title: "Strings run straight past the posts",
  limits: { air: { label: "Least air", value: 0.5, quantity: "length", basis: PRACTICE } },
  run: ({ m, limits }) =>
    worst(
      m.strings.filter((string) => string.clearance !== undefined),
      (string) => string.clearance!,
      (string, measured) => {
        const needed = limits["air"]!;
        const severity: Severity = measured < 0 ? "stop" : measured < needed ? "look" : "fine";
        return {
          id: "string-clearance",
          severity,
          says:
            severity === "fine"
              ? "Every string passes the other posts by at least {measured}."
              : severity === "look"
                ? `String ${string.string} passes the post of string ${string.besidePost} by only {measured}.`
                : `String ${string.string} runs into the post of string ${string.besidePost}.`,
          measured,
          needed,
          bound: "least",
          quantity: "length",
          basis: PRACTICE,
          mend: severity === "fine" ? "" : "Move the rows apart, or let the head narrow towards its top.",
          at: string.to,
          shape: `string-${string.string}`,
        };
      },
    ),
};

const sideways: HeadCheck = {
  id: "nut-angle",
  title: "Strings bend little at the nut",
  limits: { most: { label: "Greatest angle sideways", value: 15 * DEGREE, quantity: "angle", basis: PRACTICE } },
  run: ({ m, limits }) =>
    worst(
      m.strings,
      (string) => -string.angleAtNutRad,
      (string) => {
        const needed = limits["most"]!;
        const measured = string.angleAtNutRad;
        const fine = measured <= needed;
        return {
          id: "nut-angle",
          severity: fine ? "fine" : "look",
          says: fine
            ? "No string bends sideways at the nut by more than {measured}."
            : `String ${string.string} bends sideways at the nut by {measured}, more than {needed}: it may bind in its slot.`,
          measured,
          needed,
          bound: "most",
          quantity: "angle",
          basis: PRACTICE,
          mend: fine ? "" : "Move its tuner towards the line of the string.",
          at: string.from,
          shape: `string-${string.string}`,
        };
      },
    ),
};

const down: HeadCheck = {
  id: "break-angle",
  title: "Strings press on the nut",
  limits: { least: { label: "Least break angle", value: 6 * DEGREE, quantity: "angle", basis: PRACTICE } },
  run: ({ m, limits }) =>
    worst(
      m.strings,
      (string) => string.breakRad,
      (string, measured) => {
        const needed = limits["least"]!;
        const severity: Severity = measured <= 0 ? "stop" : measured < needed ? "look" : "fine";
        return {
          id: "break-angle",
          severity,
          says:
            severity === "fine"
              ? "Every string bends over the nut by at least {measured}."
              : `String ${string.string} bends over the nut by {measured}, and would rattle in its slot.`,
          measured,
          needed,
          bound: "least",
          quantity: "angle",
          basis: PRACTICE,
          mend: severity === "fine" ? "" : "Tilt the head more, lower the string on its post, or hold it down by a bar.",
          at: string.from,
          shape: `string-${string.string}`,
        };
      },
    ),
};

const pocket: HeadCheck = {
  id: "pocket-wood",
  title: "Wood under the rod's pocket",
  limits: { least: { label: "Least wood", value: 3, quantity: "length", basis: PRACTICE } },
  run: ({ m, limits }) => {
    const measured = m.woodUnderPocket;
    if (measured === undefined) return [];
    const needed = limits["least"]!;
    const severity: Severity = measured <= 0 ? "stop" : measured < needed ? "look" : "fine";
    return [
      {
        id: "pocket-wood",
        severity,
        says:
          severity === "fine"
            ? "{measured} of wood is left under the pocket for the rod."
            : m.leastUnderShelf
              ? "Only {measured} of wood is left under the pocket for the rod, below the shelf of the nut."
              : "Only {measured} of wood is left under the pocket for the rod.",
        measured,
        needed,
        bound: "least",
        quantity: "length",
        basis: PRACTICE,
        mend:
          severity === "fine"
            ? ""
            : m.leastUnderShelf
              ? "Make the rod's channel shallower there, the neck deeper, or leave a volute."
              : "Make the pocket shallower or the head thicker.",
        shape: "rod-pocket",
      },
    ];
  },
};

const drill: HeadCheck = {
  id: "tuner-hole",
  title: "The holes take the machines",
  limits: { play: { label: "Hole wider than the post by", value: 0.2, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    if (p.rows === "slotted" || m.tuners.length === 0) return [];
    const shape = `tuner-${m.tuners[0]!.string}`;
    const needed = p.post + limits["play"]!;
    if (p.hole < needed - 1e-9)
      return [
        {
          id: "tuner-hole",
          severity: p.hole < p.post - 1e-9 ? "stop" : "look",
          says: "The holes are {measured} wide, and the posts need {needed}.",
          measured: p.hole,
          needed,
          bound: "least",
          quantity: "length",
          basis: PRACTICE,
          mend: "Drill wider holes, or take machines with thinner posts.",
          at: m.tuners[0]!.at,
          shape,
        },
      ];
    if (p.ferrule < p.hole - 1e-9)
      return [
        {
          id: "tuner-hole",
          severity: "look",
          says: "The ferrules are {measured} wide and do not cover holes of {needed}.",
          measured: p.ferrule,
          needed: p.hole,
          bound: "least",
          quantity: "length",
          basis: GEOMETRY,
          mend: "Take wider ferrules, or drill narrower holes.",
          at: m.tuners[0]!.at,
          shape,
        },
      ];
    return [
      {
        id: "tuner-hole",
        severity: "fine",
        says: "Holes of {measured} take the posts.",
        measured: p.hole,
        needed,
        bound: "least",
        quantity: "length",
        basis: PRACTICE,
        mend: "",
        at: m.tuners[0]!.at,
        shape,
      },
    ];
  },
};

export const headstockChecks: readonly HeadCheck[] = [outline, length, edge, drill, apart, flat, passing, sideways, down, pocket];
