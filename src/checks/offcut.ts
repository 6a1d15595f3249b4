/** Blanks laid on an offcut: what is laid where, whether it lies within the wood, and what is left. */
import { difference, offsetRings, uniteRings } from "../geometry/clipper.ts";
import type { Bounds } from "../geometry/bounds.ts";
import { flatten } from "../geometry/flatten.ts";
import { pathBounds } from "../geometry/measure.ts";
import type { Path } from "../geometry/path.ts";
import { ringsOf, type Region } from "../geometry/region.ts";
import { compose, rotation, transformOutline, transformPath, translation, type Affine } from "../geometry/transform.ts";
import { vec, type Vec } from "../geometry/vec.ts";
import { depthField } from "../lutherie/offcut-distance.ts";
import { laidAt, lieOf, poseMap, type Lie, type Pose } from "../lutherie/offcut-fit.ts";
import type { Wanted } from "../lutherie/offcut-search.ts";
import type { Finding, MeasuresByKind } from "../parts/contract.ts";
import type { Blank } from "../parts/made-of.ts";
import type { Derived, DerivedPart, DesignNumbers } from "../parts/derived.ts";
import { fine, GEOMETRY } from "../parts/finding.ts";
import { limitsAt } from "../parts/limits.ts";
import { WHOLE, WHOLE_CHECKS } from "../parts/whole-checks.ts";
import { blanksOf, NO_WOOD, type PlacedBlank, type Wood } from "../parts/wood.ts";
import type { PlacedFinding } from "./placed-finding.ts";
import { partName } from "../parts/part-name.ts";

export type { Pose } from "../lutherie/offcut-fit.ts";
export type { Answer, Wanted } from "../lutherie/offcut-search.ts";
export type { Sequence } from "../lutherie/offcut-sequence.ts";

type Offcut = MeasuresByKind["offcut"];

/** Chords of curves keep within this, mm; twice as much is taken off every margin, once for the piece and once for the wood. */
const CHORD = 0.005;

/** The sound wood: within the outline, without the knots. Undefined where there is no outline. */
export function soundWood({ outline, knots }: Offcut): Region | undefined {
  if (!outline) return undefined;
  const ring = flatten(outline, CHORD);
  const holes = uniteRings(knots.map((knot) => flatten(knot, CHORD)));
  const wood = difference(uniteRings([ring]), holes);
  return wood.length > 0 ? wood : undefined;
}

/** A blank's finished piece with its grain along x and the middle of the box round it at the origin. */
export interface OwnPiece {
  readonly outline: Path;
  readonly holes: readonly Path[];
  readonly region: Region;
  readonly size: Bounds;
}

export function ownPiece(blank: Blank, grain: number): OwnPiece {
  const turned = transformPath(rotation(-grain), blank.outline);
  const box = pathBounds(turned);
  const map = compose(rotation(-grain), translation(vec(-(box.minX + box.maxX) / 2, -(box.minY + box.maxY) / 2)));
  const { outer: outline, holes } = transformOutline(map, { outer: blank.outline, holes: blank.holes ?? [] });
  return {
    outline,
    holes,
    region: uniteRings([flatten(outline, CHORD)]),
    size: pathBounds(outline),
  };
}

/** The grain of a blank that has one: what is no wood may be turned any way. */
const grainOf = (wood: Wood): number => (wood.species === NO_WOOD ? 0 : wood.grain);

/** What a search is to lay for a blank on an offcut. */
export function wantedOf({ blank, wood }: PlacedBlank, offcut: Offcut): Wanted | undefined {
  const settled = wood.value;
  if (!settled) return undefined;
  const { region } = ownPiece(blank, grainOf(settled));
  if (region.length === 0) return undefined;
  const any = settled.species === NO_WOOD || offcut.slant >= Math.PI / 2 - 1e-9;
  const turns = any
    ? [{ from: 0, to: 2 * Math.PI }]
    : [offcut.grain, offcut.grain + Math.PI].map((turn) => ({ from: turn - offcut.slant, to: turn + offcut.slant }));
  return { piece: region, margin: settled.allowance + 2 * CHORD, turns, mayFlip: offcut.bothFaces };
}

/** A piece as it lies. */
export interface LaidPiece {
  readonly index: number;
  readonly blankId: string;
  /** Undefined where the design has no such blank, or its numbers cannot be read: then nothing below is there. */
  readonly placed?: PlacedBlank;
  readonly pose: Pose;
  readonly own?: OwnPiece;
  readonly region?: Region;
  /** How it lies in the sound wood, before its allowance. */
  readonly lie?: Lie;
  /** Beyond its allowance; below 0 the blank reaches out of the wood. */
  readonly spare?: number;
}

