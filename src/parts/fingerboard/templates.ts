/** The patterns that a fingerboard is made by. */
import type { Layer, Shape, Text } from "../../drawing/drawing.ts";
import { segmentPath } from "../../geometry/path.ts";
import { add, scale, sub, turned, vec, type Vec } from "../../geometry/vec.ts";
import { lineAcross, meetEdge } from "../../lutherie/transverse-line.ts";
import type { MeasuresByKind, Sources, TemplateSource } from "../contract.ts";
import { frameOf, outlinesOf, type FingerboardMeasures } from "./measure.ts";
import { instrumentOf, type FingerboardParams } from "./numbers.ts";
import { mitreLayer, type PlacedMitre } from "../mitre-mark.ts";
import type { BoardEdges } from "./outline.ts";
import { radiusGauges } from "./radius-gauges.ts";
import { at, centreLayer, endMitres, markerLayer, outlineShape, reach, slotLayer } from "./shapes.ts";
import { sideStrip } from "./side-strip.ts";

type Instrument = MeasuresByKind["instrument"];
type Table = NonNullable<TemplateSource["table"]>;

/** Height of the numbers beside the slots, mm. */
const LABEL = 2.5;

export function fingerboardTemplates(p: FingerboardParams, m: FingerboardMeasures, from: Sources): TemplateSource[] {
  const instrument = instrumentOf(from);
  const outlines = outlinesOf(p, frameOf(p, instrument));
  const { bound, blank } = outlines;
  const isBound = m.bindingThickness > 0;
  const templates: TemplateSource[] = [];
  if (blank) templates.push(blankOutline(m, instrument, blank, isBound));
  if (bound && isBound) templates.push(boundOutline(m, instrument, bound, endMitres(m, outlines, instrument.side, p.bindEnd)));
  if (blank && m.frets.some((fret) => fret.slot > 0)) templates.push(fretSlots(m, instrument, blank));
  if (blank && m.faceMarkers.length > 0) templates.push(markerTemplate(p, m, blank, instrument));
  const gauges = radiusGauges(p, m, instrument);
  if (gauges) templates.push(gauges);
  const strip = sideStrip(p, m, instrument);
  if (strip) templates.push(strip);
  return templates;
}

const widths = (nut: number, end: number): NonNullable<Shape["says"]> => [
  { label: "width at the nut", value: nut, quantity: "length" },
  { label: "width at the end", value: end, quantity: "length" },
];

const guideOutline = (edges: BoardEdges): Layer => ({
  name: "outline",
  shapes: [outlineShape(edges, { role: "guide", line: "narrow", name: "edge of the blank" })],
});

/** Where neck and body meet, across the board. */
function joinLayer(instrument: Instrument, m: FingerboardMeasures, half: number): Layer {
  if (m.joinX >= m.endX) return { name: "join", shapes: [] };
  return {
    name: "join",
    shapes: [
      {
        id: "join",
        role: "guide",
        line: "adjacent",
        path: segmentPath(vec(m.joinX, -half - 4), vec(m.joinX, half + 4)),
        name: `join at fret ${instrument.joinFret}`,
        says: [{ label: "from the nut", value: m.joinX, quantity: "length" }],
      },
    ],
  };
}

function blankOutline(m: FingerboardMeasures, instrument: Instrument, blank: BoardEdges, isBound: boolean): TemplateSource {
  const says = widths(m.blankWidthAtNut, m.blankWidthAtEnd);
  return {
    name: "blank-outline",
    title: isBound ? "Blank outline" : "Outline",
    lineIs: isBound
      ? "edge of the board before binding; cut to the centre of the line"
      : "edge of the finished board; cut to the centre of the line",
    ...cutOutline(m, instrument, blank, { name: isBound ? "blank of the fingerboard" : "fingerboard", says }),
    table: sizeTable(m, blank, isBound),
  };
}

/** What a rule laid on the paper must read; of a bound board also what was asked for, which is wider than its blank. */
function sizeTable(m: FingerboardMeasures, edges: BoardEdges, isBound: boolean): Table {
  const { from, to } = reach(edges);
  const length = { label: "length over all", value: to - from };
  return isBound
    ? {
        title: "The blank, and the board with its binding",
        rows: [
          { label: "blank at the nut", value: m.blankWidthAtNut },
          { label: "with binding at the nut", value: m.boundWidthAtNut },
          { label: "blank at the end", value: m.blankWidthAtEnd },
          { label: "with binding at the end", value: m.boundWidthAtEnd },
          { ...length, label: "blank, length over all" },
        ],
      }
    : {
        title: "Widths and length",
        rows: [
          { label: "width at the nut", value: m.boundWidthAtNut },
          { label: "width at the end", value: m.boundWidthAtEnd },
          length,
        ],
      };
}

