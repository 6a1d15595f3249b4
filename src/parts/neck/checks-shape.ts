/** Width, section and bend; the head's scarf. */
import { add, scale, vec, type Vec } from "../../geometry/vec.ts";
import { NECK_SHAPES } from "../../lutherie/neck-section.ts";
import type { Finding } from "../contract.ts";
import { GEOMETRY, PRACTICE, SAME, atLeast, fine } from "../finding.ts";
import { atFret, whereIs, type NeckCheck } from "./finding.ts";
import { modelOf, type Flaw, type NeckModel } from "./model.ts";
import { fretX, type NeckParams } from "./numbers.ts";
import { onSideView } from "./section-row.ts";
import { headFrame } from "./side.ts";

const FLAWS: Readonly<Record<Flaw, { readonly says: string; readonly mend: string }>> = {
  "one-fret": { says: "The neck is measured twice at one fret.", mend: "Measure it at two frets some way apart." },
  "no-depth": {
    says: "No wood is left under the board somewhere along the neck.",
    mend: "Check the two depths; they are measured with the board.",
  },
  "no-width": { says: "The neck has no width left somewhere.", mend: "Check its widths at the nut and at the join." },
  lean: { says: "The deepest line of the back lies outside the neck.", mend: "Bring it nearer to the centre line." },
};

const neckShape: NeckCheck = {
  id: "neck-shape",
  title: "The back of the neck can be made",
  limits: {},
  run: ({ p, from }) => {
    const model = modelOf(p, from);
    const { flaws, first, second } = model;
    const findings = flaws.map((flaw): Finding => ({
      id: `neck-shape/${flaw}`,
      severity: "stop",
      ...FLAWS[flaw],
      basis: GEOMETRY,
      shape: "outline",
    }));
    if (findings.length > 0) return findings;
    // At the nut a thick head's bend may already add to it.
    const [near, far] = [atFret(Math.min(p.firstFret, p.secondFret)), atFret(Math.max(p.firstFret, p.secondFret))];
    return [
      atLeast({
        id: "neck-shape",
        measured: second.depth,
        needed: first.depth,
        fine: `The wood deepens from {needed} ${near} to {measured} ${far}.`,
        short: `The wood is thinner ${far} ({measured}) than ${near} ({needed}).`,
        mend: "Check which depth was measured where.",
        basis: PRACTICE,
        at: onSideView(model, first.x, -first.depth),
        shape: "side-outline",
      }),
    ];
  },
};

const shoulders: NeckCheck = {
  id: "shoulders",
  title: "The shoulders fit what was measured",
  limits: { miss: { label: "Greatest miss half way down", value: 0.2, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, from, limits }) => {
    const model = modelOf(p, from);
    return (["first", "second"] as const).map((which): Finding => {
      const id = `shoulders/${which}`;
      const x = fretX(model.instrument, p[`${which}Fret`]);
      const place = atFret(p[`${which}Fret`]);
      const width = m.places.find(({ fret }) => fret === p[`${which}Fret`])?.width ?? model.widthAt(x);
      const got = (width / 2) * (share(p[`${which}Fullness`]) + share(p[`${which}TrebleFullness`]));
      const miss = Math.abs(got - p[`${which}HalfWayWidth`]);
      if (miss <= limits["miss"]!)
        return fine(id, `The shoulders ${place} fit the width half way down.`, GEOMETRY, "side-outline");
      return {
        id,
        severity: "look",
        says: `Half way down ${place} the neck was measured {measured} wide; with shoulders that a neck can have it comes to {needed}.`,
        measured: p[`${which}HalfWayWidth`],
        needed: got,
        bound: "same",
        quantity: "length",
        basis: GEOMETRY,
        mend: "Measure the width half way between the underside of the board and the back once more.",
      };
    });
  },
};

const share = (exponent: number): number => (1 - 2 ** -exponent) ** (1 / exponent);

const boardWidth: NeckCheck = {
  id: "board-width",
  title: "Neck and board are equally wide",
  limits: {
    most: { label: "Greatest difference", value: 0.2, quantity: "length", basis: PRACTICE },
    stop: { label: "Difference that is a stop", value: 1, quantity: "length", basis: PRACTICE },
  },
  run: ({ p, m, from, limits }) => {
    const board = from.get("fingerboard");
    if (!board) return [];
    const model = modelOf(p, from);
    const places = [
      { key: "nut", where: "at the nut", neck: model.widthAt(0), board: board.widthAtNut, x: 0 },
      { key: "join", where: "at the join", neck: model.widthAt(m.joinX), board: board.widthAtJoin, x: m.joinX },
    ];
    const off = places.filter((place) => Math.abs(place.neck - place.board) > limits["most"]! + 1e-9);
    if (off.length === 0)
      return [fine("board-width", "The neck is as wide as the board at the nut and at the join.", PRACTICE, "outline")];
    return off.map((place): Finding => ({
      id: `board-width/${place.key}`,
      severity: Math.abs(place.neck - place.board) > limits["stop"]! + 1e-9 ? "stop" : "look",
      says: `The neck is {measured} wide ${place.where} and the board {needed}.`,
      measured: place.neck,
      needed: place.board,
      bound: "same",
      quantity: "length",
      basis: PRACTICE,
      mend: "Take back the neck's own width, so that it follows the board.",
      at: vec(place.x, place.neck / 2),
      shape: "outline",
    }));
  },
};

