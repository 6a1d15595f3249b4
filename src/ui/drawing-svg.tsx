/** A drawing as a picture on the page: thumbnails, previews, figures. Not the file that is saved for a machine. */
import { memo, useMemo, type CSSProperties } from "react";
import type { Drawing, Shape } from "../drawing/drawing.ts";
import { pathData } from "../export/svg/path-data.ts";
import type { Bounds } from "../geometry/bounds.ts";
import { pathsBounds } from "../geometry/measure.ts";
import type { Vec } from "../geometry/vec.ts";
import "./drawing-svg.css";

export interface DrawingSvgProps {
  readonly drawing: Drawing;
  /** The same drawing in words; empty where they stand beside it. */
  readonly says: string;
  /** One weight, no chain lines, no words: for a thumbnail. */
  readonly small?: boolean;
  /** Room left round it, mm. */
  readonly margin?: number;
  /** Layers to leave out. */
  readonly without?: readonly string[];
  /** A place to ring, and a shape to draw in the working colour. */
  readonly ring?: Vec;
  readonly marked?: string;
  /** Radius of the ring as a part of the picture's greater side. */
  readonly ringPart?: number;
  /** Only what lies in this box, mm. */
  readonly cut?: Bounds;
  readonly className?: string;
  readonly style?: CSSProperties;
}

/** The box round all that is drawn, mm; undefined for an empty drawing. */
export function drawingBox(drawing: Drawing, without: readonly string[] = [], small = false): Bounds | undefined {
  const paths = drawing.layers
    .filter((layer) => !without.includes(layer.name))
    .flatMap((layer) => layer.shapes.filter((shape) => !small || inThumbnail(shape)).map((shape) => shape.path));
  return paths.length > 0 ? pathsBounds(paths) : undefined;
}

const NONE: readonly string[] = [];
const inThumbnail = (shape: Shape): boolean => shape.line !== "centre" && shape.line !== "adjacent" && shape.role !== "guide";

export const DrawingSvg = memo(function DrawingSvg({
  drawing,
  says,
  small = false,
  margin = 0,
  without = NONE,
  ring,
  ringPart = 0.025,
  marked,
  cut,
  className = "",
  style,
}: DrawingSvgProps) {
  const whole = useMemo(() => drawingBox(drawing, without, small), [drawing, without, small]);
  const box = cut ?? whole;
  if (!box) return null;
  const width = Math.max(box.maxX - box.minX, 1) + 2 * margin;
  const height = Math.max(box.maxY - box.minY, 1) + 2 * margin;
  return (
    <svg
      className={`dsvg ${small ? "dsvg-small" : ""} ${className}`}
      style={style}
      viewBox={`${box.minX - margin} ${-box.maxY - margin} ${width} ${height}`}
      {...(says === "" ? { "aria-hidden": true } : { role: "img", "aria-label": says })}
    >
      {drawing.layers
        .filter((layer) => !without.includes(layer.name))
        .map((layer) => (
          <g key={layer.name}>
            {layer.shapes
              .filter((shape) => !small || inThumbnail(shape))
              .map((shape) => (
                <ShapeSvg key={shape.id} shape={shape} marked={shape.id === marked} />
              ))}
            {small
              ? null
              : (layer.texts ?? []).map((text) => (
                  <text
                    key={text.id}
                    x={text.at.x}
                    y={-text.at.y}
                    fontSize={text.height / 0.7}
                    textAnchor={text.align}
                    transform={text.angle ? `rotate(${(-text.angle * 180) / Math.PI} ${text.at.x} ${-text.at.y})` : undefined}
                  >
                    {text.text}
                  </text>
                ))}
          </g>
        ))}
      {ring ? <circle className="dsvg-ring" cx={ring.x} cy={-ring.y} r={Math.max(width, height) * ringPart} /> : null}
    </svg>
  );
});

const flipped = (p: Vec): Vec => ({ x: p.x, y: -p.y });

export function ShapeSvg({ shape, marked = false }: { readonly shape: Shape; readonly marked?: boolean }) {
  return (
    <path
      className={`ln-${shape.line} ${shape.tint ? `fill-${shape.tint}` : ""} ${marked ? "ln-marked" : ""}`}
      d={[shape.path, ...(shape.holes ?? [])].map((path) => pathData(path, flipped)).join("")}
      fillRule={shape.holes ? "evenodd" : undefined}
    />
  );
}
