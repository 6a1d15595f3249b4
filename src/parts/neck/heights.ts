/** The chain of heights from the join to the saddle, and what follows from it. */
import { radiusAt } from "../../lutherie/board-radius.ts";
import { domeHeight } from "../../lutherie/dome.ts";
import { plateHeight } from "../../lutherie/domed-plate.ts";
import {
  fretPlaneOverTop,
  gapUnderExtension,
  solveChain,
  stringOverFrets,
  type ChainUnknown,
  type HeightChain,
} from "../../lutherie/neck-pitch.ts";
import { saddleTop } from "../../lutherie/saddle-top.ts";
import type { Sources } from "../contract.ts";
import { centreScale, instrumentOf, type HeightNumbers, type NeckParams } from "./numbers.ts";

/** Numbers of the chain in the order in which they give way when fewer than four are given. */
const LINKS = ["pitch", "saddleHeight", "bridgeThickness", "action", "boardThickness"] as const;
type Link = (typeof LINKS)[number];
const UNKNOWN: Readonly<Record<Link, ChainUnknown>> = {
  pitch: "pitch",
  saddleHeight: "saddleHeight",
  bridgeThickness: "bridgeThickness",
  action: "actionAt12",
  boardThickness: "boardThickness",
};

type Heights = Pick<NeckParams, keyof HeightNumbers>;

/** The value of a number of the chain that fits the others, if it is the one that gives way; undefined where another does. */
export function solved(
  key: Link,
  p: Heights,
  from: Sources,
  given: (key: keyof NeckParams & string) => boolean,
): number | undefined {
  if (LINKS.find((link) => !given(link)) !== key) return undefined;
  const value = solveChain(chainBut(key, p, from), UNKNOWN[key]);
  return key === "action" ? value - p.moreAtBass / 2 : value;
}

/** The chain with every number but one read, so that the one may be asked for while it is being settled. */
function chainBut(key: Link, p: Heights, from: Sources): HeightChain {
  const instrument = instrumentOf(from);
  const scale = centreScale(instrument);
  const read = (link: Link): number => (link === key ? 0 : p[link]);
  return {
    joinX: instrument.joinX,
    saddleX: scale + p.setback,
    scale,
    topRiseAtJoin: 0,
    topRiseAtSaddle: p.topRise,
    boardThickness: read("boardThickness"),
    fretHeight: from.get("fingerboard")?.crownHeight ?? 0,
    nutHeight: p.nutHeight,
    actionAt12: read("action") + p.moreAtBass / 2,
    bridgeThickness: read("bridgeThickness"),
    saddleHeight: read("saddleHeight"),
    pitch: read("pitch"),
  };
}

/** The settled chain. */
export function chainOf(p: Heights, from: Sources): HeightChain {
  return { ...chainBut("pitch", p, from), pitch: p.pitch };
}

/**
 * How far the top stands over the plane of the body's edge at x on the centre line, mm: that of the body, or in a design without one flat
 * and then part of a sphere down to the tail.
 */
export function topRiseAt(p: Pick<HeightNumbers, "topRadius" | "flatFor" | "bodyLength">, from: Sources, x: number): number {
  const top = from.get("body")?.top;
  if (top) return x > top.neck.x && x < top.tail.x ? plateHeight(top, { x, y: 0 }) : 0;
  const { joinX } = instrumentOf(from);
  if (p.topRadius === undefined) return 0;
  const first = joinX + Math.min(p.flatFor, p.bodyLength - 1);
  const last = joinX + p.bodyLength;
  if (x <= first || x >= last) return 0;
  return domeHeight({ radius: p.topRadius, first: { x: first, height: 0 }, second: { x: last, height: 0 } }, { x, y: 0 });
}

/** One string at the saddle. */
export interface SaddlePoint {
  /** As people count: 1 is the treble string. */
  readonly string: number;
  readonly y: number;
  readonly actionAt12: number;
  /** Underside of the string over the frets' plane carried on along the centre line, and over the bridge. */
  readonly overFrets: number;
  readonly overBridge: number;
}

