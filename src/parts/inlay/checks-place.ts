/** Whether the inlay has room where it lies. */
import type { Check, Finding } from "../contract.ts";
import { atLeast, fine, GEOMETRY, PRACTICE } from "../finding.ts";
import type { Margin } from "./margins.ts";
import type { InlayMeasures } from "./measure.ts";
import type { InlayParams } from "./numbers.ts";

type InlayCheck = Check<InlayParams, InlayMeasures>;

const WORDS: Readonly<Record<InlayParams["on"], string>> = {
  none: "part",
  headstock: "headstock",
  fingerboard: "fingerboard",
  pickguard: "pickguard",
  bridge: "bridge",
  shape: "free shape",
};

const host: InlayCheck = {
  id: "host",
  title: "It lies on a part",
  limits: {},
  run: ({ m }) => {
    const look = (says: string, mend: string): Finding => ({ id: "host", severity: "look", says, basis: GEOMETRY, mend });
    if (m.on === "none") return [fine("host", "It is not let into a part yet.")];
    if (!m.hasHost)
      return [
        look(
          `There is no ${WORDS[m.on]} with an outline to let it into.`,
          "Add that part, mend its outline, or let the inlay into another.",
        ),
      ];
    if (m.misplaced !== undefined)
      return [look(`It is not placed as asked: ${m.misplaced}.`, "Choose another fret, or place it another way.")];
    return [fine("host", `It lies on the ${WORDS[m.on]}.`)];
  },
};

const margins: InlayCheck = {
  id: "margin",
  title: "It keeps clear of edges, holes, frets and strings",
  limits: {
    edge: { label: "To the edge", value: 2, quantity: "length", basis: PRACTICE },
    hole: { label: "To a hole or marker", value: 1.5, quantity: "length", basis: PRACTICE },
    fret: { label: "To the middle of a fret", value: 1.6, quantity: "length", basis: PRACTICE },
    string: { label: "To a string over the head", value: 0, quantity: "length", basis: PRACTICE },
    saddle: { label: "To the saddle's middle", value: 3.5, quantity: "length", basis: PRACTICE },
  },
  run: ({ m, limits }) => {
    const { edge, hole, fret, string, saddle } = m.margins;
    const one = (key: string, margin: Margin | undefined, stopBelow: number, thing: string): Finding[] =>
      margin
        ? [
            atLeast({
              id: `margin/${key}`,
              measured: margin.distance,
              needed: limits[key]!,
              stopBelow,
              fine: `The pocket keeps {measured} from ${thing}.`,
              short:
                margin.distance < 0
                  ? `The pocket runs {measured} over ${thing}.`
                  : `The pocket comes within {measured} of ${thing}.`,
              mend: "Move the inlay, or make it smaller.",
              basis: PRACTICE,
              at: margin.at,
            }),
          ].map((finding) => (margin.distance < 0 ? { ...finding, measured: -margin.distance } : finding))
        : [];
    return [
      ...one("edge", edge, 0.5, "the edge"),
      ...one("hole", hole, 0, m.on === "fingerboard" ? "a marker" : "a hole"),
      ...one("fret", fret, 0.3, fret?.from ?? ""),
      ...stringOver(string, limits["string"]!),
      ...one("saddle", saddle, 1.2, "the middle of the saddle"),
    ];
  },
};

/** A string over the letters hides them, no more. */
function stringOver(string: Margin | undefined, needed: number): Finding[] {
  if (!string) return [];
  const clear = string.distance >= needed - 1e-9;
  return [
    {
      id: "margin/string",
      severity: clear ? "fine" : "look",
      says: clear
        ? "No string runs over the letters."
        : `The ${string.from.replace(/^string/, "string number")} runs over the letters.`,
      basis: PRACTICE,
      mend: clear ? "" : "Move the letters clear of the strings if they are to be read.",
      at: string.at,
    },
  ];
}

const depth: InlayCheck = {
  id: "depth",
  title: "Wood is left under the pocket",
  limits: {
    left: { label: "Wood left", value: 0.6, quantity: "length", basis: PRACTICE },
    through: { label: "Breaks through under", value: 0.25, quantity: "length", basis: PRACTICE },
  },
  run: ({ p, m, limits }) => {
    const findings: Finding[] = [];
    const opening = p.method === "bush" && p.templates === "one-outside";
    if (m.depthLeft !== undefined && !opening)
      findings.push(
        atLeast({
          id: "depth",
          measured: m.depthLeft,
          needed: limits["left"]!,
          stopBelow: limits["through"]!,
          fine: "Under the pocket {measured} is left.",
          short: m.depthLeft <= 0 ? "The pocket goes right through." : "Under the pocket only {measured} is left.",
          mend: "Make the pocket shallower, or what it is let into thicker.",
          basis: PRACTICE,
          at: m.pocketAt,
        }),
      );
    findings.push(
      atLeast({
        id: "depth/piece",
        measured: p.pieceThickness,
        needed: p.depth,
        fine: "The material of the inlay piece, {measured} thick, fills the pocket.",
        short: "The material of the inlay piece is only {measured} thick and lies below the surface.",
        mend: "Make the pocket shallower, or take thicker material.",
        basis: GEOMETRY,
      }),
    );
    return findings;
  },
};

export const placeChecks: readonly InlayCheck[] = [host, margins, depth];
