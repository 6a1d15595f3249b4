import { joinBounds, type Bounds } from "../geometry/bounds.ts";
import { pathsBounds } from "../geometry/measure.ts";
import type { Path } from "../geometry/path.ts";
import type { Region } from "../geometry/region.ts";
import { compose, rotation, scaling, transformPath, transformPoint, translation, type Affine } from "../geometry/transform.ts";
import { ORIGIN, vec, type Vec } from "../geometry/vec.ts";
import type { Outline } from "../geometry/outline.ts";
import type { Result } from "../units/result.ts";
import { arcCentre, arrange, frameAt, inkOf, type Arrangement, type Block } from "./arrange.ts";
import type { Face } from "./face.ts";
import { kernBetween } from "./kerning.ts";
import { joinedOutlines, joinRegions, shapeOf, type LetterShape } from "./letter-shape.ts";
import { checkNumbers, type LetterSpec, type Nudge } from "./letter-spec.ts";
import { sizeForWidth } from "./size-for-width.ts";
import { trouble, type Trouble } from "./trouble.ts";
import { typedLetters, type TypedLetter } from "./typed-letters.ts";

/** One letter in its place. */
export interface PlacedLetter extends LetterShape {
  /** Which letter of the text it is, counted from 0 as typed. */
  readonly index: number;
  readonly character: string;
  /** The middle of its baseline, and how it is turned there. */
  readonly middle: Vec;
  readonly turn: number;
  readonly bounds: Bounds;
}

/**
 * Letters as shapes, mm. The baseline runs along x with the middle of the drawing at the origin; of an arc the middle of its baseline lies
 * there, of stacked letters the middle of their box.
 */
export interface Lettering {
  /** From left to right, spaces left out. Their shapes may overlap. */
  readonly letters: readonly PlacedLetter[];
  /** All letters united. */
  readonly region: Region;
  readonly bounds: Bounds;
  /** Undefined where the face does not know the height of its capitals. */
  readonly capHeight: number | undefined;
  readonly em: number;
  /** Centre of the arc on which the baseline runs. */
  readonly centre: Vec | undefined;
}

/** All letters united, as true curves: a letter that meets no other keeps its own, what has run together is fitted anew (within 0.01 mm). */
export const joinedCurves = ({ region, letters }: Lettering): Outline[] => joinedOutlines(region, letters);

/** Largest extent of letters, mm: no instrument is longer. */
const LARGEST = 3000;

/**
 * The letters of a text in a face, as closed shapes. Refused with a reason: text that this face or this program cannot set (a character that
 * the face lacks is named, never replaced), and sizes that the arrangement cannot have. Throws RangeError for numbers outside their domain.
 */
export function setLetters(spec: LetterSpec, face: Face): Result<Lettering, Trouble> {
  checkNumbers(spec);
  const typed = typedLetters(spec.text, face);
  if (!typed.ok) return typed;
  const row = spec.arrangement.kind === "row" || spec.arrangement.kind === "arc";
  const letters = typed.value.filter(({ isSpace }) => row || !isSpace).map((letter) => loosen(letter, spec));
  const size = sizeOf(spec, face, letters);
  if (!size.ok) return size;
  const k = size.value;
  const layout = layOut(letters, spec, face, k);
  if (!layout) return tooLongForArc();

  const placed: PlacedLetter[] = [];
  for (const [i, loose] of letters.entries()) {
    if (loose.letter.isSpace) continue;
    const frame = compose(nudged(loose.nudge), frameAt(spec.arrangement, layout[i]!));
    const place = compose(loose.local(k), frame);
    const paths = loose.letter.glyph.contours.map((path) => transformPath(place, path));
    const box = pathsBounds(paths);
    if (Math.max(box.maxX - box.minX, box.maxY - box.minY, Math.abs(box.minX), Math.abs(box.maxX)) > LARGEST) return tooLarge();
    const shape = shapeOf(paths);
    if (shape.region.length === 0)
      return trouble("size", `At this size nothing is left of ${loose.letter.character}`, "Make the letters larger.");
    placed.push({
      ...shape,
      index: loose.letter.index,
      character: loose.letter.character,
      middle: transformPoint(frame, ORIGIN),
      turn: Math.atan2(frame.b, frame.a),
      bounds: box,
    });
  }
  const bounds = joinBounds(placed.map((letter) => letter.bounds));
  let joined: Region | undefined;
  if (Math.max(bounds.maxX - bounds.minX, bounds.maxY - bounds.minY) > LARGEST) return tooLarge();
  return {
    ok: true,
    value: {
      letters: placed,
      // Not every caller asks for it.
      get region() {
        return (joined ??= joinRegions(placed.map(({ region }) => region)));
      },
      bounds,
      capHeight: face.capHeight === undefined ? undefined : face.capHeight * k,
      em: face.unitsPerEm * k,
      centre: arcCentre(spec.arrangement),
    },
  };
}

