/** The chain of heights from the join to the saddle. */
import type { Finding } from "../contract.ts";
import { GEOMETRY, PRACTICE, SAME, atLeast, fine } from "../finding.ts";
import type { NeckCheck } from "./finding.ts";
import { stringTop } from "./heights.ts";
import { modelOf } from "./model.ts";
import { instrumentOf } from "./numbers.ts";
import { onSideView } from "./section-row.ts";

const DEGREE = Math.PI / 180;

const chain: NeckCheck = {
  id: "heights-agree",
  title: "Heights and pitch agree",
  limits: {},
  run: ({ p, m, from }) => {
    const findings: Finding[] = [];
    const model = modelOf(p, from);
    if (Math.abs(m.chainMiss) > SAME)
      findings.push({
        id: "heights-agree/saddle",
        severity: "stop",
        says: "Bridge and saddle are given as {measured}; pitch, board and action make it {needed}.",
        measured: m.stringsOverTop,
        needed: m.stringsOverTop - m.chainMiss,
        bound: "same",
        quantity: "length",
        basis: GEOMETRY,
        mend: "Take back one of the five numbers of the chain.",
        at: onSideView(model, m.saddleX, stringTop(m)),
        shape: "side-saddle",
      });
    const board = from.get("fingerboard");
    if (board && Math.abs(board.thickness - p.boardThickness) > SAME)
      findings.push({
        id: "heights-agree/board",
        severity: "stop",
        says: "The heights ask for a board of {needed}, and the fingerboard is {measured} thick.",
        measured: board.thickness,
        needed: p.boardThickness,
        bound: "same",
        quantity: "length",
        basis: GEOMETRY,
        mend: "Give the fingerboard that thickness, or let another height follow.",
        at: onSideView(model, m.joinX, model.board),
        shape: "side-board",
      });
    return findings.length > 0
      ? findings
      : [fine("heights-agree", "Pitch, board, action, bridge and saddle agree.", GEOMETRY, "side-string")];
  },
};

const pitch: NeckCheck = {
  id: "pitch",
  title: "The pitch is one that can be built",
  limits: {
    least: { label: "Least pitch", value: -2 * DEGREE, quantity: "angle", basis: PRACTICE },
    most: { label: "Greatest pitch", value: 3 * DEGREE, quantity: "angle", basis: PRACTICE },
  },
  run: ({ p, m, from, limits }) => {
    const steep = m.pitchRad > limits["most"]! + 1e-12;
    const back = m.pitchRad < limits["least"]! - 1e-12;
    return [
      {
        id: "pitch",
        severity: steep || back ? "look" : "fine",
        says: steep
          ? "The frets' plane rises by {measured} towards the saddle."
          : back
            ? "The frets' plane falls towards the saddle: {measured}."
            : "The pitch is {measured}.",
        measured: m.pitchRad,
        ...(steep || back
          ? { needed: limits[steep ? "most" : "least"]!, bound: steep ? ("most" as const) : ("least" as const) }
          : { needed: limits["least"]!, bound: "between" as const, upTo: limits["most"]! }),
        quantity: "angle",
        basis: PRACTICE,
        mend: steep || back ? "Change the bridge or the saddle." : "",
        at: onSideView(modelOf(p, from), m.joinX, m.fretPlane),
        shape: "side-fret-plane",
      },
    ];
  },
};

