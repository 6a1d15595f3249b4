import type { Dimension, Drawing, Layer, Shape } from "../../drawing/drawing.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { segmentPath, type Path } from "../../geometry/path.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { growBounds, type Bounds } from "../../geometry/bounds.ts";
import { companyLayer } from "../company.ts";
import { centreLine } from "../centre-line.ts";
import type { Sources } from "../contract.ts";
import type { RingMeasure, SoundholeMeasures } from "./measure.ts";
import { boardEnd, bridgeFront, type SoundholeParams } from "./numbers.ts";

const BEYOND = 10;
const ROW = 12;
const CROSS = 4;
/** How much of board, bridge and body is drawn beyond what the distances are measured to, mm. */
const ABOUT = 25;

export function drawSoundhole(p: SoundholeParams, m: SoundholeMeasures, from: Sources): Drawing {
  if (!m.outline || !m.rosette) return { layers: [], dimensions: [] };
  return {
    layers: [
      companyLayer(from, windowAbout(m, m.rosette, from)),
      { name: "rosette", shapes: m.rings.flatMap((ring) => ringShape(ring, "guide", "narrow")) },
      { name: "hole", shapes: [holeShape(m, m.outline)] },
      centreLayer(m, m.rosette),
    ],
    dimensions: dimensions(p, m, m.rosette, from),
  };
}

function windowAbout(m: SoundholeMeasures, rosette: Path, from: Sources): Bounds {
  const box = pathBounds(rosette);
  const grown = growBounds(box, ABOUT);
  // A board or bridge that lies far off is not drawn for its own sake.
  const far = 2 * m.length + 100;
  return {
    ...grown,
    minX: Math.max(box.minX - far, Math.min(grown.minX, boardEnd(from) - ABOUT)),
    maxX: Math.min(box.maxX + far, Math.max(grown.maxX, bridgeFront(from) + ABOUT)),
  };
}

export const holeShape = (m: SoundholeMeasures, path: Path): Shape => ({
  id: "hole",
  role: "cut",
  line: "visible",
  path,
  name: "soundhole",
  says: [
    { label: "along the instrument", value: m.length, quantity: "length" },
    { label: "across", value: m.width, quantity: "length" },
    { label: "to the end of the board", value: m.toBoard, quantity: "length" },
    { label: "to the bridge", value: m.toBridge, quantity: "length" },
  ],
  tint: "waste",
});

/** A ring between its two edges; nothing where the outline leaves none. */
export function ringShape(ring: RingMeasure, role: Shape["role"], line: Shape["line"]): Shape[] {
  if (!ring.inner || !ring.outer) return [];
  return [
    {
      id: ring.id,
      role,
      line,
      path: ring.outer,
      holes: [ring.inner],
      name: ring.name,
      says: [
        { label: "from the edge of the hole", value: ring.distance, quantity: "length" },
        { label: "wide", value: ring.width, quantity: "length" },
        { label: "deep", value: ring.depth, quantity: "length" },
      ],
      tint: "inlay",
    },
  ];
}

/** The centre line, and a cross in the middle of the hole. */
export function centreLayer(m: SoundholeMeasures, rosette: Path): Layer {
  const box = pathBounds(rosette);
  const middle = vec(m.middleX, m.middleY);
  const cross = (id: string, a: Vec, b: Vec): Shape => ({
    id,
    role: "mark",
    line: "narrow",
    path: segmentPath(a, b),
    name: "middle of the hole",
  });
  return {
    name: "centre",
    shapes: [
      centreLine(vec(box.minX - BEYOND, 0), vec(box.maxX + BEYOND, 0)),
      cross("middle-across", vec(middle.x, middle.y - CROSS), vec(middle.x, middle.y + CROSS)),
      ...(m.middleY === 0 ? [] : [cross("middle-along", vec(middle.x - CROSS, middle.y), vec(middle.x + CROSS, middle.y))]),
    ],
  };
}

function dimensions(p: SoundholeParams, m: SoundholeMeasures, rosette: Path, from: Sources): Dimension[] {
  const box = pathBounds(rosette);
  const low = box.minY;
  const base = { quantity: "length", along: "x" } as const;
  const row = (n: number): number => -(n * ROW);
  return [
    {
      ...base,
      id: "to-board",
      from: vec(boardEnd(from), low),
      to: vec(m.frontX, low),
      offset: row(1),
      value: m.toBoard,
      after: "from the board",
      edits: ".fromBoard",
      rank: 1,
    },
    {
      ...base,
      id: "across-hole",
      from: vec(m.frontX, low),
      to: vec(m.backX, low),
      offset: row(2),
      value: m.length,
      ...(p.shape === "round" ? { before: "Ø", edits: ".diameter" } : p.shape === "oval" ? { edits: ".length" } : {}),
      rank: 1,
    },
    {
      ...base,
      id: "to-bridge",
      from: vec(m.backX, low),
      to: vec(bridgeFront(from), low),
      offset: row(1),
      value: m.toBridge,
      after: "to the bridge",
      edits: ".fromBridge",
      rank: 1,
    },
    ...(p.shape === "round"
      ? []
      : [
          {
            id: "width",
            from: vec(box.maxX, m.middleY - m.width / 2),
            to: vec(box.maxX, m.middleY + m.width / 2),
            along: "y",
            offset: -ROW,
            value: m.width,
            quantity: "length",
            ...(p.shape === "oval" ? { edits: ".width" } : {}),
            rank: 2,
          } as const,
        ]),
    ...(m.rings.length === 0
      ? []
      : [
          {
            id: "rosette",
            from: vec(box.minX, box.minY),
            to: vec(box.minX, box.maxY),
            along: "y",
            offset: ROW,
            value: box.maxY - box.minY,
            quantity: "length",
            after: "over the rosette",
            rank: 2,
          } as const,
        ]),
  ];
}
