/** Where the neck's views and sections stand on its drawing, and the sections themselves. */
import type { Dimension, Layer, Shape } from "../../drawing/drawing.ts";
import { compose, inverse, scaling, transformPath, translation } from "../../geometry/transform.ts";
import { lerp, vec, type Vec } from "../../geometry/vec.ts";
import type { PlacedWall } from "../../lutherie/neck-run.ts";
import { sectionPath } from "../../lutherie/neck-section.ts";
import type { Limits, Sources } from "../contract.ts";
import { leastBy } from "../finding.ts";
import type { ContourMeasure } from "./contour.ts";
import type { NeckMeasures } from "./measure.ts";
import type { NeckModel } from "./model.ts";
import { fretX, type NeckParams } from "./numbers.ts";
import { channelSection, sectionView } from "./sections.ts";
import { drawnFromSide } from "./side.ts";
import { leastBehind, SIGN_ROOM, usualBeside } from "./stops.ts";
import { placeName, said, saidAngle } from "./views.ts";

/** Room between the plan and the side view, and between sections, mm. */
const BELOW = 122;
const APART = 14;
/** Room from one row of sections to the next, mm. */
const ROOM = 24;
/** Distance of a dimension line from what it measures, mm. */
const ROW = 12;

/** Where the side view is drawn. */
export function sidePlace(model: NeckModel): Vec {
  const half = Math.max(model.widthAt(model.nutX), model.widthAt(model.joinX)) / 2;
  return vec(0, -(half + BELOW));
}

/** A place of the side view on the drawing: `z` over the plane that the board is glued to. */
export const onSideView = (model: NeckModel, x: number, z: number): Vec => vec(x, sidePlace(model).y + z);

interface SeenWall {
  readonly which: "behind" | "beside";
  readonly wall: PlacedWall;
}

/** A section by itself behind the heel, with room for its figure. */
interface ApartSection {
  readonly key: "least" | "beside";
  readonly label: string;
  readonly x: number;
  readonly at: Vec;
  /** Those whose figures it shows. */
  readonly walls: readonly SeenWall[];
}

/** That through the least wood behind the channels, unless that is in the tongue; and that through the least beside them where it is little. */
function apartSections(m: NeckMeasures, model: NeckModel, limits: Limits): ApartSection[] {
  const at = vec(model.joinX + 130, sidePlace(model).y - 105);
  const behind = leastWall(m, "behind");
  const beside = leastWall(m, "beside", model.joinX);
  const least: ApartSection | undefined =
    behind && behind.x <= model.joinX
      ? { key: "least", label: "least wood", x: behind.x, at, walls: [{ which: "behind", wall: behind }] }
      : undefined;
  if (!beside || beside.distance >= usualBeside(limits) - 1e-9) return least ? [least] : [];
  const shown: SeenWall = { which: "beside", wall: beside };
  if (least && beside.x === least.x) return [{ ...least, walls: [...least.walls, shown] }];
  const above = least ? model.sectionAt(least.x).depth + 2 * ROOM + model.board : 0;
  return [
    ...(least ? [least] : []),
    { key: "beside", label: "least beside", x: beside.x, at: vec(at.x, at.y - above), walls: [shown] },
  ];
}

/** The least wall of all channels up to `end`. */
const leastWall = (m: NeckMeasures, which: "behind" | "beside", end = Infinity): PlacedWall | undefined =>
  leastBy(
    m.channels.flatMap((channel) => channel[which] ?? []).filter(({ x }) => x <= end),
    ({ distance }) => distance,
  );

/**
 * Where the wood round a channel is seen on the drawing: in the section through it, else behind a channel from the side and beside one
 * from the front.
 */
export function seenWall(
  m: NeckMeasures,
  model: NeckModel,
  limits: Limits,
  id: string,
  wall: PlacedWall,
  which: "behind" | "beside",
): { readonly at: Vec; readonly shape: string } {
  const { side } = model.instrument;
  const middle = lerp(wall.from, wall.to, 0.5);
  const drawn = apartSections(m, model, limits).find((one) => one.x === wall.x && (which === "beside" || one.key === "least"));
  if (drawn) {
    const channel = model.channels.find((one) => one.id === id);
    return {
      at: vec(drawn.at.x + side * middle.x, drawn.at.y + middle.y),
      // Beyond its end, or where the face has fallen to its floor, nothing of the channel is seen.
      shape: `section-${drawn.key}${channel && channelSection(channel, wall.x, side, model.faceFall(wall.x)) ? `-${id}` : ""}`,
    };
  }
  return which === "behind"
    ? { at: onSideView(model, wall.x, middle.y), shape: `side-${drawnFromSide(model, id)}` }
    : { at: vec(wall.x, side * middle.x), shape: id };
}

