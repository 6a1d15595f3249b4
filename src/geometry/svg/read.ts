/**
 * The outlines in an SVG file, in mm with y up. Reads the text alone: nothing is drawn, run or fetched. What is no outline is left out and
 * told.
 */
import type { FillRule } from "../clipper.ts";
import type { Outline } from "../outline.ts";
import type { Path } from "../path.ts";
import { compose, determinant, IDENTITY, transformPath, type Affine } from "../transform.ts";
import { pathsOfElement, readLength, readTransform, USER_UNITS_PER_INCH } from "./elements.ts";
import { SvgFault } from "./fault.ts";
import { nested } from "./nesting.ts";
import { readXml, type XmlElement } from "./xml.ts";

export interface SvgOutlines {
  readonly outlines: readonly Outline[];
  /** Whether the file says its size in mm, inches or the like; otherwise a user unit is taken for 1/96 in. */
  readonly sized: boolean;
  /** What was left out: "2 texts", "1 script". */
  readonly leftOut: readonly string[];
}

export type SvgRead =
  { readonly ok: true; readonly value: SvgOutlines } | { readonly ok: false; readonly message: string; readonly mend: string };

/** Letters of the longest text that is read. */
export const LONGEST_SVG = 5_000_000;
const MOST_CONTOURS = 2_000;

/** Groups whose contents are drawn. */
const GROUPS: ReadonlySet<string> = new Set(["svg", "g", "a"]);
const SILENT: ReadonlySet<string> = new Set(["title", "desc", "metadata"]);

/** @param inch mm of an inch */
export function readSvg(text: string, inch: number): SvgRead {
  try {
    return { ok: true, value: outlinesIn(text, inch) };
  } catch (error) {
    if (error instanceof SvgFault) return { ok: false, message: error.message, mend: error.mend };
    throw error;
  }
}

function outlinesIn(text: string, inch: number): SvgOutlines {
  if (text.length > LONGEST_SVG)
    throw new SvgFault(`the file is larger than ${LONGEST_SVG / 1e6} MB`, "Leave out what is not needed and save it again.");
  if (!/<(?:[\w.-]+:)?svg[\s>/]/.test(text)) throw new SvgFault("this is no SVG file", "Choose a drawing saved as SVG.");
  const root = readXml(text);
  if (plainName(root) !== "svg") throw new SvgFault("this is no SVG file", "Choose a drawing saved as SVG.");
  const leftOut = new Map<string, number>();
  const outlines: Outline[] = [];
  let contours = 0;
  const { map, sized } = rootMap(root, inch);

  const leave = (what: string): void => void leftOut.set(what, (leftOut.get(what) ?? 0) + 1);

  function walk(element: XmlElement, outer: Affine, rule: FillRule, filled: boolean): void {
    const name = plainName(element);
    const style = styleOf(element);
    if (SILENT.has(name)) return;
    if (element !== root && name === "svg") return leave("drawing inside the drawing");
    const own = { ...element, name };
    if (style("display") === "none" || style("visibility") === "hidden") return leave("hidden thing");
    const here = element === root ? outer : compose(readTransform(element.attributes.get("transform")), outer);
    const fillRule: FillRule = style("fill-rule") === undefined ? rule : style("fill-rule") === "evenodd" ? "evenodd" : "nonzero";
    const fill = style("fill");
    const isFilled = fill === undefined || fill === "inherit" ? filled : fill !== "none";
    if (GROUPS.has(name)) {
      if (name === "a") leave("link");
      for (const child of element.children) walk(child, here, fillRule, isFilled);
      return;
    }
    const paths = name.includes(":") ? undefined : pathsOfElement(own, inch);
    if (!paths) return leave(wordFor(name));
    if (Math.abs(determinant(here)) < 1e-12) return leave("shape squeezed to nothing");
    const whole = paths.filter((path) => {
      // A line that is only drawn, never filled, has no inside unless it is closed.
      const bounds = path.closed || (isFilled && path.segments.length > 1);
      if (!bounds) leave("open line");
      return bounds;
    });
    contours += whole.length;
    if (contours > MOST_CONTOURS)
      throw new SvgFault(`it has more than ${MOST_CONTOURS} outlines`, "Leave out what is not needed.");
    outlines.push(
      ...nested(
        whole.map((path): Path => transformPath(here, path)),
        fillRule,
      ),
    );
  }

  walk(root, map, "nonzero", true);
  if (outlines.length === 0)
    throw new SvgFault("there is no closed outline in it", "Turn texts and strokes into outlines in the drawing program first.");
  return { outlines, sized, leftOut: [...leftOut].map(([what, count]) => `${count} ${what}${count === 1 ? "" : "s"}`) };
}

const WORDS: Readonly<Record<string, string>> = {
  image: "picture",
  style: "style sheet",
  tspan: "text",
  use: "copy by link",
  defs: "definition",
};
const wordFor = (name: string): string => WORDS[name] ?? (name.includes(":") ? "thing of another language" : name);

/** The name without the prefix of SVG's own names. */
const plainName = ({ name }: XmlElement): string => (name.startsWith("svg:") ? name.slice(4) : name);

/** A property of an element: as a style, or as an attribute. */
function styleOf(element: XmlElement): (name: string) => string | undefined {
  const declared = new Map(
    (element.attributes.get("style") ?? "").split(";").flatMap((one) => {
      const colon = one.indexOf(":");
      return colon < 0 ? [] : [[one.slice(0, colon).trim(), one.slice(colon + 1).trim()] as const];
    }),
  );
  return (name) => declared.get(name) ?? element.attributes.get(name)?.trim();
}

/** From the root's user units to mm with y up, the drawing's lower left corner at the origin. */
function rootMap(root: XmlElement, inch: number): { readonly map: Affine; readonly sized: boolean } {
  const width = readLength(root.attributes.get("width"), inch);
  const height = readLength(root.attributes.get("height"), inch);
  const box = (root.attributes.get("viewBox") ?? "")
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const unit = inch / USER_UNITS_PER_INCH;
  const [x = 0, y = 0, w = 0, h = 0] = box;
  if (box.length !== 4 || !box.every(Number.isFinite) || !(w > 0 && h > 0))
    return { map: flipped(unit, unit, 0, 0, height?.mm ?? 0), sized: false };
  const across = width && width.mm > 0 ? width.mm / w : undefined;
  const down = height && height.mm > 0 ? height.mm / h : undefined;
  const squeezed = root.attributes.get("preserveAspectRatio")?.trim().startsWith("none") ?? false;
  const even = Math.min(across ?? Infinity, down ?? Infinity);
  const both = Number.isFinite(even) ? even : unit;
  const [kx, ky] = squeezed ? [across ?? both, down ?? both] : [both, both];
  return { map: flipped(kx, ky, x, y, h * ky), sized: (width?.absolute ?? false) || (height?.absolute ?? false) };
}

const flipped = (kx: number, ky: number, x: number, y: number, height: number): Affine => ({
  ...IDENTITY,
  a: kx,
  d: -ky,
  e: -x * kx,
  f: height + y * ky,
});
