/** A number where it stands on its part: the near of its dimension line, in a small picture. */
import type { Dimension } from "../../drawing/drawing.ts";
import { add, dot, scale, unit, vec, type Vec } from "../../geometry/vec.ts";
import { useDerived } from "../bench.ts";
import { ShapeSvg } from "../drawing-svg.tsx";
import "../drawing-svg.css";
import "./number-figure.css";

/** Width of the picture over its height. */
const ASPECT = 1.9;
/** Of the part to be seen at the least, mm. */
const LEAST = 24;

/** Nothing where the part's drawing has no dimension for the number. */
export function NumberFigure({ path }: { readonly path: string }) {
  const derived = useDerived();
  const part = [derived.instrument, ...derived.parts].find((one) => path.startsWith(`${one.path}.`));
  if (!part || part.problems.length > 0) return null;
  const drawing = part.drawing();
  const dimension = drawing.dimensions.find((one) => one.edits === path && one.quantity === "length");
  const lines = dimension && dimensionLines(dimension);
  if (!lines) return null;
  const xs = lines.flat().map(({ x }) => x);
  const ys = lines.flat().map(({ y }) => -y);
  const [low, high] = [vec(Math.min(...xs), Math.min(...ys)), vec(Math.max(...xs), Math.max(...ys))];
  const width = Math.max((high.x - low.x) * 1.5, (high.y - low.y) * 1.5 * ASPECT, LEAST);
  const height = width / ASPECT;
  const box = [(low.x + high.x - width) / 2, (low.y + high.y - height) / 2, width, height];
  return (
    <svg className="dsvg dsvg-cut number-figure" viewBox={box.join(" ")} aria-hidden="true">
      {drawing.layers.flatMap(({ shapes }) => shapes.map((shape) => <ShapeSvg key={shape.id} shape={shape} />))}
      {lines.map(([a, b], i) => (
        <path
          // The line itself, then its two extensions.
          key={["line", "from", "to"][i]}
          className={i === 0 ? "number-figure-line" : "number-figure-edge"}
          d={`M${a.x} ${-a.y}L${b.x} ${-b.y}`}
        />
      ))}
    </svg>
  );
}

/** Never farther from what it measures than this part of its length, so that both are in the picture. */
const NEAR = 0.25;

/** The dimension line and its two extension lines; undefined where there is nothing to measure. */
function dimensionLines({ from, to, along, offset }: Dimension): readonly (readonly [Vec, Vec])[] | undefined {
  const way = vec(along === "y" ? 0 : to.x - from.x, along === "x" ? 0 : to.y - from.y);
  const length = Math.hypot(way.x, way.y);
  if (!(length > 1e-6)) return undefined;
  const { x, y } = unit(way);
  const side = offset < 0 ? -1 : 1;
  const out = vec(-side * y, side * x);
  const far = Math.max(dot(from, out), dot(to, out)) + Math.min(Math.abs(offset), Math.max(NEAR * length, 4));
  const foot = (p: Vec): Vec => add(p, scale(out, far - dot(p, out)));
  const line = [foot(from), foot(to)] as const;
  return [line, [from, line[0]], [to, line[1]]];
}
