/**
 * The shape of an inlay as its maker drew it: letters, figures and outlines united, about the middle of the letters with their line along x.
 * Of letters in a row or on an arc the middle lies half a capital over their feet.
 */
import { drawOutline } from "../../geometry/drawn/outline.ts";
import { pathsBounds } from "../../geometry/measure.ts";
import { pathsOf, type Outline } from "../../geometry/outline.ts";
import type { Path } from "../../geometry/path.ts";
import { SvgFault } from "../../geometry/svg/fault.ts";
import { nested } from "../../geometry/svg/nesting.ts";
import { readPathData } from "../../geometry/svg/path-data.ts";
import {
  carryPath,
  compose,
  rotation,
  scaling,
  transformOutline,
  transformPath,
  transformPoint,
  translation,
  type Affine,
} from "../../geometry/transform.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { interlace } from "../../lettering/interlace.ts";
import { faceOfFew } from "../../lettering/few-letters.ts";
import { joinedOutlines, joinRegions, shapeOf, type LetterShape } from "../../lettering/letter-shape.ts";
import { setLetters } from "../../lettering/lettering.ts";
import { border, drawn, lozenge, ring, spot, star } from "../../lettering/ornaments.ts";
import { trouble, type Trouble } from "../../lettering/trouble.ts";
import { outlinesOf } from "../../geometry/refit.ts";
import type { Region, Ring } from "../../geometry/region.ts";
import type { Result } from "../../units/result.ts";
import { same } from "../same.ts";
import { namedCrossings, type InlayCrossing } from "./crossings.ts";
import type { FigureNumbers, Ornament } from "./numbers.ts";
import type { LettersQuestion } from "./question.ts";

export interface DrawnShape {
  readonly region: Region;
  readonly outlines: readonly Outline[];
  /** Where interlaced letters cross. */
  readonly crossings: readonly InlayCrossing[];
  /** Undefined where there are no letters, or the face does not know it. */
  readonly capHeight: number | undefined;
}

/** What was drawn last: while cutter, gap or depth are dragged the shape stays the same, and with it all that is kept by it. */
let last:
  | {
      readonly letters: LettersQuestion | undefined;
      readonly figures: FigureNumbers;
      readonly drawn: Result<DrawnShape, Trouble>;
    }
  | undefined;

/** Refused with a reason where letters, figures or outlines cannot be had, or nothing is drawn at all. The same object if the last question was the same. */
export function drawShape(letters: LettersQuestion | undefined, figures: FigureNumbers): Result<DrawnShape, Trouble> {
  if (!last || !same(last.letters, letters) || !same(last.figures, figures))
    last = { letters, figures, drawn: drawAnew(letters, figures) };
  return last.drawn;
}

function drawAnew(letters: LettersQuestion | undefined, figures: FigureNumbers): Result<DrawnShape, Trouble> {
  const set = letters ? lettersOf(letters) : undefined;
  if (set && !set.ok) return set;
  const shapes: LetterShape[] = [...(set?.value.shapes ?? [])];
  for (const one of figures.ornaments) {
    const figure = figureOf(one);
    if (!figure.ok) return figure;
    shapes.push(placed([figure.value], compose(rotation(one.turn), translation(vec(one.x, one.y)))));
  }
  const beside = outlineBeside(figures);
  if (!beside.ok) return beside;
  if (beside.value.length > 0) shapes.push(shapeOf(beside.value.flatMap(pathsOf)));
  if (shapes.length === 0) return trouble("text", "There is nothing to inlay yet", "Type letters, or add a figure.");
  const [only] = shapes;
  const region = shapes.length === 1 ? only!.region : joinRegions(shapes.map((shape) => shape.region));
  return {
    ok: true,
    value: {
      region,
      outlines: shapes.length === 1 ? only!.outlines : joinedOutlines(region, shapes),
      crossings: set?.value.crossings ?? [],
      capHeight: set?.value.capHeight,
    },
  };
}

