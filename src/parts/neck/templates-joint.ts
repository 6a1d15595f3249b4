/** The patterns of heel and joint, seen along the neck from the body: x across, the plane that the board is glued to at height 0. */
import { centreLine } from "../centre-line.ts";
import type { Shape, Text } from "../../drawing/drawing.ts";
import { circle, cubic, line, segmentPath, type Path, type Segment } from "../../geometry/path.ts";
import { lerp, vec, type Vec } from "../../geometry/vec.ts";
import { sectionPath } from "../../lutherie/neck-section.ts";
import type { TemplateSource } from "../contract.ts";
import { jointTemplates, tongueOf, trapezoidPath } from "./joint.ts";
import type { NeckMeasures } from "./measure.ts";
import type { NeckModel } from "./model.ts";
import type { NeckParams } from "./numbers.ts";
import { said } from "./views.ts";

const LABEL = 2.5;

export function jointSheets(p: NeckParams, m: NeckMeasures, model: NeckModel): TemplateSource[] {
  return [heelFront(p, m, model), heelCap(p), ...tongueTemplates(p, m, model)];
}

/** From corner to corner with an upright tangent at `from`: the parabola of the heel's side. */
function parabola(from: Vec, to: Vec, turn: Vec): Segment {
  return cubic(lerp(from, turn, 2 / 3), lerp(to, turn, 2 / 3), to);
}

function heelPath(p: NeckParams, model: NeckModel): Path {
  const half = model.widthAt(model.joinX) / 2;
  const foot = p.heelCapWidth / 2;
  const { depth } = model.heel;
  const [topLeft, topRight] = [vec(-half, 0), vec(half, 0)];
  const [left, right] = [vec(-foot, -depth), vec(foot, -depth)];
  return {
    start: topLeft,
    segments: [
      parabola(topLeft, left, vec(-half, -depth / 2)),
      line(right),
      parabola(right, topRight, vec(half, -depth / 2)),
      line(topLeft),
    ],
    closed: true,
  };
}

function heelFront(p: NeckParams, m: NeckMeasures, model: NeckModel): TemplateSource {
  const tongue = tongueOf(p, model);
  const shapes: Shape[] = [
    {
      id: "outline",
      role: "cut",
      line: "visible",
      path: heelPath(p, model),
      name: "heel against the body",
      says: [said("width on top", m.widthAtJoin), said("width at the foot", m.heelCapWidth), said("depth", m.heelDepth)],
      tint: "wood",
    },
  ];
  const root =
    jointTemplates(p, model)?.tongue ??
    (tongue && trapezoidPath({ top: tongue.rootTop, foot: tongue.rootFoot, depth: tongue.depth, radius: 0 }, 0));
  if (root)
    shapes.push({
      id: "tongue",
      role: "guide",
      line: "narrow",
      path: root,
      name: p.joint === "dovetail" ? "root of the dovetail" : "tenon",
    });
  const texts: Text[] = [];
  m.bolts.forEach((down, i) => {
    const at = vec(0, -down);
    shapes.push(
      {
        id: `insert-${i + 1}`,
        role: "drill",
        line: "visible",
        path: circle(at, m.insertDiameter / 2),
        name: `insert ${i + 1}`,
        says: [said("diameter", m.insertDiameter), said("depth", m.insertDepth)],
      },
      {
        id: `bolt-${i + 1}`,
        role: "guide",
        line: "narrow",
        path: circle(at, m.boltDiameter / 2),
        name: `bolt hole ${i + 1} through the block`,
        says: [said("diameter", m.boltDiameter)],
      },
      {
        id: `bolt-${i + 1}-across`,
        role: "centre",
        line: "narrow",
        path: segmentPath(vec(-m.insertDiameter, -down), vec(m.insertDiameter, -down)),
        name: `height of bolt ${i + 1}`,
      },
    );
  });
  texts.push({ id: "top-label", at: vec(2, 2), text: "underside of the board", height: LABEL, align: "start" });
  return {
    name: "heel-front",
    title: m.bolts.length > 0 ? "Heel and bolts" : "Heel",
    lineIs: `edge of the heel where it meets the body${m.bolts.length > 0 ? "; prick the middles of the bolts through on heel and block" : ""}`,
    drawing: {
      layers: [
        { name: "heel", shapes },
        { name: "centre", shapes: [centreLine(vec(0, 6), vec(0, -m.heelDepth - 6))] },
        { name: "labels", shapes: [], texts },
      ],
      dimensions: [],
    },
    edge: "outline",
    table: {
      title: "From the underside of the board down; what the foot is cut back by",
      rows: [
        ...m.bolts.map((down, i) => ({ label: `bolt ${i + 1}`, value: down })),
        { label: "foot", value: m.heelDepth },
        { label: m.heelUndercut < 0 ? "foot stands out by" : "foot cut back by", value: Math.abs(m.heelUndercut) },
      ],
    },
  };
}

