/** What follows from a fingerboard's numbers, for its own drawing and for every part that reads it. */
import type { Path } from "../../geometry/path.ts";
import { distance, vec, type Vec } from "../../geometry/vec.ts";
import { fallOver, radiusAt } from "../../lutherie/board-radius.ts";
import { movedIn, taperThrough, widthAt } from "../../lutherie/fingerboard-taper.ts";
import { crownLength, slotDepth, tangLength } from "../../lutherie/fret-wire.ts";
import { lineAcross, slantOf, stretchOf, type TransverseLine } from "../../lutherie/transverse-line.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";
import { markerPath, placeFaceMarkers, placeSideMarkers, type FaceMarker, type Marker, type Point } from "./marker-measures.ts";
import { endX, instrumentOf, layersOf, startX, type FingerboardParams } from "./numbers.ts";
import { clipAcross, edgesOf, outlinePath, type BoardEdges, type BoardFrame } from "./outline.ts";

/** One fret, or with number 0 the nut; lengths 0 where there is nothing to cut. */
export interface FingerboardFret {
  readonly number: number;
  /** From the nut, on the centre line. */
  readonly fromNut: number;
  /** From the nut on the outer strings, along the centre line's direction. */
  readonly bassFromNut: number;
  readonly trebleFromNut: number;
  /** Where it crosses the outer strings. */
  readonly bass: Point;
  readonly treble: Point;
  /** Length of the slot. */
  readonly slot: number;
  /** Length of the tang, nipped short at both ends of the slot. */
  readonly tang: number;
  /** Length of the finished crown over the arch, from edge to edge of the bound board. */
  readonly crown: number;
  /** Depth of the slot's level bottom below the flat face, before the arch is worked. */
  readonly slotDepth: number;
  /** Ends of the slot, bass first. */
  readonly slotEnds?: readonly [Point, Point];
  /** Ends of the crown, bass first. */
  readonly crownEnds?: readonly [Point, Point];
  /** Radius of the face there; absent on a flat board. */
  readonly radius?: number;
}

export interface BindingMeasure {
  readonly name: string;
  readonly thickness: number;
  /** How far its outer and its inner face lie inside the edge of the finished board. */
  readonly outer: number;
  readonly inner: number;
}

export interface FingerboardMeasures {
  readonly frets: readonly FingerboardFret[];
  /** Finished widths, binding included, square to the centre line: at x = 0, the join, fret 12, and where the end crosses the centre line. */
  readonly widthAtNut: number;
  readonly widthAtJoin: number;
  readonly widthAt12: number;
  readonly widthAtEnd: number;
  /** The same again, named for what they are told apart from. */
  readonly boundWidthAtNut: number;
  readonly boundWidthAtEnd: number;
  /** Wood before binding: moved in by all layers, square to the edge. The end's width is taken where the blank ends. */
  readonly blankWidthAtNut: number;
  readonly blankWidthAtEnd: number;
  /** On the centre line. */
  readonly length: number;
  /** x on the centre line where the board starts (0, or less behind a zero fret) and ends. */
  readonly startX: number;
  readonly endX: number;
  readonly overhang: number;
  readonly joinX: number;
  readonly thickness: number;
  readonly binding: readonly BindingMeasure[];
  readonly bindingThickness: number;
  /** Radius of the face at x = 0 and at the end; absent on a flat board. */
  readonly radiusAtNut?: number;
  readonly radiusAtEnd?: number;
  /** Height of the finished edge, under the arch. */
  readonly edgeHeightAtNut: number;
  readonly edgeHeightAtEnd: number;
  /** Height of the binding when it is flush with the arch. */
  readonly bindingHeightAtNut: number;
  readonly bindingHeightAtEnd: number;
  readonly crownHeight: number;
  readonly faceMarkers: readonly FaceMarker[];
  /** The wood between the bindings, within which inlays lie clear of the markers; absent where it cannot be drawn. */
  readonly host?: { readonly outline: Path; readonly thickness: number; readonly holes: readonly Path[] };
  /** On the edge of the bass side; `at` lies on the edge. */
  readonly sideMarkers: readonly Marker[];
  /** Wire for all frets, with what is left on beyond the edges. */
  readonly wireLength: number;
  /** The finished edge; absent where it cannot be drawn. */
  readonly outline?: Path;
  /** Whether the finished outline and that of the blank can be drawn. */
  readonly hasOutline: boolean;
  readonly hasBlank: boolean;
}

