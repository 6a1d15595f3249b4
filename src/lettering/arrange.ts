/** Where letters stand beside each other: numbers only. Lengths in mm, the baseline along x, letters upright along y. */
import { joinBounds, type Bounds } from "../geometry/bounds.ts";
import { rotation, translation, type Affine } from "../geometry/transform.ts";
import { vec, type Vec } from "../geometry/vec.ts";

export type Arrangement =
  | { readonly kind: "row" }
  /**
   * Along a circle of `radius`. Outside: over the top of it, feet to the centre. Inside: along the bottom of it, heads to the centre. Read
   * from the left either way.
   */
  | { readonly kind: "arc"; readonly radius: number; readonly side: "outside" | "inside" }
  /** One under the other, `gap` between the lowest of one and the highest of the next; less than 0 where they overlap. */
  | { readonly kind: "stacked"; readonly gap: number }
  /** In a row, each beginning `overlap` before the one to its left ends. */
  | { readonly kind: "overlapped"; readonly overlap: number };

/** One letter as the arrangement sees it, measured from the middle of its baseline at its own size. */
export interface Block {
  readonly advance: number;
  /** Room that the pair with the next letter takes or gives. */
  readonly kern: number;
  /** Least box round what is drawn; a space draws nothing. */
  readonly ink: Bounds | undefined;
}

/**
 * Where the middle of each letter's baseline comes: x along the baseline, y above it. What is drawn lies evenly on both sides of x = 0; of
 * stacked letters it lies about y = 0 too. `tracking` is added between neighbours in a row or on an arc.
 */
export function arrange(blocks: readonly Block[], arrangement: Arrangement, tracking: number): Vec[] {
  switch (arrangement.kind) {
    case "row":
    case "arc":
      return centred(blocks, inRow(blocks, tracking), "x");
    case "overlapped":
      return centred(blocks, overlapped(blocks, arrangement.overlap), "x");
    case "stacked":
      return centred(blocks, stacked(blocks, arrangement.gap), "y");
  }
}

function inRow(blocks: readonly Block[], tracking: number): Vec[] {
  let pen = 0;
  return blocks.map(({ advance, kern }) => {
    const middle = pen + advance / 2;
    pen += advance + kern + tracking;
    return vec(middle, 0);
  });
}

function overlapped(blocks: readonly Block[], overlap: number): Vec[] {
  let start = 0;
  return blocks.map(({ ink }) => {
    if (!ink) return vec(start, 0);
    const middle = start - ink.minX;
    start = middle + ink.maxX - overlap;
    return vec(middle, 0);
  });
}

function stacked(blocks: readonly Block[], gap: number): Vec[] {
  let top = 0;
  return blocks.map(({ ink }) => {
    if (!ink) return vec(0, top);
    const base = top - ink.maxY;
    top = base + ink.minY - gap;
    return vec(-(ink.minX + ink.maxX) / 2, base);
  });
}

function centred(blocks: readonly Block[], places: readonly Vec[], along: "x" | "y"): Vec[] {
  const box = inkOf(blocks, places);
  const off = along === "x" ? vec((box.minX + box.maxX) / 2, 0) : vec(0, (box.minY + box.maxY) / 2);
  return places.map((place) => vec(place.x - off.x, place.y - off.y));
}

/** The least box round what is drawn of all blocks, before any of it is bent. At least one block must draw something. */
export const inkOf = (blocks: readonly Block[], places: readonly Vec[]): Bounds =>
  joinBounds(
    blocks.flatMap(({ ink }, i) => {
      const { x, y } = places[i]!;
      return ink ? [{ minX: x + ink.minX, minY: y + ink.minY, maxX: x + ink.maxX, maxY: y + ink.maxY }] : [];
    }),
  );

/** Carries what stands about the origin, upright, to its place along the baseline: a move, and on an arc a turn. */
export function frameAt(arrangement: Arrangement, place: Vec): Affine {
  if (arrangement.kind !== "arc") return translation(place);
  const away = arrangement.side === "outside" ? -1 : 1;
  return rotation((away * place.x) / arrangement.radius, vec(0, away * arrangement.radius));
}

/** The centre of the arc, whose baseline has its middle at the origin. */
export const arcCentre = (arrangement: Arrangement): Vec | undefined =>
  arrangement.kind === "arc" ? vec(0, arrangement.side === "outside" ? -arrangement.radius : arrangement.radius) : undefined;
