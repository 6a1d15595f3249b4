/** The neck from the side: x along it, heights over the plane that the board is glued to. */
import type { Layer, Shape } from "../../drawing/drawing.ts";
import { line, polygon, polyline, segmentPath, type Path } from "../../geometry/path.ts";
import { add, distance, scale, vec, type Vec } from "../../geometry/vec.ts";
import { fretPlaneOverTop } from "../../lutherie/neck-pitch.ts";
import { channelAt, type ChannelRun } from "../../lutherie/neck-run.ts";
import type { Sources } from "../contract.ts";
import { chainOf, topRiseAt } from "./heights.ts";
import { inBody, tongueOf, type Tongue } from "./joint.ts";
import type { NeckMeasures } from "./measure.ts";
import type { NeckModel } from "./model.ts";
import { fretX, type NeckParams } from "./numbers.ts";
import { said, saidAngle } from "./views.ts";

/** Down the head's face from where it begins, and square to it into the wood. */
export interface HeadFrame {
  readonly down: Vec;
  readonly into: Vec;
  readonly start: Vec;
}

export const headFrame = (p: Pick<NeckParams, "headTilt">, model: NeckModel): HeadFrame => ({
  down: vec(-Math.cos(p.headTilt), -Math.sin(p.headTilt)),
  into: vec(Math.sin(p.headTilt), -Math.cos(p.headTilt)),
  start: vec(model.headX, 0),
});

/** The wood in one closed line: head, glue plane, tongue if there is one, butt, foot, back. */
export function sidePath(p: NeckParams, model: NeckModel, tongue: Tongue | undefined): Path {
  const { profile, heel, joinX } = model;
  const foot = vec(heel.foot, -heel.depth);
  const corner = (out: number, down: number): Vec => inBody(model, p.pitch, out, down);
  const ends = tongue ? [corner(0, tongue.depth), corner(tongue.length, tongue.depth), corner(tongue.length, 0)] : [];
  const { down, into, start } = headFrame(p, model);
  const top = add(start, scale(down, p.headLength));
  const bottom = add(top, scale(into, model.headWood));
  const from = Math.min(bottom.x, heel.to - 1);
  const first = vec(from, -profile.depthAt(from));
  return {
    start: first,
    segments: [
      ...profile.segments(from, heel.to),
      line(foot),
      // A tongue as deep as the heel begins at the foot.
      ...ends.filter((end) => distance(end, foot) > 1e-6).map(line),
      line(vec(joinX, 0)),
      line(start),
      line(top),
      line(first),
    ],
    closed: true,
  };
}

export const sideOutline = (p: NeckParams, m: NeckMeasures, model: NeckModel, id: string): Shape => ({
  id,
  role: "cut",
  line: "visible",
  path: sidePath(p, model, tongueOf(p, model)),
  name: "neck from the side",
  says: [
    saidAngle("tilt of the head", m.tiltRad),
    said("wood at the nut", m.depthAtNut),
    said("heel", m.heelDepth),
    said("heel cut back at its foot by", m.heelUndercut),
    ...(m.tongueLength > 0 ? [said("tongue, length", m.tongueLength), said("tongue, depth", m.tongueDepth)] : []),
  ],
  tint: "wood",
});

/** The butt on both sides of the tongue and the bolts with their inserts, each shape's id with a prefix. */
export function jointShapes(p: NeckParams, m: NeckMeasures, model: NeckModel, prefix: string): Shape[] {
  const at = (out: number, down: number): Vec => inBody(model, p.pitch, out, down);
  const box = (a: number, b: number, top: number, foot: number): Path =>
    polygon([at(a, top), at(b, top), at(b, foot), at(a, foot)]);
  const shapes: Shape[] = [];
  const tongue = tongueOf(p, model);
  if (tongue)
    shapes.push({
      id: `${prefix}butt`,
      role: "mark",
      line: "visible",
      path: segmentPath(vec(model.joinX, 0), at(0, tongue.depth)),
      name: `butt beside the ${p.joint}`,
      says: [saidAngle("leans by the pitch", m.pitchRad)],
    });
  if (m.resetAtFoot > 0)
    shapes.push({
      id: `${prefix}reset`,
      role: "mark",
      line: "narrow",
      path: polyline([vec(model.joinX, 0), vec(model.heel.foot - m.resetAtFoot, -model.heel.depth)]),
      name: "new butt after the reset: the wedge behind this line comes off",
      says: [said("off at the foot", m.resetAtFoot), said("rise at the saddle", p.resetRise)],
    });
  m.bolts.forEach((down, i) => {
    const face = tongue && down < tongue.depth ? tongue.length : 0;
    const r = p.insertDiameter / 2;
    shapes.push(
      {
        id: `${prefix}insert-${i + 1}`,
        role: "guide",
        line: "hidden",
        path: box(face - p.insertDepth, face, down - r, down + r),
        name: `insert ${i + 1}`,
        says: [said("diameter", p.insertDiameter), said("depth", p.insertDepth)],
      },
      {
        id: `${prefix}bolt-${i + 1}`,
        role: "centre",
        line: "centre",
        path: segmentPath(at(face - p.insertDepth - 3, down), at(face + 6, down)),
        name: `bolt ${i + 1}`,
        says: [said("below the board", down)],
      },
    );
  });
  return shapes;
}

