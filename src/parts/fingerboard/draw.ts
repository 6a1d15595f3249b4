/** The finished board from the front. */
import type { Dimension, Drawing } from "../../drawing/drawing.ts";
import { vec } from "../../geometry/vec.ts";
import { fretDistance } from "../../lutherie/fret-positions.ts";
import type { MeasuresByKind, Sources } from "../contract.ts";
import { mitreLayer } from "../mitre-mark.ts";
import { frameOf, outlinesOf, type FingerboardMeasures } from "./measure.ts";
import { instrumentOf, type FingerboardParams } from "./numbers.ts";
import type { BoardEdges } from "./outline.ts";
import {
  bindingLayer,
  endMitres,
  centreLayer,
  markerLayer,
  outlineShape,
  reach,
  sideMarkerLayer,
  slotLayer,
  stringLayer,
} from "./shapes.ts";

/** Distance from one row of dimension lines to the next, and of those across the board from its ends, mm. */
const ROW = 12;
const OFF_END = 18;

export function drawFingerboard(p: FingerboardParams, m: FingerboardMeasures, from: Sources): Drawing {
  const instrument = instrumentOf(from);
  const outlines = outlinesOf(p, frameOf(p, instrument));
  const { bound } = outlines;
  return {
    layers: [
      { name: "outline", shapes: bound ? [finishedOutline(m, bound)] : [] },
      bindingLayer(p, m, outlines, instrument.side),
      ...mitreLayer(endMitres(m, outlines, instrument.side, p.bindEnd), "plain"),
      centreLayer(m.startX, m.endX),
      slotLayer(m, instrument.twoScales),
      stringLayer(instrument, m),
      markerLayer(p, m),
      sideMarkerLayer(p, m, instrument.side),
    ],
    dimensions: bound ? dimensions(m, instrument, bound) : [],
  };
}

const finishedOutline = (m: FingerboardMeasures, bound: BoardEdges) =>
  outlineShape(bound, {
    role: "cut",
    line: "visible",
    name: "fingerboard",
    says: [
      { label: "width at the nut", value: m.boundWidthAtNut, quantity: "length" },
      { label: "width at the end", value: m.boundWidthAtEnd, quantity: "length" },
      { label: "length", value: m.length, quantity: "length" },
    ],
    tint: "wood",
  });

function dimensions(m: FingerboardMeasures, instrument: MeasuresByKind["instrument"], bound: BoardEdges): Dimension[] {
  const { from, to, half } = reach(bound);
  const base = { quantity: "length" } as const;
  const lastX = instrument.lastFretX;
  const lastFret = instrument.frets.length - 1;
  /** From x0 to x1 in a row above (positive) or below (negative) the board. */
  const along = (x0: number, x1: number, row: number): Pick<Dimension, "from" | "to" | "along" | "offset" | "value"> => ({
    from: vec(x0, Math.sign(row) * half),
    to: vec(x1, Math.sign(row) * half),
    along: "x",
    offset: row * ROW,
    value: x1 - x0,
  });
  const list: Dimension[] = [
    {
      ...base,
      id: "width-at-nut",
      from: vec(0, -m.widthAtNut / 2),
      to: vec(0, m.widthAtNut / 2),
      along: "y",
      offset: OFF_END - from,
      value: m.widthAtNut,
      edits: m.widthAtNut === instrument.nutWidth ? "instrument.nutWidth" : ".widthAtNut",
      rank: 1,
    },
    {
      ...base,
      id: "width-at-end",
      from: vec(m.endX, m.widthAtEnd / 2),
      to: vec(m.endX, -m.widthAtEnd / 2),
      along: "y",
      offset: to - m.endX + OFF_END,
      value: m.widthAtEnd,
      edits: ".widthAtEnd",
      rank: 1,
    },
    { ...base, ...along(m.startX, m.endX, 2), id: "length", edits: ".length", rank: 2 },
  ];
  if (m.joinX < m.endX) {
    list.push(
      { ...base, ...along(0, m.joinX, 1), id: "join", after: `to the join, fret ${instrument.joinFret}`, rank: 1 },
      {
        ...base,
        id: "width-at-join",
        from: vec(m.joinX, -m.widthAtJoin / 2),
        to: vec(m.joinX, m.widthAtJoin / 2),
        along: "y",
        offset: besideJoin(m, instrument),
        value: m.widthAtJoin,
        edits: ".widthAtJoin",
        beyond: true,
        rank: 2,
      },
    );
  }
  if (lastFret >= 12 && instrument.fret12X < m.endX && !(instrument.joinFret === 12))
    list.push({ ...base, ...along(0, instrument.fret12X, -1), id: "fret-12", after: "to fret 12", rank: 1 });
  if (lastFret > 0 && lastX < m.endX) {
    list.push(
      { ...base, ...along(lastX, m.endX, -1), id: "overhang", edits: ".overhang", rank: 2 },
      { ...base, ...along(0, lastX, -2), id: "last-fret", after: `to fret ${lastFret}`, rank: 3 },
    );
  }
  return list;
}

/** From the join to the middle of the space behind it, or of the one before where the one behind has a marker; to the nut is positive. */
function besideJoin(m: FingerboardMeasures, instrument: MeasuresByKind["instrument"]): number {
  const { joinFret, scale } = instrument;
  const half = (fret: number): number => (fretDistance(scale, fret) - fretDistance(scale, fret - 1)) / 2;
  const isMarked = m.faceMarkers.some((marker) => marker.fret === joinFret + 1);
  return isMarked ? half(joinFret) : -Math.min(half(joinFret + 1), (m.endX - m.joinX) / 2);
}