/** One letter on its way: its box at one mm a font unit, and the map that sets it upright about the origin at a size. */
interface Loose {
  readonly letter: TypedLetter;
  readonly nudge: Nudge | undefined;
  readonly scale: number;
  readonly ink: Bounds | undefined;
  readonly local: (k: number) => Affine;
}

function loosen(letter: TypedLetter, spec: LetterSpec): Loose {
  const nudge = spec.nudges.find((entry) => entry.letter === letter.index);
  const scale = nudge?.scale ?? 1;
  const lean: Affine = { a: 1, b: 0, c: Math.tan(spec.slant), d: 1, e: 0, f: 0 };
  const local = (k: number): Affine => compose(translation(vec(-letter.glyph.advance / 2, 0)), scaling(k * scale), lean);
  const contours = letter.isSpace ? [] : letter.glyph.contours;
  const ink = contours.length > 0 ? pathsBounds(contours.map((path) => transformPath(local(1), path))) : undefined;
  return { letter, nudge, scale, ink, local };
}

const nudged = (nudge: Nudge | undefined): Affine =>
  nudge ? compose(rotation(nudge.turn), translation(vec(nudge.dx, nudge.dy))) : translation(ORIGIN);

function blocksOf(letters: readonly Loose[], spec: LetterSpec, face: Face, k: number): Block[] {
  return letters.map(({ letter, scale, ink }, i) => {
    const next = letters[i + 1];
    const kern = spec.kerning && next ? (kernOf(face, letter, next.letter) * (scale + next.scale)) / 2 : 0;
    return {
      advance: letter.glyph.advance * scale * k,
      kern: kern * k,
      ink: ink && { minX: ink.minX * k, minY: ink.minY * k, maxX: ink.maxX * k, maxY: ink.maxY * k },
    };
  });
}

/** Pairs are named in the order of reading, which may run from the right. */
const kernOf = ({ kerning }: Face, left: TypedLetter, right: TypedLetter): number =>
  left.index < right.index
    ? kernBetween(kerning, left.glyph.index, right.glyph.index)
    : kernBetween(kerning, right.glyph.index, left.glyph.index);

/** Where the letters come at a size of `k` mm a font unit; undefined where they do not fit on the arc. */
function layOut(letters: readonly Loose[], spec: LetterSpec, face: Face, k: number): Vec[] | undefined {
  const blocks = blocksOf(letters, spec, face, k);
  const places = arrange(blocks, spec.arrangement, spec.tracking);
  if (spec.arrangement.kind !== "arc") return places;
  const { radius, side } = spec.arrangement;
  const box = inkOf(blocks, places);
  const reach = side === "outside" ? -box.minY : box.maxY;
  return box.maxX - box.minX <= 2 * Math.PI * radius && reach < radius ? places : undefined;
}

/** Size in mm a font unit. */
function sizeOf(spec: LetterSpec, face: Face, letters: readonly Loose[]): Result<number, Trouble> {
  const { by, value } = spec.size;
  if (by === "em") return { ok: true, value: value / face.unitsPerEm };
  if (by === "cap-height")
    return face.capHeight === undefined
      ? trouble("size", "This face does not say how high its capitals are", "Give the em or the overall width.")
      : { ok: true, value: value / face.capHeight };
  const widthAt = (k: number): number | undefined => {
    const places = layOut(letters, spec, face, k);
    if (!places) return undefined;
    const box =
      spec.arrangement.kind === "arc"
        ? bentBox(letters, places, spec.arrangement, k)
        : inkOf(blocksOf(letters, spec, face, k), places);
    return box.maxX - box.minX;
  };
  const k = sizeForWidth(widthAt, value, value / (face.unitsPerEm * letters.length));
  if (k !== undefined) return { ok: true, value: k };
  return spec.arrangement.kind === "arc"
    ? trouble("size", "No size of letter gives this overall width on this arc", "Give another width, or a larger radius.")
    : trouble("size", "No size of letter gives this overall width", "Give a larger width, or space the letters less.");
}

function bentBox(letters: readonly Loose[], places: readonly Vec[], arrangement: Arrangement, k: number): Bounds {
  const paths: Path[] = [];
  for (const [i, loose] of letters.entries()) {
    if (loose.letter.isSpace) continue;
    const map = compose(loose.local(k), frameAt(arrangement, places[i]!));
    paths.push(...loose.letter.glyph.contours.map((path) => transformPath(map, path)));
  }
  return pathsBounds(paths);
}

const tooLongForArc = () =>
  trouble("size", "The letters find no room on the circle of this radius", "Make them smaller, or the radius larger.");

const tooLarge = () => trouble("size", `The letters would reach further than ${LARGEST / 1000} m`, "Make them smaller.");
