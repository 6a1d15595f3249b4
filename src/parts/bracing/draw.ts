import type { Dimension, Drawing, Layer, Shape, Text } from "../../drawing/drawing.ts";
import { textWidth } from "../../drawing/lettering.ts";
import { moveLayer } from "../../drawing/move.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { segmentPath, type Path } from "../../geometry/path.ts";
import { compose, IDENTITY, mirroring, transformPoint, translation, type Affine } from "../../geometry/transform.ts";
import { add, angleOf, leftOf, lerp, ORIGIN, scale, sub, unit, vec } from "../../geometry/vec.ts";
import type { InPlace, Sources } from "../contract.ts";
import type { Brace, BracingMeasures } from "./measure.ts";
import { instrumentOf, type BracingParams } from "./numbers.ts";

type Plate = Brace["plate"];

const LETTER = 3.2;
/** Of what is to be read on the drawing as a whole, at about a fifth of its size, mm. */
const ON_BOARD = 10;
const APART = 60;

/** What one looks at, on the board and on the template. */
const FACE: Readonly<Record<Plate, string>> = { top: "Top, its inside face", back: "Back, its inside face" };

/** From the front view of the instrument to what lies on the bench, inside up: the top is turned over, the back is seen as through it. */
const insideUp = (plate: Plate): Affine => (plate === "top" ? mirroring(ORIGIN, vec(1, 0)) : IDENTITY);

/** From the front view of the instrument to the place on the drawing, where the back lies beside the top. */
export function onDrawing(plate: Plate, from: Sources): Affine {
  if (plate === "top") return insideUp(plate);
  const outline = from.get("body")?.outline;
  const box = outline && pathBounds(outline);
  return compose(insideUp(plate), translation(vec(box ? box.maxX - box.minX + APART : 600, 0)));
}

/** Both plates with their inside faces up, the back beside the top. */
export function drawBracing(p: BracingParams, m: BracingMeasures, from: Sources): Drawing {
  const aside = onDrawing("back", from);
  const plan = (plate: Plate): Layer[] => [...planLayers(m, from, plate, ON_BOARD), titleLayer(plate, from)];
  return {
    layers: [...plan("top"), ...plan("back").map((layer) => moveLayer(aside, layer))],
    dimensions: plateDimensions(p, m),
  };
}

function titleLayer(plate: Plate, from: Sources): Layer {
  const outline = from.get("body")?.outline;
  const box = outline && pathBounds(outline);
  const high = box && Math.max(box.maxY, -box.minY);
  const texts: Text[] = box
    ? [{ id: `${plate}-title`, at: vec(box.minX, high! - 5), text: FACE[plate], height: 1.4 * ON_BOARD, align: "start" }]
    : [];
  return { name: `${plate}-title`, shapes: [], texts };
}

/** One plate with its inside face up: the body's edge, what the bridge and the soundhole put on the top, and the braces. */
export function planLayers(m: BracingMeasures, from: Sources, plate: Plate, letter = LETTER): Layer[] {
  const body = from.get("body");
  const outline = body?.outline;
  const prefix = plate === "top" ? "" : "back-";
  const guide = (id: string, path: Path | undefined, name: string, line: Shape["line"]): Shape[] =>
    path ? [{ id: `${prefix}${id}`, role: "guide", line, path, name }] : [];
  const bridge = from.get("bridge");
  const box = outline && pathBounds(outline);
  const seen = insideUp(plate);
  const layers: Layer[] = [
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
    { name: `${prefix}braces`, shapes: braceShapes(m, plate) },
  ];
  return [
    ...layers.map((layer) => moveLayer(seen, layer)),
    { name: `${prefix}names`, shapes: [], texts: [...braceNames(m, plate, seen), ...sideNames(from, plate, seen, letter)] },
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

const braceNames = (m: BracingMeasures, plate: Plate, seen: Affine): Text[] =>
  m.braces
    .filter((brace) => brace.plate === plate)
    .map((brace): Text => {
      const [from, to] = [transformPoint(seen, brace.from), transformPoint(seen, brace.to)];
      const way = unit(sub(to, from));
      // Read from below or from the right.
      const reads = way.x > 1e-9 || (Math.abs(way.x) <= 1e-9 && way.y > 0) ? way : scale(way, -1);
      const text = `${brace.number}  ${brace.name}`;
      const half = textWidth(text, LETTER) / 2;
      // Off the middle, where braces cross, as far as the name finds room beside its own brace.
      const at = lerp(from, to, Math.min(0.5, Math.max(0.28, (half + 2) / brace.length)));
      return {
        id: `brace-${brace.id}-name`,
        at: add(at, scale(leftOf(reads), brace.width / 2 + 1.5)),
        text,
        height: LETTER,
        align: "middle",
        angle: angleOf(reads),
      };
    });

/** Which side is which, in the hollow of the waist or over the edge. */
function sideNames(from: Sources, plate: Plate, seen: Affine, letter: number): Text[] {
  const body = from.get("body");
  const rising = instrumentOf(from).side;
  if (!body?.outline) return [];
  const box = pathBounds(body.outline);
  return ([rising, -rising] as const).map((sign, i): Text => {
    const which = i === 0 ? "treble" : "bass";
    const waist = body[which]?.levels.find(({ what }) => what === "waist")?.at;
    const at = waist ?? vec((box.minX + box.maxX) / 2, sign > 0 ? box.maxY : -box.minY);
    const edge = transformPoint(seen, vec(at.x, sign * at.y));
    const clear = edge.y > 0 ? 6 : -5 - letter;
    return {
      id: `${plate}-${which}-side`,
      at: add(edge, vec(0, clear)),
      text: `${which} side`,
      height: letter,
      align: "middle",
    };
  });
}

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
