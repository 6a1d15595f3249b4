/** Content streams of a PDF page: the drawing operators as text, all numbers in points. Knows nothing of the PDF library. */
import { arcAsCubics } from "../../geometry/arc.ts";
import type { Bounds } from "../../geometry/bounds.ts";
import { rectangle, type Path } from "../../geometry/path.ts";
import { piecesOf } from "../../geometry/segment.ts";
import { transformPoint, type Affine } from "../../geometry/transform.ts";
import { add, polar, vec, type Vec } from "../../geometry/vec.ts";
import type { Layer, LineType, Shape, Text } from "../../drawing/drawing.ts";
import { textWidth, TYPE_SIZE } from "../../sheets/lettering.ts";
import { WASTE_BAND, WASTE_SHADE, wasteEdges } from "../../sheets/waste.ts";
import type { Template } from "../../templates/template.ts";
import { MM_PER_INCH } from "../../units/unit.ts";
import { STROKES } from "../line-types.ts";
import { numberText } from "../number-text.ts";

/** PDF user units (1/72 in) a mm. */
export const POINTS_PER_MM = 72 / MM_PER_INCH;
/** Decimals of a point: 0.0001 pt is 0.00004 mm. */
const DIGITS = 4;

export const points = (value: number): string => numberText(value, DIGITS);
const pair = (p: Vec): string => `${points(p.x)} ${points(p.y)}`;

/** Text of a font's glyphs as the hexadecimal string of a show operator, and the font's name in the resources. */
export interface PdfFont {
  readonly name: string;
  readonly encode: (text: string) => string;
}

/** Path operators for `path` carried from mm to points by `to`; nothing is painted yet. Arcs become cubics within 0.00001 mm. */
export function pathOperators(path: Path, to: Affine): string {
  const at = (p: Vec): string => pair(transformPoint(to, p));
  const lines = [`${at(path.start)} m`];
  for (const [i, { from, segment }] of piecesOf(path).entries()) {
    if (segment.kind === "line") {
      if (!(path.closed && i === path.segments.length - 1)) lines.push(`${at(segment.to)} l`);
      continue;
    }
    for (const c of segment.kind === "cubic" ? [segment] : arcAsCubics(from, segment))
      lines.push(`${at(c.c1)} ${at(c.c2)} ${at(c.to)} c`);
  }
  if (path.closed) lines.push("h");
  return lines.join("\n");
}

/** Sets the pen for a line type. */
function penOperators(line: LineType): string {
  const { width, dashes } = STROKES[line];
  return `${points(width * POINTS_PER_MM)} w [${dashes.map((d) => points(d * POINTS_PER_MM)).join(" ")}] 0 d`;
}

/** The shapes' loops stroked, each in its line type. */
function shapesOperators(shapes: readonly Shape[], to: Affine): string[] {
  return shapes.flatMap(({ line, path, holes = [] }, i) => [
    ...(line === shapes[i - 1]?.line ? [] : [penOperators(line)]),
    ...[path, ...holes].map((loop) => pathOperators(loop, to)),
    "S",
  ]);
}

/** Lettering in `font`, carried by `to`. */
export function textOperators(text: Text, font: PdfFont, to: Affine): string {
  const angle = text.angle ?? 0;
  const before = text.align === "start" ? 0 : textWidth(text.text, text.height) * (text.align === "middle" ? 0.5 : 1);
  const at = transformPoint(to, add(text.at, polar(vec(0, 0), -before, angle)));
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const k = 1 / POINTS_PER_MM;
  const matrix = [to.a * cos + to.c * sin, to.b * cos + to.d * sin, to.c * cos - to.a * sin, to.d * cos - to.b * sin].map((v) =>
    numberText(v * k, 6),
  );
  return `BT /${font.name} ${points(text.height * TYPE_SIZE * POINTS_PER_MM)} Tf ${matrix.join(" ")} ${pair(at)} Tm ${font.encode(text.text)} Tj ET`;
}

/** The face of plain lettering and that of warnings. */
export interface PdfFaces {
  readonly regular: PdfFont;
  readonly strong: PdfFont;
}

/** Every layer: shapes, then lettering. */
export function layerOperators(layers: readonly Layer[], faces: PdfFaces, to: Affine): string {
  return layers
    .flatMap(({ shapes, texts = [] }) => [
      ...shapesOperators(shapes, to),
      ...texts.map((text) => textOperators(text, text.loud ? faces.strong : faces.regular, to)),
    ])
    .join("\n");
}

/** A grey band along the waste side of the template's edge: a wide stroke, clipped to that side. */
export function wasteOperators(template: Template, box: Bounds, to: Affine): string[] {
  const { outside, inside } = wasteEdges(template);
  const band = (edges: readonly Path[], beyond: readonly Path[]): string[] => {
    if (edges.length === 0) return [];
    const loops = edges.map((path) => pathOperators(path, to)).join("\n");
    const clip = [...beyond.map((path) => pathOperators(path, to)), loops].join("\n");
    return [`q ${clip}\nW* n ${points(2 * WASTE_BAND * POINTS_PER_MM)} w ${points(WASTE_SHADE)} G\n${loops}\nS Q`];
  };
  return [...band(outside, [rectangle(box.minX, box.minY, box.maxX, box.maxY)]), ...band(inside, [])];
}
