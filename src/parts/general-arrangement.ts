/**
 * All parts in their places: the instrument from the front, and under it from the side, in one drawing; and how far the parts lie apart.
 * An overview, never a template.
 */
import { EMPTY_DRAWING, type Dimension, type Drawing, type Layer, type Shape } from "../drawing/drawing.ts";
import { moveLayer } from "../drawing/move.ts";
import type { Bounds } from "../geometry/bounds.ts";
import { pathBounds, pathsBounds } from "../geometry/measure.ts";
import { segmentPath } from "../geometry/path.ts";
import { compose, IDENTITY, rotation, transformPoint, translation, type Affine } from "../geometry/transform.ts";
import { vec, type Vec } from "../geometry/vec.ts";
import type { InPlace, MeasuresByKind, PartKind } from "./contract.ts";
import type { Derived, DerivedPart } from "./derived.ts";
import { partName } from "./part-name.ts";
import { seenSide } from "./seen-side.ts";

export interface GeneralArrangement {
  /** Both views, one layer a part and view; each shape's id is `<part id>/<shape>`, from the side `<part id>/side/<shape>`. */
  readonly drawing: Drawing;
  /** The same with a dimension for every distance, its words beside it, for paper, where small lettering is read. */
  readonly dimensioned: Drawing;
  /** Between parts along the centre line, across and in depth, in words, mm. */
  readonly distances: readonly Distance[];
}

export interface Distance {
  readonly id: string;
  readonly label: string;
  readonly value: number;
}

/** From the bottom of the drawing to its top. Kinds that are not named lie over the body and under the neck. */
const FRONT: readonly string[] = ["body", "sides", "bracing", "soundhole", "pickguard", "port"];
const OVER: readonly string[] = ["neck", "headstock", "fingerboard", "nut", "bridge", "shape", "inlay", "instrument"];

/** Between both views, and between rows of dimension lines, mm. */
const APART = 60;
const ROW = 16;

/** The part whose shape this is on the arrangement; undefined for a line of the arrangement itself. */
export function ownerOf(derived: Derived, shape: string): DerivedPart | undefined {
  const slash = shape.indexOf("/");
  return [derived.instrument, ...derived.parts].find(({ id }) => slash > 0 && id === shape.slice(0, slash));
}

/** Everything in its place. Parts with problems, and parts that have no place on the instrument, are left out. */
export function arrange(derived: Derived): GeneralArrangement {
  const all = [...derived.parts, derived.instrument].map((part) => ({ part, place: part.inPlace() }));
  const ordered = all.toSorted((a, b) => rankOf(a.part) - rankOf(b.part));
  const front = ordered.flatMap(({ part, place }) => layerOf(part, place.front, `${part.id}/`, IDENTITY));
  const turn = turnOf(derived);
  const side = ordered.flatMap(({ part, place }) =>
    layerOf(part, place.side, `${part.id}/side/`, place.plane === "body" ? turn : IDENTITY),
  );
  const frontBox = boxOf(front);
  const sideBox = boxOf(side);
  const distances = distancesOf(derived, frontBox);
  if (!frontBox) return { drawing: EMPTY_DRAWING, dimensioned: EMPTY_DRAWING, distances };
  const rows = ROW * (Math.max(0, ...distances.map(({ row }) => row)) + 1);
  const drop = sideBox ? frontBox.minY - rows - APART - sideBox.maxY : 0;
  const lowered = translation(vec(0, drop));
  const middle: Shape = {
    id: "centre-line",
    role: "centre",
    line: "centre",
    path: segmentPath(vec(frontBox.minX - 15, 0), vec(frontBox.maxX + 15, 0)),
    name: "centre line",
  };
  const layers = [
    ...front,
    { name: "centre", shapes: [middle] },
    ...side.map((layer) => moved(layer, lowered)),
    ...(sideBox ? [sideTitle(derived, vec(frontBox.minX, sideBox.minY + drop))] : []),
  ];
  const depths = sideBox ? depthsOf(derived, drop, turn) : [];
  return {
    drawing: {
      layers,
      dimensions: [
        ...distances.filter(({ id }) => MAIN.has(id)).map((distance) => mainDimension(distance, frontBox)),
        ...depths.filter(({ id }) => MAIN.has(id)),
      ],
    },
    dimensioned: { layers, dimensions: [...distances.map((distance) => rowDimension(distance, frontBox)), ...depths] },
    distances: [
      ...distances.map(({ id, label, value }) => ({ id, label, value })),
      ...depths.map(({ label, id, value }) => ({ id, label, value })),
    ],
  };
}

/** Height of a capital, mm. */
const TITLE = 14;

/** Which side is seen, where nothing is drawn: under the head. */
const sideTitle = (derived: Derived, at: Vec): Layer => ({
  name: "titles",
  shapes: [],
  texts: [
    {
      id: "side-title",
      at,
      text: `From the ${seenSide(measuresOf(derived, "instrument") ?? { side: 1 })} side`,
      height: TITLE,
      align: "start",
    },
  ],
});

function rankOf({ kind }: DerivedPart): number {
  const under = FRONT.indexOf(kind);
  if (under >= 0) return under;
  const over = OVER.indexOf(kind);
  return over >= 0 ? FRONT.length + 1 + over : FRONT.length;
}

/** The body's plane turned by the pitch about the join, as it lies against the plane of board and neck. */
function turnOf(derived: Derived): Affine {
  const neck = measuresOf(derived, "neck");
  const joinX = measuresOf(derived, "instrument")?.joinX ?? 0;
  return neck ? rotation(-neck.pitchRad, vec(joinX, 0)) : IDENTITY;
}