declare module "../contract.ts" {
  interface MeasuresByKind {
    fingerboard: FingerboardMeasures;
  }
}

/** Radius of the face at x, the first value behind the nut; undefined on a flat board. */
export function faceRadius(p: FingerboardParams, end: number, x: number): number | undefined {
  if (p.radius === undefined) return undefined;
  return radiusAt({ atNut: p.radius, atEnd: p.radiusAtEnd ?? p.radius, endX: end }, Math.min(end, Math.max(0, x)));
}

/** What the outlines are cut from. */
export function frameOf(p: FingerboardParams, instrument: MeasuresByKind["instrument"]): BoardFrame {
  const end = endX(p, instrument);
  const nut = instrument.frets[0]!;
  const nutLine = lineAcross(nut.bass, nut.treble);
  return {
    taper: taperThrough(p.widthAtNut, end, p.widthAtEnd),
    start: { x0: nutLine.x0 + startX(p, instrument), q: nutLine.q },
    end:
      p.end === "curved"
        ? { kind: "arc", centre: vec(end + p.endRadius, 0), radius: p.endRadius }
        : { kind: "line", line: { x0: end, q: p.end === "angled" ? instrument.side * Math.tan(p.endAngle) : 0 } },
  };
}

/** All outlines of the board that can be drawn. */
export interface BoardOutlines {
  readonly bound: BoardEdges | undefined;
  readonly blank: BoardEdges | undefined;
  /** Outlines from the finished edge through each layer to the blank. */
  readonly layers: readonly (BoardEdges | undefined)[];
  /** The blank with what stopped slots leave standing taken off its sides. */
  readonly slotted: BoardEdges | undefined;
}

export function outlinesOf(p: FingerboardParams, frame: BoardFrame): BoardOutlines {
  const insets = [0];
  for (const layer of layersOf(p)) insets.push(insets.at(-1)! + layer.thickness);
  const layers = insets.map((inset) => edgesOf(frame, inset, p.bindEnd ? inset : 0));
  const whole = insets.at(-1)!;
  return {
    bound: layers[0],
    blank: layers.at(-1),
    layers,
    slotted: edgesOf(frame, whole + (p.slots === "stopped" ? p.slotStop : 0), p.bindEnd ? whole : 0),
  };
}

