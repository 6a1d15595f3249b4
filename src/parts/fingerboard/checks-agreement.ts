/** A file may give more numbers than are free; then they must agree. */
import type { Finding } from "../contract.ts";
import { marginFrom } from "../../lutherie/nut-numbers.ts";
import { GEOMETRY, SAME } from "../finding.ts";
import type { FingerboardCheck } from "./finding.ts";
import { instrumentOf } from "./numbers.ts";

const numbersAgree: FingerboardCheck = {
  id: "numbers-agree",
  title: "Numbers that depend on each other agree",
  limits: {},
  run: ({ p, m, from }) => {
    const instrument = instrumentOf(from);
    const sum = p.binding.reduce((total, layer) => total + layer.thickness, 0);
    const claims: readonly { key: string; what: string; given: number; found: number; applies?: boolean }[] = [
      { key: "width-at-join", what: "The width at the join", given: p.widthAtJoin, found: m.widthAtJoin },
      { key: "width-at-12", what: "The width at fret 12", given: p.widthAt12, found: m.widthAt12 },
      {
        key: "margin-at-join",
        what: "The margin at the join",
        given: p.marginAtJoin,
        found: marginFrom(m.widthAtJoin, instrument.joinSpread, instrument.takenByStrings),
      },
      { key: "overhang", what: "The board beyond the last fret", given: p.overhang, found: m.overhang },
      { key: "binding", what: "The binding as a whole", given: p.bindingThickness, found: sum, applies: p.binding.length > 0 },
    ];
    const wrong = claims.filter(({ given, found, applies }) => applies !== false && Math.abs(given - found) > SAME);
    if (wrong.length === 0) {
      return [
        {
          id: "numbers-agree",
          severity: "fine",
          says: "Widths, lengths and layers agree with each other.",
          basis: GEOMETRY,
          mend: "",
        },
      ];
    }
    return wrong.map(({ key, what, given, found }): Finding => ({
      id: `numbers-agree/${key}`,
      severity: "stop",
      says: `${what} is given as {measured}; the other numbers make it {needed}.`,
      measured: given,
      needed: found,
      bound: "same",
      quantity: "length",
      basis: GEOMETRY,
      mend: "Take back one of the numbers that are given too many.",
    }));
  },
};

export const agreementChecks: readonly FingerboardCheck[] = [numbersAgree];