const measuresOf = <K extends PartKind>(derived: Derived, kind: K): MeasuresByKind[K] | undefined =>
  [derived.instrument, ...derived.parts].find((part) => part.kind === kind && part.problems.length === 0)?.measures as
    MeasuresByKind[K] | undefined;

function layerOf(part: DerivedPart, drawing: InPlace["front"], prefix: string, to: Affine): Layer[] {
  const shapes = (drawing?.layers ?? []).flatMap((layer) => layer.shapes);
  if (shapes.length === 0) return [];
  const name = partName(part);
  const said = (shape: Shape): string => (shape.name.toLowerCase() === name.toLowerCase() ? name : `${name}: ${shape.name}`);
  return [
    moved(
      {
        name: prefix.slice(0, -1).replace("/", "-"),
        shapes: shapes.map((shape) => ({ ...shape, id: `${prefix}${shape.id}`, name: said(shape) })),
      },
      to,
    ),
  ];
}

const moved = (layer: Layer, to: Affine): Layer => (to === IDENTITY ? layer : moveLayer(to, layer));

const boxOf = (layers: readonly Layer[]): Bounds | undefined => {
  const paths = layers.flatMap((layer) => layer.shapes.map((shape) => shape.path));
  return paths.length > 0 ? pathsBounds(paths) : undefined;
};

interface Along extends Distance {
  /** Row under the front view from the nearest on. */
  readonly row: number;
  readonly from: number;
  readonly to: number;
}

/** What a maker measures between parts. */
function distancesOf(derived: Derived, box: Bounds | undefined): Along[] {
  const instrument = measuresOf(derived, "instrument");
  if (!instrument || !box) return [];
  const board = measuresOf(derived, "fingerboard");
  const body = measuresOf(derived, "body");
  const bridge = measuresOf(derived, "bridge");
  const hole = measuresOf(derived, "soundhole")?.outline;
  const holeBox = hole && pathBounds(hole);
  const bridgeBox = bridge?.outline && pathBounds(bridge.outline);
  const rows = { next: 0 };
  const along = (id: string, label: string, from: number | undefined, to: number | undefined, sameRow = false): Along[] => {
    if (from === undefined || to === undefined || !(to > from)) return [];
    if (!sameRow) rows.next += 1;
    return [{ id, label, value: to - from, from, to, row: rows.next }];
  };
  return [
    ...along("board-to-hole", "end of the board to the soundhole", board?.endX, holeBox?.minX),
    ...along("hole-to-bridge", "soundhole to bridge", holeBox?.maxX, bridgeBox?.minX),
    ...along("bridge-to-tail", "bridge to tail", bridgeBox?.maxX, body?.tailX, bridgeBox !== undefined && holeBox !== undefined),
    ...along("nut-to-join", "nut to join", 0, instrument.joinX),
    ...along("join-to-saddle", "join to saddle", instrument.joinX, bridge?.saddleX, true),
    ...along("nut-to-12", "nut to fret 12", 0, instrument.fret12X),
    ...along("12-to-saddle", "fret 12 to saddle", instrument.fret12X, bridge?.saddleX, true),
    ...along("nut-to-saddle", "nut to saddle, on the centre line", 0, bridge?.saddleX),
    ...along("body", "join to tail", body?.neckX, body?.tailX),
    ...along("overall", "over all", box.minX, box.maxX),
  ];
}

/** What stands on the drawing itself, where lettering keeps its size on screen; all else is said beside it. */
const MAIN = new Set(["nut-to-join", "join-to-saddle", "body", "overall", "depth-tail"]);

const rowDimension = ({ id, label, value, row, from, to }: Along, box: Bounds): Dimension => ({
  id,
  from: vec(from, box.minY),
  to: vec(to, box.minY),
  along: "x",
  offset: -ROW * row,
  value,
  quantity: "length",
  after: label,
  rank: 1,
});

/** The body's length over it, the others under it. */
const mainDimension = (distance: Along, box: Bounds): Dimension => {
  const { from, to, id } = distance;
  const over = id === "body";
  const y = over ? box.maxY : box.minY;
  return {
    id,
    from: vec(from, y),
    to: vec(to, y),
    along: "x",
    offset: over ? ROW : -ROW * (id === "overall" ? 2 : 1),
    value: distance.value,
    quantity: "length",
    rank: id === "overall" ? 2 : 1,
  };
};

/** Depth of the body at both ends, as it stands in the side view. */
function depthsOf(derived: Derived, drop: number, turn: Affine): (Dimension & { readonly label: string })[] {
  const sides = measuresOf(derived, "sides");
  if (!sides || sides.pieces.length === 0) return [];
  const part = derived.parts.find(({ kind }) => kind === "sides")!;
  const placed = compose(turn, translation(vec(0, drop)));
  const ends = [
    {
      id: "depth-tail",
      label: "depth of the sides at the tail",
      x: sides.top.tail.x,
      high: sides.top.tail.height,
      low: sides.back.tail.height,
      edits: "depthTail",
      offset: -ROW,
    },
    // Out before the heel, where nothing stands.
    {
      id: "depth-neck",
      label: "depth of the sides at the neck",
      x: sides.top.neck.x,
      high: sides.top.neck.height,
      low: sides.back.neck.height,
      edits: "depthNeck",
      offset: 4 * ROW,
    },
  ];
  return ends.map(({ id, label, x, high, low, edits, offset }) => {
    const at = (z: number): Vec => transformPoint(placed, vec(x, z));
    return {
      id,
      label,
      from: at(low),
      to: at(high),
      along: "straight" as const,
      offset,
      value: high - low,
      quantity: "length" as const,
      edits: `${part.path}.${edits}`,
      rank: 2 as const,
    };
  });
}
