/** Wood between the pockets of two inlays that lie on one part. */
import type { Layer } from "../drawing/drawing.ts";
import { boundsDistance } from "../geometry/bounds.ts";
import type { Clearance } from "../geometry/clearance.ts";
import { apart } from "../geometry/cover.ts";
import { pathBounds } from "../geometry/measure.ts";
import type { Outline } from "../geometry/outline.ts";
import { compose, inverse, rotation, transformPoint, translation, type Affine } from "../geometry/transform.ts";
import { lerp } from "../geometry/vec.ts";
import type { MeasuresByKind } from "../parts/contract.ts";
import type { Derived, DerivedPart, DesignNumbers } from "../parts/derived.ts";
import { atLeast, PRACTICE } from "../parts/finding.ts";
import { limitsAt } from "../parts/limits.ts";
import { partName } from "../parts/part-name.ts";
import { WHOLE, WHOLE_CHECKS } from "../parts/whole-checks.ts";
import type { PlacedFinding } from "./placed-finding.ts";

const CHECK = "inlays-apart";

/** An inlay, the id of what it is let into, and its pockets as they are drawn there. */
interface Laid {
  readonly part: DerivedPart;
  readonly measures: MeasuresByKind["inlay"];
  readonly host: string;
  readonly layers: readonly Layer[];
}

/** One finding on each of every two inlays of one part, on the earlier one told again, once both are worked out to the end. */
export function inlaysApartFindings(design: DesignNumbers, derived: Derived): readonly PlacedFinding[] {
  const laid = derived.parts.flatMap(laidOf);
  if (laid.length < 2) return [];
  const limits = limitsAt(design, `${WHOLE}.${CHECK}`, WHOLE_CHECKS[CHECK].limits);
  return laid.flatMap((one, i) =>
    laid
      .slice(0, i)
      .filter(({ host }) => host === one.host)
      .flatMap((other) => findingsOfPair(one, other, limits["wall"]!, limits["breaks"]!)),
  );
}

function laidOf(part: DerivedPart): Laid[] {
  if (part.kind !== "inlay" || part.problems.length > 0) return [];
  const measures = part.measures as MeasuresByKind["inlay"];
  if (measures.state !== "final" || measures.pieceCount === 0) return [];
  const lies = part.onHost();
  return lies ? [{ part, measures, host: lies.id, layers: lies.layers }] : [];
}

function findingsOfPair(later: Laid, earlier: Laid, wall: number, breaks: number): PlacedFinding[] {
  const found = nearest(later, earlier);
  return found
    ? [findingOn(later, earlier, found, wall, breaks), { ...findingOn(earlier, later, found, wall, breaks), again: true }]
    : [];
}

function findingOn(one: Laid, other: Laid, { a, b, distance }: Clearance, wall: number, breaks: number): PlacedFinding {
  const overlaps = distance <= 0;
  const name = partName(other.part);
  const finding = atLeast({
    id: `${CHECK}/${other.part.id}`,
    measured: distance,
    needed: wall,
    // Where they meet it is a stop, whatever wall the maker trusts.
    stopBelow: overlaps ? Infinity : breaks,
    fine: overlaps
      ? `Its pocket runs {measured} into that of “${name}”, which your limit allows.`
      : `{measured} of wood is left between its pocket and that of “${name}”.`,
    short: overlaps
      ? `Its pocket runs {measured} into that of “${name}”.`
      : `Only {measured} of wood is left between its pocket and that of “${name}”, and may break out.`,
    mend: "Move one of the two, or let them in as one inlay.",
    basis: PRACTICE,
    at: transformPoint(inverse(placeOf(one)), overlaps ? a : lerp(a, b, 0.5)),
  });
  return { ...finding, ...(overlaps ? { measured: -distance } : {}), partId: one.part.id, partLabel: partName(one.part) };
}

const placeOf = ({ measures: { turnRad, middle } }: Laid): Affine => compose(rotation(turnRad), translation(middle));

const pocketsOf = ({ layers }: Laid): Outline[] =>
  layers.flatMap(({ shapes }) => shapes).map(({ path, holes = [] }) => ({ outer: path, holes }));

/** What is drawn on the host is another object whenever its inlay has moved or changed. */
const kept = new WeakMap<readonly Layer[], WeakMap<readonly Layer[], { readonly found: Clearance | undefined }>>();

/** Where any two of their pockets come nearest to each other, or run deepest into each other; in the frame of what they lie on. */
function nearest(one: Laid, other: Laid): Clearance | undefined {
  const [own, beside] = [one.layers, other.layers];
  const known = kept.get(own)?.get(beside);
  if (known) return known.found;
  const [some, others] = [pocketsOf(one), pocketsOf(other)];
  const pairs = some
    .flatMap((a) => others.map((b) => ({ a, b, far: boundsDistance(pathBounds(a.outer), pathBounds(b.outer)) })))
    .toSorted((first, second) => first.far - second.far);
  let found: Clearance | undefined;
  for (const { a, b, far } of pairs) {
    if (found && far > 0 && far >= found.distance) break;
    const here = apart(a, b);
    if (!found || here.distance < found.distance) found = here;
  }
  if (!kept.has(own)) kept.set(own, new WeakMap());
  kept.get(own)!.set(beside, { found });
  return found;
}
