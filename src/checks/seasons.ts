/** How the wood of a design moves from the shop's air to the player's, piece by piece and pair by pair. */
import { equilibriumMoisturePct } from "../lutherie/equilibrium-moisture.ts";
import {
  coefficientAcross,
  movementRule,
  pairMovement,
  pieceMovement,
  type Cut,
  type MoistureChange,
  type MovementRule,
  type PairMovement,
  type WoodPiece,
} from "../lutherie/wood-movement.ts";
import { movementWords, pairWords, type ShowLength } from "../lutherie/wood-movement-words.ts";
import { woodSpecies, type WoodSpecies } from "../lutherie/wood-species.ts";
import { pathBounds } from "../geometry/measure.ts";
import { rotation, transformPath } from "../geometry/transform.ts";
import { PRACTICE } from "../parts/finding.ts";
import type { Derived, DesignNumbers } from "../parts/derived.ts";
import { limitsAt } from "../parts/limits.ts";
import { WHOLE, WHOLE_CHECKS } from "../parts/whole-checks.ts";
import {
  blanksOf,
  jointsOf,
  NO_WOOD,
  seasonsOf,
  type PlacedBlank,
  type PlacedJoint,
  type Seasons,
  type Wood,
} from "../parts/wood.ts";
import type { PlacedFinding } from "./placed-finding.ts";

export type { WoodSpecies } from "../lutherie/wood-species.ts";
export { WOOD_SPECIES } from "../lutherie/wood-species.ts";

export type Season = "dry" | "damp";
export const SEASONS: readonly Season[] = ["dry", "damp"];

/** Moisture of the wood in percent, in the shop and at the player's. */
export interface Air {
  readonly shopPct: number;
  readonly dryPct: number;
  readonly dampPct: number;
}

/** The moisture that wood settles at in each air (Wood Handbook, Eq. 4-5). */
export const airOf = (seasons: Seasons): Air => ({
  shopPct: equilibriumMoisturePct(seasons.shopC, seasons.shopHumidityPct),
  dryPct: equilibriumMoisturePct(seasons.homeC, seasons.dryHumidityPct),
  dampPct: equilibriumMoisturePct(seasons.homeC, seasons.dampHumidityPct),
});

export const changeTo = (air: Air, season: Season): MoistureChange => ({
  fromPct: air.shopPct,
  toPct: season === "dry" ? air.dryPct : air.dampPct,
});

/** A blank that moves: its size across the grain and what that size does. */
export interface MovingPiece {
  readonly placed: PlacedBlank;
  readonly species: WoodSpecies;
  readonly wood: Wood;
  /** Across the grain, of the finished piece, mm. */
  readonly across: number;
  readonly coefficient: number;
  /** Growth across the grain, below 0 shrinking, mm. */
  readonly moved: Readonly<Record<Season, number>>;
  readonly rule: Readonly<Record<Season, MovementRule>>;
}

/** A glued pair and what the first would do against the second, were they free. */
export interface MovingPair {
  readonly placed: PlacedJoint;
  readonly first: MovingPiece;
  readonly second: MovingPiece;
  readonly moved: Readonly<Record<Season, PairMovement>>;
  /** The season in which the corners would slide farther. */
  readonly worse: Season;
}

export interface Movement {
  readonly seasons: Seasons;
  readonly air: Air;
  readonly pieces: readonly MovingPiece[];
  readonly pairs: readonly MovingPair[];
}

/** What moves in a design; undefined while a number of the seasons cannot be read. A blank whose numbers cannot be read is left out. */
export function movementOf(design: DesignNumbers, derived: Derived): Movement | undefined {
  const seasons = seasonsOf(design, derived).value;
  if (!seasons) return undefined;
  const air = airOf(seasons);
  const blanks = blanksOf(design, derived);
  const pieces = blanks.flatMap((placed) => movingPiece(placed, air) ?? []);
  const named = (placed: PlacedBlank): MovingPiece | undefined => pieces.find((piece) => piece.placed.id === placed.id);
  const pairs = jointsOf(derived, blanks).flatMap((placed): MovingPair[] => {
    const first = named(placed.first);
    const second = named(placed.second);
    return first && second ? [movingPair(placed, first, second, air)] : [];
  });
  return { seasons, air, pieces, pairs };
}

