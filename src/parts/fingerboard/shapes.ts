/** The pieces that a fingerboard's drawing and its templates are put together from. */
import type { Layer, Said, Shape } from "../../drawing/drawing.ts";
import { polygon, segmentPath } from "../../geometry/path.ts";
import { add, angleBetween, leftOf, lerp, norm, scale, sub, unit, vec, type Vec } from "../../geometry/vec.ts";
import { SAME_POINT } from "../../geometry/tolerance.ts";
import { centreAlong } from "../centre-line.ts";
import type { MeasuresByKind } from "../contract.ts";
import type { PlacedMitre } from "../mitre-mark.ts";
import { markerPath, type Marker, type Point } from "./marker-measures.ts";
import type { BoardOutlines, FingerboardFret, FingerboardMeasures } from "./measure.ts";
import type { FingerboardParams } from "./numbers.ts";
import { outlinePath, stripPath, type BoardEdges, type StripPlace } from "./outline.ts";

type Instrument = MeasuresByKind["instrument"];

/** How far the centre line and the strings run on beyond the board, mm. */
const BEYOND = 10;
/** How deep a side marker is drawn into the edge, mm; nobody drills by it. */
const SIDE_MARK_DEPTH = 2;

export const at = ([x, y]: Point): Vec => vec(x, y);

const length = (label: string, value: number): Said => ({ label, value, quantity: "length" });

/** x of the outermost points of the board. */
export const reach = (edges: BoardEdges): { readonly from: number; readonly to: number; readonly half: number } => ({
  from: Math.min(edges.lowStart.x, edges.highStart.x),
  to: Math.max(edges.lowEnd.x, edges.highEnd.x),
  half: Math.max(-edges.lowStart.y, -edges.lowEnd.y, edges.highStart.y, edges.highEnd.y),
});

export function centreLayer(from: number, to: number): Layer {
  return centreAlong(from - BEYOND, to + BEYOND);
}

/** The closed outline as `outline`. */
export const outlineShape = (edges: BoardEdges, look: Pick<Shape, "role" | "line" | "name" | "says" | "tint">): Shape => ({
  id: "outline",
  path: outlinePath(edges),
  ...look,
});

/** Each layer of the binding as strips with mitred ends: `binding-1-bass` is the outermost on the bass side. */
export function bindingLayer(p: FingerboardParams, m: FingerboardMeasures, outlines: BoardOutlines, side: 1 | -1): Layer {
  const places: readonly (readonly [StripPlace, string])[] = [
    [side === 1 ? "low" : "high", "bass"],
    [side === 1 ? "high" : "low", "treble"],
    ...(p.bindEnd ? ([["end", "end"]] as const) : []),
  ];
  const shapes: Shape[] = [];
  m.binding.forEach((layer, i) => {
    const outer = outlines.layers[i];
    const inner = outlines.layers[i + 1];
    if (!outer || !inner) return;
    for (const [place, where] of places) {
      shapes.push({
        id: `binding-${i + 1}-${where}`,
        role: "mark",
        line: "narrow",
        path: stripPath(outer, inner, place),
        name: where === "end" ? `${layer.name}, end` : `${layer.name}, ${where} side`,
        says: [length("thickness", layer.thickness)],
        tint: "inlay",
      });
    }
  });
  return { name: "binding", shapes };
}

/** Where the layers turn from either side into the end: as thick on both, so that the mitre halves a straight end's corner. */
export function endMitres(m: FingerboardMeasures, outlines: BoardOutlines, side: 1 | -1, bindEnd: boolean): PlacedMitre[] {
  const [outer, inner] = [outlines.bound, outlines.blank];
  if (!bindEnd || !(m.bindingThickness > 0) || !outer || !inner) return [];
  return (["low", "high"] as const).flatMap((place): PlacedMitre[] => {
    const [corner, other, start] =
      place === "low" ? [outer.lowEnd, outer.highEnd, outer.lowStart] : [outer.highEnd, outer.lowEnd, outer.highStart];
    const to = place === "low" ? inner.lowEnd : inner.highEnd;
    const way = sub(to, corner);
    if (!(norm(way) > SAME_POINT)) return [];
    const end =
      outer.end.kind === "line" ? sub(other, corner) : scale(leftOf(sub(corner, outer.end.centre)), place === "low" ? -1 : 1);
    const name = (place === "low") === (side === 1) ? "bass" : "treble";
    return [
      {
        id: `mitre-${name}`,
        name: `mitre of the binding at the end, ${name} side`,
        at: corner,
        way: unit(way),
        mitre: {
          first: Math.abs(angleBetween(sub(start, corner), way)),
          second: Math.abs(angleBetween(end, way)),
          length: norm(way),
        },
        edges: ["side", "end"],
      },
    ];
  });
}