function heelCap(p: NeckParams): TemplateSource {
  const section = {
    halfWidth: p.heelCapWidth / 2,
    depth: p.heelCapLength,
    lean: 0,
    bassExponent: p.heelCapFullness,
    trebleExponent: p.heelCapFullness,
  };
  const round = sectionPath(section);
  return {
    name: "heel-cap",
    title: "Heel cap",
    lineIs: "edge of the foot and its cap; the straight side meets the body",
    drawing: {
      layers: [
        {
          name: "outline",
          shapes: [
            {
              id: "outline",
              role: "cut",
              line: "visible",
              path: { start: round.start, segments: [...round.segments, line(round.start)], closed: true },
              name: "heel cap",
              says: [said("width", p.heelCapWidth), said("length", p.heelCapLength), said("thickness", p.heelCapThickness)],
              tint: "wood",
            },
          ],
        },
        { name: "centre", shapes: [centreLine(vec(0, 5), vec(0, -p.heelCapLength - 5))] },
      ],
      dimensions: [],
    },
    edge: "outline",
  };
}

function tongueTemplates(p: NeckParams, m: NeckMeasures, model: NeckModel): TemplateSource[] {
  const paths = jointTemplates(p, model);
  if (!paths) return [];
  const dovetail = p.joint === "dovetail";
  const word = dovetail ? "dovetail" : "tenon";
  const top = (half: number): Shape => ({
    id: "top-line",
    role: "guide",
    line: "adjacent",
    path: segmentPath(vec(-half, 0), vec(half, 0)),
    name: "underside of the board, top of the block",
  });
  const sheet = (
    name: string,
    title: string,
    lineIs: string,
    edge: Path,
    cut: Path,
    cutName: string,
    rows: readonly (readonly [string, number])[],
  ): TemplateSource => ({
    name,
    title,
    lineIs,
    drawing: {
      layers: [
        {
          name: "template",
          shapes: [
            { id: "outline", role: "cut", line: "visible", path: edge, name: title.toLowerCase() },
            { id: "cut", role: "guide", line: "narrow", path: cut, name: cutName },
            top(p.tenonWidth / 2 + p.bush),
          ],
        },
        { name: "centre", shapes: [centreLine(vec(0, 24), vec(0, -m.tongueDepth - p.bush))] },
      ],
      dimensions: [],
    },
    edge: "outline",
    table: {
      title: "Bush and bit",
      rows: [
        ...rows,
        ["guide bush", p.bush] as const,
        [dovetail ? "dovetail bit at its end" : "straight bit", p.bit] as const,
      ].map(([label, value]) => ({ label, value })),
    },
  });
  return [
    sheet(
      "joint-inside",
      "Inside template for the mortise",
      `edge that the bush runs along inside; the ${word}'s mortise is the narrow line, at its bottom`,
      paths.inside,
      paths.mortise,
      "mortise at its bottom",
      [
        ["mortise on top", m.tongueWidth],
        ["mortise at its lower end", m.tongueFootWidth],
        ["depth of cut into the block", p.tenonLength],
      ],
    ),
    sheet(
      "joint-outside",
      `Outside template for the ${word}`,
      `edge that the bush runs round; the ${word} is the narrow line, at its root`,
      paths.outside,
      paths.tongue,
      `${word} at its root`,
      [
        [`${word} on top, at its root`, m.tongueRootWidth],
        ["depth of cut along the neck", p.tenonLength],
      ],
    ),
  ];
}
