/** A sheet of paper as it will leave the printer, at any size on the screen. */
import { memo, useId } from "react";
import type { Drawing } from "../../drawing/drawing.ts";
import { pathData } from "../../export/svg/path-data.ts";
import type { Vec } from "../../geometry/vec.ts";
import { placementMap } from "../../sheets/placement.ts";
import type { Sheet } from "../../sheets/sheet.ts";
import type { Template } from "../../templates/template.ts";
import "./sheet-svg.css";

/** Capital height as a part of the type size, in the face of the numbers. */
const CAPITAL = 0.67;
const flipped = (p: Vec): Vec => ({ x: p.x, y: -p.y });
const inkId = (templateId: string): string => `ink-${templateId.replace(/[^\w-]+/g, "-")}`;

/** The templates' lines, once each; the sheets show pieces of them. Must stand in the page before the sheets. */
export const Inks = memo(function Inks({ templates }: { readonly templates: readonly Template[] }) {
  return (
    <svg className="sheet-inks" aria-hidden="true">
      <defs>
        {templates.map((template) => (
          <g key={template.id} id={inkId(template.id)}>
            <Ink drawing={template.drawing} place={flipped} />
          </g>
        ))}
      </defs>
    </svg>
  );
});

export const SheetSvg = memo(function SheetSvg({ sheet, pxPerMm }: { readonly sheet: Sheet; readonly pxPerMm: number }) {
  const id = useId();
  const { width, height, correction } = sheet;
  const place = (p: Vec): Vec => ({ x: p.x, y: height - p.y });
  return (
    <svg
      className="sheet-svg"
      viewBox={`0 0 ${width} ${height}`}
      width={width * pxPerMm}
      height={height * pxPerMm}
      role="img"
      aria-label={sheet.name}
    >
      <g
        transform={`translate(${width / 2} ${height / 2}) scale(${correction.x} ${correction.y}) translate(${-width / 2} ${-height / 2})`}
      >
        {sheet.placed.map(({ template, at, clip }, i) => {
          const { a, b, c, d, e, f } = placementMap(at);
          return (
            <g key={`${template.id} ${at.x} ${at.y}`}>
              <clipPath id={`${id}-${i}`}>
                <rect x={clip.x0} y={height - clip.y1} width={clip.x1 - clip.x0} height={clip.y1 - clip.y0} />
              </clipPath>
              <g clipPath={`url(#${id}-${i})`}>
                {/* The lines are kept with y down already: the map is turned round to suit. */}
                <use href={`#${inkId(template.id)}`} transform={`matrix(${a} ${-b} ${-c} ${d} ${e} ${height - f})`} />
              </g>
            </g>
          );
        })}
        <Ink drawing={sheet.furniture} place={place} />
      </g>
    </svg>
  );
});

function Ink({ drawing, place }: { readonly drawing: Drawing; readonly place: (p: Vec) => Vec }) {
  return drawing.layers.map((layer) => (
    <g key={layer.name}>
      {layer.shapes.map((shape) => (
        <path
          key={shape.id}
          className={`ink ink-${shape.line}`}
          d={[shape.path, ...(shape.holes ?? [])].map((path) => pathData(path, place)).join("")}
        />
      ))}
      {(layer.texts ?? []).map((text) => {
        const { x, y } = place(text.at);
        return (
          <text
            className="ink-text"
            key={text.id}
            x={x}
            y={y}
            fontSize={text.height / CAPITAL}
            textAnchor={text.align}
            transform={text.angle ? `rotate(${(-text.angle * 180) / Math.PI} ${x} ${y})` : undefined}
          >
            {text.text}
          </text>
        );
      })}
    </g>
  ));
}