const both = <T>(work: (season: Season) => T): Readonly<Record<Season, T>> => ({ dry: work("dry"), damp: work("damp") });

function movingPiece(placed: PlacedBlank, air: Air): MovingPiece | undefined {
  const wood = placed.wood.value;
  const species = wood && wood.species !== NO_WOOD ? woodSpecies(wood.species) : undefined;
  if (!wood || !species) return undefined;
  const box = pathBounds(transformPath(rotation(-wood.grain), placed.blank.outline));
  const across = box.maxY - box.minY;
  const along = { species, cut: wood.sawn satisfies Cut, grain: 0 };
  return {
    placed,
    species,
    wood,
    across,
    coefficient: coefficientAcross(species, wood.sawn),
    moved: both((season) => pieceMovement(along, { x: 0, y: across }, changeTo(air, season)).y),
    rule: both((season) => movementRule(changeTo(air, season))),
  };
}

const pieceOf = ({ species, wood }: MovingPiece): WoodPiece => ({ species, cut: wood.sawn, grain: wood.grain });

function movingPair(placed: PlacedJoint, first: MovingPiece, second: MovingPiece, air: Air): MovingPair {
  const glued = { x: placed.joint.along, y: placed.joint.across };
  const moved = both((season) => pairMovement(pieceOf(first), pieceOf(second), glued, changeTo(air, season)));
  return { placed, first, second, moved, worse: moved.damp.corner > moved.dry.corner ? "damp" : "dry" };
}

/** How a piece's movement comes about, sentence by sentence. */
export const wordsOfPiece = (piece: MovingPiece, air: Air, season: Season, show: ShowLength): readonly string[] =>
  movementWords(pieceOf(piece), piece.across, changeTo(air, season), show);

/** What a pair wants to do, sentence by sentence. */
export function wordsOfPair(
  { placed, first, second }: MovingPair,
  air: Air,
  season: Season,
  show: ShowLength,
): readonly string[] {
  const name = ({ blank }: PlacedBlank): string => blank.title.charAt(0).toLowerCase() + blank.title.slice(1);
  return pairWords(
    { ...pieceOf(first), name: name(placed.first) },
    { ...pieceOf(second), name: name(placed.second) },
    { x: placed.joint.along, y: placed.joint.across },
    changeTo(air, season),
    show,
  );
}

const HANDBOOK = "Wood Handbook, FPL-GTR-282, ch. 4 and 13";
const BETWEEN = { dry: "in the driest air", damp: "in the dampest air" } as const;

/** One finding a glued pair, on the part that says it. */
export function seasonFindings(design: DesignNumbers, derived: Derived): readonly PlacedFinding[] {
  const movement = movementOf(design, derived);
  if (!movement) return [];
  const limits = limitsAt(design, `${WHOLE}.seasons`, WHOLE_CHECKS.seasons.limits);
  return movement.pairs.map((pair) => {
    const { joint, first } = pair.placed;
    const slide = pair.moved[pair.worse].corner;
    const needed = joint.crossed ? limits["crossed"]! : limits["slide"]!;
    const isFine = slide <= needed + 1e-9;
    const severity = isFine ? "fine" : !joint.crossed && slide > limits["tear"]! + 1e-9 ? "stop" : "look";
    return {
      id: `seasons/${joint.name}`,
      severity,
      says: isFine
        ? `${joint.title}: ${BETWEEN[pair.worse]} the two would slide by {measured} at the corners, and the glue holds them.`
        : `${joint.title}: ${BETWEEN[pair.worse]} the two would slide by {measured} at the corners if they were free; more than {needed} bends or tears.`,
      measured: slide,
      needed,
      bound: "most",
      quantity: "length",
      basis: `${HANDBOOK}; the limit is ${PRACTICE}`,
      mend: isFine
        ? ""
        : "Lay the grain of both the same way, take woods that move alike, or glue them in the middle of the seasons.",
      shape: "outline",
      partId: first.partId,
      partLabel: first.partLabel,
    };
  });
}
