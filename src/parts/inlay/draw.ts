/**
 * An inlay as its letters are read, their line along x about their middle: what was drawn, the pocket, what the bits lose and add, thin
 * walls, and the edge of the part that it lies on.
 */
import { EMPTY_DRAWING, type Dimension, type Drawing, type Layer, type Shape, type Text } from "../../drawing/drawing.ts";
import { growBounds } from "../../geometry/bounds.ts";
import { pathBounds, pathsBounds } from "../../geometry/measure.ts";
import type { Outline } from "../../geometry/outline.ts";
import { circle, polygon, segmentPath } from "../../geometry/path.ts";
import type { Region } from "../../geometry/region.ts";
import { inverse, transformOutline, type Affine } from "../../geometry/transform.ts";
import { lerp, vec, type Vec } from "../../geometry/vec.ts";
import type { OnHost, PartKind, Sources } from "../contract.ts";
import { hostIdOf, hostOf, type Host } from "./host.ts";
import { allPaths } from "./layout.ts";
import { workOf, type InlayMeasures } from "./measure.ts";
import type { InlayParams } from "./numbers.ts";
import { placeOn } from "./place.ts";
import type { InlayAnswer } from "./work.ts";

/** What drawing and templates are made from. */
export interface Seen {
  readonly answer: InlayAnswer;
  /** From the frame of the letters into that of the part that they lie on. */
  readonly place: Affine;
  /** That part, in the frame of the letters. */
  readonly host: Host | undefined;
}

export function seenOf(p: InlayParams, from: Sources): Seen | undefined {
  const answer = workOf(p, from).answered?.answer;
  if (!answer || answer.outlines.length === 0) return undefined;
  const host = hostOf(p, from);
  const { place } = placeOn(p, host, answer.outlines, from);
  return { answer, place, host: host && seenFrom(host, inverse(place)) };
}

function seenFrom({ outline, thickness, holes }: Host, by: Affine): Host {
  const seen = transformOutline(by, { outer: outline, holes });
  return { outline: seen.outer, thickness, holes: seen.holes };
}

const NAMES: Readonly<Record<string, string>> = {
  headstock: "headstock",
  fingerboard: "fingerboard",
  pickguard: "pickguard",
  bridge: "bridge",
  shape: "free shape",
};

export function drawInlay(p: InlayParams, m: InlayMeasures, from: Sources): Drawing {
  const seen = seenOf(p, from);
  if (!seen) return EMPTY_DRAWING;
  const { answer, host } = seen;
  const drawn = answer.outlines;
  const pocket = answer.cut?.pocket ?? [];
  const own = pathsBounds(allPaths([...drawn, ...pocket]));
  const margin = Math.max(1.5, (own.maxX - own.minX + own.maxY - own.minY) / 24);
  return {
    layers: [
      ...(host ? [hostLayer(p, host)] : []),
      pocketLayer(pocket, m),
      placesLayer("added", answer.report?.added.map(({ region }) => region) ?? []),
      placesLayer("lost", answer.report?.lost.map(({ region }) => region) ?? []),
      designedLayer(drawn),
      wallLayer(answer),
      crossingsLayer(m),
      middleLayer(own),
    ].filter(({ shapes }) => shapes.length > 0),
    dimensions: dimensions(own),
    focus: growBounds(own, margin),
  };
}

export function hostLayer(p: InlayParams, { outline, holes }: Host): Layer {
  const name = NAMES[p.on] ?? "part";
  return {
    name: "host",
    shapes: [
      { id: "host", role: "guide", line: "adjacent", path: outline, name: `edge of the ${name}` },
      ...holes.map((path, i): Shape => ({
        id: `host-hole-${i + 1}`,
        role: "guide",
        line: "adjacent",
        path,
        name: `hole in the ${name}`,
      })),
    ],
  };
}

export const outlineShapes = (
  outlines: readonly Outline[],
  prefix: string,
  look: Pick<Shape, "role" | "line"> & Partial<Pick<Shape, "tint" | "says">>,
  name: (number: number) => string,
): Shape[] =>
  outlines.map(({ outer, holes }, i): Shape => ({
    id: `${prefix}-${i + 1}`,
    ...look,
    path: outer,
    ...(holes.length > 0 ? { holes } : {}),
    name: name(i + 1),
  }));

const pocketLayer = (pocket: readonly Outline[], { depth }: InlayMeasures): Layer => ({
  name: "pocket",
  shapes: outlineShapes(
    pocket,
    "pocket",
    { role: "pocket", line: "visible", tint: "inlay", says: [{ label: "depth", value: depth, quantity: "length" }] },
    (number) => `pocket ${number}`,
  ),
});

