/** A drawing as an SVG file at true size: one user unit is 1 mm. */
import type { Drawing, LineType, Shape, Text } from "../../drawing/drawing.ts";
import { boundsOfPoints, growBounds, joinBounds, type Bounds } from "../../geometry/bounds.ts";
import { asCircle } from "../../geometry/path.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { textCorners } from "../../sheets/ink.ts";
import { TYPE_SIZE } from "../../sheets/lettering.ts";
import { STROKES } from "../line-types.ts";
import { numberText } from "../number-text.ts";
import { idGiver } from "./ids.ts";
import { pathData, SVG_DIGITS } from "./path-data.ts";

/** White left round the drawing, mm. */
const EDGE = 2;

/**
 * The SVG text of `drawing`. Root width and height in mm and the viewBox in the same numbers; y runs down, so the drawing is turned over
 * to look the same, not mirrored. One group a layer with `data-layer`, every shape with an id and `data-role`, all lettering in a last
 * layer of its own. Dimension lines are for the screen and stay out. Throws where a number is not finite.
 */
export function svgOf(drawing: Drawing, meta: { readonly title: string; readonly desc: string }): string {
  const box = growBounds(extentOf(drawing), EDGE);
  const width = mm(box.maxX - box.minX);
  const height = mm(box.maxY - box.minY);
  const place = (p: Vec): Vec => vec(p.x - box.minX, box.maxY - p.y);
  const idFor = idGiver();
  const lines = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">`,
    `<title>${escaped(meta.title)}</title>`,
    `<desc>${escaped(meta.desc)}</desc>`,
  ];
  for (const layer of drawing.layers) {
    if (layer.shapes.length === 0) continue;
    lines.push(`<g data-layer="${escaped(layer.name)}" fill="none" stroke="#000" stroke-linejoin="round">`);
    for (const shape of layer.shapes) lines.push(shapeElement(shape, idFor(shape.id), place));
    lines.push("</g>");
  }
  const texts = drawing.layers.flatMap((layer) => layer.texts ?? []);
  if (texts.length > 0) {
    lines.push(`<g data-layer="text" fill="#000" stroke="none" font-family="Atkinson Hyperlegible Mono, monospace">`);
    for (const text of texts) lines.push(textElement(text, idFor(text.id), place));
    lines.push("</g>");
  }
  lines.push("</svg>", "");
  return lines.join("\n");
}

function shapeElement(shape: Shape, id: string, place: (p: Vec) => Vec): string {
  const head = `id="${id}" data-role="${shape.role}" ${strokeAttributes(shape.line)}`;
  const holes = shape.holes ?? [];
  const round = holes.length === 0 ? asCircle(shape.path) : undefined;
  if (round) {
    const centre = place(round.centre);
    return `<circle ${head} cx="${mm(centre.x)}" cy="${mm(centre.y)}" r="${mm(round.radius)}"/>`;
  }
  const loops = [shape.path, ...holes].map((path) => pathData(path, place));
  return `<path ${head} d="${loops.join(" ")}"/>`;
}

function strokeAttributes(line: LineType): string {
  const { width, dashes } = STROKES[line];
  return `stroke-width="${mm(width)}"${dashes.length > 0 ? ` stroke-dasharray="${dashes.map(mm).join(" ")}"` : ""}`;
}

function textElement(text: Text, id: string, place: (p: Vec) => Vec): string {
  const at = place(text.at);
  const turn = text.angle ? ` transform="rotate(${numberText((-text.angle * 180) / Math.PI, 6)} ${mm(at.x)} ${mm(at.y)})"` : "";
  const anchor = text.align === "start" ? "" : ` text-anchor="${text.align}"`;
  const weight = text.loud ? ` font-weight="700"` : "";
  return `<text id="${id}" data-role="label" x="${mm(at.x)}" y="${mm(at.y)}" font-size="${mm(text.height * TYPE_SIZE)}"${weight}${anchor}${turn}>${escaped(text.text)}</text>`;
}

/** The least box round everything drawn, lettering included; a speck where there is nothing. */
function extentOf(drawing: Drawing): Bounds {
  const paths = drawing.layers.flatMap((layer) => layer.shapes.map((shape) => shape.path));
  const texts = drawing.layers.flatMap((layer) => layer.texts ?? []);
  const boxes = [...paths.map(pathBounds), ...texts.map((text) => boundsOfPoints(textCorners(text)))];
  return boxes.length === 0 ? { minX: 0, minY: 0, maxX: 0, maxY: 0 } : joinBounds(boxes);
}

const mm = (value: number): string => numberText(value, SVG_DIGITS);

/** Text fit for XML: marks written as entities, characters that XML 1.0 forbids left out. */
function escaped(text: string): string {
  return text
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, "")
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;");
}
