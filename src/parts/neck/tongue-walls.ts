/** The wood round a channel that runs on beyond the join, into the tongue. */
import { vec, type Vec } from "../../geometry/vec.ts";
import { channelAt, type ChannelRun, type PlacedWall } from "../../lutherie/neck-run.ts";
import type { Tongue } from "./joint.ts";

export interface TongueWalls {
  /** Under the channel's floor. */
  readonly behind: PlacedWall;
  /** Between its walls and the sides of the tongue, on top and at its floor. */
  readonly beside: PlacedWall;
}

/**
 * The least wood where the run lies in a tongue that begins at `joinX`; undefined where it does not reach it. Sides, floor and channel are
 * straight, so each is least at an end. The tongue is taken as square to the board: the pitch changes its cross section by its cosine.
 */
export function tongueWalls(run: ChannelRun, tongue: Tongue, joinX: number): TongueWalls | undefined {
  const from = Math.max(run.from, joinX);
  const to = Math.min(run.to, joinX + tongue.length);
  if (!(from < to)) return undefined;
  const walls = [from, to].map((x) => wallsAt(run, tongue, joinX, x));
  const least = (which: keyof TongueWalls): PlacedWall =>
    walls.map((wall) => wall[which]).reduce((a, b) => (b.distance < a.distance ? b : a));
  return { behind: least("behind"), beside: least("beside") };
}

function wallsAt(run: ChannelRun, tongue: Tongue, joinX: number, x: number): TongueWalls {
  const t = (x - joinX) / tongue.length;
  const top = tongue.rootTop + (tongue.farTop - tongue.rootTop) * t;
  const foot = tongue.rootFoot + (tongue.farFoot - tongue.rootFoot) * t;
  const { middle, width, depth } = channelAt(run, x);
  const steep = tongue.depth / Math.hypot(tongue.depth, top - foot);
  const corners = ([-1, 1] as const).flatMap((sign) =>
    [0, depth].map((down) => ({ sign, at: vec(middle + (sign * width) / 2, -down) })),
  );
  const beside = corners.map(({ sign, at }): PlacedWall => {
    const half = top + ((foot - top) * -at.y) / tongue.depth;
    const distance = (half - sign * at.x) * steep;
    // Square to the side, which leans inwards going down.
    const out = sign * distance;
    const to: Vec = vec(at.x + out * steep, at.y - (distance * (top - foot)) / Math.hypot(tongue.depth, top - foot));
    return { distance, x, from: at, to };
  });
  const floor = vec(middle, -depth);
  return {
    behind: { distance: tongue.depth - depth, x, from: floor, to: vec(middle, -tongue.depth) },
    beside: beside.reduce((a, b) => (b.distance < a.distance ? b : a)),
  };
}