function boundOutline(
  m: FingerboardMeasures,
  instrument: Instrument,
  bound: BoardEdges,
  mitres: readonly PlacedMitre[],
): TemplateSource {
  const cut = cutOutline(m, instrument, bound, {
    name: "fingerboard with its binding",
    says: widths(m.boundWidthAtNut, m.boundWidthAtEnd),
  });
  return {
    name: "bound-outline",
    title: "Bound outline",
    lineIs: "edge of the finished board with its binding; cut to the centre of the line",
    ...cut,
    drawing: { ...cut.drawing, layers: [...cut.drawing.layers, ...mitreLayer(mitres)] },
  };
}

/** The board cut to these edges, with its centre line and the place of the join. */
const cutOutline = (
  m: FingerboardMeasures,
  instrument: Instrument,
  edges: BoardEdges,
  told: Pick<Shape, "name" | "says">,
): Pick<TemplateSource, "drawing" | "edge" | "grain"> => ({
  drawing: {
    layers: [
      { name: "outline", shapes: [outlineShape(edges, { role: "cut", line: "visible", ...told, tint: "wood" })] },
      centreLayer(m.startX, m.endX),
      joinLayer(instrument, m, reach(edges).half),
    ],
    dimensions: [],
  },
  edge: "outline",
  grain: "along-x",
});

function fretSlots(m: FingerboardMeasures, instrument: Instrument, blank: BoardEdges): TemplateSource {
  return {
    name: "fret-slots",
    title: "Fret slots",
    lineIs: "middle of each saw cut; check the distances from the nut with a rule",
    drawing: {
      layers: [guideOutline(blank), centreLayer(m.startX, m.endX), slotLayer(m, instrument.twoScales), fretLabels(m, blank)],
      dimensions: [],
    },
    table: fretTable(m, instrument),
  };
}

/** The numbers of the frets along the edge of rising y, clear of the slots. */
function fretLabels(m: FingerboardMeasures, edges: BoardEdges): Layer {
  const texts = m.frets.flatMap((fret): Text[] => {
    if (!fret.slotEnds || fret.number === 0) return [];
    const across = lineAcross(at(fret.bass), at(fret.treble));
    const place = meetEdge(across, edges.m, edges.c + 2);
    return place ? [{ id: `fret-label-${fret.number}`, at: place, text: `${fret.number}`, height: LABEL, align: "middle" }] : [];
  });
  return { name: "labels", shapes: [], texts };
}

/** Distances from the nut, which hold however the paper has moved. */
function fretTable(m: FingerboardMeasures, instrument: Instrument): Table {
  const nut = instrument.zeroFret ? "the zero fret" : "the nut";
  const frets = m.frets.filter((fret) => fret.number > 0 && fret.slotEnds);
  if (!instrument.twoScales) {
    return {
      title: `From ${nut} to the middle of each slot`,
      rows: frets.map((fret) => ({ label: `fret ${fret.number}`, value: fret.fromNut })),
    };
  }
  return {
    title: `From ${nut} to the middle of each slot, at the outer strings, along the centre line`,
    rows: frets.flatMap((fret) => [
      { label: `fret ${fret.number}, bass`, value: fret.bassFromNut },
      { label: `fret ${fret.number}, treble`, value: fret.trebleFromNut },
    ]),
  };
}

function markerTemplate(p: FingerboardParams, m: FingerboardMeasures, blank: BoardEdges, instrument: Instrument): TemplateSource {
  const markers = markerLayer(p, m);
  const reachOut = p.markerSize / 2 + 1.5;
  const crosses = m.faceMarkers.flatMap((marker, i): Shape[] => {
    const middle = at(marker.at);
    const id = markers.shapes[i]!.id;
    const common = { role: "centre", line: "narrow", name: `middle of the marker at fret ${marker.fret}` } as const;
    const through = (direction: Vec): Shape["path"] => {
      const arm = scale(turned(direction, marker.angleRad), reachOut);
      return segmentPath(sub(middle, arm), add(middle, arm));
    };
    return [
      { ...common, id: `${id}-along`, path: through(vec(1, 0)) },
      { ...common, id: `${id}-across`, path: through(vec(0, 1)) },
    ];
  });
  return {
    name: "markers",
    title: "Markers",
    lineIs:
      p.markerShape === "dot"
        ? "edge of each hole; prick its middle through the crossing lines"
        : "edge of each pocket; cut inside the line and fit the piece",
    drawing: {
      layers: [
        guideOutline(blank),
        centreLayer(m.startX, m.endX),
        slotLayer(m, instrument.twoScales, "guide"),
        markers,
        { name: "middles", shapes: crosses },
      ],
      dimensions: [],
    },
    table: {
      title: "From the nut to the middle of each marker",
      rows: m.faceMarkers
        .filter((marker, i) => m.faceMarkers[i - 1]?.fret !== marker.fret)
        .map((marker) => ({ label: `marker at fret ${marker.fret}`, value: marker.at[0] })),
    },
  };
}
