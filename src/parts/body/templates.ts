/** The body's patterns: half and whole outline, the moulds, and the channels round its edge. */
import type { Layer, Shape } from "../../drawing/drawing.ts";
import { moveLayer } from "../../drawing/move.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { line, segmentPath, type Path } from "../../geometry/path.ts";
import { piecesOf, reversePath } from "../../geometry/segment.ts";
import { carryPath, mirroring } from "../../geometry/transform.ts";
import { ORIGIN, vec } from "../../geometry/vec.ts";
import { plateHeight } from "../../lutherie/domed-plate.ts";
import { centreAlong } from "../centre-line.ts";
import { mitreLayer } from "../mitre-mark.ts";
import type { Sources, TemplateSource } from "../contract.ts";
import { centreLayer, ledgeLayer, levelLayer, levelName, outlineLayer } from "./draw.ts";
import { halvesOf } from "./halves.ts";
import type { BodyHalf, BodyMeasures } from "./measure.ts";
import { mitreRows, mitresOf } from "./mitres.ts";
import { instrumentOf, type BodyParams } from "./numbers.ts";

type Side = "treble" | "bass";

const FROM_BEHIND = mirroring(ORIGIN, vec(1, 0));

export function bodyTemplates(p: BodyParams, m: BodyMeasures, from: Sources): TemplateSource[] {
  const { outline } = m;
  if (!outline || !m.treble || !m.bass) return [];
  const { side } = instrumentOf(from);
  const sides: readonly Side[] = m.symmetric ? ["treble"] : ["treble", "bass"];
  const signOf = (which: Side): 1 | -1 => (which === "treble" ? side : (-side as 1 | -1));
  const name = (base: string, which: Side): string => (m.symmetric ? base : `${base}-${which}`);
  const title = (base: string, which: Side): string => (m.symmetric ? base : `${base}, ${which} side`);
  const insideHalves = m.inside && halvesOf(m.inside);
  return [
    ...sides.map((which): TemplateSource => {
      const sign = signOf(which);
      return {
        name: name("half", which),
        title: title("Half outline", which),
        lineIs: m.symmetric
          ? "edge of the body; lay the straight side on the centre line, scribe, and turn it over for the other half"
          : "edge of the body; lay the straight side on the centre line",
        drawing: {
          layers: [
            shapeLayer(onSide(closedHalf(m[which]!.outline), sign), "half of the body"),
            centreOf(m),
            marksOf(m, which, sign),
          ],
          dimensions: [],
        },
        edge: "outline",
        table: { title: "From the neck end, and from the centre line", rows: stations(m[which]!, m) },
      };
    }),
    {
      name: "whole",
      title: "Whole outline",
      lineIs: "edge of the finished body; cut top and back outside the line by the overhang you trim to",
      drawing: { layers: [outlineLayer(m), centreLayer(outline), levelLayer(m, side)], dimensions: [] },
      edge: "outline",
    },
    ...(p.build === "hollow"
      ? sides.flatMap((which): TemplateSource[] => {
          const sign = signOf(which);
          const inner = insideHalves && (sign === 1 ? insideHalves.up : insideHalves.down);
          return [
            {
              name: name("mould-outside", which),
              title: title("Outside mould", which),
              lineIs:
                "the mould that the sides are held in: its hollow is the outer face of the side; two halves meet on the centre line",
              drawing: {
                layers: [
                  shapeLayer(onSide(outsideMould(m[which]!.outline, p.mouldMargin), sign), "half of the outside mould"),
                  centreOf(m, p.mouldMargin),
                  marksOf(m, which, sign),
                ],
                dimensions: [],
              },
              edge: "outline",
            },
            ...(inner
              ? [
                  {
                    name: name("mould-inside", which),
                    title: title("Inside mould", which),
                    lineIs: "the form that the sides are bent over: its edge is the inner face of the side",
                    drawing: {
                      layers: [shapeLayer(onSide(closedHalf(inner), sign), "half of the inside mould"), centreOf(m)],
                      dimensions: [],
                    },
                    edge: "outline",
                  } satisfies TemplateSource,
                ]
              : []),
          ];
        })
      : []),
    ...channelTemplates(p, m, outline),
  ];
}

