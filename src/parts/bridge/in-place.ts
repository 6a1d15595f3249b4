import type { Shape } from "../../drawing/drawing.ts";
import { pathBounds } from "../../geometry/measure.ts";
import { line, polyline, rectangle, type Path } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import { plateHeight } from "../../lutherie/domed-plate.ts";
import type { InPlace, Sources } from "../contract.ts";
import { outlineLayer, pinLayer, slotPath } from "./draw.ts";
import type { BridgeMeasures } from "./measure.ts";
import { instrumentOf, type BridgeParams } from "./numbers.ts";

/** The bridge on the top with its saddle and pins, and the strings from where the scale ends to the saddle and down to the pins. */
export function bridgeInPlace(p: BridgeParams, m: BridgeMeasures, from: Sources): InPlace {
  if (!m.outline) return {};
  const slot = slotPath(p, m);
  const saddle: Shape[] = slot
    ? [{ id: "saddle", role: "slot", line: "visible", path: slot, name: "saddle", tint: "waste" }]
    : [];
  return {
    front: {
      layers: [
        outlineLayer(m),
        { name: "saddle", shapes: saddle },
        pinLayer(p, m),
        { name: "strings", shapes: strings(m, from) },
      ],
      dimensions: [],
    },
    side: { layers: [{ name: "outline", shapes: fromSide(p, m, m.outline, from) }], dimensions: [] },
    plane: "body",
  };
}

const strings = (m: BridgeMeasures, from: Sources): Shape[] =>
  m.strings.flatMap(({ string, given }): Shape[] => {
    const one = instrumentOf(from).strings.find(({ number }) => number === string);
    if (!one) return [];
    const at = vec(...given);
    const pin = m.pins.find((entry) => entry.string === string);
    const path: Path = { start: one.saddle, segments: [line(at), ...(pin ? [line(vec(...pin.at))] : [])], closed: false };
    return [{ id: `string-${string}`, role: "guide", line: "narrow", path, name: `string ${string}` }];
  });

function fromSide(p: BridgeParams, m: BridgeMeasures, outline: Path, from: Sources): Shape[] {
  const top = from.get("body")?.top;
  const rise = top && m.saddleX > top.neck.x && m.saddleX < top.tail.x ? plateHeight(top, vec(m.saddleX, 0)) : 0;
  const neck = from.get("neck");
  const box = pathBounds(outline);
  const shapes: Shape[] = [
    {
      id: "outline",
      role: "cut",
      line: "visible",
      path: rectangle(box.minX, rise, box.maxX, rise + p.thickness),
      name: "bridge",
      tint: "wood",
    },
  ];
  const half = p.saddleThickness / 2;
  const high = neck ? rise + neck.stringsOverTop : undefined;
  if (high !== undefined && high > rise + p.thickness)
    shapes.push({
      id: "saddle",
      role: "guide",
      line: "narrow",
      path: rectangle(m.saddleX - half, rise + p.thickness, m.saddleX + half, high),
      name: "saddle",
    });
  const pin = m.pins.at(-1);
  if (high !== undefined && pin)
    shapes.push({
      id: "string",
      role: "guide",
      line: "narrow",
      path: polyline([vec(m.saddleX, high), vec(pin.at[0], rise + p.thickness)]),
      name: "strings, down to the pins",
    });
  return shapes;
}