export const mapOf = (pose: Pose): Affine => poseMap(pose);

/** The pieces laid on an offcut. */
export function laidOn(offcut: Offcut, blanks: readonly PlacedBlank[], wood = soundWood(offcut)): readonly LaidPiece[] {
  const field = wood && depthField(wood);
  return offcut.pieces.map(({ blank: blankId, x, y, turn, flipped }, index): LaidPiece => {
    const pose: Pose = { x, y, turn: offcut.grain + turn, flipped };
    const placed = blanks.find(({ id }) => id === blankId);
    const settled = placed?.wood.value;
    if (!placed || !settled) return { index, blankId, pose };
    const own = ownPiece(placed.blank, grainOf(settled));
    if (own.region.length === 0) return { index, blankId, placed, pose };
    const region = laidAt(own.region, pose);
    const lie = wood && lieOf(wood, region, field);
    return {
      index,
      blankId,
      placed,
      pose,
      own,
      region,
      ...(lie ? { lie, spare: lie.spare - settled.allowance - (lie.spare > 0 ? 2 * CHORD : 0) } : {}),
    };
  });
}

/** Two laid pieces and the wood between their blanks, below 0 where they overlap or no saw cut fits. */
export interface Apart {
  readonly first: LaidPiece;
  readonly second: LaidPiece;
  readonly between: number;
  readonly at: Vec;
}

/** The least wood between the blanks of any two pieces; undefined for fewer than two. */
export function leastApart(laid: readonly LaidPiece[]): Apart | undefined {
  let least: Apart | undefined;
  laid.forEach((first, i) => {
    for (const second of laid.slice(i + 1)) {
      if (!first.region || !second.region) continue;
      // A piece lies apart from another as it lies within all that the other is not.
      const around = outsideOf(second.region, first.region);
      const lie = lieOf(around, first.region);
      const between = lie.spare - (first.placed?.wood.value?.allowance ?? 0) - (second.placed?.wood.value?.allowance ?? 0);
      if (least === undefined || between < least.between) least = { first, second, between, at: lie.at };
    }
  });
  return least;
}

/** A wide rectangle round both, less the first. */
function outsideOf(hole: Region, other: Region): Region {
  const points = [...ringsOf(hole), ...ringsOf(other)].flat();
  const xs = points.map((p) => p.x);
  const ys = points.map((p) => p.y);
  const far = Math.max(...xs) - Math.min(...xs) + (Math.max(...ys) - Math.min(...ys)) + 10;
  const [x0, x1] = [Math.min(...xs) - far, Math.max(...xs) + far];
  const [y0, y1] = [Math.min(...ys) - far, Math.max(...ys) + far];
  const outer = [vec(x0, y0), vec(x1, y0), vec(x1, y1), vec(x0, y1)];
  return difference([{ outer, holes: [] }], hole);
}

/** The wood that laid pieces leave, their allowances and a saw cut round them taken off. */
export const freeWood = (wood: Region, laid: readonly LaidPiece[], kerf: number): Region =>
  laid.reduce((free, { region, placed }) => {
    if (!region) return free;
    return difference(free, offsetRings(region, (placed?.wood.value?.allowance ?? 0) + kerf));
  }, wood);

/** The checks of every offcut of a design. */
export function offcutFindings(design: DesignNumbers, derived: Derived): readonly PlacedFinding[] {
  const offcuts = derived.parts.filter(({ kind, problems }) => kind === "offcut" && problems.length === 0);
  if (offcuts.length === 0) return [];
  const blanks = blanksOf(design, derived);
  return offcuts.flatMap((part) => findingsOn(design, part, blanks));
}

function findingsOn(design: DesignNumbers, part: DerivedPart, blanks: readonly PlacedBlank[]): PlacedFinding[] {
  const offcut = part.measures as Offcut;
  const laid = laidOn(offcut, blanks);
  const { spare: needed = 0 } = limitsAt(design, `${WHOLE}.offcut-place`, WHOLE_CHECKS["offcut-place"].limits);
  const findings = laid.flatMap((piece) => [
    ...placeFinding(piece, needed),
    ...thicknessFinding(piece, offcut),
    ...grainFinding(piece, offcut),
  ]);
  const least = leastApart(laid);
  if (least) findings.push(apartFinding(least, offcut.kerf));
  return findings.map((finding) => ({ ...finding, partId: part.id, partLabel: partName(part) }));
}

