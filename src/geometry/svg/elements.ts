/** Basic shapes and transforms of SVG. Source: W3C, SVG 2, chapters 8 and 10. */
import { circle, polygon, polyline, type Path } from "../path.ts";
import { compose, IDENTITY, rotation, scaling, transformPath, translation, type Affine } from "../transform.ts";
import { vec } from "../vec.ts";
import { SvgFault } from "./fault.ts";
import { readPathData } from "./path-data.ts";
import type { XmlElement } from "./xml.ts";

/** Units of SVG that are shares of an inch, and those that are shares of a metre in mm; a px is 1/96 in by the definition of CSS. */
const PER_INCH: Readonly<Record<string, number>> = { in: 1, pt: 72, pc: 6, px: 96, "": 96 };
const IN_MM: Readonly<Record<string, number>> = { mm: 1, cm: 10, q: 0.25 };
export const USER_UNITS_PER_INCH = 96;
const LENGTH = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)\s*(in|mm|cm|q|pt|pc|px|)\s*$/i;

/** A length, mm, `inch` being those of an inch; undefined for a share of something (%, em) or for none. */
export function readLength(
  text: string | undefined,
  inch: number,
): { readonly mm: number; readonly absolute: boolean } | undefined {
  const [, number, unit = ""] = LENGTH.exec(text ?? "") ?? [];
  if (number === undefined) return undefined;
  const key = unit.toLowerCase();
  const mm = Number(number) * (IN_MM[key] ?? inch / PER_INCH[key]!);
  return { mm, absolute: key !== "" && key !== "px" };
}

/** Reads lengths of an element in user units. */
type InUserUnits = (element: XmlElement, name: string, otherwise?: number) => number;

const inUserUnits =
  (inch: number): InUserUnits =>
  (element, name, otherwise = 0) => {
    const text = element.attributes.get(name);
    if (text === undefined || text.trim() === "" || text.trim() === "auto") return otherwise;
    const length = readLength(text, inch);
    if (!length) throw new SvgFault(`${name}="${text}" of a ${element.name} is no length`, "Give it in mm or without a unit.");
    return (length.mm / inch) * USER_UNITS_PER_INCH;
  };

const points = (element: XmlElement): number[] => {
  const text = element.attributes.get("points") ?? "";
  const numbers =
    text.trim() === ""
      ? []
      : text
          .trim()
          .split(/[\s,]+|(?<=[\d.])(?=[+-])/)
          .map(Number);
  if (!numbers.every(Number.isFinite) || numbers.length % 2 !== 0)
    throw new SvgFault(`the points of a ${element.name} cannot be read`, "Save the file as plain SVG again.");
  return numbers;
};

/** The paths of one element in its own axes; undefined where the element draws no outline. */
export function pathsOfElement(element: XmlElement, inch: number): Path[] | undefined {
  const user = inUserUnits(inch);
  switch (element.name) {
    case "path":
      return readPathData(element.attributes.get("d") ?? "");
    case "rect":
      return rectOf(element, user);
    case "circle": {
      const r = user(element, "r");
      return r > 0 ? [circle(vec(user(element, "cx"), user(element, "cy")), r)] : [];
    }
    case "ellipse": {
      const rx = user(element, "rx", user(element, "ry"));
      const ry = user(element, "ry", rx);
      const at = vec(user(element, "cx"), user(element, "cy"));
      return rx > 0 && ry > 0 ? [transformPath(compose(scaling(rx, ry), translation(at)), circle(vec(0, 0), 1))] : [];
    }
    case "line":
      return [polyline([vec(user(element, "x1"), user(element, "y1")), vec(user(element, "x2"), user(element, "y2"))])];
    case "polyline":
    case "polygon": {
      const numbers = points(element);
      const at = numbers.flatMap((x, i) => (i % 2 === 0 ? [vec(x, numbers[i + 1]!)] : []));
      if (at.length < 2) return [];
      return [element.name === "polygon" && at.length > 2 ? polygon(at) : polyline(at)];
    }
  }
  return undefined;
}

function rectOf(element: XmlElement, user: InUserUnits): Path[] {
  const [x, y, w, h] = [user(element, "x"), user(element, "y"), user(element, "width"), user(element, "height")];
  if (!(w > 0 && h > 0)) return [];
  const rx = Math.min(w / 2, user(element, "rx", user(element, "ry")));
  const ry = Math.min(h / 2, user(element, "ry", rx));
  if (!(rx > 0 && ry > 0)) return [polygon([vec(x, y), vec(x + w, y), vec(x + w, y + h), vec(x, y + h)])];
  const data =
    `M${x + rx} ${y}H${x + w - rx}A${rx} ${ry} 0 0 1 ${x + w} ${y + ry}V${y + h - ry}A${rx} ${ry} 0 0 1 ${x + w - rx} ${y + h}` +
    `H${x + rx}A${rx} ${ry} 0 0 1 ${x} ${y + h - ry}V${y + ry}A${rx} ${ry} 0 0 1 ${x + rx} ${y}Z`;
  return readPathData(data);
}

const TRANSFORM = /\s*,?\s*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^)]*)\)\s*/y;

/** The map of a `transform` attribute. Throws `SvgFault` where it cannot be read. */
export function readTransform(text: string | undefined): Affine {
  if (text === undefined || text.trim() === "" || text.trim() === "none") return IDENTITY;
  const wrong = (): never => {
    throw new SvgFault(
      `the transform "${text.slice(0, 40)}" cannot be read`,
      "Apply the transforms in the drawing program first.",
    );
  };
  let map = IDENTITY;
  TRANSFORM.lastIndex = 0;
  while (TRANSFORM.lastIndex < text.length) {
    const [, name, inner = ""] = TRANSFORM.exec(text) ?? wrong();
    const n =
      inner.trim() === ""
        ? []
        : inner
            .trim()
            .split(/[\s,]+|(?<=[\d.])(?=[+-])/)
            .map(Number);
    if (!n.every(Number.isFinite)) wrong();
    map = compose(transformOf(name!, n) ?? wrong(), map);
  }
  return map;
}

function transformOf(name: string, n: readonly number[]): Affine | undefined {
  const [a = 0, b, c] = n;
  const turn = (a * Math.PI) / 180;
  switch (name) {
    case "matrix":
      return n.length === 6 ? { a: n[0]!, b: n[1]!, c: n[2]!, d: n[3]!, e: n[4]!, f: n[5]! } : undefined;
    case "translate":
      return n.length === 1 || n.length === 2 ? translation(vec(a, b ?? 0)) : undefined;
    case "scale":
      return n.length === 1 || n.length === 2 ? scaling(a, b ?? a) : undefined;
    case "rotate":
      return n.length === 1 ? rotation(turn) : n.length === 3 ? rotation(turn, vec(b!, c!)) : undefined;
    case "skewX":
      return n.length === 1 ? { ...IDENTITY, c: Math.tan(turn) } : undefined;
    case "skewY":
      return n.length === 1 ? { ...IDENTITY, b: Math.tan(turn) } : undefined;
  }
  return undefined;
}
