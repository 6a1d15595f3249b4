/** Frets and slots against the board and its binding. */
import { vec } from "../../geometry/vec.ts";
import { GEOMETRY, PRACTICE, atLeast, leastBy } from "../finding.ts";
import type { FingerboardCheck } from "./finding.ts";
import { frameOf, outlinesOf } from "./measure.ts";
import { instrumentOf } from "./numbers.ts";
import { at } from "./shapes.ts";

const fretsOnBoard: FingerboardCheck = {
  id: "frets-on-board",
  title: "All frets lie on the board",
  limits: { least: { label: "Least board behind the last fret", value: 3, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, from, limits }) => {
    const instrument = instrumentOf(from);
    const frets = m.frets.slice(1);
    const lost = frets.filter((fret) => !fret.crownEnds);
    if (lost.length > 0) {
      const first = lost[0]!;
      return [
        {
          id: "frets-on-board",
          severity: "stop",
          says:
            lost.length === 1
              ? `Fret ${first.number}, {measured} from the nut, lies beyond the end of the board at {needed}.`
              : `${lost.length} frets lie beyond the end of the board at {needed}, the first of them fret ${first.number}, {measured} from the nut.`,
          measured: first.fromNut,
          needed: m.endX,
          bound: "most",
          quantity: "length",
          basis: GEOMETRY,
          mend: "Make the board longer or leave out frets.",
          at: vec(first.fromNut, 0),
        },
      ];
    }
    const last = frets.at(-1);
    const { bound } = outlinesOf(p, frameOf(p, instrument));
    if (!last?.crownEnds || !bound) return [];
    const corners = instrument.side === 1 ? [bound.lowEnd, bound.highEnd] : [bound.highEnd, bound.lowEnd];
    const behind = Math.min(m.overhang, ...last.crownEnds.map((end, i) => corners[i]!.x - end[0]));
    return [
      atLeast({
        id: "frets-on-board",
        measured: behind,
        needed: limits["least"]!,
        stopBelow: p.crownWidth / 2,
        fine: `All frets lie on the board, with at least {measured} behind fret ${last.number}.`,
        short: `Only {measured} of board is left behind fret ${last.number}.`,
        mend: "Make the board longer.",
        basis: PRACTICE,
        at: at(last.treble),
        shape: `fret-${last.number}`,
      }),
    ];
  },
};

const slotDepths: FingerboardCheck = {
  id: "slot-depth",
  title: "Wood left below the slots",
  limits: { least: { label: "Least wood below a slot", value: 1.5, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    const deepest = leastBy(
      m.frets.filter((fret) => fret.slotEnds),
      (fret) => -fret.slotDepth,
    );
    if (!deepest) return [];
    return [
      atLeast({
        id: "slot-depth",
        measured: p.thickness - deepest.slotDepth,
        needed: limits["least"]!,
        stopBelow: 0,
        fine: "At least {measured} of board is left below the slots.",
        short:
          deepest.slotDepth > p.thickness
            ? `The slot of fret ${deepest.number} goes through the board.`
            : `Only {measured} of board is left below the slot of fret ${deepest.number}.`,
        mend: "Use a thicker board, a shorter tang or a larger radius.",
        basis: PRACTICE,
        at: vec(deepest.fromNut, 0),
        shape: `fret-${deepest.number}`,
      }),
    ];
  },
};

const tangs: FingerboardCheck = {
  id: "tang-binding",
  title: "Tangs end inside the binding",
  limits: { least: { label: "Least wood between tang and binding", value: 0.3, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    const cut = m.frets.filter((fret) => fret.slot > 0);
    const shortest = leastBy(cut, (fret) => fret.tang);
    if (!shortest || (m.bindingThickness === 0 && p.tangClearance === 0)) return [];
    if (shortest.tang === 0) {
      return [
        {
          id: "tang-binding/tang",
          severity: "stop",
          says: `Nothing is left of the tang of fret ${shortest.number}: it is nipped by {measured} at both ends of a slot of {needed}.`,
          measured: p.tangClearance,
          needed: shortest.slot,
          bound: "most",
          quantity: "length",
          basis: GEOMETRY,
          mend: "Nip less off the tangs, or make the slots longer.",
          shape: `fret-${shortest.number}`,
        },
      ];
    }
    if (m.bindingThickness === 0) return [];
    return [
      atLeast({
        id: "tang-binding",
        measured: p.tangClearance + (p.slots === "stopped" ? p.slotStop : 0),
        needed: limits["least"]!,
        fine: "Tangs end {measured} short of the binding.",
        short: "Tangs end only {measured} short of the binding and may push it off.",
        mend: "Nip the tangs shorter or stop the slots further in.",
        basis: PRACTICE,
      }),
    ];
  },
};

export const fretChecks: readonly FingerboardCheck[] = [fretsOnBoard, slotDepths, tangs];