/** The block in the body that the neck is joined to. */
function blockShape(p: NeckParams, model: NeckModel): Shape {
  const corner = (out: number, down: number): Vec => inBody(model, p.pitch, out, down);
  return {
    id: "side-block",
    role: "guide",
    line: "adjacent",
    path: polygon([
      corner(0, 0),
      corner(p.blockThickness, 0),
      corner(p.blockThickness, model.heel.depth),
      corner(0, model.heel.depth),
    ]),
    name: "neck block",
    says: [said("thickness", p.blockThickness)],
  };
}

/** Channels alike in this look the same from the side. */
const sideLook = ({ from, to, depthFrom, depthTo }: ChannelRun): string => [from, to, depthFrom, depthTo].join(" ");

/** The channel that is drawn from the side for this one: itself, or the first that looks the same. */
export function drawnFromSide({ channels }: NeckModel, id: string): string {
  const own = channels.find((channel) => channel.id === id);
  return own ? channels.find(({ run }) => sideLook(run) === sideLook(own.run))!.id : id;
}

/** Channels through the wood as far as `until`, those that look the same from the side once. */
export function sideChannels(model: NeckModel, prefix: string, until = Infinity): Shape[] {
  const drawn = new Set<string>();
  return model.channels.flatMap(({ id, name, run }): Shape[] => {
    const key = sideLook(run);
    if (drawn.has(key)) return [];
    drawn.add(key);
    const to = Math.min(run.to, until);
    if (!(to > run.from)) return [];
    const depthTo = to === run.to ? run.depthTo : channelAt(run, to).depth;
    const top = (x: number): number => Math.max(-model.faceFall(x), -Math.max(run.depthFrom, run.depthTo));
    const corners = [vec(run.from, top(run.from)), vec(run.from, -run.depthFrom), vec(to, -depthTo), vec(to, top(to))];
    const bend = run.from < model.headX && to > model.headX ? [vec(model.headX, 0)] : [];
    return [{ id: `${prefix}${id}`, role: "guide", line: "hidden", path: polygon([...corners, ...bend]), name }];
  });
}

/** Wood off the neck itself: board, frets, nut, headplate, heel cap. */
function company(p: NeckParams, model: NeckModel, from: Sources): Shape[] {
  const shapes: Shape[] = [];
  const guide = { role: "guide", line: "narrow" } as const;
  const board = from.get("fingerboard");
  if (board) {
    shapes.push({
      ...guide,
      id: "side-board",
      path: polygon([vec(board.startX, 0), vec(board.endX, 0), vec(board.endX, model.board), vec(board.startX, model.board)]),
      name: "fingerboard",
      says: [said("thickness", model.board)],
    });
    for (const fret of model.instrument.frets.slice(1)) {
      const x = fretX(model.instrument, fret.number);
      if (x < board.endX)
        shapes.push({
          ...guide,
          id: `side-fret-${fret.number}`,
          path: segmentPath(vec(x, model.board), vec(x, model.board + board.crownHeight)),
          name: `fret ${fret.number}`,
        });
    }
  }
  const nut = from.get("nut");
  if (nut && model.nutX - model.headX > 0.1)
    shapes.push({
      ...guide,
      id: "side-nut",
      path: polygon([
        vec(model.headX, model.board - nut.seatDepth),
        vec(model.nutX, model.board - nut.seatDepth),
        vec(model.nutX, model.board + nut.crest),
        vec(model.headX, model.board + nut.crest),
      ]),
      name: "nut",
    });
  const { down, into, start } = headFrame(p, model);
  if (p.headplate > 0) {
    const out = scale(into, -p.headplate);
    const top = add(start, scale(down, p.headLength));
    // Its end against the nut is upright.
    const end = vec(start.x, p.headplate / Math.cos(p.headTilt));
    shapes.push({
      ...guide,
      id: "side-headplate",
      path: polygon([start, end, add(top, out), top]),
      name: "headplate",
      says: [said("thickness", p.headplate)],
    });
  }
  return [...shapes, ...heelCap(p, model, "side-")];
}