const bend: NeckCheck = {
  id: "bend",
  title: "The bend into the head stays behind the first depth",
  limits: {},
  run: ({ p, m, from }) => {
    const model = modelOf(p, from);
    const reach = p.volute > 0 ? Math.max(m.bendTo, model.profile.corner + p.voluteLength / 2) : m.bendTo;
    const room = model.first.x - reach;
    return [
      atLeast({
        id: "bend",
        measured: room,
        needed: 0,
        stopBelow: 0,
        fine: `The bend into the head ends {measured} before ${firstPlace(p.firstFret, p.secondFret)}, where the depth is given.`,
        short: `The bend into the head, with its volute, reaches past ${firstPlace(p.firstFret, p.secondFret)}, where the depth is given.`,
        mend: "Make the bend or the volute shorter, the head thinner, or measure the neck at a higher fret.",
        basis: GEOMETRY,
        at: onSideView(model, reach, -model.profile.depthAt(reach)),
        shape: "side-outline",
      }),
    ];
  },
};

const firstPlace = (first: number, second: number): string => {
  const fret = Math.min(first, second);
  return fret === 0 ? "the nut" : `fret ${fret}`;
};

const scarfLine: NeckCheck = {
  id: "scarf-nut",
  title: "The scarf's glue line clears the nut",
  limits: { least: { label: "Least from the nut to the glue line", value: 10, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, from, limits }) => {
    if (m.scarfFromNut === undefined) return [];
    const model = modelOf(p, from);
    const downFace = (m.scarfFromNut - (m.nutX - m.headX)) * Math.cos(p.headTilt);
    const x = p.scarf === "board" ? m.nutX + m.scarfFromNut : m.headX - Math.min(downFace, 0.9 * p.headLength);
    const where = p.scarf === "board" ? "under the board" : "on the head's face";
    return [
      atLeast({
        id: "scarf-nut",
        measured: m.scarfFromNut,
        needed: limits["least"]!,
        stopBelow: 0,
        fine: `The scarf's glue line comes out ${where}, {measured} from the nut.`,
        short: `The scarf's glue line comes out ${where}, only {measured} from the nut.`,
        mend: "Lessen the tilt, or use a thicker blank or head.",
        basis: PRACTICE,
        at: onSideView(model, x, -model.faceFall(x)),
        shape: "side-outline",
      }),
    ];
  },
};

const blank: NeckCheck = {
  id: "blank",
  title: "The neck comes out of its blank",
  limits: {},
  run: ({ p, m, from }) => {
    if (p.scarf === "none") return [];
    const model = modelOf(p, from);
    // From the nut to the heel, where it is built up in layers; behind the nut the head's own piece begins.
    const [nut, ...others] = m.places;
    const shaft = others.filter(({ x }) => x <= model.heel.from);
    const deepest = shaft.reduce((a, b) => (b.depth > a.depth ? b : a), nut!);
    const needed = Math.max(deepest.depth, m.headWood);
    return [
      atLeast({
        id: "blank",
        measured: p.blankThickness,
        needed,
        stopBelow: needed,
        fine: "The blank of {measured} holds the neck's wood of {needed}.",
        short: `The blank is {measured} thick, and ${deepest.depth >= m.headWood ? `the neck {needed} ${whereIs(model, deepest.x)}` : "the head {needed}"}.`,
        mend: "Use a thicker blank.",
        basis: GEOMETRY,
        at: onSideView(model, deepest.x, -deepest.depth),
        shape: "side-outline",
      }),
    ];
  },
};

const HEAD_LEAST = 8;
const headWood: NeckCheck = {
  id: "head-wood",
  title: "Wood left in the head under its plate",
  limits: { least: { label: "Least wood of the head", value: HEAD_LEAST, quantity: "length", basis: PRACTICE } },
  run: ({ p, from, limits }) => [
    atLeast({
      id: "head-wood",
      measured: p.headThickness - p.headplate,
      needed: limits["least"]!,
      stopBelow: 1 + SAME,
      fine: "The head has {measured} of wood under its plate.",
      short: "The head has only {measured} of wood under its plate.",
      mend: "Make the head thicker or the headplate thinner.",
      basis: PRACTICE,
      at: inHead(p, modelOf(p, from)),
      shape: "side-outline",
    }),
  ],
};

/** Half way along the head, in the middle of its wood. */
function inHead(p: NeckParams, model: NeckModel): Vec {
  const { start, down, into } = headFrame(p, model);
  const at = add(start, add(scale(down, p.headLength / 2), scale(into, model.headWood / 2)));
  return onSideView(model, at.x, at.y);
}

/** How near a number is to the name given for it, for the summary. */
export function shapeWord(fullness: number): string {
  const names = Object.entries(NECK_SHAPES) as [string, number][];
  return names.reduce((a, b) => (Math.abs(b[1] - fullness) < Math.abs(a[1] - fullness) ? b : a))[0];
}

export const shapeChecks: readonly NeckCheck[] = [neckShape, shoulders, boardWidth, bend, scarfLine, blank, headWood];