interface SetLetters {
  readonly shapes: readonly LetterShape[];
  readonly crossings: readonly InlayCrossing[];
  readonly capHeight: number | undefined;
}

function lettersOf({ spec, face, weave }: LettersQuestion): Result<SetLetters, Trouble> {
  const set = setLetters(spec, faceOfFew(face));
  if (!set.ok) return set;
  const { letters, capHeight, em } = set.value;
  const middle = spec.arrangement.kind === "stacked" ? 0 : (capHeight ?? 0.7 * em) / 2;
  const toMiddle = translation(vec(0, -middle));
  const shapes = letters.map((letter) => movedShape(letter, toMiddle));
  if (!weave) return { ok: true, value: { shapes, crossings: [], capHeight } };
  const woven = interlace(
    shapes.map(({ region }) => region),
    weave,
  );
  const apart = woven.letters.map((region, i) =>
    region === shapes[i]!.region ? shapes[i]! : { region, outlines: outlinesOf(region) },
  );
  // Woven with a gap letters share nothing, so that together they are one shape as they are.
  const one: LetterShape = { region: woven.letters.flat(), outlines: apart.flatMap(({ outlines }) => outlines) };
  const crossings = namedCrossings(
    letters.map(({ character }) => character),
    woven.crossings,
  );
  return { ok: true, value: { shapes: weave.gap > 0 ? [one] : apart, crossings, capHeight } };
}

const movedShape = ({ region, outlines }: LetterShape, move: Affine): LetterShape => {
  const ring = (points: Ring): Ring => points.map((p) => transformPoint(move, p));
  return {
    region: region.map(({ outer, holes }) => ({ outer: ring(outer), holes: holes.map(ring) })),
    outlines: outlines.map((outline) => transformOutline(move, outline)),
  };
};

const placed = (outlines: readonly Outline[], place: Affine): LetterShape =>
  shapeOf(outlines.flatMap(pathsOf).map((path) => transformPath(place, path)));

function figureOf(o: Ornament): Result<Outline, Trouble> {
  switch (o.figure) {
    case "spot":
      return { ok: true, value: spot(o.size) };
    case "ring":
      return ring(o.size, o.stroke);
    case "border":
      return border(o.size, o.height, o.corner, o.stroke);
    case "lozenge":
      return { ok: true, value: lozenge(o.size, o.height) };
    case "star":
      return o.inner <= o.size
        ? { ok: true, value: star(o.points, o.size, o.inner) }
        : trouble(
            "size",
            "The star's hollows lie outside its points",
            "Make the circle between its points smaller than the star.",
          );
  }
}

function outlineBeside(f: FigureNumbers): Result<readonly Outline[], Trouble> {
  if (f.beside === "none") return { ok: true, value: [] };
  if (f.beside === "drawn") {
    const path = drawOutline(f.outline)?.path;
    return path ? drawn([path]) : trouble("outline", "The drawn outline encloses nothing", "Draw it round an area.");
  }
  if (f.art.trim() === "")
    return trouble("outline", "No file of outlines is chosen yet", "Choose an SVG file, or leave the outline out.");
  try {
    const found = nested(readPathData(f.art), "evenodd").flatMap(pathsOf);
    if (found.length === 0) return trouble("outline", "The file's outlines hold no area", "Choose a file with closed outlines.");
    return drawn(found.map((path) => importedPlace(path, found, f)));
  } catch (error) {
    if (error instanceof SvgFault)
      return trouble("outline", `The file's outlines cannot be read: ${error.message}`, "Choose the file again.");
    throw error;
  }
}

function importedPlace(path: Path, all: readonly Path[], f: FigureNumbers): Path {
  const box = pathsBounds(all);
  const k = f.artWidth === undefined ? 1 : f.artWidth / (box.maxX - box.minX);
  const middle: Vec = vec((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);
  const place = compose(
    translation(vec(-middle.x, -middle.y)),
    scaling(k, -k),
    rotation(f.artTurn),
    translation(vec(f.artX, f.artY)),
  );
  return carryPath(place, path);
}