type Found = Finding;

const nameOf = ({ placed, blankId }: LaidPiece): string => placed?.blank.title ?? blankId;
const idOf = (check: string, { index }: LaidPiece): string => `${check}/piece-${index + 1}`;

function placeFinding(piece: LaidPiece, needed: number): Found[] {
  const id = idOf("offcut-place", piece);
  if (!piece.placed)
    return [
      {
        id,
        severity: "look",
        says: `Piece ${piece.index + 1} is called ${piece.blankId === "" ? "nothing" : piece.blankId}, and the design has no such blank.`,
        basis: GEOMETRY,
        mend: "Choose one of the design's blanks, or take the piece off.",
      },
    ];
  if (piece.spare === undefined || !piece.lie) return [];
  const name = nameOf(piece);
  const isIn = piece.spare >= needed - 1e-9;
  const at = { at: piece.lie.at };
  if (isIn)
    return [
      {
        ...fine(id, `${name}: lies in the wood with {measured} to spare beyond its allowance.`),
        measured: piece.spare,
        needed,
        bound: "least",
        quantity: "length",
        ...at,
      },
    ];
  const outside = piece.lie.spare <= 0;
  return [
    {
      id,
      severity: outside ? "stop" : "look",
      says: outside
        ? `${name}: the piece itself reaches out of the sound wood by {measured}.`
        : `${name}: {measured} short of its allowance and the spare margin.`,
      measured: outside ? -piece.lie.spare : needed - piece.spare,
      quantity: "length",
      basis: GEOMETRY,
      mend: "Move or turn it, let a place be found, or take other wood.",
      ...at,
    },
  ];
}

function thicknessFinding(piece: LaidPiece, offcut: Offcut): Found[] {
  const wood = piece.placed?.wood.value;
  if (!piece.placed || !wood) return [];
  const { thickness } = piece.placed.blank;
  const needed = thickness + wood.planing;
  const name = nameOf(piece);
  const measured = offcut.thickness;
  const id = idOf("offcut-thickness", piece);
  if (measured >= needed - 1e-9)
    return [
      {
        ...fine(id, `${name}: the wood is {measured} thick, and {needed} is enough.`),
        measured,
        needed,
        bound: "least",
        quantity: "length",
      },
    ];
  return [
    {
      id,
      severity: measured < thickness - 1e-9 ? "stop" : "look",
      says: `${name}: the wood is {measured} thick, and {needed} is needed with what is planed off.`,
      measured,
      needed,
      bound: "least",
      quantity: "length",
      basis: GEOMETRY,
      mend: "Take thicker wood, or plane off less.",
    },
  ];
}

/** The angle between two grains, which have no front and back, from 0 to a right angle. */
function grainBetween(turn: number): number {
  const folded = ((turn % Math.PI) + Math.PI) % Math.PI;
  return Math.min(folded, Math.PI - folded);
}

function grainFinding(piece: LaidPiece, offcut: Offcut): Found[] {
  const wood = piece.placed?.wood.value;
  if (!wood || wood.species === NO_WOOD) return [];
  const measured = grainBetween(piece.pose.turn - offcut.grain);
  const name = nameOf(piece);
  const id = idOf("offcut-grain", piece);
  const common = {
    measured,
    needed: offcut.slant,
    bound: "most" as const,
    quantity: "angle" as const,
    at: vec(piece.pose.x, piece.pose.y),
  };
  if (measured <= offcut.slant + 1e-9)
    return [{ ...fine(id, `${name}: its grain runs {measured} off that of the wood.`), ...common }];
  return [
    {
      id,
      severity: "look",
      says: `${name}: its grain runs {measured} off that of the wood, and {needed} is allowed.`,
      basis: GEOMETRY,
      mend: "Turn the piece, or allow more slant.",
      ...common,
    },
  ];
}

function apartFinding({ first, second, between, at }: Apart, kerf: number): Found {
  const id = "offcut-apart/pieces";
  const common = { measured: between, needed: kerf, bound: "least" as const, quantity: "length" as const, at };
  const names = `${nameOf(first)} and ${nameOf(second)}`;
  if (between >= kerf - 1e-9) return { ...fine(id, `${names}: {measured} between their blanks, enough for the saw.`), ...common };
  return {
    id,
    severity: between < 0 ? "stop" : "look",
    says:
      between < 0
        ? `${names}: their blanks lie over each other.`
        : `${names}: {measured} between their blanks, and the saw takes {needed}.`,
    basis: GEOMETRY,
    mend: "Move them apart.",
    ...common,
  };
}
