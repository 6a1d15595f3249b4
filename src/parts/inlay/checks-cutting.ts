/** Whether the letters can be cut, and the piece goes into its pocket. */
import type { GuidedRefusal } from "../../lutherie/inlay-template.ts";
import type { Check, Finding, Needed, Outcome } from "../contract.ts";
import { atLeast, fine, GEOMETRY, PRACTICE } from "../finding.ts";
import type { InlayChange, InlayMeasures } from "./measure.ts";
import type { InlayParams } from "./numbers.ts";

type InlayCheck = Check<InlayParams, InlayMeasures>;

const stop = (id: string, says: string, mend: string, more: Needed & Pick<Outcome, "measured" | "quantity"> = {}): Finding => ({
  id,
  severity: "stop",
  says,
  basis: GEOMETRY,
  mend,
  ...more,
});

const letters: InlayCheck = {
  id: "letters",
  title: "There is something to inlay",
  limits: {},
  run: ({ m }) => {
    if (m.trouble) return [stop("letters", `${m.trouble.message}.`, m.trouble.mend)];
    if (m.refused) return [refusedFinding(m.refused)];
    if (m.state === "reading" || m.state === "waiting")
      return [
        {
          id: "letters",
          severity: "look",
          says: "The letters are still being worked out.",
          basis: GEOMETRY,
          mend: "Wait a moment.",
        },
      ];
    if (m.pieceCount === 0)
      return [
        stop(
          "letters",
          "No stroke is as wide as the bit, so that nothing is left to cut.",
          "Take a smaller bit, or make the letters larger.",
        ),
      ];
    return [fine("letters", m.pieceCount === 1 ? "It is one inlay piece." : `It is ${m.pieceCount} inlay pieces.`)];
  },
};

function refusedFinding(refused: GuidedRefusal): Finding {
  const id = "letters";
  switch (refused.why) {
    case "bush":
      return stop(
        id,
        `The bit for the ${refused.cuts === "piece" ? "inlay piece" : "pocket"}, {measured}, does not pass through its bush of {needed}.`,
        "Take a wider bush, or a thinner bit.",
        { measured: refused.bit, needed: refused.bush, bound: "most", quantity: "length" },
      );
    case "blind":
      return stop(
        id,
        "One outside template covers the wood that the pocket has to lose.",
        "Take an inside template, or one for each cut.",
      );
    case "jams":
      return stop(
        id,
        "With these bushes and bits the piece comes out larger than its pocket by {measured} all round.",
        "Let the bush for the inlay piece follow, or change a bit.",
        { measured: refused.by, quantity: "length" },
      );
    case "loose":
      return stop(
        id,
        "With these bushes and bits the gap is {measured}, wider than the smallest corner of {needed}.",
        "Let the bush for the inlay piece follow, or change a bit.",
        { measured: refused.gap, needed: refused.corner, bound: "most", quantity: "length" },
      );
    case "vanishes":
      return stop(
        id,
        "The bush cannot enter: nothing of the letters is as wide as the corners of {measured} that it leaves.",
        "Make the letters larger, or take a smaller bush and bit.",
        { measured: Math.max(refused.outward, refused.inward), quantity: "length" },
      );
  }
}

