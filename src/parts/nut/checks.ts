/** Whether a nut can be made as it stands. */
import type { Check, Finding } from "../contract.ts";
import { PRACTICE } from "../finding.ts";
import { instrumentOf, type NutMeasures } from "./measure.ts";
import type { NutParams } from "./params.ts";

type NutCheck = Check<NutParams, NutMeasures>;

const width: NutCheck = {
  id: "nut-width",
  title: "The nut is as wide as the board",
  limits: {
    most: { label: "Greatest difference", value: 0.2, quantity: "length", basis: PRACTICE },
    trim: { label: "Most that is filed off a proud nut", value: 2, quantity: "length", basis: PRACTICE },
  },
  run: ({ m, from, limits }) => {
    const board = from.get("fingerboard");
    if (!board) return [];
    const wider = m.width - board.boundWidthAtNut;
    const off = Math.abs(wider) > limits["most"]!;
    return [
      {
        id: "nut-width",
        severity: !off ? "fine" : Math.abs(wider) > limits["trim"]! ? "stop" : "look",
        says: off ? "The nut is {measured} wide and the board {needed}." : "The nut is as wide as the board, {needed}.",
        measured: m.width,
        needed: board.boundWidthAtNut,
        bound: "same",
        quantity: "length",
        basis: PRACTICE,
        mend: off ? "Take back the nut's own width, so that it follows the board." : "",
        shape: "outline",
      },
    ];
  },
};

const walls: NutCheck = {
  id: "slot-walls",
  title: "Material left beside the slots",
  limits: {
    between: { label: "Least between two slots", value: 0.8, quantity: "length", basis: PRACTICE },
    outside: { label: "Least outside the outer slots", value: 2, quantity: "length", basis: PRACTICE },
  },
  run: ({ m, limits }) => {
    const findings: Finding[] = [];
    const say = (id: string, measured: number, needed: number, where: string, mend: string, shape: string): void => {
      const severity = measured < 0 ? "stop" : measured < needed - 1e-9 ? "look" : "fine";
      findings.push({
        id,
        severity,
        says: severity === "fine" ? `At least {measured} is left ${where}.` : `Only {measured} is left ${where}.`,
        measured,
        needed,
        bound: "least",
        quantity: "length",
        basis: PRACTICE,
        mend: severity === "fine" ? "" : mend,
        shape,
      });
    };
    let least: { wall: number; string: number } | undefined;
    m.slots.forEach((slot, i) => {
      const next = m.slots[i + 1];
      if (!next) return;
      const wall = Math.abs(next.along - slot.along) - (next.width + slot.width) / 2;
      if (!least || wall < least.wall) least = { wall, string: next.string };
    });
    if (least) {
      const where = `between the slots of strings ${least.string} and ${least.string + 1}`;
      say(
        "slot-walls/between",
        least.wall,
        limits["between"]!,
        where,
        "Set the strings further apart at the nut.",
        `slot-${least.string}`,
      );
    }
    const outer = m.slots.map((slot) => ({ slot, wall: m.length / 2 - Math.abs(slot.along) - slot.width / 2 }));
    const tight = outer.toSorted((a, b) => a.wall - b.wall)[0];
    if (tight) {
      const where = `outside the slot of string ${tight.slot.string}`;
      say(
        "slot-walls/outside",
        tight.wall,
        limits["outside"]!,
        where,
        "Make the margin at the nut wider.",
        `slot-${tight.slot.string}`,
      );
    }
    return findings;
  },
};

const top: NutCheck = {
  id: "nut-top",
  title: "The top of the nut holds the strings",
  limits: {},
  run: ({ m, from }) => {
    const strings = instrumentOf(from).strings;
    if (strings.length === 0) return [];
    const above = m.topAtEnds + m.seatDepth;
    const fine = above > 0;
    return [
      {
        id: "nut-top",
        severity: fine ? "fine" : "stop",
        says: fine
          ? "The ends of the nut stand {measured} above its seat."
          : "The arch of the top falls below the seat at the ends.",
        measured: above,
        needed: 0,
        bound: "least",
        quantity: "length",
        basis: "geometry",
        mend: fine ? "" : "Use a larger radius on the board or a deeper seat.",
        shape: "outline",
      },
    ];
  },
};

export const nutChecks: readonly NutCheck[] = [width, walls, top];
