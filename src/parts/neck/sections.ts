/** Cross sections, seen from the body with the board on top; the plane that the board is glued to lies at height 0. */
import type { Shape, Text } from "../../drawing/drawing.ts";
import { arcOfRise } from "../../geometry/arc.ts";
import { line, rectangle, segmentPath, type Path, type Segment } from "../../geometry/path.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import { fallOver, radiusAt } from "../../lutherie/board-radius.ts";
import { curveSegments } from "../../geometry/curve-path.ts";
import { channelAt } from "../../lutherie/neck-run.ts";
import {
  sectionPath,
  sideDirection,
  sidePoint,
  sidesOf,
  type NeckSection,
  type SectionSide,
} from "../../lutherie/neck-section.ts";
import type { Sources } from "../contract.ts";
import type { NeckChannel, NeckModel } from "./model.ts";
import { isThinAt } from "./stops.ts";
import { movedPath, said } from "./views.ts";

/** Height of a place's name under its section, mm. */
const LABEL = 6;
/** And of the word under it where too little wood is left, mm. */
const STOP = 9;

/** The section as it is drawn: mirrored for a left-handed neck, whose treble side lies on the other hand. */
export const seen = (section: NeckSection, side: 1 | -1): NeckSection =>
  side === 1
    ? section
    : { ...section, lean: -section.lean, bassExponent: section.trebleExponent, trebleExponent: section.bassExponent };

/** The wood below the height -fall: its back from edge to edge and the straight top, closed. */
export function woodPath(section: NeckSection, fall: number): Path {
  if (fall <= 0) {
    const back = sectionPath(section);
    return { start: back.start, segments: [...back.segments, line(back.start)], closed: true };
  }
  const [left, right] = sidesOf(section);
  const [a, b] = [angleAt(left, fall), angleAt(right, fall)];
  const start = sidePoint(left, a);
  return {
    start,
    segments: [...quarter(left, a, Math.PI / 2), ...quarter(right, Math.PI / 2, b), line(start)],
    closed: true,
  };
}

function quarter(side: SectionSide, from: number, to: number): Segment[] {
  const back = vec(side.lean, -side.d);
  const segments = curveSegments(
    { at: (angle) => sidePoint(side, angle), direction: (angle) => sideDirection(side, angle) },
    from,
    to,
    1e-3,
  );
  // The cosine of a quarter turn is not quite 0: both sides meet in one point of the back.
  return to === Math.PI / 2 ? [...segments.slice(0, -1), { ...segments.at(-1)!, to: back }] : segments;
}

/** The angle at which a side lies `fall` below the glue plane. */
function angleAt(side: SectionSide, fall: number): number {
  return Math.atan2(fall, side.a * (1 - (fall / side.d) ** side.p) ** (1 / side.p));
}

/** A channel cut across at x, from the top of the wood down; undefined where it does not pass there or its floor lies over the top. */
export function channelSection({ run }: NeckChannel, x: number, side: 1 | -1, fall: number): Path | undefined {
  if (x < run.from || x > run.to) return undefined;
  const { middle, width, depth } = channelAt(run, x);
  return depth > fall ? rectangle(side * middle - width / 2, -depth, side * middle + width / 2, Math.min(0, -fall)) : undefined;
}

/** The board over a section: a guide. Undefined off the board. */
function boardPath(model: NeckModel, from: Sources, x: number): Path | undefined {
  const board = from.get("fingerboard");
  if (!board || x < board.startX - 1e-6 || x > board.endX) return undefined;
  const half = model.widthAt(x) / 2;
  const radius =
    board.radiusAtNut === undefined
      ? undefined
      : radiusAt({ atNut: board.radiusAtNut, atEnd: board.radiusAtEnd ?? board.radiusAtNut, endX: board.endX }, x);
  const fall = Math.min(model.board - 0.1, fallOver(radius, 2 * half));
  const [left, right] = [vec(-half, model.board - fall), vec(half, model.board - fall)];
  return {
    start: vec(-half, 0),
    segments: [line(vec(half, 0)), line(right), fall > 1e-9 ? arcOfRise(right, left, fall) : line(left), line(vec(-half, 0))],
    closed: true,
  };
}

export interface SectionView {
  readonly shapes: readonly Shape[];
  readonly texts: readonly Text[];
}

/** The section at x about `centre` (its point on the glue plane), its shapes named `section-<key>...`. */
export function sectionView(
  model: NeckModel,
  from: Sources,
  place: { readonly key: string; readonly label: string; readonly x: number; readonly centre: Vec; readonly least: number },
): SectionView {
  const { key, label, x, centre, least } = place;
  const { side } = model.instrument;
  const section = seen(model.sectionAt(x), side);
  const fall = Math.min(model.faceFall(x), section.depth - 0.1);
  const id = `section-${key}`;
  const shapes: Shape[] = [
    {
      id,
      role: "cut",
      line: "visible",
      path: movedPath(woodPath(section, fall), centre),
      name: `section, ${label}`,
      says: [
        said("width", 2 * section.halfWidth),
        said("depth of the wood", section.depth - fall),
        ...(fall > 0 ? [] : [said("depth with the board", section.depth + model.board)]),
      ],
      tint: "wood",
    },
  ];
  const board = boardPath(model, from, x);
  if (board)
    shapes.push({ id: `${id}-board`, role: "guide", line: "narrow", path: movedPath(board, centre), name: "fingerboard" });
  const thin = model.channels.filter((channel) => isThinAt(channel, model, x, least));
  for (const channel of model.channels) {
    const path = channelSection(channel, x, side, fall);
    if (path)
      shapes.push({
        id: `${id}-${channel.id}`,
        role: "guide",
        line: "narrow",
        path: movedPath(path, centre),
        name: thin.includes(channel) ? `${channel.name}: too little wood behind it` : channel.name,
        tint: thin.includes(channel) ? "stop" : "waste",
      });
  }
  shapes.push({
    id: `${id}-middle`,
    role: "centre",
    line: "centre",
    path: movedPath(segmentPath(vec(0, model.board + 3), vec(0, -section.depth - 3)), centre),
    name: "middle of the neck",
  });
  return {
    shapes,
    texts: [
      {
        id: `${id}-label`,
        at: vec(centre.x, centre.y - section.depth - 4 - LABEL),
        text: label,
        height: LABEL,
        align: "middle",
      },
      ...(thin.length > 0
        ? [
            {
              id: `${id}-stop`,
              at: vec(centre.x, centre.y - section.depth - 6 - LABEL - STOP),
              text: "STOP",
              height: STOP,
              align: "middle",
              loud: true,
            } as const,
          ]
        : []),
    ],
  };
}
