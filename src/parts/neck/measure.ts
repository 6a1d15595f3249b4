/** What follows from a neck's numbers, for its own drawing and for every part that reads it. */
import { scarf } from "../../lutherie/head-angle.ts";
import { leastWall, wallFrom, woodBetween, type PlacedWall } from "../../lutherie/neck-run.ts";
import type { Sources } from "../contract.ts";
import { withLater } from "../lazy.ts";
import { contourMeasures, type ContourMeasure } from "./contour.ts";
import { measureHeights, type HeightMeasures } from "./heights.ts";
import { resetAtHeel } from "../../lutherie/neck-pitch.ts";
import { measureJoint, tongueOf, type JointMeasures } from "./joint.ts";
import { modelOf, type NeckModel } from "./model.ts";
import { fretX, type NeckParams } from "./numbers.ts";
import { tongueWalls } from "./tongue-walls.ts";

/** The wood at one place along the neck. */
export interface NeckPlace {
  /** 0 is the nut. */
  readonly fret: number;
  readonly x: number;
  readonly width: number;
  /** Of the wood, and with the board. */
  readonly depth: number;
  readonly depthWithBoard: number;
  /** Exponents of the shoulders, and where the deepest line lies to the treble of the centre. */
  readonly bassFullness: number;
  readonly trebleFullness: number;
  readonly lean: number;
  /** Least wood behind and beside the channels that pass there; absent where none does. */
  readonly behind?: number;
  readonly beside?: number;
}

/** A channel and the least wood left round it. */
export interface ChannelMeasure {
  readonly id: string;
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly width: number;
  readonly depthFrom: number;
  readonly depthTo: number;
  readonly middleFrom: number;
  readonly middleTo: number;
  /** Absent where the channel lies outside of the neck's wood; beside, where it lies in the head. */
  readonly behind?: PlacedWall;
  readonly beside?: PlacedWall;
}

export interface NeckMeasures extends HeightMeasures, JointMeasures {
  /** At the nut and at every fret up to the join. */
  readonly places: readonly NeckPlace[];
  /** What was traced with a contour gauge at the measured frets, and how the shoulders fit it. */
  readonly contours: readonly ContourMeasure[];
  readonly widthAtNut: number;
  readonly widthAtJoin: number;
  readonly depthAtNut: number;
  readonly depthAtJoin: number;
  readonly channels: readonly ChannelMeasure[];
  /** Least wood behind any channel, and under the rod's end in the head; absent where there is none. */
  readonly leastWood?: number;
  readonly leastWoodX?: number;
  readonly woodUnderEntry?: number;
  /** Least wood between two channels, and which they are. */
  readonly between?: { readonly distance: number; readonly x: number; readonly ids: readonly [string, string] };
  /** x of the nut's face, of where the head's face begins, of the join. */
  readonly nutX: number;
  readonly headX: number;
  readonly joinX: number;
  readonly tiltRad: number;
  /** Wood of the head square to its face, under the headplate. */
  readonly headWood: number;
  readonly headLength: number;
  /** Ends of the bend behind the nut. */
  readonly bendFrom: number;
  readonly bendTo: number;
  /** From here on, towards the top, the back of the head is flat: the bend and the volute have ended. */
  readonly headFlatX: number;
  readonly heelFrom: number;
  readonly heelDepth: number;
  /** x of the foot's edge against the body, and how far it is cut back from the join. */
  readonly heelFootX: number;
  readonly heelUndercut: number;
  /** Wood off at the foot of the heel in a reset, 0 without one. */
  readonly resetAtFoot: number;
  readonly heelCapWidth: number;
  readonly heelCapLength: number;
  /** The scarf through the blank: along the cut face (t / sin) and laid out on the blank's face (t / tan); absent for a neck of one piece. */
  readonly scarfCutFace?: number;
  readonly scarfLayout?: number;
  /** From the nut to the glue line where it comes out on top: under the board, or along the head's face. */
  readonly scarfFromNut?: number;
  /** Of the board that the scarf is sawn through. */
  readonly blankThickness?: number;
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    neck: NeckMeasures;
  }
}

