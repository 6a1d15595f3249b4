/** Whether the shared numbers fit together before any part is drawn. */
import type { Check, Finding } from "../contract.ts";
import { lineAcross, slantOf } from "../../lutherie/transverse-line.ts";
import { PRACTICE } from "../finding.ts";
import { LEAST_SPREAD_FOR_TWO_SCALES, type InstrumentMeasures } from "./measure.ts";
import { takenOf, type InstrumentParams } from "./params.ts";
import { spreadFrom } from "../../lutherie/nut-numbers.ts";

type InstrumentCheck = Check<InstrumentParams, InstrumentMeasures>;

const GEOMETRY = "geometry";
/** Numbers that agree within this, mm, are the same. */
const SAME = 0.001;

const courseSum: InstrumentCheck = {
  id: "course-sum",
  title: "Courses add up to the strings",
  limits: {},
  run: ({ p }) => {
    if (p.strings.length === 0) return [];
    const sum = p.courses.reduce((total, count) => total + count, 0);
    if (sum === p.strings.length) {
      return [{ id: "course-sum", severity: "fine", says: "The courses add up to the strings.", basis: GEOMETRY, mend: "" }];
    }
    return [
      {
        id: "course-sum",
        severity: "stop",
        says: "The courses add up to {measured} strings, and {needed} are listed.",
        measured: sum,
        needed: p.strings.length,
        bound: "same",
        quantity: "count",
        basis: GEOMETRY,
        mend: "Change the courses or the list of strings.",
      },
    ];
  },
};

const nutNumbers: InstrumentCheck = {
  id: "nut-numbers",
  title: "Width, spread and margin at the nut agree",
  limits: {},
  run: ({ p }) => {
    const needed = spreadFrom(p.nutWidth, p.nutMargin, takenOf(p));
    if (Math.abs(p.nutSpread - needed) <= SAME) {
      return [
        {
          id: "nut-numbers",
          severity: "fine",
          says: "Width, string spread and margin at the nut agree.",
          basis: GEOMETRY,
          mend: "",
          shape: "nut",
        },
      ];
    }
    return [
      {
        id: "nut-numbers",
        severity: "stop",
        says: "The outer strings are {measured} apart at the nut; width and margin leave {needed}.",
        measured: p.nutSpread,
        needed,
        bound: "same",
        quantity: "length",
        basis: GEOMETRY,
        mend: "Take back one of the three numbers at the nut.",
        shape: "nut",
      },
    ];
  },
};

const stringGap: InstrumentCheck = {
  id: "string-gap",
  title: "Room between the strings at the nut",
  limits: {
    course: { label: "Least clear gap between courses", value: 4, quantity: "length", basis: PRACTICE },
    pair: { label: "Least clear gap inside a course", value: 0.8, quantity: "length", basis: PRACTICE },
  },
  run: ({ m, limits }) => {
    const findings: Finding[] = [];
    for (const kind of ["course", "pair"] as const) {
      let tight: { gap: number; number: number; y: number; x: number } | undefined;
      m.strings.forEach((string, i) => {
        const next = m.strings[i + 1];
        if (!next || (next.course === string.course) !== (kind === "pair")) return;
        const gap = m.side * (next.nut.y - string.nut.y) - (next.gauge + string.gauge) / 2;
        if (!tight || gap < tight.gap) tight = { gap, number: next.number, x: next.nut.x, y: next.nut.y };
      });
      if (!tight) continue;
      const needed = limits[kind]!;
      const severity = tight.gap <= 0 ? "stop" : tight.gap < needed ? "look" : "fine";
      const between = `between strings ${tight.number} and ${tight.number + 1} at the nut`;
      findings.push({
        id: `string-gap/${kind}`,
        severity,
        says: severity === "fine" ? `At least {measured} is left ${between}.` : `Only {measured} is left ${between}.`,
        measured: tight.gap,
        needed,
        bound: "least",
        quantity: "length",
        basis: PRACTICE,
        mend: severity === "fine" ? "" : kind === "course" ? "Make the spread at the nut wider." : "Set the pairs further apart.",
        at: { x: tight.x, y: tight.y },
        shape: `string-${tight.number}`,
      });
    }
    return findings;
  },
};

const twoScales: InstrumentCheck = {
  id: "two-scales",
  title: "Two scales can be played",
  limits: { slant: { label: "Greatest slant of a fret", value: (18 * Math.PI) / 180, quantity: "angle", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    if (p.bassScale === undefined) return [];
    if (!m.twoScales) {
      return [
        {
          id: "two-scales/spread",
          severity: "stop",
          says: "Two scales need the outer strings at least {needed} apart; the frets are drawn for one scale.",
          measured: Math.min(p.nutSpread, p.saddleSpread),
          needed: LEAST_SPREAD_FOR_TWO_SCALES,
          bound: "least",
          quantity: "length",
          basis: GEOMETRY,
          mend: "Make the spread wider, or take the bass scale back.",
        },
      ];
    }
    const slants = m.frets.map((fret) => ({ fret, slant: Math.abs(slantOf(lineAcross(fret.bass, fret.treble))) }));
    const worst = slants.reduce((a, b) => (b.slant > a.slant ? b : a));
    const where = worst.fret.number === 0 ? "the nut" : `fret ${worst.fret.number}`;
    const steep = worst.slant > limits["slant"]!;
    const turned = m.bassScale < m.scale;
    return [
      {
        id: "two-scales/slant",
        severity: steep ? "look" : "fine",
        says: `The steepest fret is ${where}, {measured} from square.`,
        measured: worst.slant,
        needed: limits["slant"]!,
        bound: "most",
        quantity: "angle",
        basis: PRACTICE,
        mend: steep ? "Bring the scales nearer to each other, or move the square fret." : "",
        at: worst.fret.treble,
        ...(worst.fret.number > 0 ? { shape: `fret-${worst.fret.number}` } : { shape: "nut" }),
      },
      {
        id: "two-scales/order",
        severity: turned ? "look" : "fine",
        says: turned
          ? "The bass scale of {measured} is shorter than the treble scale of {needed}."
          : "The bass scale of {measured} is the longer one.",
        measured: m.bassScale,
        needed: m.scale,
        bound: "least",
        quantity: "length",
        basis: PRACTICE,
        mend: turned ? "Swap the two scales if that is not meant." : "",
      },
    ];
  },
};

export const instrumentChecks: readonly InstrumentCheck[] = [courseSum, nutNumbers, stringGap, twoScales];
