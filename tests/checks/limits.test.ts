import { describe, expect, it } from "vitest";
import type { Design } from "../../src/document/design.ts";
import type { Finding } from "../../src/parts/contract.ts";
import { createDeriver } from "../../src/parts/derive.ts";
import { REGISTRY } from "../../src/parts/registry.ts";
import { designWith, findingsFor } from "./design.ts";

const WHOLE = designWith(["bridge", "headstock", "body", "soundhole", "sides", "bracing", "pickguard", "port", "shape"]);

type Subject = Parameters<(typeof REGISTRY)[number]["checks"][number]["run"]>[0];

/** Checks that ask for what a plain instrument lacks: pairs of strings, two scales, binding, parts that agree less well, hollows. */
const OTHER = designWith(["body", "bridge", "headstock", "shape"], {
  "body.topRadius": "7600 mm",
  "body.binding": [{ thickness: "2.3 mm", height: "6 mm" }],
  "instrument.courses": [2, 2, 2],
  "instrument.bassScale": "26 in",
  "instrument.nutMargin": "2.8 mm",
  "fingerboard.bindingThickness": "2.4 mm",
  "nut.width": "= fingerboard.widthAtNut + 0.5 mm",
  "neck.widthAtNut": "= fingerboard.widthAtNut - 0.5 mm",
  "neck.bars": [{ offset: "16 mm", width: "3.2 mm", depth: "6 mm" }],
  "shape.mirrored": false,
  "shape.outline": [
    [-30, -30],
    [30, -30],
    [30, 0],
    [0, 0],
    [0, 30],
    [-30, 30],
  ].map(([x, y], i) => ({ x, y, rounding: i === 3 ? 4 : 0 })),
});

/** And what only a pointed horn, an end graft and a contour gauge ask for; the trace is an ellipse 0.4 wider than the neck at fret 1. */
const THIRD = designWith(["body", "sides"], {
  "body.cutaway": "pointed",
  "sides.graft": "graft",
  "neck.firstContour": Array.from({ length: 15 }, (_, i) => ({
    across: Math.round(-2290 * Math.cos((Math.PI * (i + 0.25)) / 14.5)) / 100,
    down: Math.round(1515 * Math.sin((Math.PI * (i + 0.25)) / 14.5)) / 100,
  })),
});

interface Caught {
  readonly subject: Subject;
  readonly ask: (subject: Subject) => readonly Finding[];
}
/** What every check is given in all designs, caught on its way, so that it can be asked again with other limits. */
const SUBJECTS = new Map<string, Caught[]>();
const listening = REGISTRY.map((part) => ({
  ...part,
  checks: part.checks.map((check) => ({
    ...check,
    run: (subject: Subject) => {
      const key = `${part.kind}.${check.id}`;
      SUBJECTS.set(key, [...(SUBJECTS.get(key) ?? []), { subject, ask: check.run }]);
      return check.run(subject);
    },
  })),
}));
for (const design of [WHOLE, OTHER, THIRD]) {
  const derived = createDeriver(listening)(design);
  for (const part of [derived.instrument, ...derived.parts]) part.findings();
}

interface Turn {
  /** The limit's value at which a finding is no longer fine. */
  readonly at: number;
  readonly inside: string;
  readonly outside: string;
}

const GRAVITY = ["fine", "look", "stop"];

/**
 * Looks between two values of a limit for the one at which a check turns graver, and closes in on it.
 * @returns undefined where it does not
 */
function turnOf({ subject, ask }: Caught, limit: string, from: number, to: number): Turn | undefined {
  const gravest = (value: number): number =>
    Math.max(
      ...ask({ ...subject, limits: { ...subject.limits, [limit]: value } }).map(({ severity }) => GRAVITY.indexOf(severity)),
    );
  if (gravest(from) === gravest(to)) return undefined;
  const first = gravest(from);
  let [low, high] = [from, to];
  for (let round = 0; round < 40 && Math.abs(high - low) > 1e-9 * Math.max(1, Math.abs(high)); round++) {
    const middle = (low + high) / 2;
    if (gravest(middle) === first) low = middle;
    else high = middle;
  }
  const [a, b] = [gravest(low), gravest(high)].toSorted((x, y) => x - y);
  return { at: (low + high) / 2, inside: GRAVITY[a!]!, outside: GRAVITY[b!]! };
}

const LIMITS = REGISTRY.flatMap((part) =>
  part.checks.flatMap((check) =>
    Object.entries(check.limits).map(([limit, { value, quantity }]) => ({
      kind: part.kind as string,
      check: check.id,
      limit,
      value,
      quantity,
    })),
  ),
);

/** Far enough for any instrument, in the limit's own quantity. */
const FAR = { length: 400, angle: 3, count: 100, number: 100 } as const;

/** Limits of what no design has: an old footprint, a hole at the tail, letters let in. The tests of their own parts turn them. */
const ELSEWHERE: ReadonlySet<string> = new Set([
  "neck.wood-beside",
  "bridge.covers-old",
  "pickguard.covers-old",
  "sides.channel-lining",
  "sides.end-hole",
]);
const isElsewhere = ({ kind, check }: (typeof LIMITS)[number]): boolean => kind === "inlay" || ELSEWHERE.has(`${kind}.${check}`);

describe("the limit of every check", () => {
  it.each(LIMITS.filter((one) => !isElsewhere(one)))(
    "$kind $check $limit: graver just outside of a value than just inside of it",
    ({ kind, check, limit, value, quantity }) => {
      const found = (SUBJECTS.get(`${kind}.${check}`) ?? [])
        .flatMap((caught) => [FAR[quantity], -FAR[quantity]].flatMap((far) => turnOf(caught, limit, value, far) ?? []))
        .at(0);
      expect(found, "nowhere from its usual value does it turn").toBeDefined();
      expect(Math.abs(GRAVITY.indexOf(found!.outside) - GRAVITY.indexOf(found!.inside))).toBeGreaterThan(0);
    },
  );
});

describe("an unrelated number", () => {
  // Nobody reads the spare height of the nut's blank, nor what wire stands over the edges; each is asked against every other part's checks.
  it.each([
    ["nut.spare", "3.5 mm", "nut"],
    ["fingerboard.crownOverhang", "3.1 mm", "fingerboard"],
    ["shape.thickness", "4.4 mm", "shape"],
    ["headstock.plateOverhang", "3.3 mm", "headstock"],
  ])("%s leaves every finding of the other parts alone", (path, value, own) => {
    const changed: Design = designWith(
      ["bridge", "headstock", "body", "soundhole", "sides", "bracing", "pickguard", "port", "shape"],
      { [path]: value },
    );
    const others = (design: Design) => findingsFor(design).filter(({ partId }) => partId !== own);
    expect(others(changed)).toEqual(others(WHOLE));
  });
});
