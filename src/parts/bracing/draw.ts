import type { Dimension, Drawing, Layer, Shape, Text } from "../../drawing/drawing.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { segmentPath, type Path } from "../../geometry/path.ts";
import { transformPath, translation } from "../../geometry/transform.ts";
import { add, angleOf, leftOf, lerp, scale, sub, unit, vec, type Vec } from "../../geometry/vec.ts";
import type { InPlace, Sources } from "../contract.ts";
import type { Brace, BracingMeasures } from "./measure.ts";
import type { BracingParams } from "./numbers.ts";

type Plate = Brace["plate"];

const LETTER = 3.2;
const APART = 60;

/** Both plates seen from the front, the back beside the top. */
export function drawBracing(p: BracingParams, m: BracingMeasures, from: Sources): Drawing {
  const outline = from.get("body")?.outline;
  const box = outline && pathBounds(outline);
  const shift = vec(0, box ? -(box.maxY - box.minY + APART) : -400);
  const title = (plate: Plate, by: Vec): Text[] =>
    box
      ? [
          {
            id: `${plate}-title`,
            at: add(vec((box.minX + box.maxX) / 2, box.maxY + 8), by),
            text: plate === "top" ? "Top, from the front" : "Back, from the front",
            height: 5,
            align: "middle",
          },
        ]
      : [];
  return {
    layers: [
      ...planLayers(m, from, "top"),
      ...planLayers(m, from, "back").map((layer) => moved(layer, shift)),
      { name: "titles", shapes: [], texts: [...title("top", vec(0, 0)), ...title("back", shift)] },
    ],
    dimensions: plateDimensions(p, m),
  };
}

/** The body's edge, what the bridge and the soundhole put on the top, and the braces. */
export function planLayers(m: BracingMeasures, from: Sources, plate: Plate): Layer[] {
  const body = from.get("body");
  const outline = body?.outline;
  const prefix = plate === "top" ? "" : "back-";
  const guide = (id: string, path: Path | undefined, name: string, line: Shape["line"]): Shape[] =>
    path ? [{ id: `${prefix}${id}`, role: "guide", line, path, name }] : [];
  const bridge = from.get("bridge");
  const box = outline && pathBounds(outline);
  return [
    {
      name: `${prefix}outline`,
      shapes: [
        ...(outline
          ? [{ id: `${prefix}outline`, role: "cut", line: "visible", path: outline, name: plate, tint: "wood" } satisfies Shape]
          : []),
        ...guide("inside", body?.inside, "inside of the sides", "hidden"),
        ...(plate === "top"
          ? [
              ...guide("soundhole", from.get("soundhole")?.outline, "soundhole", "visible"),
              ...guide("bridge", bridge?.outline, "bridge", "adjacent"),
              ...(bridge
                ? guide("saddle", segmentPath(vec(...bridge.saddle.ends[0]), vec(...bridge.saddle.ends[1])), "saddle", "adjacent")
                : []),
              ...(bridge?.host?.holes ?? []).flatMap((hole, i) => guide(`pin-${i + 1}`, hole, "pin", "adjacent")),
            ]
          : []),
      ],
    },
    ...(box
      ? [
          {
            name: `${prefix}centre`,
            shapes: [
              {
                id: `${prefix}centre-line`,
                role: "centre",
                line: "centre",
                path: segmentPath(vec(box.minX - 12, 0), vec(box.maxX + 12, 0)),
                name: "centre line",
              } satisfies Shape,
            ],
          },
        ]
      : []),
    { name: `${prefix}plates`, shapes: plateShapes(m, plate) },
    { name: `${prefix}braces`, shapes: braceShapes(m, plate), texts: braceNames(m, plate) },
  ];
}

export function plateShapes(m: BracingMeasures, plate: Plate): Shape[] {
  const patches = m.patches
    .filter((patch) => patch.plate === plate)
    .map(({ id, name, outline, thickness }): Shape => ({
      id,
      role: "guide",
      line: "narrow",
      path: outline,
      name,
      says: [{ label: "thickness", value: thickness, quantity: "length" }],
    }));
  if (plate === "back" || !m.bridgePlate) return patches;
  return [
    ...patches,
    {
      id: "bridge-plate",
      role: "guide",
      line: "narrow",
      path: m.bridgePlate.outline,
      name: "bridge plate",
      says: [{ label: "thickness", value: m.bridgePlate.thickness, quantity: "length" }],
    },
  ];
}

export const braceShapes = (m: BracingMeasures, plate: Plate, line: Shape["line"] = "visible"): Shape[] =>
  m.braces
    .filter((brace) => brace.plate === plate)
    .map((brace): Shape => ({
      id: `brace-${brace.id}`,
      role: "guide",
      line,
      path: brace.outline,
      name: brace.name,
      says: [
        { label: "length", value: brace.length, quantity: "length" },
        { label: "width", value: brace.width, quantity: "length" },
        { label: "height", value: brace.height, quantity: "length" },
      ],
    }));

const braceNames = (m: BracingMeasures, plate: Plate): Text[] =>
  m.braces
    .filter((brace) => brace.plate === plate)
    .map((brace): Text => {
      const way = unit(sub(brace.to, brace.from));
      // Read from below or from the right.
      const reads = way.x > 1e-9 || (Math.abs(way.x) <= 1e-9 && way.y > 0) ? way : scale(way, -1);
      const at = lerp(brace.from, brace.to, brace.id === "top-1" ? 0.5 : 0.28);
      return {
        id: `brace-${brace.id}-name`,
        at: add(at, scale(leftOf(reads), brace.width / 2 + 1.5)),
        text: `${brace.number}  ${brace.name}`,
        height: LETTER,
        align: "middle",
        angle: angleOf(reads),
      };
    });

const moved = (layer: Layer, by: Vec): Layer => ({
  name: layer.name,
  shapes: layer.shapes.map((shape) => ({ ...shape, path: transformPath(translation(by), shape.path) })),
  ...(layer.texts ? { texts: layer.texts.map((text) => ({ ...text, at: add(text.at, by) })) } : {}),
});

function plateDimensions(p: BracingParams, m: BracingMeasures): Dimension[] {
  if (!m.bridgePlate) return [];
  const box = pathBounds(m.bridgePlate.outline);
  return [
    {
      id: "plate-across",
      from: vec(box.minX, -p.plateSpanFront / 2),
      to: vec(box.minX, p.plateSpanFront / 2),
      along: "y",
      offset: 10,
      value: p.plateSpanFront,
      quantity: "length",
      edits: ".plateSpanFront",
      rank: 2,
    },
  ];
}

/** From the front, through the top. */
export const bracingInPlace = (m: BracingMeasures): InPlace => ({
  front: {
    layers: [
      {
        name: "braces",
        shapes: [
          ...braceShapes(m, "top", "hidden"),
          ...plateShapes(m, "top").map((shape): Shape => ({ ...shape, line: "hidden" })),
        ],
      },
    ],
    dimensions: [],
  },
});