export const fretName = (fret: Pick<FingerboardFret, "number">): string =>
  fret.number === 0 ? "zero fret" : `fret ${fret.number}`;

/** Every slot that lies on the board, as `fret-12`; where it only shows the way, as a guide. */
export function slotLayer(m: FingerboardMeasures, twoScales: boolean, role: "slot" | "guide" = "slot"): Layer {
  const shapes = m.frets.flatMap((fret): Shape[] => {
    if (!fret.slotEnds) return [];
    const [bass, treble] = fret.slotEnds;
    return [
      {
        id: `fret-${fret.number}`,
        role,
        line: role === "slot" ? "visible" : "narrow",
        path: segmentPath(at(bass), at(treble)),
        name: fretName(fret),
        says: [
          ...(twoScales
            ? [length("from the nut, bass", fret.bassFromNut), length("from the nut, treble", fret.trebleFromNut)]
            : [length("from the nut", fret.fromNut)]),
          length("slot", fret.slot),
          length("tang", fret.tang),
          length("crown", fret.crown),
          length("slot depth from the flat face", fret.slotDepth),
        ],
      },
    ];
  });
  return { name: "frets", shapes };
}

/** The strings over the board, `string-1` the treble one. */
export function stringLayer(instrument: Instrument, m: FingerboardMeasures): Layer {
  return {
    name: "strings",
    shapes: instrument.strings.map((string) => {
      const along = (x: number): Vec => lerp(string.nut, string.saddle, (x - string.nut.x) / string.scale);
      return {
        id: `string-${string.number}`,
        role: "guide",
        line: "narrow",
        path: segmentPath(along(string.nut.x + m.startX), along(Math.min(m.endX + BEYOND, string.saddle.x))),
        name: string.note === "" ? `string ${string.number}` : `string ${string.number}, ${string.note}`,
        says: [length("gauge", string.gauge)],
      };
    }),
  };
}

/** Ids of markers: `marker-5`, and `marker-12-bass` with `marker-12-treble` for a pair. */
const markerId = (
  prefix: string,
  marker: Marker,
  i: number,
  all: readonly Marker[],
  names: readonly [string, string],
): string => {
  const pair = all.filter((other) => other.fret === marker.fret).length > 1;
  const isSecond = all[i - 1]?.fret === marker.fret;
  return pair ? `${prefix}-${marker.fret}-${isSecond ? names[1] : names[0]}` : `${prefix}-${marker.fret}`;
};

export function markerLayer(p: FingerboardParams, m: FingerboardMeasures): Layer {
  return {
    name: "markers",
    shapes: m.faceMarkers.map((marker, i) => ({
      id: markerId("marker", marker, i, m.faceMarkers, ["bass", "treble"]),
      role: p.markerShape === "dot" ? "drill" : "pocket",
      line: "visible",
      path: markerPath(p, marker),
      name: `marker at fret ${marker.fret}`,
      says: [
        length("from the nut", marker.at[0]),
        ...(p.markerShape === "dot"
          ? [length("diameter", p.markerSize)]
          : [length("across", p.markerSize), length("along", p.markerLength)]),
      ],
      tint: "inlay",
    })),
  };
}

export const sideMarkerId = (m: FingerboardMeasures, i: number): string =>
  markerId("side-marker", m.sideMarkers[i]!, i, m.sideMarkers, ["first", "second"]);

/** Side markers: holes that open on the edge of the bass side, filled, since dashes as short as they are say nothing. */
export function sideMarkerLayer(p: FingerboardParams, m: FingerboardMeasures, side: 1 | -1): Layer {
  const slope = (m.widthAtEnd - m.widthAtNut) / (2 * m.endX);
  const stretch = Math.hypot(1, slope);
  // Along the bass edge towards the tail, and square to it into the board.
  const along = vec(1 / stretch, (-side * slope) / stretch);
  const inwards = vec(slope / stretch, side / stretch);
  return {
    name: "side-markers",
    shapes: m.sideMarkers.map((marker, i) => {
      const r = p.sideDiameter / 2;
      const off = (a: number, b: number): Vec => add(at(marker.at), add(scale(along, a), scale(inwards, b)));
      return {
        id: sideMarkerId(m, i),
        role: "mark",
        line: "narrow",
        tint: "inlay",
        path: polygon([off(-r, 0), off(r, 0), off(r, SIDE_MARK_DEPTH), off(-r, SIDE_MARK_DEPTH)]),
        name: `side marker at fret ${marker.fret}`,
        says: [length("from the nut", marker.at[0]), length("diameter", p.sideDiameter), length("below the face", p.sideDepth)],
      };
    }),
  };
}
