/** Whether the shoulders fit what was traced with a contour gauge, and whether the trace shows enough of them. */
import { add, vec, type Vec } from "../../geometry/vec.ts";
import type { Finding } from "../contract.ts";
import { GEOMETRY, PRACTICE, fine } from "../finding.ts";
import { LEAST_TRACED } from "../../lutherie/neck-contour.ts";
import type { ContourMeasure } from "./contour.ts";
import { atFret, type NeckCheck, type NeckSubject } from "./finding.ts";
import { modelOf, type NeckModel } from "./model.ts";
import { measuredSection } from "./section-row.ts";
import type { Which } from "./numbers.ts";

/** Where a point of a section lies, as makers name it. */
function whereOn({ section }: ContourMeasure, { x, y }: Vec): string {
  const side = x < section.lean ? "bass" : "treble";
  const half = x < section.lean ? section.halfWidth + section.lean : section.halfWidth - section.lean;
  if (Math.abs(x - section.lean) < half / 3) return "on the back";
  return -y < section.depth / 4 ? `at the ${side} edge` : `at the ${side} shoulder`;
}

/** Where a point of a section is seen on the drawing. */
function seenAt(subject: NeckSubject, model: NeckModel, which: Which, point: Vec): Pick<Finding, "at" | "shape"> {
  const place = measuredSection(subject.p, model, which);
  return place
    ? { at: add(place.centre, vec(model.instrument.side * point.x, point.y)), shape: `section-${place.key}` }
    : { shape: "side-outline" };
}

const TURN_TOLD = Math.PI / 3600;

const contourFit: NeckCheck = {
  id: "contour",
  title: "The shoulders fit the contour gauge",
  limits: {
    miss: { label: "Greatest distance from what was traced", value: 0.5, quantity: "length", basis: PRACTICE },
    wider: { label: "Trace wider than the neck by", value: 0.8, quantity: "length", basis: PRACTICE },
  },
  run: (subject) => {
    const { p, m, from, limits } = subject;
    const model = modelOf(p, from);
    return (["first", "second"] as const).flatMap((which): Finding[] => {
      const count = p[`${which}Contour`].length;
      if (count === 0) return [];
      const id = `contour/${which}`;
      const place = atFret(p[`${which}Fret`]);
      const traced = m.contours.find((one) => one.which === which);
      if (!traced)
        return [
          {
            id,
            severity: "stop",
            says: `The points of the contour gauge ${place} do not show both shoulders.`,
            basis: GEOMETRY,
            mend: "Trace the back on both sides of its deepest line.",
            ...seenAt(subject, model, which, vec(0, 0)),
          },
        ];
      return [
        ...ofFit(traced, subject, model, place, limits),
        ...ofLie(traced, subject, place, count),
        ...ofReach(traced, subject, model, place, limits),
      ];
    });
  },
};

/** How far off the trace the fitted curve lies. */
function ofFit(
  traced: ContourMeasure,
  subject: NeckSubject,
  model: NeckModel,
  place: string,
  limits: Readonly<Record<string, number>>,
): Finding[] {
  const { which, worst, worstAt, rms } = traced;
  const far = worst > limits["miss"]! + 1e-9;
  return [
    {
      id: `contour/${which}`,
      severity: far ? "look" : "fine",
      says: `The curve fitted to the contour gauge ${place} lies within {measured} of what was traced; farthest ${whereOn(traced, worstAt)}.`,
      measured: worst,
      needed: limits["miss"]!,
      bound: "most",
      quantity: "length",
      basis: PRACTICE,
      mend: far ? "Look at the point there, at the depth and the width of the neck, and at the scale of the photograph." : "",
      ...seenAt(subject, model, which, worstAt),
    },
    {
      ...fine(`contour/${which}-rms`, `Over all points ${place} it lies {measured} off, as the root of the mean square.`),
      measured: rms,
      quantity: "length",
    },
  ];
}

/** How the trace lay on its paper. */
function ofLie({ which, turnRad, move }: ContourMeasure, { p }: NeckSubject, place: string, count: number): Finding[] {
  if (p[`${which}ContourLies`] === "held") return [];
  if (count < LEAST_TRACED)
    return [
      {
        id: `contour/${which}-level`,
        severity: "look",
        says: `The trace ${place} has {measured} points and is taken as it lies; to level it, {needed} are needed.`,
        measured: count,
        needed: LEAST_TRACED,
        bound: "least",
        quantity: "count",
        basis: GEOMETRY,
        mend: "Trace more points.",
      },
    ];
  return [
    Math.abs(turnRad) < TURN_TOLD
      ? fine(`contour/${which}-level`, `The trace ${place} lay level.`)
      : {
          ...fine(`contour/${which}-level`, `The trace ${place} lay turned by {measured} and is laid level.`),
          measured: Math.abs(turnRad),
          quantity: "angle",
        },
    {
      ...fine(`contour/${which}-moved`, `It is moved by {measured} on to the section ${place}.`),
      measured: Math.hypot(move.x, move.y),
      quantity: "length",
    },
  ];
}

/** Half way up, the shoulders are seen; what lies above follows from the curve. */
const HIGH = 0.5;
const DEEP = 0.9;

/** What of the section the trace does not show, and whether it is too wide for it. */
function ofReach(
  traced: ContourMeasure,
  subject: NeckSubject,
  model: NeckModel,
  place: string,
  limits: Readonly<Record<string, number>>,
): Finding[] {
  const { which, width, upTo, downTo, section } = traced;
  const look = (key: string, says: string, mend: string, at: Vec, more?: Partial<Finding>): Finding =>
    ({
      id: `contour/${which}-${key}`,
      severity: "look",
      says,
      basis: GEOMETRY,
      mend,
      ...more,
      ...seenAt(subject, model, which, at),
    }) as Finding;
  const sides = (["bass", "treble"] as const).filter((side) => upTo[side] > HIGH);
  return [
    ...sides.map((side) =>
      look(
        `reach-${side}`,
        `The trace ${place} ends {measured} below the underside of the board on the ${side} side; how full that shoulder is, is little more than a guess.`,
        "Trace the back up to the board.",
        vec(side === "bass" ? -section.halfWidth : section.halfWidth, 0),
        { measured: upTo[side] * section.depth, needed: HIGH * section.depth, bound: "most", quantity: "length" },
      ),
    ),
    ...(downTo < DEEP
      ? [
          look(
            "depth",
            `The deepest point traced ${place} lies {measured} below the board, and the back {needed}.`,
            "Trace the back over its deepest line too, or measure the depth again.",
            vec(section.lean, -section.depth),
            { measured: downTo * section.depth, needed: section.depth, bound: "same", quantity: "length" },
          ),
        ]
      : []),
    ...(width > 2 * section.halfWidth + limits["wider"]!
      ? [
          look(
            "width",
            `The trace ${place} is {measured} wide, and the neck {needed}.`,
            "Check the scale of the photograph and the width of the neck there.",
            vec(section.halfWidth, 0),
            { measured: width, needed: 2 * section.halfWidth, bound: "same", quantity: "length" },
          ),
        ]
      : []),
  ];
}

export const contourChecks: readonly NeckCheck[] = [contourFit];