const fit: InlayCheck = {
  id: "fit",
  title: "The inlay piece goes into its pocket",
  limits: { off: { label: "Gap off by", value: 0.005, quantity: "length", basis: "what a file promises, twice" } },
  run: ({ m, limits }) => {
    if (m.minGap === undefined || m.maxGap === undefined) return [];
    const off = limits["off"]!;
    if ((m.overlap ?? 0) > 1e-4)
      return [stop("fit", "The inlay piece jams in its pocket.", "Make the gap wider, or take a smaller bit for the piece.")];
    if (m.minGap < m.gap - off)
      return [
        {
          id: "fit",
          severity: "look",
          says: "Somewhere the gap is only {measured}, and {needed} was asked for: the piece sits tight there.",
          measured: m.minGap,
          needed: m.gap,
          bound: "least",
          quantity: "length",
          basis: GEOMETRY,
          mend: "Ease that place with a file.",
        },
      ];
    if (m.maxGap > m.gap + off)
      return [
        {
          id: "fit",
          severity: "look",
          says: "Somewhere the gap is {measured}, and {needed} was asked for: glue shows there.",
          measured: m.maxGap,
          needed: m.gap,
          bound: "most",
          quantity: "length",
          basis: GEOMETRY,
          mend: "Take a smaller bit, or bits of one size for pocket and piece.",
        },
      ];
    return [
      {
        ...fine("fit", "The inlay piece has {measured} all round in its pocket, measured on the outlines as they are written."),
        measured: m.minGap,
        quantity: "length",
      },
    ];
  },
};

const strokes: InlayCheck = {
  id: "strokes",
  title: "Every stroke can be cut",
  limits: {},
  run: ({ m }) => {
    if (m.state !== "final" || m.pieceCount === 0) return [];
    const broken = m.changes.filter(({ kind }) => kind === "vanished" || kind === "broken" || kind === "opened");
    const filled = m.changes.filter(({ kind }) => kind === "filled" || kind === "joined" || kind === "pierced");
    const findings = [...broken, ...filled].map((change, i): Finding => changed(change, i, m));
    return findings.length > 0 ? findings : [fine("strokes", "No stroke, piece or counter is lost.")];
  },
};

const CHANGED: Readonly<Record<InlayChange["kind"], string>> = {
  vanished: "vanishes: it is nowhere as wide as the bit",
  broken: "breaks apart: a stroke is thinner than the bit",
  opened: "is cut open: a stroke round its counter is thinner than the bit",
  filled: "loses a counter: the bit for the piece finds no way in",
  joined: "runs together with its neighbour",
  pierced: "gets a hole: a slit closes at its mouth",
};

function changed({ kind, piece, at }: InlayChange, i: number, m: InlayMeasures): Finding {
  const byPocket = kind === "vanished" || kind === "broken" || kind === "opened";
  const keeps = byPocket ? m.cutterForWhole : m.pieceCutterForCounters;
  return {
    id: `strokes/${i + 1}`,
    severity: "look",
    says: `Piece ${piece} ${CHANGED[kind]}.`,
    ...(keeps === undefined
      ? {}
      : { measured: byPocket ? m.pocketCutter : m.pieceCutter, needed: keeps, bound: "most", quantity: "length" as const }),
    basis: GEOMETRY,
    mend: "Take a smaller bit, make the letters larger, or choose a face with stronger strokes.",
    ...(at ? { at } : {}),
  };
}

const corners: InlayCheck = {
  id: "corners",
  title: "Corners keep their points",
  limits: { depth: { label: "Lost from a point", value: 0.6, quantity: "length", basis: PRACTICE } },
  run: ({ m, limits }) => {
    const lost = m.spots.filter(({ kind }) => kind === "lost");
    const [deepest] = lost.toSorted((a, b) => b.depth - a.depth);
    if (!deepest) return m.state === "final" && m.pieceCount > 0 ? [fine("corners", "The bit reaches every corner.")] : [];
    const needed = limits["depth"]!;
    const where = lost.length === 1 ? "At one place" : `At ${lost.length} places`;
    return [
      {
        id: "corners",
        severity: deepest.depth <= needed ? "fine" : "look",
        says: `${where} the bit cannot get into the letters; the deepest is {measured} short.`,
        measured: deepest.depth,
        needed,
        bound: "most",
        quantity: "length",
        basis: PRACTICE,
        mend: deepest.depth <= needed ? "" : "Cut these points by knife, or take a smaller bit.",
        at: deepest.at,
      },
    ];
  },
};

