/** The neck from the front, without its board. */
import type { Layer, Shape } from "../../drawing/drawing.ts";
import { polygon, segmentPath, type Path } from "../../geometry/path.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { lineAcross, meetEdge, pointAt, type TransverseLine } from "../../lutherie/transverse-line.ts";
import { channelAt } from "../../lutherie/neck-run.ts";
import { tongueOf, type Tongue } from "./joint.ts";
import type { NeckMeasures } from "./measure.ts";
import type { NeckChannel, NeckModel } from "./model.ts";
import { fretX, type NeckParams } from "./numbers.ts";
import { said } from "./views.ts";

/** The line of the nut, square or slanted, through x on the centre line. */
export function nutLineAt({ instrument }: NeckModel, x: number): TransverseLine {
  const start = instrument.frets[0]!;
  return { x0: x, q: lineAcross(start.bass, start.treble).q };
}

/** Both ends of a line across on the neck's edges, that of falling y first. */
export function acrossNeck(model: NeckModel, line: TransverseLine): readonly [Vec, Vec] {
  const half = model.widthAt(0) / 2;
  const slope = (model.widthAt(model.joinX) / 2 - half) / model.joinX;
  const at = model.widthAt(line.x0) / 2;
  return [meetEdge(line, -slope, -half) ?? pointAt(line, -at), meetEdge(line, slope, half) ?? pointAt(line, at)];
}

/** From where the head's face begins to the join, with the tongue if there is one. */
export function planPath(model: NeckModel, tongue: Tongue | undefined): Path {
  const { joinX } = model;
  const [low, high] = acrossNeck(model, nutLineAt(model, model.headX));
  const half = model.widthAt(joinX) / 2;
  const end = tongue
    ? [
        vec(joinX, -tongue.rootTop),
        vec(joinX + tongue.length, -tongue.farTop),
        vec(joinX + tongue.length, tongue.farTop),
        vec(joinX, tongue.rootTop),
      ]
    : [];
  return polygon([low, vec(joinX, -half), ...end, vec(joinX, half), high]);
}

export const planOutline = (p: NeckParams, m: NeckMeasures, model: NeckModel): Shape => ({
  id: "outline",
  role: "cut",
  line: "visible",
  path: planPath(model, tongueOf(p, model)),
  name: "neck",
  says: [
    said("width at the nut", m.widthAtNut),
    said("width at the join", m.widthAtJoin),
    said("from the nut to the join", m.joinX),
  ],
  tint: "wood",
});

/** Where the head goes on behind the nut, as far as the rod's end: two lines on the neck's own taper. Its outline is the headstock's. */
export function headStub(model: NeckModel): Shape[] {
  const [low, high] = acrossNeck(model, nutLineAt(model, model.headX));
  const reach = Math.min(model.headX - 12, ...model.channels.map(({ run }) => run.from - 4));
  return [low, high].map((corner, i): Shape => {
    const end = (Math.sign(corner.y) * model.widthAt(reach)) / 2;
    return {
      id: `head-stub-${i + 1}`,
      role: "guide",
      line: "adjacent",
      path: segmentPath(corner, vec(Math.min(reach, corner.x - 1), end)),
      name: "head, on the neck's taper",
    };
  });
}

/** The mouth of a channel. A left-handed neck has its treble side at falling y. */
export function channelPath({ run }: NeckChannel, side: 1 | -1): Path {
  const corner = (x: number, out: number): Vec => vec(x, side * (channelAt(run, x).middle + (out * run.width) / 2));
  return polygon([corner(run.from, -1), corner(run.to, -1), corner(run.to, 1), corner(run.from, 1)]);
}

export const channelLayer = (model: NeckModel, line: Shape["line"], role: Shape["role"] = "pocket"): Layer => ({
  name: "channels",
  shapes: model.channels.map((channel): Shape => {
    const { run } = channel;
    return {
      id: channel.id,
      role,
      line,
      path: channelPath(channel, model.instrument.side),
      name: channel.name,
      says: [
        said("from the nut", run.from - model.nutX),
        said("length", run.to - run.from),
        said("width", run.width),
        said("depth", run.depthFrom),
        ...(run.depthTo === run.depthFrom ? [] : [said("depth at its end", run.depthTo)]),
        ...(run.middleFrom === 0 && run.middleTo === 0 ? [] : [said("off the centre line", Math.abs(run.middleFrom))]),
      ],
    };
  }),
});

/** Nut, frets and join across the neck, as guides. */
export function fretGuides(model: NeckModel): Layer {
  const { instrument } = model;
  const shapes: Shape[] = [
    {
      id: "nut-line",
      role: "guide",
      line: "narrow",
      path: segmentPath(...acrossNeck(model, nutLineAt(model, model.nutX))),
      name: "face of the nut",
    },
  ];
  for (const fret of instrument.frets.slice(1)) {
    if (fret.number > instrument.joinFret) break;
    shapes.push({
      id: `fret-${fret.number}`,
      role: "guide",
      line: "narrow",
      path: segmentPath(...acrossNeck(model, lineAcross(fret.bass, fret.treble))),
      name: `fret ${fret.number}`,
      says: [said("from the nut", fretX(instrument, fret.number))],
    });
  }
  return { name: "frets", shapes };
}
