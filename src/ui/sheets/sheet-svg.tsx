/** A sheet of paper as it will leave the printer, at any size on the screen. */
import { memo, useId } from "react";
import type { Drawing, Text } from "../../drawing/drawing.ts";
import { pathData } from "../../export/svg/path-data.ts";
import { growBounds } from "../../geometry/bounds.ts";
import { rectangle, type Path } from "../../geometry/path.ts";
import type { Vec } from "../../geometry/vec.ts";
import { inkBounds } from "../../sheets/ink.ts";
import { placementMap } from "../../sheets/placement.ts";
import type { Sheet, SheetSet } from "../../sheets/sheet.ts";
import { WASTE_BAND, wasteEdges } from "../../sheets/waste.ts";
import type { Template } from "../../templates/template.ts";
import "./sheet-svg.css";

/** Capital height as a part of the type size, in the face of the numbers. */
const CAPITAL = 0.67;
const flipped = (p: Vec): Vec => ({ x: p.x, y: -p.y });
const inkId = (templateId: string): string => `ink-${templateId.replace(/[^\w-]+/g, "-")}`;

/** The templates' lines, once each; the sheets show pieces of them. Must stand in the page before the sheets. */
export const Inks = memo(function Inks({ set }: { readonly set: SheetSet }) {
  const templates = new Map(set.sheets.flatMap(({ placed }) => placed.map(({ template }) => [template.id, template] as const)));
  return (
    <svg className="sheet-inks" aria-hidden="true">
      <defs>
        {[...templates.values()].map((template) => (
          <g key={template.id} id={inkId(template.id)}>
            {set.waste === "grey" ? <GreyWaste template={template} /> : null}
            <Ink drawing={template.drawing} place={flipped} />
          </g>
        ))}
      </defs>
    </svg>
  );
});

/** The band along the waste side, as the file has it: a wide stroke clipped to that side. */
function GreyWaste({ template }: { readonly template: Template }) {
  const { outside, inside } = wasteEdges(template);
  const { minX, minY, maxX, maxY } = growBounds(inkBounds(template), 2 * WASTE_BAND);
  const beyond = rectangle(minX, minY, maxX, maxY);
  return [outside, inside].map((edges, i) => {
    if (edges.length === 0) return null;
    const data = (paths: readonly Path[]): string => paths.map((path) => pathData(path, flipped)).join("");
    const clip = `${inkId(template.id)}-${i === 0 ? "outside" : "inside"}`;
    return (
      <g key={clip}>
        <clipPath id={clip}>
          <path clipRule="evenodd" d={data(i === 0 ? [beyond, ...edges] : edges)} />
        </clipPath>
        <path className="ink-waste" clipPath={`url(#${clip})`} strokeWidth={2 * WASTE_BAND} d={data(edges)} />
      </g>
    );
  });
}

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
        <g className="ink-strong">
          <Letters texts={sheet.strong} place={place} />
        </g>
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
      <Letters texts={layer.texts ?? []} place={place} />
    </g>
  ));
}

function Letters({ texts, place }: { readonly texts: readonly Text[]; readonly place: (p: Vec) => Vec }) {
  return texts.map((text) => {
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
  });
}