const crossings: InlayCheck = {
  id: "crossings",
  title: "Interlaced letters cross",
  limits: {},
  run: ({ p, m }) => {
    if (p.arrangement !== "interlaced" || p.text.trim() === "" || m.state !== "final" || m.trouble) return [];
    const look = (id: string, says: string, mend: string): Finding => ({ id, severity: "look", says, basis: GEOMETRY, mend });
    const count = m.crossings.length;
    if (count === 0)
      return [look("crossings", "The letters do not cross, so that there is nothing to interlace.", "Let them overlap more.")];
    const none = p.weaveTurned.filter((number) => number > count);
    return none.map((number) =>
      look(
        `crossings/${number}`,
        `Crossing ${number} is to be turned, but there ${count === 1 ? "is only 1" : `are only ${count}`}.`,
        "Take its number out of the turned crossings.",
      ),
    );
  },
};

const thin: InlayCheck = {
  id: "thin",
  title: "Strokes and walls stand",
  limits: {
    stroke: { label: "Thinnest stroke", value: 0.3, quantity: "length", basis: PRACTICE },
    wall: { label: "Thinnest wall of wood", value: 0.4, quantity: "length", basis: PRACTICE },
    breaks: { label: "A wall breaks out under", value: 0.15, quantity: "length", basis: PRACTICE },
  },
  run: ({ m, limits }) => [
    ...(m.narrowest === undefined || m.pieceCount === 0
      ? []
      : [
          atLeast({
            id: "thin/stroke",
            measured: m.narrowest,
            needed: limits["stroke"]!,
            fine: "The thinnest stroke drawn is {measured} thick.",
            short: "The thinnest stroke drawn is {measured} thick: it breaks easily while it is cut.",
            mend: "Make the letters larger, or choose a face with stronger strokes.",
            basis: PRACTICE,
            at: m.narrowestAt,
          }),
        ]),
    ...(m.thinnestWall === undefined
      ? []
      : [
          atLeast({
            id: "thin/wall",
            measured: m.thinnestWall,
            needed: limits["wall"]!,
            stopBelow: limits["breaks"]!,
            fine: "The thinnest wall of wood between pockets is {measured}.",
            short: "A wall of wood between pockets is only {measured} thick and may break out.",
            mend: "Move the letters apart, or let them touch so that they are one piece.",
            basis: PRACTICE,
            at: m.wallAt,
          }),
        ]),
  ],
};

const template: InlayCheck = {
  id: "template",
  title: "The template is strong enough for the bush",
  limits: { neck: { label: "Thinnest place of a template", value: 3, quantity: "length", basis: PRACTICE } },
  run: ({ m, limits }) =>
    m.templateNeck === undefined
      ? []
      : [
          atLeast({
            id: "template",
            measured: m.templateNeck,
            needed: limits["neck"]!,
            fine: "The thinnest place of the template is {measured} across.",
            short: "The template is only {measured} across at its thinnest: it bends or breaks under the bush.",
            mend: "Take smaller bushes, larger letters or more room between them, or choose other templates.",
            basis: PRACTICE,
            at: m.templateNeckAt,
          }),
        ],
};

const passes: InlayCheck = {
  id: "passes",
  title: "The passes clear the pocket",
  limits: {},
  run: ({ m }) => {
    if (m.wayTooLong)
      return [
        {
          id: "passes",
          severity: "look",
          says: "The passes are not worked out: the way of the bit would be longer than 100 m.",
          basis: GEOMETRY,
          mend: "Take a larger step, or a larger bit for the middle.",
        },
      ];
    if (!m.passes) return [];
    return m.passes.missedArea < 0.01
      ? [fine("passes", "The passes clear the whole pocket.")]
      : [
          {
            id: "passes",
            severity: "look",
            says: "Between the passes wood stays standing.",
            basis: GEOMETRY,
            mend: "Bring the passes nearer together: not more than the radius of the bit.",
          },
        ];
  },
};

export const cuttingChecks: readonly InlayCheck[] = [letters, fit, strokes, corners, crossings, thin, template, passes];