const saddle: NeckCheck = {
  id: "saddle-height",
  title: "The saddle stands out of the bridge by enough and not too much",
  limits: {
    least: { label: "Least saddle over the bridge", value: 1.5, quantity: "length", basis: PRACTICE },
    most: { label: "Greatest saddle over the bridge", value: 6, quantity: "length", basis: PRACTICE },
  },
  run: ({ p, m, from, limits }) => {
    const [lowest, highest] = [...m.saddleTop]
      .toSorted((a, b) => a.overBridge - b.overBridge)
      .reduce<readonly [(typeof m.saddleTop)[number] | undefined, (typeof m.saddleTop)[number] | undefined]>(
        (ends, point) => [ends[0] ?? point, point],
        [undefined, undefined],
      );
    if (!lowest || !highest) return [];
    const at = onSideView(modelOf(p, from), m.saddleX, stringTop(m));
    return [
      atLeast({
        id: "saddle-height/least",
        measured: lowest.overBridge,
        needed: limits["least"]!,
        stopBelow: 0,
        fine: `The saddle stands at least {measured} over the bridge, least under string ${lowest.string}.`,
        short:
          lowest.overBridge < 0
            ? `Under string ${lowest.string} the saddle's top lies below the bridge's, by {measured} over it.`
            : `Under string ${lowest.string} the saddle stands only {measured} over the bridge.`,
        mend: "Make the bridge thinner, the pitch less, or the action higher.",
        basis: PRACTICE,
        at,
        shape: "side-saddle",
      }),
      {
        id: "saddle-height/most",
        severity: highest.overBridge > limits["most"]! ? "look" : "fine",
        says: `The saddle stands at most {measured} over the bridge, under string ${highest.string}.`,
        measured: highest.overBridge,
        needed: limits["most"]!,
        bound: "most",
        quantity: "length",
        basis: PRACTICE,
        mend: highest.overBridge > limits["most"]! ? "Make the bridge thicker or the pitch greater." : "",
        at,
        shape: "side-saddle",
      },
    ];
  },
};

const arch: NeckCheck = {
  id: "saddle-arch",
  title: "The board's arch carried on spans the strings at the saddle",
  limits: {},
  run: ({ p, m, from }) => {
    const board = from.get("fingerboard");
    if (m.saddleRadius === undefined || !board?.radiusAtNut) return [];
    const { radiusAtNut, radiusAtEnd = radiusAtNut, endX } = board;
    const carried = radiusAtNut + ((radiusAtEnd - radiusAtNut) * m.saddleX) / endX;
    const farthest = Math.max(0, ...instrumentOf(from).strings.map(({ saddle: s }) => Math.abs(s.y)));
    const good = carried > 1.05 * farthest;
    return [
      {
        id: "saddle-arch",
        severity: good ? "fine" : "stop",
        says: good
          ? "The board's arch comes to a radius of {measured} at the saddle."
          : "The board's arch comes to a radius of {measured} at the saddle and does not reach the outer strings; it takes more than {needed}.",
        measured: carried,
        needed: 1.05 * farthest,
        bound: "least",
        quantity: "length",
        basis: GEOMETRY,
        mend: good ? "" : "Make the board's radius larger, or larger towards its end.",
        at: onSideView(modelOf(p, from), m.saddleX, stringTop(m)),
        shape: "side-saddle",
      },
    ];
  },
};

const extension: NeckCheck = {
  id: "extension",
  title: "The board over the body neither digs in nor hangs in the air",
  limits: {
    dig: { label: "Deepest dig into the top", value: 0.5, quantity: "length", basis: PRACTICE },
    gap: { label: "Widest gap over the top", value: 3, quantity: "length", basis: PRACTICE },
  },
  run: ({ p, m, from, limits }) => {
    const board = from.get("fingerboard");
    if (!board || board.endX <= m.joinX) return [];
    const model = modelOf(p, from);
    const at = onSideView(model, Math.max(model.nutX, board.endX), 0);
    const base = { quantity: "length", basis: PRACTICE, at, shape: "side-board" } as const;
    if (-m.extensionLeast > limits["dig"]!)
      return [
        {
          ...base,
          id: "extension",
          severity: "look",
          says: "The board digs into the top by up to {measured}.",
          measured: -m.extensionLeast,
          needed: limits["dig"]!,
          bound: "most",
          mend: "Plane the top flat there, or raise the pitch.",
        },
      ];
    if (m.extensionMost > limits["gap"]!)
      return [
        {
          ...base,
          id: "extension",
          severity: "look",
          says: "Under the board's end over the top a gap of up to {measured} opens.",
          measured: m.extensionMost,
          needed: limits["gap"]!,
          bound: "most",
          mend: "Glue a wedge under the board there, or lessen the pitch.",
        },
      ];
    return [
      {
        ...base,
        ...fine(
          "extension",
          m.extensionGap < 0
            ? "The board's end lies {measured} into the top."
            : "Under the board's end a gap of {measured} is left over the top.",
          PRACTICE,
        ),
        measured: Math.abs(m.extensionGap),
        needed: m.extensionGap < 0 ? limits["dig"]! : limits["gap"]!,
        bound: "most",
      },
    ];
  },
};

export const heightChecks: readonly NeckCheck[] = [chain, pitch, saddle, arch, extension];
