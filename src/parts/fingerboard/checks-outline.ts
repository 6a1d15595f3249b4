/** The board's edges against each other, its strings and its section. */
import type { Finding } from "../contract.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { GEOMETRY, PRACTICE, atLeast, leastBy } from "../finding.ts";
import type { FingerboardCheck, FingerboardSubject } from "./finding.ts";
import { instrumentOf } from "./numbers.ts";

const boardShape: FingerboardCheck = {
  id: "board-shape",
  title: "The outlines close",
  limits: {},
  run: ({ p, m }) => {
    const stop = { severity: "stop", quantity: "length", basis: GEOMETRY } as const;
    if (!m.hasOutline && p.end === "curved" && p.endRadius <= m.widthAtEnd / 2) {
      return [
        {
          ...stop,
          id: "board-shape/end",
          says: "The curve of the end has a radius of {measured} and does not reach both edges; it takes more than {needed}.",
          measured: p.endRadius,
          needed: m.widthAtEnd / 2,
          bound: "least",
          mend: "Make the radius larger, or choose a square end.",
        },
      ];
    }
    if (!m.hasOutline) {
      return [
        {
          ...stop,
          id: "board-shape/outline",
          says: "The two ends of the board cross each other or miss its sides.",
          mend: "Lessen the slant of the nut and the end, or make the board longer.",
        },
      ];
    }
    if (!m.hasBlank) {
      return [
        {
          ...stop,
          id: "board-shape/blank",
          says: "The binding of {measured} on each side leaves no board between.",
          measured: m.bindingThickness,
          mend: "Use thinner layers.",
          shape: "outline",
        },
      ];
    }
    return [
      {
        id: "board-shape",
        severity: "fine",
        says: "The outlines of board and blank close.",
        basis: GEOMETRY,
        mend: "",
        shape: "outline",
      },
    ];
  },
};

const taper: FingerboardCheck = {
  id: "taper",
  title: "The board widens towards the body",
  limits: {},
  run: ({ m }) => [
    atLeast({
      id: "taper",
      measured: m.widthAtEnd,
      needed: m.widthAtNut,
      fine: "The board widens from {needed} at the nut to {measured} at the end.",
      short: "The board narrows from {needed} at the nut to {measured} at the end.",
      mend: "Check the width at the join or at the end.",
      basis: PRACTICE,
      shape: "outline",
    }),
  ],
};

/** Where the margin of one outer string is least, over the nut, all frets on the board, and the end. */
function leastMargin(
  { m, from }: FingerboardSubject,
  which: "bass" | "treble",
): { margin: number; where: string; at: Vec } | undefined {
  const instrument = instrumentOf(from);
  const string = which === "bass" ? instrument.strings[0] : instrument.strings.at(-1);
  if (!string) return undefined;
  const rise = (string.saddle.y - string.nut.y) / string.scale;
  const slope = (m.widthAtEnd - m.widthAtNut) / m.endX;
  const sign = which === "bass" ? -instrument.side : instrument.side;
  const places = [
    ...m.frets.filter((fret) => fret.number === 0 || fret.crownEnds).map((fret) => ({ x: fret[which][0], fret: fret.number })),
    { x: m.endX, fret: undefined },
  ];
  const margins = places.map(({ x, fret }) => {
    const y = string.nut.y + rise * (x - string.nut.x);
    const margin = (m.widthAtNut + slope * x) / 2 - sign * y;
    return { margin, where: fret === undefined ? "the end" : fret === 0 ? "the nut" : `fret ${fret}`, at: vec(x, y) };
  });
  return leastBy(margins, (place) => place.margin);
}

const stringMargin: FingerboardCheck = {
  id: "string-margin",
  title: "Board outside the outer strings",
  limits: {
    least: { label: "Least margin to the middle of a string", value: 2.5, quantity: "length", basis: PRACTICE },
    usual: { label: "Usual margin to the middle of a string", value: 3, quantity: "length", basis: PRACTICE },
  },
  run: (subject) => {
    const { limits } = subject;
    const count = instrumentOf(subject.from).strings.length;
    return (["bass", "treble"] as const).flatMap((which): Finding[] => {
      const least = leastMargin(subject, which);
      if (!least) return [];
      const number = which === "bass" ? count : 1;
      return [
        atLeast({
          id: `string-margin/${which}`,
          measured: least.margin,
          needed: limits["usual"]!,
          stopBelow: limits["least"]!,
          fine: `At least {measured} of board is left outside string ${number}, least at ${least.where}.`,
          short:
            least.margin < 0
              ? `String ${number} runs beside the board at ${least.where}.`
              : `Only {measured} of board is left outside string ${number} at ${least.where}.`,
          mend: "Make the board wider there, or the string spread smaller.",
          basis: PRACTICE,
          at: least.at,
          shape: `string-${number}`,
        }),
      ];
    });
  },
};

const edgeHeight: FingerboardCheck = {
  id: "edge-height",
  title: "Board left at its edges under the arch",
  limits: { least: { label: "Least height of the edge", value: 3, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    if (p.radius === undefined) return [];
    const places = [
      { where: "nut", height: m.edgeHeightAtNut, width: m.widthAtNut, radius: m.radiusAtNut! },
      { where: "end", height: m.edgeHeightAtEnd, width: m.widthAtEnd, radius: m.radiusAtEnd! },
    ];
    const tight = places.find(({ width, radius }) => radius <= width / 2);
    if (tight) {
      return [
        {
          id: "edge-height/radius",
          severity: "stop",
          says: `A radius of {measured} cannot span the board at the ${tight.where}; it takes more than {needed}.`,
          measured: tight.radius,
          needed: tight.width / 2,
          bound: "least",
          quantity: "length",
          basis: GEOMETRY,
          mend: "Make the radius larger.",
        },
      ];
    }
    const least = leastBy(places, (place) => place.height)!;
    return [
      atLeast({
        id: "edge-height",
        measured: least.height,
        needed: limits["least"]!,
        stopBelow: 0,
        fine: "The finished edge is at least {measured} high.",
        short: `The arch leaves {measured} of edge at the ${least.where}.`,
        mend: "Use a thicker board or a larger radius.",
        basis: PRACTICE,
      }),
    ];
  },
};

const bindingHeight: FingerboardCheck = {
  id: "binding-height",
  title: "The binding covers the edge",
  limits: {},
  run: ({ p, m }) => {
    if (m.bindingThickness === 0) return [];
    const needed = Math.max(m.edgeHeightAtNut, m.edgeHeightAtEnd);
    return [
      atLeast({
        id: "binding-height",
        measured: p.bindingHeight,
        needed,
        fine: "The binding of {measured} covers the finished edge of {needed}.",
        short: "The binding of {measured} is lower than the finished edge of {needed}.",
        mend: "Use a higher strip, unless a rebate is meant.",
        basis: GEOMETRY,
      }),
    ];
  },
};

export const outlineChecks: readonly FingerboardCheck[] = [boardShape, taper, stringMargin, edgeHeight, bindingHeight];
