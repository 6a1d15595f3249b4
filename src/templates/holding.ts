/** What holds a template to the wood and the drill to its place: tabs, ears, pilot holes, index pins. */
import type { Drawing, Shape } from "../drawing/drawing.ts";
import { asCircle, circle } from "../geometry/path.ts";
import { isInRegion } from "../geometry/region.ts";
import { scale, type Vec } from "../geometry/vec.ts";
import type { Making } from "../parts/making-choices.ts";
import { areaOf, asOutline, centreLineOf, edgeOf, holesOf, outlineOf, withShapes } from "./edge.ts";
import { withFixing } from "./fixing.ts";
import { refuse, type Guidance, type Refusal } from "./guidance.ts";
import { isDrawnOn, pinShapes, type IndexPins } from "./index-pins.ts";
import type { Template } from "./template.ts";

export interface Held {
  readonly ok: true;
  readonly drawing: Drawing;
}

/** The drawing with tabs or ears at the ends of its centre line. */
export function withFixings(drawing: Drawing, template: Template, making: Making, { inside }: Guidance): Held | Refusal {
  const centre = centreLineOf(drawing);
  const edge = edgeOf({ ...template, drawing });
  if (making.fixing === "none" || inside || !centre || !edge) return { ok: true, drawing };
  const kind = making.fixing === "ears" ? "ear" : "tab";
  const ends = [
    ...(making.fixingAt === "end" ? [] : [scale(centre.way, -1)]),
    ...(making.fixingAt === "start" ? [] : [centre.way]),
  ];
  let path = asOutline(edge).outer;
  const holes: Vec[] = [];
  for (const out of ends) {
    const done = withFixing(path, centre.from, out, { kind, width: making.fixingWidth, reach: making.fixingReach });
    if (!done)
      return refuse(
        `the end is narrower than ${kind === "ear" ? "an ear" : "a tab"} of this width`,
        "Make it narrower, or put it at the other end.",
      );
    path = done.path;
    if (kind === "ear") holes.push(done.hole);
  }
  const screws = holes.map((at, i): Shape => ({
    id: `screw-${i + 1}`,
    role: "drill",
    line: "visible",
    path: circle(at, making.screw / 2),
    name: `screw ${i + 1}`,
    says: [{ label: "diameter", value: making.screw, quantity: "length" }],
  }));
  const held = withShapes(drawing, edge.id, [{ ...edge, path }]);
  return {
    ok: true,
    drawing: screws.length === 0 ? held : { ...held, layers: [...held.layers, { name: "screws", shapes: screws }] },
  };
}

/** Small holes in the middle of the part's own, which stay as lines to see. */
export function withPilots(drawing: Drawing, making: Making): Drawing {
  const diameter = making.pilot;
  const holes = holesOf(drawing);
  if (diameter === undefined || holes.length === 0) return drawing;
  const ids = new Set(holes.map(({ id }) => id));
  const pilots = holes.map(({ id, name, path }): Shape => ({
    id: `pilot-${id}`,
    role: "drill",
    line: "visible",
    path: circle(asCircle(path)!.centre, diameter / 2),
    name: `pilot hole: ${name}`,
    says: [{ label: "diameter", value: diameter, quantity: "length" }],
  }));
  return {
    dimensions: [],
    layers: [
      ...drawing.layers.map((layer) => ({
        ...layer,
        shapes: layer.shapes.map((shape) =>
          ids.has(shape.id) ? { ...shape, role: "guide" as const, line: "narrow" as const } : shape,
        ),
      })),
      { name: "pilot-holes", shapes: pilots },
    ],
  };
}

/** The drawing with the part's index pins; a pin that falls where there is no template is told. */
export function withPins(
  drawing: Drawing,
  template: Template,
  { inside }: Guidance,
  pins: IndexPins | undefined,
): { readonly drawing: Drawing; readonly cautions: readonly string[] } {
  if (!pins || !isDrawnOn(template, pins.line)) return { drawing, cautions: [] };
  const outline = outlineOf({ ...template, drawing });
  const region = outline ? areaOf([asOutline(outline)]) : [];
  const misses = pins.at.some((p) => isInRegion(region, p) === inside);
  const where = inside ? "An index pin falls into the window" : "An index pin falls off the template";
  return {
    drawing: { ...drawing, layers: [...drawing.layers, { name: "index-pins", shapes: pinShapes(pins) }] },
    cautions: [...(misses ? [`${where}: move it along the centre line.`] : []), ...pins.cautions],
  };
}
