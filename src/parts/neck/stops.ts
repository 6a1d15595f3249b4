/** Where the back comes too near to a channel, marked so that nobody who has the drawing or a sheet in hand can miss it. */
import type { Layer, Shape, Text } from "../../drawing/drawing.ts";
import { polygon, segmentPath, type Path } from "../../geometry/path.ts";
import { polar, vec, type Vec } from "../../geometry/vec.ts";
import { channelAt, wallFrom, type PlacedWall } from "../../lutherie/neck-run.ts";
import type { Limits } from "../contract.ts";
import type { NeckMeasures } from "./measure.ts";
import type { NeckChannel, NeckModel } from "./model.ts";
import { said } from "./views.ts";

/** Wood that must stay behind a channel, unless the maker says otherwise. */
export const LEAST_BEHIND = 3;

/** The limit of the check as it stands. */
export const leastBehind = (limits: Limits): number => limits["wood-behind"]?.["least"] ?? LEAST_BEHIND;

/** Wood that usually stays beside a channel, unless the maker says otherwise. */
export const USUAL_BESIDE = 3;

export const usualBeside = (limits: Limits): number => limits["wood-beside"]?.["usual"] ?? USUAL_BESIDE;

/** A stretch of a channel behind which less wood is left than there must be. */
export interface Stop {
  readonly channel: NeckChannel;
  readonly from: number;
  readonly to: number;
  /** Of the whole channel. */
  readonly wall: PlacedWall;
}

/** Stations lie at most this far apart, mm. */
const STEP = 5;
/** A place without a stretch, as at the end of a channel, is shown this long, mm. */
const SHORTEST = 2;

