/** The patterns that a neck is made by. */
import { centreAlong, centreLine } from "../centre-line.ts";
import type { Shape, Text } from "../../drawing/drawing.ts";
import { polygon, segmentPath, type Path } from "../../geometry/path.ts";
import { add, scale, unit, vec, type Vec } from "../../geometry/vec.ts";
import { fallOver } from "../../lutherie/board-radius.ts";
import { curvePath } from "../../geometry/curve-path.ts";
import type { Limits, Sources, TemplateSource } from "../contract.ts";
import { seenSide } from "../seen-side.ts";
import { tongueOf } from "./joint.ts";
import type { NeckMeasures } from "./measure.ts";
import { modelOf, type NeckModel } from "./model.ts";
import { fretX, type NeckParams } from "./numbers.ts";
import { channelLayer, fretGuides, planOutline, planPath } from "./plan.ts";
import { leastBehind, stopsFromSide, stopsOf, stopsOnPlan, type Stop } from "./stops.ts";
import { headFrame, jointShapes, sideChannels, sideOutline } from "./side.ts";
import { carvingTemplates } from "./templates-carving.ts";
import { transitionGauge } from "./templates-transition.ts";
import { jointSheets } from "./templates-joint.ts";
import { placeName, present, said } from "./views.ts";

const LABEL = 2.5;
type Row = NonNullable<TemplateSource["table"]>["rows"][number];

export function neckTemplates(p: NeckParams, m: NeckMeasures, from: Sources, limits: Limits): TemplateSource[] {
  const model = modelOf(p, from);
  const least = leastBehind(limits);
  const stops = stopsOf(m, model, least);
  const warned = (template: TemplateSource): TemplateSource =>
    stops.length > 0 ? { ...template, title: `STOP: ${template.title}` } : template;
  return [
    ...[
      planTemplate(p, m, model, stops),
      sideProfile(p, m, model, stops),
      ...channelTemplate(p, model, stops),
      transitionGauge(p, model),
      ...carvingTemplates(p, model, least),
    ].map(warned),
    ...jointSheets(p, m, model),
    ...saddleTemplate(m, model),
  ];
}

function planTemplate(p: NeckParams, m: NeckMeasures, model: NeckModel, stops: readonly Stop[]): TemplateSource {
  const frets = [...new Set(p.gaugeFrets)].toSorted((a, b) => a - b).filter((fret) => fret > 0);
  return {
    name: "plan",
    title: "Neck outline",
    lineIs: "edge of the neck under the board; cut to the centre of the line",
    drawing: {
      layers: [
        { name: "outline", shapes: [planOutline(p, m, model)] },
        fretGuides(model),
        channelLayer(model, "hidden", "guide"),
        centreAlong(model.headX - 10, model.joinX + m.tongueLength + 10),
        ...present(stopsOnPlan(stops, model)),
      ],
      dimensions: [],
    },
    edge: "outline",
    table: {
      title: "From the nut, on the centre line",
      rows: [
        ...frets
          .map((fret): Row => ({ label: placeName(fret), value: fretX(model.instrument, fret) - model.nutX }))
          .filter(({ value }) => value <= model.joinX - model.nutX),
        { label: "heel begins", value: model.heel.from - model.nutX },
        { label: "join", value: model.joinX - model.nutX },
      ],
    },
  };
}

