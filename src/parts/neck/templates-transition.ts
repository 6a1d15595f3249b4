/** The gauge that the transition from neck to head is carved by, along the middle of the back. */
import type { Shape, Text } from "../../drawing/drawing.ts";
import { line, segmentPath } from "../../geometry/path.ts";
import { vec } from "../../geometry/vec.ts";
import type { TemplateSource } from "../contract.ts";
import type { NeckModel } from "./model.ts";
import { fretX, type NeckParams } from "./numbers.ts";
import { sideChannels } from "./side.ts";
import { said } from "./views.ts";

/** How far it reaches along the straight back of head and neck, and its body below the back, mm. */
const REACH = { head: 25, neck: 35 } as const;
const BODY = 15;
const LABEL = 2.5;

/** An inside template: it sits on the back, from the head over the bend and its volute to the straight back of the neck. */
export function transitionGauge(p: NeckParams, model: NeckModel): TemplateSource {
  const { profile, nutX, headX } = model;
  const volute = p.volute > 0 ? p.voluteLength / 2 : 0;
  const from = Math.max(
    headX - p.headLength * Math.cos(p.headTilt),
    Math.min(profile.bendFrom, profile.corner - volute) - REACH.head,
  );
  const to = Math.max(from + 1, Math.min(model.heel.from, Math.max(profile.bendTo, profile.corner + volute, nutX) + REACH.neck));
  const back = vec(from, -profile.depthAt(from));
  const places = [
    { id: "bend-from", label: "bend", x: profile.bendFrom },
    ...(volute > 0 ? [{ id: "volute", label: "volute", x: profile.corner }] : []),
    { id: "nut", label: "nut", x: nutX },
    { id: "bend-to", label: "bend ends", x: profile.bendTo },
    { id: "fret-1", label: "fret 1", x: fretX(model.instrument, 1) },
  ]
    .filter(({ x }) => x > from && x < to)
    .toSorted((a, b) => a.x - b.x);
  const low = Math.min(...[from, to, ...places.map(({ x }) => x)].map((x) => -profile.depthAt(x))) - BODY;
  const marks = places.map(({ id, label, x }): Shape => ({
    id: `mark-${id}`,
    role: "mark",
    line: "narrow",
    path: segmentPath(vec(x, -profile.depthAt(x)), vec(x, -profile.depthAt(x) - 8)),
    name: label,
    says: [said("from the nut", x - nutX), said("depth of the wood", profile.depthAt(x))],
  }));
  const texts = places.map(({ id, label, x }, i): Text => ({
    id: `mark-${id}-label`,
    // Places may lie close together: the words take turns.
    at: vec(x + 0.8, -profile.depthAt(x) - 7 - (i % 2) * 1.5 * LABEL),
    text: label,
    height: LABEL,
    align: "start",
  }));
  return {
    name: "transition",
    title: "Transition to the head",
    lineIs: "back of the neck along its middle, from the head to the first frets; cut to the line, the gauge sits on the back",
    drawing: {
      layers: [
        {
          name: "outline",
          shapes: [
            {
              id: "outline",
              role: "cut",
              line: "visible",
              path: {
                start: back,
                segments: [...profile.segments(from, to), line(vec(to, low)), line(vec(from, low)), line(back)],
                closed: true,
              },
              name: "gauge for the transition",
              tint: "wood",
            },
            {
              id: "glue-plane",
              role: "guide",
              line: "narrow",
              path: segmentPath(vec(headX, 0), vec(to, 0)),
              name: "face that the board is glued to",
            },
            {
              id: "head-face",
              role: "guide",
              line: "narrow",
              path: segmentPath(vec(from, -Math.max(0, headX - from) * model.tan), vec(Math.max(headX, from), 0)),
              name: "face of the head",
            },
          ],
        },
        { name: "channels", shapes: sideChannels(model, "", to) },
        { name: "marks", shapes: marks },
        { name: "labels", shapes: [], texts },
      ],
      dimensions: [],
    },
    edge: "outline",
    table: {
      title: "Wood under the glue plane, by callipers",
      rows: places.map(({ label, x }) => ({ label, value: profile.depthAt(x) })),
    },
  };
}
