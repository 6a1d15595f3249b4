/** Whether the port has wood round it, and whether the side's curve lets it be cut as drawn. */
import type { Check, Finding } from "../contract.ts";
import { GEOMETRY, PRACTICE, atLeast, fine } from "../finding.ts";
import { outlineFindings } from "../outline-findings.ts";
import type { Least, PortMeasures } from "./measure.ts";
import type { PortParams } from "./numbers.ts";

type PortCheck = Check<PortParams, PortMeasures>;
const DEGREE = Math.PI / 180;

const outline: PortCheck = {
  id: "outline",
  title: "The port has an outline on the side",
  limits: {},
  run: ({ m }) =>
    outlineFindings(
      { whole: m.flat !== undefined, crossings: m.crossings, troubles: m.troubles },
      {
        fine: "The port lies on the side, and its outline is whole.",
        crosses: "The outline of the port crosses itself.",
        none: `There is no port: ${m.fault}.`,
        mend: "Check its place and its length, or set at least three points.",
      },
    ),
};

const edges: PortCheck = {
  id: "port-edges",
  title: "Side is left between port and linings",
  limits: { least: { label: "Least side between port and lining", value: 8, quantity: "length", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    const needed = Math.max(limits["least"]!, p.ringWidth);
    const finding = (id: string, where: string, room: Least | undefined): Finding[] =>
      room
        ? [
            atLeast({
              id: `port-edges/${id}`,
              measured: room.distance,
              needed,
              stopBelow: 0,
              fine: `{measured} of side is left between the port and the lining at the ${where}.`,
              short:
                room.distance < 0
                  ? `The port cuts into the lining at the ${where}.`
                  : p.ringWidth >= limits["least"]!
                    ? `Between the port and the lining at the ${where} only {measured} is left, and the backing ring takes {needed}.`
                    : `Only {measured} of side is left between the port and the lining at the ${where}.`,
              mend: "Move the port, make it narrower across the side, or the ring narrower.",
              basis: PRACTICE,
              at: room.at,
              shape: "outline",
            }),
          ]
        : [];
    return [...finding("top", "top", m.toTop), ...finding("back", "back", m.toBack)];
  },
};

const ends: PortCheck = {
  id: "port-ends",
  title: "The port keeps clear of the blocks",
  limits: { least: { label: "Least side between port and block", value: 15, quantity: "length", basis: PRACTICE } },
  run: ({ m, limits }) =>
    m.toBlock
      ? [
          atLeast({
            id: "port-ends",
            measured: m.toBlock.distance,
            needed: limits["least"]!,
            stopBelow: 0,
            fine: "The port keeps {measured} from the nearer block or end of the side.",
            short:
              m.toBlock.distance < 0
                ? "The port runs into a block, or over the end of the side."
                : "The port comes within {measured} of a block or of the end of the side.",
            mend: "Move the port along the side, or make it shorter.",
            basis: PRACTICE,
            at: m.toBlock.at,
            shape: "outline",
          }),
        ]
      : [],
};

const curve: PortCheck = {
  id: "port-curve",
  title: "A flat template can be followed on the curve",
  limits: {
    gap: { label: "Widest gap under a flat template", value: 4, quantity: "length", basis: PRACTICE },
    lean: { label: "Greatest lean of the wall", value: 20 * DEGREE, quantity: "angle", basis: PRACTICE },
    misfit: { label: "Greatest misfit of a wrapped outline", value: 0.5, quantity: "length", basis: PRACTICE },
  },
  run: ({ m, limits }) => {
    if (!m.flat) return [];
    const end = { x: m.length / 2, y: 0 };
    const hollow = m.bends === "in";
    const gap = limits["gap"]!;
    const lean = limits["lean"]!;
    const misfit = limits["misfit"]!;
    const over = (value: number, most: number): "look" | "fine" => (value > most + 1e-9 ? "look" : "fine");
    const gapOver = over(m.gap, gap);
    const leanOver = over(m.leanRad, lean);
    const misfitOver = over(m.misfit, misfit);
    return [
      {
        id: "port-curve/gap",
        severity: gapOver,
        says: hollow
          ? "The side is hollow here: a flat template stands on its ends, with a gap of {measured} in the middle."
          : "Under the ends of a flat template that touches in the middle the side falls away by {measured}.",
        measured: m.gap,
        needed: gap,
        bound: "most",
        quantity: "length",
        basis: GEOMETRY,
        mend:
          gapOver === "fine"
            ? ""
            : "Make the port shorter, move it to a flatter place, or shape the template's underside to the side.",
        at: end,
        shape: "outline",
      },
      {
        id: "port-curve/lean",
        severity: leanOver,
        says: "A wall cut square to the template leans by {measured} against the side at the port's ends.",
        measured: m.leanRad,
        needed: lean,
        bound: "most",
        quantity: "angle",
        basis: GEOMETRY,
        mend: leanOver === "fine" ? "" : "Make the port shorter, or dress its ends square to the side by file.",
        at: end,
        shape: "outline",
      },
      {
        id: "port-curve/misfit",
        severity: misfitOver,
        says: "Along the face the opening is longer than on its template: {measured} at each end at most.",
        measured: m.misfit,
        needed: misfit,
        bound: "most",
        quantity: "length",
        basis: GEOMETRY,
        mend:
          misfitOver === "fine" ? "" : "Mark the side from the wrapped outline and cut by the flat one, or keep to one of them.",
        at: end,
        shape: "wrapped",
      },
    ];
  },
};

const insert: PortCheck = {
  id: "insert-blank",
  title: "The insert comes out of its blank",
  limits: {},
  run: ({ p, m }) => {
    if (p.fill !== "insert" || !m.flat) return [];
    if (p.blank === undefined)
      return [
        {
          ...fine("insert-blank", "Shaped to the side, the insert takes a blank at least {measured} thick.", GEOMETRY, "outline"),
          measured: m.insertBlank,
          quantity: "length",
        },
      ];
    return [
      atLeast({
        id: "insert-blank",
        measured: p.blank,
        needed: m.insertBlank,
        stopBelow: m.insertBlank,
        fine: "The blank of {measured} is thick enough; the insert takes {needed}.",
        short: "The blank is {measured} thick, and an insert shaped to the side takes {needed}.",
        mend: "Use a thicker blank, a thinner insert, or bend the insert as the side was bent.",
        basis: GEOMETRY,
        shape: "outline",
      }),
    ];
  },
};

const ring: PortCheck = {
  id: "ring",
  title: "The backing ring is whole",
  limits: {},
  run: ({ p, m }) => {
    if (!m.flat) return [];
    if (p.ringWidth === 0)
      return [
        {
          id: "ring",
          severity: "look",
          says: "The port has no backing ring: a thin side splits along its grain from such an opening.",
          basis: PRACTICE,
          mend: "Glue a ring inside before the port is cut.",
          shape: "outline",
        },
      ];
    if (m.ringInner && m.ringOuter) return [fine("ring", "A ring inside the side backs the port all round.", PRACTICE, "ring")];
    return [
      {
        id: "ring",
        severity: "stop",
        says: "No ring with these widths goes round the port.",
        basis: GEOMETRY,
        mend: "Let it reach less far into the port, or open the hollows of the outline.",
        shape: "outline",
      },
    ];
  },
};

const air: PortCheck = {
  id: "air",
  title: "What the port does to the air resonance",
  limits: { most: { label: "Greatest rise of the air resonance, %", value: 25, quantity: "number", basis: PRACTICE } },
  run: ({ p, m, limits }) => {
    if (m.rise === undefined) return [];
    const pct = (m.rise - 1) * 100;
    const high = pct > limits["most"]! + 1e-9;
    return [
      {
        id: "air",
        severity: high ? "look" : "fine",
        says: `With the port open the air resonance lies about ${Math.round(pct)} % higher than with it closed: a stiff-box estimate, for comparing one port with another.`,
        measured: pct,
        needed: limits["most"]!,
        bound: "most",
        quantity: "number",
        basis: "Helmholtz resonance of a stiff box with several holes; textbook",
        mend: high ? (p.fill === "insert" ? "Pierce the insert less, or make the port smaller." : "Make the port smaller.") : "",
        shape: "outline",
      },
    ];
  },
};

export const portChecks: readonly PortCheck[] = [outline, edges, ends, curve, insert, ring, air];