function channelTemplate(p: NeckParams, model: NeckModel, stops: readonly Stop[]): TemplateSource[] {
  const [first] = model.channels;
  if (!first) return [];
  const rows = model.channels.flatMap(({ id, name, run }): Row[] => {
    const short = id === "rod" ? "rod" : id === "pocket" ? "pocket" : name.replace("channel of ", "");
    return [
      { label: `${short}: begins`, value: run.from - model.nutX },
      { label: `${short}: ends`, value: run.to - model.nutX },
      { label: `${short}: width`, value: run.width },
      { label: run.depthTo === run.depthFrom ? `${short}: depth` : `${short}: depth, beginning`, value: run.depthFrom },
      ...(run.depthTo === run.depthFrom ? [] : [{ label: `${short}: depth, end`, value: run.depthTo }]),
    ];
  });
  return [
    {
      name: "channels",
      title: "Channels for rod and bars",
      lineIs: "edges of the channels in the face that the board is glued to; the depths are in the table",
      drawing: {
        layers: [
          {
            name: "outline",
            shapes: [
              {
                id: "outline",
                role: "guide",
                line: "narrow",
                path: planPath(model, tongueOf(p, model)),
                name: "edge of the neck",
              },
            ],
          },
          fretGuides(model),
          channelLayer(model, "visible"),
          centreAlong(model.headX - 20, model.joinX + 20),
          ...present(stopsOnPlan(stops, model)),
        ],
        dimensions: [],
      },
      edge: first.id,
      table: { title: "From the nut; below 0 behind it", rows },
    },
  ];
}

/** The blank from the side: the finished neck in it, the scarf, the layers of the heel. */
function sideProfile(p: NeckParams, m: NeckMeasures, model: NeckModel, stops: readonly Stop[]): TemplateSource {
  const rows: Row[] = [
    { label: "wood at the nut", value: m.depthAtNut },
    { label: "wood where the heel begins", value: m.depthAtJoin },
    { label: "heel, down to the foot", value: m.heelDepth },
    { label: m.heelUndercut < 0 ? "foot stands out by" : "foot cut back by", value: Math.abs(m.heelUndercut) },
    { label: "head's wood, square to its face", value: m.headWood },
  ];
  const { shapes, texts } = scarfShapes(p, m, model);
  if (m.scarfCutFace !== undefined)
    rows.push(
      { label: "blank, thickness", value: p.blankThickness },
      { label: "scarf along the cut face", value: m.scarfCutFace },
      { label: "scarf laid out on the blank's face", value: m.scarfLayout! },
      { label: "nut to the glue line", value: m.scarfFromNut! },
    );
  return {
    name: "side-profile",
    title: "Side of the neck",
    lineIs: `edge of the finished neck from its ${seenSide(model.instrument)} side; saw outside the line`,
    drawing: {
      layers: [
        { name: "outline", shapes: [sideOutline(p, m, model, "outline"), ...jointShapes(p, m, model, "")] },
        { name: "blank", shapes },
        { name: "channels", shapes: sideChannels(model, "") },
        ...present(stopsFromSide(stops, model, "")),
        { name: "labels", shapes: [], texts },
      ],
      dimensions: [],
    },
    edge: "outline",
    table: { title: "Heights and lengths", rows },
  };
}

function scarfShapes(p: NeckParams, m: NeckMeasures, model: NeckModel): { readonly shapes: Shape[]; readonly texts: Text[] } {
  if (m.scarfCutFace === undefined || m.scarfLayout === undefined) return { shapes: [], texts: [] };
  const t = p.blankThickness;
  const { down, start } = headFrame(p, model);
  const top = p.scarf === "board" ? vec(start.x + model.headWood / Math.sin(p.headTilt), 0) : start;
  const cut = add(top, scale(down, m.scarfCutFace));
  const end = model.joinX + m.tongueLength;
  const guide = { role: "guide", line: "adjacent" } as const;
  const shapes: Shape[] = [
    {
      ...guide,
      id: "scarf-cut-face",
      line: "narrow",
      path: segmentPath(top, cut),
      name: "scarf, along the cut face",
      says: [said("length along the cut face", m.scarfCutFace)],
    },
    {
      ...guide,
      id: "scarf-layout",
      line: "narrow",
      path: segmentPath(cut, vec(top.x, -t)),
      name: "scarf, laid out on the blank's face",
      says: [said("length on the blank's face", m.scarfLayout)],
    },
    { ...guide, id: "scarf-square", line: "narrow", path: segmentPath(vec(top.x, -t), top), name: "square through the blank" },
    {
      ...guide,
      id: "blank-shaft",
      path: polygon([top, vec(end, 0), vec(end, -t), cut]),
      name: "blank of the shaft",
      says: [said("thickness", t)],
    },
  ];
  // Layers of the heel, down to the foot.
  for (let k = 1; k * t < m.heelDepth && k <= 20; k++)
    shapes.push({
      ...guide,
      id: `heel-layer-${k}`,
      path: segmentPath(vec(model.heel.from, -k * t), vec(end, -k * t)),
      name: `glue line of the heel ${k}`,
    });
  const label = { height: LABEL, align: "middle" } as const;
  const along = scale(down, m.scarfCutFace / 2);
  return {
    shapes,
    texts: [
      {
        ...label,
        id: "scarf-cut-face-label",
        at: add(add(top, along), vec(-1, 1.5)),
        text: "scarf: along the cut face",
        angle: p.headTilt,
      },
      {
        ...label,
        id: "scarf-layout-label",
        at: vec(top.x - m.scarfLayout / 2, -t - LABEL - 1.5),
        text: "scarf: laid out on the blank's face",
      },
    ],
  };
}

