/** The neck from the front, with its side view and sections below. */
import { centreAlong } from "../centre-line.ts";
import type { Dimension, Drawing, Text } from "../../drawing/drawing.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import type { Limits, Sources } from "../contract.ts";
import { seenSide } from "../seen-side.ts";
import type { NeckMeasures } from "./measure.ts";
import { stringTop } from "./heights.ts";
import { modelOf, type NeckModel } from "./model.ts";
import { fretX, instrumentOf, type NeckParams } from "./numbers.ts";
import { channelLayer, fretGuides, headStub, planOutline } from "./plan.ts";
import { sectionsOf, sidePlace } from "./section-row.ts";
import { headFrame, sideLayer } from "./side.ts";
import { leastBehind, LOUD, stopsFromSide, stopsOf, stopsOnPlan } from "./stops.ts";
import { movedDimensions, movedLayer, present } from "./views.ts";

/** Distance from one row of dimension lines to the next, mm. */
const ROW = 12;
const TITLE = 7;

export function drawNeck(p: NeckParams, m: NeckMeasures, from: Sources, limits: Limits): Drawing {
  const model = modelOf(p, from);
  const sideAt = sidePlace(model);
  const stops = stopsOf(m, model, leastBehind(limits));
  const sections = sectionsOf(p, m, model, from, limits);
  const title = (id: string, at: Vec, text: string, align: Text["align"]): Text => ({ id, at, text, height: TITLE, align });
  return {
    layers: [
      { name: "outline", shapes: [planOutline(p, m, model)] },
      fretGuides(model),
      { name: "head", shapes: headStub(model) },
      channelLayer(model, "hidden"),
      centreAlong(model.headX - 10, model.joinX + 30),
      ...present(stopsOnPlan(stops, model, LOUD)),
      movedLayer(sideLayer(p, m, model, from), sideAt),
      ...present(stopsFromSide(stops, model, "side-", { height: LOUD, over: false })).map((layer) => movedLayer(layer, sideAt)),
      sections.layer,
      {
        name: "titles",
        shapes: [],
        texts: [
          title(
            "side-title",
            vec(m.saddleX + 30, sideAt.y - 24),
            `From the ${seenSide(model.instrument)} side, to the saddle`,
            "end",
          ),
          title("section-title", sections.title, "Sections, from the body", "end"),
        ],
      },
    ],
    dimensions: [
      ...planDimensions(p, m, model, from),
      ...movedDimensions(sideDimensions(p, m, model), sideAt),
      ...sections.dimensions,
    ],
  };
}

function planDimensions(p: NeckParams, m: NeckMeasures, model: NeckModel, from: Sources): Dimension[] {
  const { nutX, joinX } = model;
  const instrument = instrumentOf(from);
  const board = from.get("fingerboard");
  const half = Math.max(m.widthAtNut, m.widthAtJoin) / 2;
  const base = { quantity: "length" } as const;
  const list: Dimension[] = [
    {
      ...base,
      id: "width-at-nut",
      from: vec(model.headX, -m.widthAtNut / 2),
      to: vec(model.headX, m.widthAtNut / 2),
      along: "y",
      offset: ROW,
      value: m.widthAtNut,
      edits: m.widthAtNut === instrument.nutWidth ? "instrument.nutWidth" : ".widthAtNut",
      rank: 1,
    },
    {
      ...base,
      id: "width-at-join",
      from: vec(joinX, -m.widthAtJoin / 2),
      to: vec(joinX, m.widthAtJoin / 2),
      along: "y",
      offset: -(m.tongueLength + ROW),
      value: m.widthAtJoin,
      ...(board && m.widthAtJoin === board.widthAtJoin ? {} : { edits: ".widthAtJoin" }),
      rank: 1,
    },
    {
      ...base,
      id: "join",
      from: vec(nutX, half),
      to: vec(joinX, half),
      along: "x",
      offset: ROW,
      value: joinX - nutX,
      after: `to the join, fret ${instrument.joinFret}`,
      rank: 2,
    },
  ];
  const rod = model.channels.find(({ id }) => id === "rod");
  if (rod)
    list.push({
      ...base,
      id: "rod-length",
      from: vec(rod.run.from, half),
      to: vec(rod.run.to, half),
      along: "x",
      offset: 2 * ROW,
      value: p.rodLength,
      after: "truss rod",
      edits: ".rodLength",
      rank: 2,
    });
  return list;
}

function sideDimensions(p: NeckParams, m: NeckMeasures, model: NeckModel): Dimension[] {
  const { board, heel } = model;
  const base = { quantity: "length" } as const;
  const depthAt = (which: "first" | "second"): Dimension => {
    const x = fretX(model.instrument, p[`${which}Fret`]);
    return {
      ...base,
      id: `${which}-depth`,
      from: vec(x, -model.profile.depthAt(x)),
      to: vec(x, board),
      along: "y",
      offset: ROW,
      value: p[`${which}Depth`],
      edits: `.${which}Depth`,
      rank: 1,
    };
  };
  const { down, into, start } = headFrame(p, model);
  const near = vec(start.x + down.x * p.headLength * 0.6, start.y + down.y * p.headLength * 0.6);
  return [
    depthAt("first"),
    ...(fretX(model.instrument, p.secondFret) === fretX(model.instrument, p.firstFret) ? [] : [depthAt("second")]),
    {
      ...base,
      id: "heel-depth",
      from: vec(model.joinX, -heel.depth),
      to: vec(model.joinX, 0),
      along: "y",
      offset: -(Math.max(m.tongueLength, p.blockThickness) + ROW),
      value: heel.depth,
      edits: ".heelDepth",
      rank: 1,
    },
    {
      ...base,
      id: "head-thickness",
      from: vec(near.x + into.x * model.headWood, near.y + into.y * model.headWood),
      to: vec(near.x - into.x * p.headplate, near.y - into.y * p.headplate),
      along: "straight",
      offset: 0,
      value: p.headThickness,
      edits: ".headThickness",
      rank: 2,
    },
    {
      ...base,
      id: "strings-over-top",
      from: vec(m.saddleX, stringTop(m) - m.stringsOverTop),
      to: vec(m.saddleX, stringTop(m)),
      along: "y",
      offset: -30,
      value: m.stringsOverTop,
      after: "strings over the top",
      rank: 2,
    },
  ];
}
