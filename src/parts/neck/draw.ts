/** The neck from the front, with its side view and sections below. */
import { centreAlong } from "../centre-line.ts";
import type { Dimension, Drawing, Layer, Text } from "../../drawing/drawing.ts";
import { lerp, vec, type Vec } from "../../geometry/vec.ts";
import { wallFrom, type PlacedWall } from "../../lutherie/neck-run.ts";
import type { Limits, Sources } from "../contract.ts";
import { seenSide } from "../seen-side.ts";
import type { NeckMeasures } from "./measure.ts";
import { modelOf, type NeckModel } from "./model.ts";
import { fretX, instrumentOf, type NeckParams } from "./numbers.ts";
import { channelLayer, fretGuides, headStub, planOutline } from "./plan.ts";
import { sectionView } from "./sections.ts";
import { headFrame, sideLayer } from "./side.ts";
import { leastBehind, LOUD, SIGN_ROOM, stopsFromSide, stopsOf, stopsOnPlan } from "./stops.ts";
import { movedDimensions, movedLayer, placeName, present } from "./views.ts";

/** Room between the plan and the side view, and between sections, mm. */
const BELOW = 122;
const APART = 14;
/** Room under the shaft where nothing is said there, and from one row of sections to the next, mm. */
const ROOM = 20;
/** Distance from one row of dimension lines to the next, mm. */
const ROW = 12;
const TITLE = 7;

/** Where the side view is drawn. */
function sidePlace(model: NeckModel): Vec {
  const half = Math.max(model.widthAt(model.nutX), model.widthAt(model.joinX)) / 2;
  return vec(0, -(half + BELOW));
}

/** Where the section through the least wood is drawn, and where along the neck that is; undefined where least is left in the tongue. */
function leastSection(
  { leastWoodX: x, joinX }: NeckMeasures,
  model: NeckModel,
): { readonly x: number; readonly at: Vec } | undefined {
  return x === undefined || x > joinX ? undefined : { x, at: vec(joinX + 130, sidePlace(model).y - 105) };
}

/** Where the wood behind a channel is seen on the drawing: in the section through the least of all, else from the side. */
export function seenBehind(
  m: NeckMeasures,
  model: NeckModel,
  id: string,
  wall: PlacedWall,
): { readonly at: Vec; readonly shape?: string } {
  const least = leastSection(m, model);
  const middle = lerp(wall.from, wall.to, 0.5);
  if (least?.x === wall.x)
    return { at: vec(least.at.x + model.instrument.side * middle.x, least.at.y + middle.y), shape: `section-least-${id}` };
  return { at: vec(wall.x, sidePlace(model).y + middle.y) };
}

export function drawNeck(p: NeckParams, m: NeckMeasures, from: Sources, limits: Limits): Drawing {
  const model = modelOf(p, from);
  const sideAt = sidePlace(model);
  const stops = stopsOf(m, model, leastBehind(limits));
  const sections = sectionRow(p, m, model, from, sideAt, leastBehind(limits), stops.length > 0 ? SIGN_ROOM : ROOM);
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

/** Where sections are drawn: behind the nut, at the nut, at the frets that have gauges. */
function sectionPlaces(p: NeckParams, model: NeckModel): { key: string; label: string; x: number }[] {
  const frets = [...new Set(p.gaugeFrets)].toSorted((a, b) => a - b).map((fret) => ({ fret, x: fretX(model.instrument, fret) }));
  return [
    { key: "bend", label: "bend", x: Math.min(model.profile.corner, model.headX) },
    { key: "nut", label: "nut", x: model.nutX },
    ...frets
      .filter(({ fret, x }) => fret > 0 && x <= model.joinX)
      .map(({ fret, x }) => ({ key: `${fret}`, label: placeName(fret), x })),
  ];
}

/** Sections in rows under the shaft, left of the heel; that where least wood is left by itself behind the heel, with room for its figure. */
function sectionRow(
  p: NeckParams,
  m: NeckMeasures,
  model: NeckModel,
  from: Sources,
  sideAt: Vec,
  least: number,
  /** Room under the shaft. */
  under: number,
): { readonly layer: Layer; readonly dimensions: readonly Dimension[]; readonly title: Vec } {
  const places = sectionPlaces(p, model);
  const deepest = Math.max(...places.map(({ x }) => model.sectionAt(x).depth));
  const rowHeight = model.board + deepest + ROOM;
  const shaft = Math.max(...[0, 0.5, 1].map((t) => model.profile.depthAt(model.nutX + t * (model.heel.from - model.nutX))));
  const first = sideAt.y - shaft - under;
  let top = first;
  let left = model.nutX;
  const right = Math.max(model.heel.from - 10, left + 1);
  const views = places.map((place) => {
    const width = model.widthAt(place.x);
    if (left > model.nutX && left + width > right) {
      left = model.nutX;
      top -= rowHeight;
    }
    const centre = vec(left + width / 2, top - model.board);
    left += width + APART;
    return sectionView(model, from, { ...place, centre, least });
  });
  const thinnest = leastSection(m, model);
  if (thinnest)
    views.push(sectionView(model, from, { key: "least", label: "least wood", x: thinnest.x, centre: thinnest.at, least }));
  return {
    title: vec(model.headX - 10, first - model.board - 22),
    layer: {
      name: "sections",
      shapes: views.flatMap(({ shapes }) => shapes),
      texts: views.flatMap(({ texts }) => texts),
    },
    dimensions: thinnest ? leastDimension(m, model, thinnest.x, thinnest.at) : [],
  };
}

/** The wall itself, in the section where it is least. */
function leastDimension(m: NeckMeasures, model: NeckModel, x: number, centre: Vec): Dimension[] {
  const channel = model.channels
    .map(({ run }) => wallFrom(run, model.sectionAt, x, "behind"))
    .reduce((a, b) => (b.distance < a.distance ? b : a));
  const { side } = model.instrument;
  const at = (v: Vec): Vec => vec(centre.x + side * v.x, centre.y + v.y);
  return [
    {
      id: "least-wood",
      from: at(channel.from),
      to: at(channel.to),
      along: "straight",
      offset: side * channel.from.x < 0 ? -ROW : ROW,
      value: m.leastWood!,
      quantity: "length",
      rank: 1,
    },
  ];
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

/** Height of the strings at the saddle over the glue plane, by the bridge and the saddle. */
const stringTop = (m: NeckMeasures): number => m.fretPlane - m.fretPlaneAtBridge + m.stringsOverTop;