export function measureFingerboard(p: FingerboardParams, from: Sources): FingerboardMeasures {
  const instrument = instrumentOf(from);
  const frame = frameOf(p, instrument);
  const outlines = outlinesOf(p, frame);
  const end = endX(p, instrument);
  const { taper } = frame;
  const layers = layersOf(p);
  const bindingThickness = layers.reduce((sum, layer) => sum + layer.thickness, 0);
  const blankTaper = movedIn(taper, bindingThickness);
  const endInset = p.bindEnd ? bindingThickness * (frame.end.kind === "line" ? stretchOf(frame.end.line) : 1) : 0;

  const frets = instrument.frets.map((fret) => measureFret(p, fret, instrument, outlines, end));
  const onBoard = new Set(frets.filter((fret) => fret.crownEnds).map((fret) => fret.number));
  const faceMarkers = placeFaceMarkers(p, instrument, onBoard, taper);
  const radiusAtNut = faceRadius(p, end, 0);
  const radiusAtEnd = faceRadius(p, end, end);
  const edgeHeightAtNut = p.thickness - fallOver(radiusAtNut, p.widthAtNut);
  const edgeHeightAtEnd = p.thickness - fallOver(radiusAtEnd, p.widthAtEnd);

  return {
    frets,
    widthAtNut: p.widthAtNut,
    widthAtJoin: widthAt(taper, instrument.joinX),
    widthAt12: widthAt(taper, instrument.fret12X),
    widthAtEnd: p.widthAtEnd,
    boundWidthAtNut: p.widthAtNut,
    boundWidthAtEnd: p.widthAtEnd,
    blankWidthAtNut: blankTaper.atNut,
    blankWidthAtEnd: widthAt(blankTaper, end - endInset),
    length: p.length,
    startX: startX(p, instrument),
    endX: end,
    overhang: end - instrument.lastFretX,
    joinX: instrument.joinX,
    thickness: p.thickness,
    binding: layers.map((layer, i) => {
      const outer = layers.slice(0, i).reduce((sum, before) => sum + before.thickness, 0);
      return { name: layer.name, thickness: layer.thickness, outer, inner: outer + layer.thickness };
    }),
    bindingThickness,
    ...(radiusAtNut === undefined ? {} : { radiusAtNut }),
    ...(radiusAtEnd === undefined ? {} : { radiusAtEnd }),
    edgeHeightAtNut,
    edgeHeightAtEnd,
    bindingHeightAtNut: Math.min(p.bindingHeight, edgeHeightAtNut),
    bindingHeightAtEnd: Math.min(p.bindingHeight, edgeHeightAtEnd),
    crownHeight: p.crownHeight,
    faceMarkers,
    ...(outlines.blank
      ? {
          host: {
            outline: outlinePath(outlines.blank),
            thickness: p.thickness,
            holes: faceMarkers.map((marker) => markerPath(p, marker)),
          },
        }
      : {}),
    sideMarkers: placeSideMarkers(p, instrument, onBoard, taper),
    wireLength: frets.reduce((sum, { crown }) => sum + (crown > 0 ? crown + 2 * p.crownOverhang : 0), 0),
    ...(outlines.bound ? { outline: outlinePath(outlines.bound) } : {}),
    hasOutline: outlines.bound !== undefined,
    hasBlank: outlines.blank !== undefined,
  };
}

type InstrumentFret = MeasuresByKind["instrument"]["frets"][number];

function measureFret(
  p: FingerboardParams,
  fret: InstrumentFret,
  instrument: MeasuresByKind["instrument"],
  outlines: BoardOutlines,
  end: number,
): FingerboardFret {
  const across = lineAcross(fret.bass, fret.treble);
  const radius = faceRadius(p, end, across.x0);
  const isCut = fret.number > 0 || instrument.zeroFret;
  const slotEnds = isCut ? bassFirst(across, outlines.slotted, instrument.side) : undefined;
  const crownEnds = isCut ? bassFirst(across, outlines.bound, instrument.side) : undefined;
  const slot = slotEnds ? distance(...slotEnds) : 0;
  return {
    number: fret.number,
    fromNut: fret.fromNut,
    bassFromNut: fret.bassFromNut,
    trebleFromNut: fret.trebleFromNut,
    bass: point(fret.bass),
    treble: point(fret.treble),
    slot,
    tang: tangLength(slot, p.tangClearance),
    crown: crownEnds ? crownLength(radius, distance(...crownEnds), slantOf(across)) : 0,
    slotDepth: slotEnds ? slotDepth(p.tangDepth, p.slotClearance, radius, slotEnds[1].y - slotEnds[0].y) : 0,
    ...(slotEnds ? { slotEnds: [point(slotEnds[0]), point(slotEnds[1])] as const } : {}),
    ...(crownEnds ? { crownEnds: [point(crownEnds[0]), point(crownEnds[1])] as const } : {}),
    ...(radius === undefined ? {} : { radius }),
  };
}

const point = (at: Vec): Point => [at.x, at.y];

function bassFirst(across: TransverseLine, edges: BoardEdges | undefined, side: 1 | -1): readonly [Vec, Vec] | undefined {
  const piece = edges && clipAcross(across, edges);
  return piece && side === -1 ? [piece[1], piece[0]] : piece;
}
