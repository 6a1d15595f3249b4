/** Where the strings cross the nut and how deep they lie. */
import { fallOver } from "../../lutherie/board-radius.ts";
import { nutSlotHeight } from "../../lutherie/nut-slots.ts";
import { lineAcross, meetEdge, pointAt, slantOf, stretchOf, type TransverseLine } from "../../lutherie/transverse-line.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";
import type { NutParams } from "./params.ts";

export interface NutSlot {
  /** As people count: 1 is the treble string. */
  readonly string: number;
  /** At the face that meets the board. */
  readonly y: number;
  /** From the middle of the nut along its face, in the direction of rising y. */
  readonly along: number;
  readonly gauge: number;
  readonly width: number;
  /** Of the slot's bottom above the face of the board under the string. */
  readonly height: number;
  /** Of the slot's bottom above the face of the board at its middle: `height` less what the arch falls. */
  readonly level: number;
}

export interface NutMeasures {
  /** From bass to treble. */
  readonly slots: readonly NutSlot[];
  readonly thickness: number;
  /** Square to the centre line, and along the nut's own face. */
  readonly width: number;
  readonly length: number;
  /** x on the centre line of the face that meets the board, and of the back. */
  readonly faceX: number;
  readonly backX: number;
  /** Of the nut from square; above 0 where it leans to the tail on the treble side. */
  readonly slantRad: number;
  readonly seatDepth: number;
  /** Height of the finished top above the face of the board, at the middle and at the ends. */
  readonly crest: number;
  readonly topAtEnds: number;
  /** From seat to top, at the middle. */
  readonly height: number;
  readonly blankHeight: number;
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    nut: NutMeasures;
  }
}

export function instrumentOf(from: Sources): MeasuresByKind["instrument"] {
  const measures = from.get("instrument");
  if (!measures) throw new Error("a nut was derived without its instrument");
  return measures;
}

/** The line along which the nut meets the board. */
export function faceLine(from: Sources): TransverseLine {
  const instrument = instrumentOf(from);
  const start = instrument.frets[0]!;
  const line = lineAcross(start.bass, start.treble);
  return { x0: line.x0 + (from.get("fingerboard")?.startX ?? 0), q: line.q };
}

export function measureNut(p: NutParams, from: Sources): NutMeasures {
  const instrument = instrumentOf(from);
  const board = from.get("fingerboard");
  const face = faceLine(from);
  const stretch = stretchOf(face);
  const radius = board?.radiusAtNut;
  const crown = instrument.frets.length > 1 || instrument.zeroFret ? (board?.crownHeight ?? 0) : 0;
  const heights = slotHeights(p, instrument, crown);
  const slots = instrument.strings.map((string, i): NutSlot => {
    const rise = (string.saddle.y - string.nut.y) / string.scale;
    const at = meetEdge(face, rise, string.nut.y - rise * string.nut.x) ?? pointAt(face, string.nut.y);
    const height = heights[i]!;
    return {
      string: string.number,
      y: at.y,
      along: at.y * stretch,
      gauge: string.gauge,
      width: string.gauge + p.slotPlay,
      height,
      level: height - fallOver(radius, 2 * at.y),
    };
  });
  const crest = Math.max(crown, ...heights) + p.topAboveSlots;
  return {
    slots,
    thickness: p.thickness,
    width: p.width,
    length: p.width * stretch,
    faceX: face.x0,
    backX: face.x0 - p.thickness * stretch,
    slantRad: instrument.side * slantOf(face) + 0,
    seatDepth: p.seatDepth,
    crest,
    topAtEnds: crest - fallOver(radius === undefined ? undefined : radius + crest, p.width),
    height: p.seatDepth + crest,
    blankHeight: p.seatDepth + crest + p.spare,
  };
}

/** Height of each slot's bottom above the board, from bass to treble. */
function slotHeights(p: NutParams, instrument: MeasuresByKind["instrument"], crown: number): number[] {
  const last = instrument.strings.length - 1;
  return instrument.strings.map((_, i) => {
    if (instrument.zeroFret) return Math.max(0, crown - p.zeroFretDrop);
    const share = last > 0 ? i / last : 1;
    return nutSlotHeight(crown, p.bassFretClearance + (p.fretClearance - p.bassFretClearance) * share);
  });
}