const designedLayer = (drawn: readonly Outline[]): Layer => ({
  name: "as-designed",
  shapes: outlineShapes(drawn, "drawn", { role: "guide", line: "narrow" }, () => "edge as drawn"),
});

const PLACE_NAMES = { lost: "the bit cannot get in here: wood stays", added: "added: the bit of the piece cannot get in here" };

function placesLayer(kind: "lost" | "added", places: readonly Region[]): Layer {
  return {
    name: kind,
    shapes: places.flat().map(({ outer, holes }, i): Shape => ({
      id: `${kind}-${i + 1}`,
      role: "mark",
      line: "narrow",
      path: polygon(outer),
      ...(holes.length > 0 ? { holes: holes.map(polygon) } : {}),
      name: PLACE_NAMES[kind],
      tint: kind,
    })),
  };
}

/** Walls under this are shown, mm. */
const THIN_WALL = 0.8;

function wallLayer({ wall }: InlayAnswer): Layer {
  if (!wall || wall.width >= THIN_WALL) return { name: "walls", shapes: [] };
  const middle = lerp(...wall.between, 0.5);
  return {
    name: "walls",
    shapes: [
      {
        id: "thinnest-wall",
        role: "mark",
        line: "visible",
        path: circle(middle, Math.max(0.6, wall.width)),
        name: "thinnest wall of wood between pockets",
        says: [{ label: "thick", value: wall.width, quantity: "length" }],
      },
    ],
  };
}

/** Circles with numbers, by which crossings are turned. */
function crossingsLayer({ crossings, capHeight = 10 }: InlayMeasures): Layer {
  const height = Math.max(0.8, Math.min(2.5, capHeight / 12));
  return {
    name: "crossings",
    shapes: crossings.map(({ at, over, under }, i) => ({
      id: `crossing-${i + 1}`,
      role: "mark",
      line: "narrow",
      path: circle(at, 1.1 * height),
      name: `crossing ${i + 1}: ${over} over ${under}`,
    })),
    texts: crossings.map(({ at }, i) => ({
      id: `crossing-number-${i + 1}`,
      at: vec(at.x, at.y - height / 2),
      text: String(i + 1),
      height,
      align: "middle",
    })),
  };
}

function middleLayer(own: ReturnType<typeof pathsBounds>): Layer {
  const reach = Math.max(2, Math.min(own.maxX - own.minX, own.maxY - own.minY) / 6);
  const cross: readonly (readonly [string, Vec, Vec])[] = [
    ["middle-along", vec(-reach, 0), vec(reach, 0)],
    ["middle-across", vec(0, -reach), vec(0, reach)],
  ];
  return {
    name: "centre",
    shapes: cross.map(([id, a, b]) => ({
      id,
      role: "centre",
      line: "centre",
      path: segmentPath(a, b),
      name: "middle of the letters",
    })),
  };
}

const ROW = 4;

function dimensions(own: ReturnType<typeof pathsBounds>): Dimension[] {
  return [
    {
      id: "along",
      from: vec(own.minX, own.minY),
      to: vec(own.maxX, own.minY),
      along: "x",
      offset: -ROW,
      value: own.maxX - own.minX,
      quantity: "length",
      rank: 1,
    },
    {
      id: "across",
      from: vec(own.minX, own.minY),
      to: vec(own.minX, own.maxY),
      along: "y",
      offset: ROW,
      value: own.maxY - own.minY,
      quantity: "length",
      rank: 1,
    },
  ];
}

/** The pocket as it is seen on the part that it is let into. */
export function inlayOnHost(p: InlayParams, m: InlayMeasures, from: Sources): OnHost | undefined {
  if (p.on === "none" || !m.hasHost) return undefined;
  const seen = seenOf(p, from);
  if (!seen) return undefined;
  const { answer, place } = seen;
  const outlines = (answer.cut?.pocket ?? answer.outlines).map((outline) => transformOutline(place, outline));
  const id = hostIdOf(p);
  return {
    kind: p.on as PartKind,
    ...(id === undefined ? {} : { id }),
    layers: [{ ...pocketLayer(outlines, m), name: "inlay" }],
    place,
  };
}

/** Number of each piece under it, with a mark after it where it has one. */
export function numberTexts(outlines: readonly Outline[], height: number, mark: (number: number) => string = () => ""): Text[] {
  return outlines.map(({ outer }, i) => {
    const box = pathBounds(outer);
    return {
      id: `number-${i + 1}`,
      at: vec((box.minX + box.maxX) / 2, box.minY - 1.5 * height),
      text: `${i + 1}${mark(i + 1)}`,
      height,
      align: "middle",
    };
  });
}