/** The board's arch carried on, over the straight line that the action falls by from one outer string to the other. */
function saddleLine({ saddleRadius }: NeckMeasures, first: Vec, last: Vec): Path {
  const slope =
    (last.y + fallOver(saddleRadius, 2 * last.x) - first.y - fallOver(saddleRadius, 2 * first.x)) / (last.x - first.x);
  const at = (x: number): Vec =>
    vec(x, first.y + fallOver(saddleRadius, 2 * first.x) + slope * (x - first.x) - fallOver(saddleRadius, 2 * x));
  if (saddleRadius === undefined) return segmentPath(first, last);
  const direction = (x: number): Vec => unit(vec(1, slope - x / Math.sqrt(saddleRadius * saddleRadius - x * x)));
  return curvePath({ at, direction }, first.x, last.x, 1e-3);
}

/** The top of the saddle over the bridge, under each string. */
function saddleTemplate(m: NeckMeasures, model: NeckModel): TemplateSource[] {
  const { side } = model.instrument;
  const points = m.saddleTop.map(({ y, overBridge }) => vec(y, overBridge)).toSorted((a, b) => a.x - b.x);
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last || !(last.x - first.x > 1)) return [];
  const [left, right] = [first.x - 5, last.x + 5];
  const texts: Text[] = m.saddleTop.map(({ string, y }) => ({
    id: `string-label-${string}`,
    at: vec(y, -4.5),
    text: `${string}`,
    height: LABEL,
    align: "middle",
  }));
  return [
    {
      name: "saddle-top",
      title: "Top of the saddle",
      lineIs: "underside of the strings over the bridge, seen from the tail; round the saddle through the marks",
      drawing: {
        layers: [
          {
            name: "saddle",
            shapes: [
              {
                id: "bridge-line",
                role: "guide",
                line: "visible",
                path: segmentPath(vec(left, 0), vec(right, 0)),
                name: "top of the bridge",
              },
              { id: "saddle-line", role: "mark", line: "visible", path: saddleLine(m, first, last), name: "top of the saddle" },
              ...m.saddleTop.map(({ string, y, overBridge }): Shape => ({
                id: `string-${string}`,
                role: "mark",
                line: "narrow",
                path: segmentPath(vec(y, Math.min(0, overBridge)), vec(y, Math.max(0, overBridge) + 2)),
                name: `string ${string}`,
                says: [said("over the bridge", overBridge)],
              })),
            ],
          },
          { name: "centre", shapes: [centreLine(vec(0, -2), vec(0, Math.max(4, m.saddleHeight + 4)))] },
          { name: "labels", shapes: [], texts },
        ],
        dimensions: [],
      },
      table: {
        title: `Saddle over the bridge${side === 1 ? "" : ", left-handed"}`,
        rows: m.saddleTop.map(({ string, overBridge }) => ({ label: `string ${string}`, value: overBridge })).toReversed(),
      },
    },
  ];
}
