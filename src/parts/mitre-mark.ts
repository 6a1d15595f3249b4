/** A mitre as it is cut: a line from the outer to the inner corner, and its angles in words. */
import type { Layer, Shape, Text } from "../drawing/drawing.ts";
import { segmentPath } from "../geometry/path.ts";
import { add, scale, vec, type Vec } from "../geometry/vec.ts";
import type { Mitre } from "../lutherie/mitre.ts";

export interface PlacedMitre {
  /** Unique within the drawing: `mitre-bass`. */
  readonly id: string;
  /** "mitre of the binding at the end, bass side" */
  readonly name: string;
  /** The outer corner, and the unit direction from it along the mitre. */
  readonly at: Vec;
  readonly way: Vec;
  readonly mitre: Mitre;
  /** Between which edges and the mitre its angles lie. */
  readonly edges: readonly [string, string];
  /** The words stand beyond its inner end; absent: outside the corner. */
  readonly inside?: true;
}

/** Height of the words, and how far they stand beyond the corner, mm. */
const LETTER = 3;
const BEYOND = 5;
const LEADING = 1.5;
/** A mitre that runs more along x than this has its words at that side of the corner, as a part of 1. */
const ASIDE = 0.3;
/** Angles that are shown alike are told once, radians. */
const ALIKE = 0.0005;

const mitreShape = ({ id, name, at, way, mitre, edges }: PlacedMitre): Shape => ({
  id,
  role: "guide",
  line: "narrow",
  path: segmentPath(at, add(at, scale(way, mitre.length))),
  name,
  says: [
    { label: `from the ${edges[0]}`, value: mitre.first, quantity: "angle" },
    { label: `from the ${edges[1]}`, value: mitre.second, quantity: "angle" },
    { label: "along the mitre", value: mitre.length, quantity: "length" },
  ],
});

const degrees = (angle: number): string => `${Number(((angle * 180) / Math.PI).toFixed(1))}°`;

/** One line where the mitre halves the corner, else one for each edge. */
function mitreTexts({ id, at, way: along, mitre, edges, inside }: PlacedMitre): Text[] {
  const way = scale(along, inside ? -1 : 1);
  const align = way.x > ASIDE ? "end" : way.x < -ASIDE ? "start" : "middle";
  const place = add(at, scale(way, -BEYOND - (inside ? mitre.length : 0)));
  const lines =
    Math.abs(mitre.first - mitre.second) < ALIKE
      ? [`mitre ${degrees(mitre.first)}`]
      : [`mitre ${degrees(mitre.first)} from the ${edges[0]},`, `${degrees(mitre.second)} from the ${edges[1]}`];
  const up = way.y > 0 ? 0 : lines.length - 1;
  return lines.map((text, i) => ({
    id: `${id}-words-${i + 1}`,
    at: add(place, vec(0, (up - i) * LEADING * LETTER)),
    text,
    height: LETTER,
    align,
  }));
}

/** All mitres of a drawing; with their words on a template, on which nothing is pointed at. No layer for none. */
export const mitreLayer = (mitres: readonly PlacedMitre[], look: "plain" | "words" = "words"): Layer[] =>
  mitres.length === 0
    ? []
    : [{ name: "mitres", shapes: mitres.map(mitreShape), ...(look === "words" ? { texts: mitres.flatMap(mitreTexts) } : {}) }];