/** All stretches, in the order of the channels and along the neck; each channel that comes too near has at least one. */
export function stopsOf(m: NeckMeasures, model: NeckModel, least: number): Stop[] {
  return model.channels.flatMap((channel) => {
    const wall = m.channels.find(({ id }) => id === channel.id)?.behind;
    if (!wall || wall.distance >= least - 1e-9) return [];
    const found = stretches(channel, model, least, wall.x);
    const around = { from: wall.x - SHORTEST / 2, to: wall.x + SHORTEST / 2 };
    return (found.length > 0 ? found : [around]).map((stretch) => ({ channel, wall, ...stretch }));
  });
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

function stretches(channel: NeckChannel, model: NeckModel, least: number, worst: number): Stretch[] {
  const { run } = channel;
  const [low, high] = [Math.max(model.limits.from, run.from), Math.min(model.limits.to, run.to)];
  if (!(low < high)) return [];
  const isThin = (x: number): boolean => isThinAt(channel, model, x, least);
  const count = Math.ceil((high - low) / STEP);
  const even = Array.from({ length: count + 1 }, (_, i) => (i === count ? high : low + ((high - low) * i) / count));
  const places = [...even, ...(worst > low && worst < high ? [worst] : [])].toSorted((a, b) => a - b);
  const edge = (thick: number, thin: number): number => {
    let [outside, inside] = [thick, thin];
    while (Math.abs(inside - outside) > 0.01) {
      const middle = (outside + inside) / 2;
      if (isThin(middle)) inside = middle;
      else outside = middle;
    }
    return inside;
  };
  const found: Stretch[] = [];
  let from: number | undefined;
  places.forEach((x, i) => {
    const before = places[i - 1];
    const thin = isThin(x);
    if (thin && from === undefined) from = before === undefined ? x : edge(before, x);
    if (!thin && from !== undefined) {
      found.push({ from, to: edge(x, before!) });
      from = undefined;
    }
  });
  if (from !== undefined) found.push({ from, to: high });
  return found.map((stretch) => {
    const short = Math.max(0, SHORTEST - (stretch.to - stretch.from)) / 2;
    return { from: stretch.from - short, to: stretch.to + short };
  });
}

/** Height of the words on a sheet, and on the drawing, where they are seen at a quarter of their size, mm. */
const LABEL = 6;
export const LOUD = 11;
/** Radius of the sign by the height of the words, width of its rim by that, and height of the word in it. */
const SIGN = 1.8;
const RIM = 0.2;
const IN_SIGN = 0.4;

/** What the sign takes under the back on the drawing, mm. */
export const SIGN_ROOM = 2 * SIGN * LOUD + 6;

const octagon = (at: Vec, radius: number): Path =>
  polygon(Array.from({ length: 8 }, (_, i) => polar(at, radius, Math.PI / 8 + (i * Math.PI) / 4)));

/** The sign of a stop: an eight-sided rim with the word in it, beside words of this height. */
function stopSign(id: string, at: Vec, height: number, says: Shape["says"] = []): { readonly shape: Shape; readonly text: Text } {
  const radius = SIGN * height;
  const word = IN_SIGN * radius;
  return {
    shape: {
      id,
      role: "mark",
      line: "visible",
      path: octagon(at, radius),
      holes: [octagon(at, (1 - RIM) * radius)],
      name: "stop: least wood here",
      says,
      tint: "stop",
    },
    text: { id: `${id}-word`, at: vec(at.x, at.y - word / 2), text: "STOP", height: word, align: "middle", loud: true },
  };
}

/** Whether less wood is left behind a channel at x than there must be. */
export const isThinAt = ({ run }: NeckChannel, model: NeckModel, x: number, least: number): boolean =>
  x >= run.from && x <= run.to && wallFrom(run, model.sectionAt, x, "behind").distance < least - 1e-9;

const wordOf = ({ channel, wall }: Stop): string =>
  `STOP: ${wall.distance <= 0 ? "the back breaks into" : "too little wood behind"} the ${channel.name}`;

/** What is said of a stretch, each with the number that the shape tells. */
const about = (stop: Stop, model: NeckModel) => ({
  role: "mark" as const,
  line: "visible" as const,
  tint: "stop" as const,
  name:
    stop.wall.distance <= 0 ? `the back breaks into the ${stop.channel.name}` : `too little wood behind the ${stop.channel.name}`,
  says: [
    said(stop.wall.distance <= 0 ? "stands out of the back by" : "wood left", Math.abs(stop.wall.distance)),
    said("from the nut", stop.from - model.nutX),
    said("to", stop.to - model.nutX),
  ],
});

const nameOf = (prefix: string, stop: Stop, i: number): string => `${prefix}stop-${stop.channel.id}-${i + 1}`;

/** The first stretch of each channel. */
const firstOf = (stops: readonly Stop[]): Stop[] =>
  stops.filter((stop, i) => stops.findIndex(({ channel }) => channel === stop.channel) === i);

/** One line of words for all, in the words of the channel that is worst off. */
function words(prefix: string, stops: readonly Stop[], height: number, at: Vec): Text {
  const worst = worstOf(stops);
  const more = firstOf(stops).length - 1;
  const text = more > 0 ? `${wordOf(worst)}, and ${more} more` : wordOf(worst);
  return { id: `${prefix}stop-${worst.channel.id}-words`, at, text, height, align: "start", loud: true };
}

const worstOf = (stops: readonly Stop[]): Stop => stops.reduce((a, b) => (b.wall.distance < a.wall.distance ? b : a));

/** From the front: the stretch of the channel, a sign where least of all is left, and the words below the neck. Undefined where all is well. */
export function stopsOnPlan(stops: readonly Stop[], model: NeckModel, height = LABEL): Layer | undefined {
  if (stops.length === 0) return undefined;
  const { side } = model.instrument;
  const worst = worstOf(stops);
  const sign = stopSign(`${nameOf("", worst, stops.indexOf(worst))}-sign`, vec(worst.wall.x, side * worst.wall.from.x), height, [
    said("from the nut", worst.wall.x - model.nutX),
  ]);
  const marks = stops.map((stop, i): Shape => {
    const { run } = stop.channel;
    const corner = (x: number, out: number): Vec => {
      const { middle, width } = channelAt(run, x);
      return vec(x, side * (middle + (out * width) / 2));
    };
    const { from, to } = stop;
    return {
      id: nameOf("", stop, i),
      path: polygon([corner(from, -1), corner(to, -1), corner(to, 1), corner(from, 1)]),
      ...about(stop, model),
    };
  });
  const low = -Math.max(model.widthAt(model.nutX), model.widthAt(model.joinX)) / 2 - 3 - height;
  return {
    name: "stops",
    shapes: [...marks, sign.shape],
    texts: [words("", stops, height, vec(Math.min(...stops.map(({ from }) => from)), low)), sign.text],
  };
}

/** From the side: what is left, or is missing, between the channel's floor and the back. */
export function stopsFromSide(
  stops: readonly Stop[],
  model: NeckModel,
  prefix: string,
  /** Height of the words, and whether they stand over the glue plane or under the back. */
  { height, over }: { readonly height: number; readonly over: boolean } = { height: LABEL, over: true },
): Layer | undefined {
  if (stops.length === 0) return undefined;
  const marks = stops.map((stop, i): Shape => {
    const { run } = stop.channel;
    const { from, to } = stop;
    const floor = (x: number): Vec => vec(x, -channelAt(run, x).depth);
    const back = vec(from, -model.profile.depthAt(from));
    return {
      id: nameOf(prefix, stop, i),
      path: {
        start: floor(from),
        segments: [
          { kind: "line", to: back },
          ...model.profile.segments(from, to),
          { kind: "line", to: floor(to) },
          { kind: "line", to: floor(from) },
        ],
        closed: true,
      },
      ...about(stop, model),
    };
  });
  // One sign with a line to where the wood is least, and the words beside it.
  const worst = worstOf(stops);
  const place = vec(worst.wall.x, -model.profile.depthAt(worst.wall.x));
  const lowest = Math.max(...[worst.from, worst.wall.x, worst.to].map((x) => model.profile.depthAt(x)));
  const radius = SIGN * height;
  const at = vec(place.x, over ? radius + 8 : -lowest - 4 - radius);
  const sign = stopSign(`${prefix}stop-sign`, at, height, [said("from the nut", worst.wall.x - model.nutX)]);
  const leader: Shape = {
    id: `${prefix}stop-leader`,
    role: "mark",
    line: "visible",
    path: segmentPath(vec(at.x, at.y + (over ? -radius : radius)), place),
    name: "stop: least wood here",
  };
  return {
    name: `${prefix}stops`,
    shapes: [...marks, leader, sign.shape],
    texts: [words(prefix, stops, height, vec(at.x + radius + 3, at.y - height / 2)), sign.text],
  };
}