export function measureNeck(p: NeckParams, from: Sources): NeckMeasures {
  const model = modelOf(p, from);
  const { profile, nutX, joinX } = model;
  const knots = [model.first.x, model.second.x, profile.corner, profile.bendFrom, profile.bendTo, model.heel.from, nutX];
  const tongue = tongueOf(p, model);
  const channels = model.channels.map(({ id, name, run }): ChannelMeasure => {
    const { from: start, to, width, depthFrom, depthTo, middleFrom, middleTo } = run;
    const beyond = tongue && tongueWalls(run, tongue, joinX);
    const behind = leastOf([leastWall(run, model.sectionAt, "behind", model.limits, knots), beyond?.behind]);
    // In the head it is the head's own outline that counts.
    const besideNeck = leastWall(run, model.sectionAt, "beside", { ...model.limits, from: model.headX }, knots);
    const beside = leastOf([besideNeck, beyond?.beside]);
    return {
      id,
      name,
      from: start,
      to,
      width,
      depthFrom,
      depthTo,
      middleFrom,
      middleTo,
      ...(behind ? { behind } : {}),
      ...(beside ? { beside } : {}),
    };
  });
  const least = leastOf(channels.map(({ behind }) => behind));
  const between = leastBetweenChannels(model);
  const now = {
    places: placesOf(model),
    contours: contourMeasures(p, from),
    widthAtNut: p.widthAtNut,
    widthAtJoin: p.widthAtJoin,
    depthAtNut: profile.depthAt(nutX),
    depthAtJoin: model.sectionAt(model.heel.from).depth,
    channels,
    ...(least ? { leastWood: least.distance, leastWoodX: least.x } : {}),
    ...(between ? { between } : {}),
    nutX,
    headX: model.headX,
    joinX,
    tiltRad: p.headTilt,
    headWood: model.headWood,
    headLength: p.headLength,
    bendFrom: profile.bendFrom,
    bendTo: profile.bendTo,
    headFlatX: Math.min(profile.bendFrom, p.volute > 0 ? profile.corner - p.voluteLength / 2 : Infinity),
    heelFrom: model.heel.from,
    heelDepth: model.heel.depth,
    heelFootX: model.heel.foot,
    heelUndercut: model.heel.undercut,
    resetAtFoot: resetAtFootOf(p, from, model),
    heelCapWidth: p.heelCapWidth,
    heelCapLength: p.heelCapLength,
    ...scarfOf(p, model),
    ...measureJoint(p, model),
    ...measureHeights(p, from),
  };
  return withLater<NeckMeasures, "woodUnderEntry">(
    now,
    p.rod === "head" ? { woodUnderEntry: () => woodUnderEntry(p, model)?.distance } : {},
  );
}

const leastOf = <W extends PlacedWall>(walls: readonly (W | undefined)[]): W | undefined =>
  walls.reduce<W | undefined>(
    (best, wall) => (best === undefined || (wall !== undefined && wall.distance < best.distance) ? wall : best),
    undefined,
  );

/** At the nut and at every fret up to the join. */
function placesOf(model: NeckModel): NeckPlace[] {
  const { instrument, joinX, board, sectionAt, channels } = model;
  const places = [{ fret: 0, x: model.nutX }];
  for (let fret = 1; fret <= instrument.joinFret; fret++) {
    const x = fretX(instrument, fret);
    if (x <= joinX) places.push({ fret, x });
  }
  return places.map(({ fret, x }) => {
    const section = sectionAt(x);
    const walls = channels.filter(({ run }) => x >= run.from && x <= run.to);
    const wall = (which: "behind" | "beside"): number =>
      Math.min(...walls.map(({ run }) => wallFrom(run, sectionAt, x, which).distance));
    const now = {
      fret,
      x,
      width: 2 * section.halfWidth,
      depth: section.depth,
      depthWithBoard: section.depth + board,
      bassFullness: section.bassExponent,
      trebleFullness: section.trebleExponent,
      lean: section.lean,
    };
    return withLater<NeckPlace, "behind" | "beside">(
      now,
      walls.length > 0 ? { behind: () => wall("behind"), beside: () => wall("beside") } : {},
    );
  });
}

/** The least wood behind the rod's channel and pocket from their end in the head to the face of the nut; undefined where they do not reach it. */
export function woodUnderEntry(p: NeckParams, model: NeckModel): (PlacedWall & { readonly id: string }) | undefined {
  if (p.rod !== "head") return undefined;
  const ends = model.channels.filter(({ id, run }) => (id === "rod" || id === "pocket") && run.from < model.nutX);
  const knots = [model.profile.corner, model.profile.bendFrom, model.profile.bendTo];
  const limits = { from: model.limits.from, to: model.nutX };
  return leastOf(
    ends.map(({ id, run }) => {
      const wall = leastWall(run, model.sectionAt, "behind", limits, knots);
      return wall && { ...wall, id };
    }),
  );
}

function leastBetweenChannels({ channels }: NeckModel): NeckMeasures["between"] {
  let best: NeckMeasures["between"];
  channels.forEach((a, i) => {
    for (const b of channels.slice(i + 1)) {
      if (a.id === "rod" && b.id === "pocket") continue;
      const wood = woodBetween(a.run, b.run);
      if (wood && (best === undefined || wood.distance < best.distance)) best = { ...wood, ids: [a.id, b.id] };
    }
  });
  return best;
}

function scarfOf(
  p: NeckParams,
  model: NeckModel,
): Pick<NeckMeasures, "scarfCutFace" | "scarfLayout" | "scarfFromNut" | "blankThickness"> | Record<string, never> {
  if (p.scarf === "none") return {};
  const { cutFace, layout } = scarf(p.blankThickness, p.headTilt);
  // Under the board the head's piece runs up to the glue plane; on the face the shaft's ramp runs out down the head.
  const fromNut =
    p.scarf === "board" ? model.headX + model.headWood / Math.sin(p.headTilt) - model.nutX : model.nutX - model.headX + cutFace;
  return { scarfCutFace: cutFace, scarfLayout: layout, scarfFromNut: fromNut, blankThickness: p.blankThickness };
}

function resetAtFootOf(p: NeckParams, from: Sources, model: NeckModel): number {
  const toSaddle = measureHeights(p, from).saddleX - model.joinX;
  return p.resetRise > 0 && toSaddle > 0 ? resetAtHeel(model.heel.depth, p.resetRise, toSaddle) : 0;
}