export interface HeightMeasures {
  readonly pitchRad: number;
  readonly action: number;
  readonly bridgeThickness: number;
  readonly saddleHeight: number;
  readonly saddleX: number;
  /** Of the frets' plane over the plane that the board is glued to. */
  readonly fretPlane: number;
  /** The frets' plane over the top at the saddle, and over the bridge. */
  readonly fretPlaneAtBridge: number;
  readonly fretPlaneOverBridge: number;
  /** The strings over the top at the saddle, at the middle. */
  readonly stringsOverTop: number;
  /** Of the board's arch carried on to the saddle; absent on a flat board. */
  readonly saddleRadius?: number;
  /** From bass to treble. */
  readonly saddleTop: readonly SaddlePoint[];
  /** Under the board at its end, above 0 a gap; and where it digs in deepest or gaps widest over the whole length on the body. */
  readonly extensionGap: number;
  readonly extensionLeast: number;
  readonly extensionMost: number;
  /** What the five numbers of the chain miss each other by at the saddle: 0 unless a file gives them all. */
  readonly chainMiss: number;
}

/** Places along the board over the body at which the gap is looked at. */
const LOOKS = 24;

export function measureHeights(p: Heights, from: Sources): HeightMeasures {
  const instrument = instrumentOf(from);
  const board = from.get("fingerboard");
  const chain = chainOf(p, from);
  const { saddleX, joinX } = chain;
  const fretPlane = fretPlaneOverTop(chain, saddleX, p.topRise);
  const stringsOverTop = p.bridgeThickness + p.saddleHeight;
  const farthest = Math.max(0, ...instrument.strings.map(({ saddle }) => Math.abs(saddle.y)));
  const radius = board?.radiusAtNut;
  // An arch that has closed over before the saddle is held at what still spans the strings; a check tells it.
  const saddleRadius =
    radius === undefined
      ? undefined
      : Math.max(
          1,
          1.05 * farthest,
          radiusAt({ atNut: radius, atEnd: board?.radiusAtEnd ?? radius, endX: board!.endX }, saddleX),
        );
  const last = instrument.strings.length - 1;
  const end = Math.max(joinX, board?.endX ?? joinX);
  const gaps = Array.from({ length: LOOKS + 1 }, (_, i) => {
    const x = joinX + ((end - joinX) * i) / LOOKS;
    return gapUnderExtension(chain, x, topRiseAt(p, from, x));
  });
  return {
    pitchRad: p.pitch,
    action: p.action,
    bridgeThickness: p.bridgeThickness,
    saddleHeight: p.saddleHeight,
    saddleX,
    fretPlane: chain.boardThickness + chain.fretHeight,
    fretPlaneAtBridge: fretPlane,
    fretPlaneOverBridge: fretPlane - p.bridgeThickness,
    stringsOverTop,
    ...(saddleRadius === undefined ? {} : { saddleRadius }),
    saddleTop: instrument.strings.map((string, i) => {
      const actionAt12 = p.action + p.moreAtBass * (last > 0 ? 1 - i / last : 0.5);
      const { scale, saddle } = string;
      const overFrets = saddleTop({ y: saddle.y, actionAt12, nutHeight: p.nutHeight, x: scale + p.setback, scale }, saddleRadius);
      const plane = fretPlaneOverTop(chain, saddle.x + p.setback, p.topRise);
      return { string: string.number, y: saddle.y, actionAt12, overFrets, overBridge: plane + overFrets - p.bridgeThickness };
    }),
    extensionGap: gaps.at(-1)!,
    extensionLeast: Math.min(...gaps),
    extensionMost: Math.max(...gaps),
    chainMiss: stringsOverTop - (fretPlane + stringOverFrets(chain, saddleX)),
  };
}

/** Height of the strings at the saddle over the glue plane, by the bridge and the saddle. */
export const stringTop = (m: Pick<HeightMeasures, "fretPlane" | "fretPlaneAtBridge" | "stringsOverTop">): number =>
  m.fretPlane - m.fretPlaneAtBridge + m.stringsOverTop;