export function heelCap(p: NeckParams, { heel }: NeckModel, prefix: string): Shape[] {
  if (!(p.heelCapThickness > 0)) return [];
  const { to, foot, depth } = heel;
  const under = depth + p.heelCapThickness;
  return [
    {
      role: "guide",
      line: "narrow",
      id: `${prefix}heel-cap`,
      path: polygon([vec(to, -depth), vec(to, -under), vec(foot, -under), vec(foot, -depth)]),
      name: "heel cap",
      says: [said("thickness", p.heelCapThickness)],
    },
  ];
}

/** How long the bridge is drawn before and behind the saddle, and how thick the saddle, mm; their own parts know better. */
const BRIDGE = { before: 10, behind: 18, saddle: 3 } as const;
const TOP_STEPS = 40;

/** The body's top, bridge and saddle, the frets' plane and a string over all: the chain of heights. */
export function heightShapes(p: NeckParams, m: NeckMeasures, model: NeckModel, from: Sources): Shape[] {
  const chain = chainOf(p, from);
  const { joinX } = model;
  const tan = Math.tan(p.pitch);
  const plane = chain.boardThickness + chain.fretHeight;
  const riseAt = (x: number): number => topRiseAt(p, from, x);
  const top = (x: number): number => riseAt(x) - tan * (x - joinX);
  // As the chain counts: from the frets' plane down, so that what misses shows.
  const underBridge = plane - fretPlaneOverTop(chain, m.saddleX, p.topRise);
  const bridgeTop = underBridge + p.bridgeThickness;
  const saddleTop = bridgeTop + p.saddleHeight;
  const end = m.saddleX + BRIDGE.behind + 15;
  const guide = { role: "guide", line: "narrow" } as const;
  const box = (x0: number, x1: number, y0: number, y1: number): Path =>
    polygon([vec(x0, y0), vec(x1, y0), vec(x1, y1), vec(x0, y1)]);
  return [
    {
      id: "side-top",
      role: "guide",
      line: "adjacent",
      path: polyline(
        Array.from({ length: TOP_STEPS + 1 }, (_, i) => joinX + ((end - joinX) * i) / TOP_STEPS).map((x) => vec(x, top(x))),
      ),
      name: "top of the body",
      says: [saidAngle("pitch", m.pitchRad), said("top over its edge at the saddle", p.topRise)],
    },
    {
      ...guide,
      id: "side-bridge",
      path: box(m.saddleX - BRIDGE.before, m.saddleX + BRIDGE.behind, underBridge, bridgeTop),
      name: "bridge",
      says: [said("thickness", p.bridgeThickness)],
    },
    {
      ...guide,
      id: "side-saddle",
      path: box(m.saddleX - BRIDGE.saddle / 2, m.saddleX + BRIDGE.saddle / 2, bridgeTop, saddleTop),
      name: "saddle",
      says: [said("over the bridge", p.saddleHeight)],
    },
    {
      ...guide,
      id: "side-fret-plane",
      line: "centre",
      path: segmentPath(vec(model.nutX, plane), vec(m.saddleX, plane)),
      name: "plane of the frets",
      says: [said("over the top at the saddle", m.fretPlaneAtBridge)],
    },
    {
      ...guide,
      id: "side-string",
      path: segmentPath(vec(model.nutX, plane + p.nutHeight), vec(m.saddleX, saddleTop)),
      name: "strings, at the middle",
      says: [said("action at fret 12", chain.actionAt12)],
    },
  ];
}

export const sideLayer = (p: NeckParams, m: NeckMeasures, model: NeckModel, from: Sources): Layer => ({
  name: "side-view",
  shapes: [
    sideOutline(p, m, model, "side-outline"),
    ...jointShapes(p, m, model, "side-"),
    blockShape(p, model),
    ...company(p, model, from),
    ...heightShapes(p, m, model, from),
    ...sideChannels(model, "side-"),
  ],
});