interface SectionPlace {
  readonly key: string;
  readonly label: string;
  readonly x: number;
  readonly centre: Vec;
}

/** Behind the nut, at the nut, at the frets that have gauges and at those where the neck is measured: in rows under the shaft, left of the heel. */
export function sectionPlaces(p: NeckParams, model: NeckModel): readonly SectionPlace[] {
  const frets = [...new Set([...p.gaugeFrets, p.firstFret, p.secondFret])]
    .filter((fret) => fret > 0)
    .toSorted((a, b) => a - b)
    .map((fret) => ({ key: `${fret}`, label: placeName(fret), x: fretX(model.instrument, fret) }));
  const places = [
    { key: "bend", label: "bend", x: Math.min(model.profile.corner, model.headX) },
    { key: "nut", label: "nut", x: model.nutX },
    ...frets.filter(({ x }) => x <= model.joinX),
  ];
  const deepest = Math.max(...places.map(({ x }) => model.sectionAt(x).depth));
  const shaft = Math.max(...[0, 0.5, 1].map((t) => model.profile.depthAt(model.nutX + t * (model.heel.from - model.nutX))));
  let top = sidePlace(model).y - shaft - SIGN_ROOM;
  let left = model.nutX;
  const right = Math.max(model.heel.from - 10, left + 1);
  return places.map((place) => {
    const width = model.widthAt(place.x);
    if (left > model.nutX && left + width > right) {
      left = model.nutX;
      top -= model.board + deepest + ROOM;
    }
    const centre = vec(left + width / 2, top - model.board);
    left += width + APART;
    return { ...place, centre };
  });
}

/** The section at a measured fret; undefined where it is not drawn. */
export const measuredSection = (p: NeckParams, model: NeckModel, which: "first" | "second"): SectionPlace | undefined =>
  sectionPlaces(p, model).find(({ key }) => key === (p[`${which}Fret`] === 0 ? "nut" : `${p[`${which}Fret`]}`));

/** All sections, and those that have room for a figure with it. */
export function sectionsOf(
  p: NeckParams,
  m: NeckMeasures,
  model: NeckModel,
  from: Sources,
  limits: Limits,
): { readonly layer: Layer; readonly dimensions: readonly Dimension[]; readonly title: Vec } {
  const least = leastBehind(limits);
  const places = sectionPlaces(p, model);
  const apart = apartSections(m, model, limits);
  const views = [
    ...places.map((place) => sectionView(model, from, { ...place, least })),
    ...apart.map(({ at, ...place }) => sectionView(model, from, { ...place, centre: at, least })),
  ];
  return {
    title: vec(model.headX - 10, places[0]!.centre.y - 22),
    layer: {
      name: "sections",
      shapes: [
        ...views.flatMap(({ shapes }) => shapes),
        ...m.contours.flatMap((contour) => {
          const place = measuredSection(p, model, contour.which);
          return place ? [tracedCurve(contour, place, model)] : [];
        }),
      ],
      texts: views.flatMap(({ texts }) => texts),
    },
    dimensions: apart.flatMap((section) => section.walls.map((seen) => wallDimension(model, section.at, seen))),
  };
}

/** The fitted curve as it lies on the trace, turned and moved as that is. */
function tracedCurve(contour: ContourMeasure, { key, centre }: SectionPlace, { instrument }: NeckModel): Shape {
  const { section, laying, turnRad, move, worst, rms } = contour;
  return {
    id: `section-${key}-contour`,
    role: "guide",
    line: "adjacent",
    path: transformPath(compose(inverse(laying), scaling(instrument.side, 1), translation(centre)), sectionPath(section)),
    name: "curve fitted to the contour gauge",
    says: [
      said("greatest distance from what was traced", worst),
      said("root of the mean square", rms),
      saidAngle("trace turned by", turnRad),
      said("moved across by", move.x),
      said("moved up by", move.y),
    ],
  };
}

/** The wall itself, in the section where it is least. */
function wallDimension({ instrument: { side } }: NeckModel, centre: Vec, { which, wall }: SeenWall): Dimension {
  const at = (v: Vec): Vec => vec(centre.x + side * v.x, centre.y + v.y);
  return {
    id: which === "behind" ? "least-wood" : "least-beside",
    from: at(wall.from),
    to: at(wall.to),
    along: "straight",
    offset: side * wall.from.x < 0 ? -ROW : ROW,
    value: wall.distance,
    quantity: "length",
    rank: 1,
  };
}