function channelTemplates(p: BodyParams, m: BodyMeasures, outline: Path): TemplateSource[] {
  const both = [
    { name: "top-channels", title: "Channels round the top", ledges: m.topLedges, plate: "top" },
    { name: "back-channels", title: "Channels round the back", ledges: m.backLedges, plate: "back" },
  ];
  return both.flatMap(({ name, title, ledges, plate }): TemplateSource[] =>
    ledges.length === 0
      ? []
      : [
          {
            name,
            title,
            lineIs: `edge of the body, and the walls of the channels round the ${plate}, seen from ${
              plate === "top" ? "the front" : "behind, with the back facing you"
            }`,
            drawing: {
              layers: [
                outlineLayer(m),
                centreLayer(outline),
                ledgeLayer("channels", ledges),
                ...mitreLayer(mitresOf(m.corners, ledges)),
              ].map((layer) => (plate === "top" ? layer : moveLayer(FROM_BEHIND, layer))),
              dimensions: [],
            },
            edge: "outline",
            table: {
              title: "Channels, from the outside in",
              rows: [
                ...ledges.flatMap(({ name: layer, inset, height }) => [
                  { label: `${layer}, in from the edge`, value: inset },
                  { label: `${layer}, down the side`, value: height },
                ]),
                ...mitreRows(m.corners, ledges),
                ...(plate === "top" ? outOfSquare(p, m) : []),
              ],
            },
          },
        ],
  );
}

/** By how much the foot of the deepest channel lies farther in where the router rides the dome instead of standing square to the sides. */
function outOfSquare(p: BodyParams, m: BodyMeasures): { readonly label: string; readonly value: number }[] {
  const deepest = Math.max(0, ...p.binding.map(({ height }) => height));
  if (m.topRadius === undefined || !m.treble) return [];
  return m.treble.levels.map((level, i) => ({
    label: `out of square at the ${levelName(m.treble!.levels, i)}`,
    value: deepest * Math.tan(level.leanRad),
  }));
}

/** Where bouts and waist lie, and how high the top stands at the edge there. */
function stations(half: BodyHalf, m: BodyMeasures): { readonly label: string; readonly value: number }[] {
  return [
    ...half.levels.flatMap((level, i) => [
      { label: `${levelName(half.levels, i)}, from the neck end`, value: level.at.x - m.neckX },
      { label: `${levelName(half.levels, i)}, from the centre line`, value: level.at.y },
      ...(m.topRadius === undefined
        ? []
        : [{ label: `${levelName(half.levels, i)}, edge of the domed top`, value: plateHeight(m.top, level.at) }]),
    ]),
    { label: "tail, from the neck end", value: m.length },
    { label: "round the edge, tail to neck", value: half.length },
  ];
}

/** A half outline closed along the centre line. */
const closedHalf = (half: Path): Path => ({
  start: half.start,
  segments: [...half.segments, line(half.start)],
  closed: true,
});

/** Half a block with the half outline taken out of it, `margin` mm wide at the bouts and at both ends. */
function outsideMould(half: Path, margin: number): Path {
  const box = pathBounds(half);
  const back = reversePath(half);
  const tail = half.start;
  const corners = [
    vec(box.maxX + margin, 0),
    vec(box.maxX + margin, box.maxY + margin),
    vec(box.minX - margin, box.maxY + margin),
    vec(box.minX - margin, 0),
    back.start,
  ];
  return { start: tail, segments: [...corners.map(line), ...piecesOf(back).map(({ segment }) => segment)], closed: true };
}

const onSide = (path: Path, sign: 1 | -1): Path => (sign === 1 ? path : carryPath(mirroring(ORIGIN, vec(1, 0)), path));

const shapeLayer = (path: Path, name: string): Layer => ({
  name: "outline",
  shapes: [{ id: "outline", role: "cut", line: "visible", path, name, tint: "wood" }],
});

const centreOf = (m: BodyMeasures, beyond = 0): Layer => centreAlong(m.neckX - beyond - 12, m.tailX + beyond + 12);

/** Ticks at bouts and waist on one half. */
const marksOf = (m: BodyMeasures, which: Side, sign: 1 | -1): Layer => ({
  name: "levels",
  shapes: (m[which]?.levels ?? []).map(({ at }, i, levels): Shape => ({
    id: `level-${i + 1}`,
    role: "mark",
    line: "narrow",
    path: segmentPath(vec(at.x, sign * (at.y - 14)), vec(at.x, sign * at.y)),
    name: levelName(levels, i),
  })),
});
