/** Where the back comes too near to a channel, marked so that nobody who has the drawing or a sheet in hand can miss it. */
import type { Layer, Shape, Text } from "../../drawing/drawing.ts";
import { polygon, type Path } from "../../geometry/path.ts";
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

function stretches({ run }: NeckChannel, model: NeckModel, least: number, worst: number): Stretch[] {
  const [low, high] = [Math.max(model.limits.from, run.from), Math.min(model.limits.to, run.to)];
  if (!(low < high)) return [];
  const isThin = (x: number): boolean => wallFrom(run, model.sectionAt, x, "behind").distance < least - 1e-9;
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

/** Height of the words on a sheet, and on the drawing, where they are seen at a fifth of their size, mm. */
const LABEL = 4;
export const LOUD = 10;
/** Radius of the sign, mm. */
const SIGN = 5;

/** The sign of a stop: an eight-sided figure. */
const octagon = (at: Vec): Path => polygon(Array.from({ length: 8 }, (_, i) => polar(at, SIGN, Math.PI / 8 + (i * Math.PI) / 4)));

const wordOf = ({ channel, wall }: Stop): string =>
  `STOP: ${wall.distance <= 0 ? "the back breaks into" : "too little wood behind"} the ${channel.name}`;

/** What is said of a stretch, each with the number that the shape tells. */
const about = (stop: Stop, model: NeckModel) => ({
  role: "mark" as const,
  line: "visible" as const,
  tint: "waste" as const,
  name:
    stop.wall.distance <= 0 ? `the back breaks into the ${stop.channel.name}` : `too little wood behind the ${stop.channel.name}`,
  says: [
    said(stop.wall.distance <= 0 ? "stands out of the back by" : "wood left", Math.abs(stop.wall.distance)),
    said("from the nut", stop.from - model.nutX),
    said("to", stop.to - model.nutX),
  ],
});

const nameOf = (prefix: string, stop: Stop, i: number): string => `${prefix}stop-${stop.channel.id}-${i + 1}`;

/** One line of words a channel, beside the neck where nothing else stands. */
const words = (prefix: string, stops: readonly Stop[], height: number, at: (stop: Stop) => Vec): Text[] => {
  const first = stops.filter((stop, i) => stops.findIndex(({ channel }) => channel === stop.channel) === i);
  return first.map((stop, i) => {
    const place = at(stop);
    return {
      id: `${prefix}stop-${stop.channel.id}-words`,
      at: vec(place.x, place.y - i * 1.6 * height),
      text: wordOf(stop),
      height,
      align: "start",
    };
  });
};

/** From the front: the stretch of the channel, a sign where the wood is least, and the words below the neck. Undefined where all is well. */
export function stopsOnPlan(stops: readonly Stop[], model: NeckModel, height = LABEL): Layer | undefined {
  if (stops.length === 0) return undefined;
  const { side } = model.instrument;
  const shapes = stops.flatMap((stop, i): Shape[] => {
    const { run } = stop.channel;
    const corner = (x: number, out: number): Vec => {
      const { middle, width } = channelAt(run, x);
      return vec(x, side * (middle + (out * width) / 2));
    };
    const { from, to, wall } = stop;
    return [
      {
        id: nameOf("", stop, i),
        path: polygon([corner(from, -1), corner(to, -1), corner(to, 1), corner(from, 1)]),
        ...about(stop, model),
      },
      ...(i === stops.findIndex(({ channel }) => channel === stop.channel)
        ? [
            {
              id: `${nameOf("", stop, i)}-sign`,
              role: "mark",
              line: "visible",
              path: octagon(vec(wall.x, side * wall.from.x)),
              name: "stop: least wood here",
              says: [said("from the nut", wall.x - model.nutX)],
            } as const,
          ]
        : []),
    ];
  });
  const low = -Math.max(model.widthAt(model.nutX), model.widthAt(model.joinX)) / 2 - 3 - height;
  return { name: "stops", shapes, texts: words("", stops, height, ({ from }) => vec(from, low)) };
}

/** From the side: what is left, or is missing, between the channel's floor and the back. */
export function stopsFromSide(stops: readonly Stop[], model: NeckModel, prefix: string): Layer | undefined {
  if (stops.length === 0) return undefined;
  const shapes = stops.map((stop, i): Shape => {
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
  const lowest = (stop: Stop): number => Math.max(...[stop.from, stop.to].map((x) => model.profile.depthAt(x)));
  return {
    name: `${prefix}stops`,
    shapes,
    texts: words(prefix, stops, LABEL, (stop) => vec(stop.from, -lowest(stop) - 3 - LABEL)),
  };
}
