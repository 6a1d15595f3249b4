/** A side laid flat as it is drawn: seen from outside with the top's edge up, so that the treble side has its tail at the left. */
import type { Shape, Text } from "../../drawing/drawing.ts";
import { textWidth } from "../../drawing/lettering.ts";
import { line, segmentPath, type Path } from "../../geometry/path.ts";
import { reversePath } from "../../geometry/segment.ts";
import { compose, mirroring, transformPath, transformPoint, translation, type Affine } from "../../geometry/transform.ts";
import { ORIGIN, vec, type Vec } from "../../geometry/vec.ts";
import { plateHeight } from "../../lutherie/domed-plate.ts";
import { unrollSide, type UnrolledSide } from "../../lutherie/unrolled-side.ts";
import type { SideMark, SidePiece, SidesMeasures } from "./measure.ts";
import type { SidesParams } from "./numbers.ts";

export interface FlatSide {
  readonly piece: SidePiece;
  /** Closed. */
  readonly outline: Path;
  readonly length: number;
  readonly tailAtLeft: boolean;
  /** From along and height to the drawing. */
  readonly place: (along: number, height: number) => Vec;
}

const unrolled = new WeakMap<SidesMeasures, Map<Path, UnrolledSide>>();

/** A piece laid flat, worked out once: both sides of an instrument without a cutaway follow one outline. */
function unrolledOf(m: SidesMeasures, plan: Path): UnrolledSide {
  const known = unrolled.get(m) ?? new Map<Path, UnrolledSide>();
  unrolled.set(m, known);
  const found = known.get(plan) ?? laidFlat(m, plan);
  known.set(plan, found);
  return found;
}

/** Along the chosen face; along the outer one where a bend is too tight for the face inside it, which the check of bends tells. */
function laidFlat(m: SidesMeasures, plan: Path): UnrolledSide {
  const side = (inset: number): UnrolledSide =>
    unrollSide({ outline: plan, inset, top: (at) => plateHeight(m.top, at), back: (at) => plateHeight(m.back, at) });
  try {
    return side(m.inset);
  } catch (error) {
    if (!(error instanceof RangeError) || m.inset === 0) throw error;
    return side(0);
  }
}

/** @param lift how far the plane of the top's edge is lifted in the drawing */
export function flatSide(m: SidesMeasures, piece: SidePiece, lift = 0): FlatSide {
  const laid = unrolledOf(m, piece.plan);
  // From outside, with the top up, the tail of a side that lies at rising y is at the left.
  const tailAtLeft = piece.sign === 1;
  const raised = translation(vec(0, lift));
  const to: Affine = tailAtLeft ? raised : compose(mirroring(ORIGIN, vec(0, 1)), translation(vec(laid.length, 0)), raised);
  return {
    piece,
    outline: transformPath(to, closedSide(laid)),
    length: laid.length,
    tailAtLeft,
    place: (along, height) => transformPoint(to, vec(along, height)),
  };
}

/** Round the side: along the back's edge, up at the neck, back along the top's edge. */
function closedSide({ top, back }: UnrolledSide): Path {
  const over = reversePath(top);
  return { start: back.start, segments: [...back.segments, line(over.start), ...over.segments, line(back.start)], closed: true };
}

const LETTER = 4;
/** Height of a mark's name over that of the other words, and from the mark to it, mm. */
const NAME = 0.75;
const NAME_GAP = 1.5;

/** @param asked height of the words, mm; less on a piece too short for them */
export function flatShapes(
  p: SidesParams,
  flat: FlatSide,
  prefix = "",
  asked = LETTER,
): { readonly shapes: Shape[]; readonly texts: Text[] } {
  const { piece, place } = flat;
  const face = `${piece.name}, show face`;
  // With room for three letters more beside the words.
  const letter = Math.min(asked, flat.length / textWidth(`${face}   `, 1));
  const id = (name: string): string => `${prefix}${name}`;
  const upright = (mark: SideMark): Path => segmentPath(place(mark.along, mark.back), place(mark.along, mark.top));
  const inner = piece.marks.filter(({ id: name }) => name !== "start" && name !== "end");
  const [start, end] = [piece.marks[0]!, piece.marks.at(-1)!];
  const shapes: Shape[] = [
    {
      id: id("outline"),
      role: "cut",
      line: "visible",
      path: flat.outline,
      name: piece.name,
      says: [
        { label: "length", value: flat.length, quantity: "length" },
        { label: "outer face", value: piece.outer, quantity: "length" },
        { label: "middle of the wood", value: piece.middle, quantity: "length" },
        { label: "inner face", value: piece.inner, quantity: "length" },
      ],
      tint: "wood",
    },
    {
      id: id("edge-plane"),
      role: "guide",
      line: "centre",
      path: segmentPath(place(0, 0), place(flat.length, 0)),
      name: "plane of the top's edge",
    },
    ...inner.map((mark): Shape => ({
      id: id(mark.id),
      role: "mark",
      line: mark.id.endsWith("block") ? "hidden" : "narrow",
      path: upright(mark),
      name: mark.name,
      says: [
        { label: "from the tail's end", value: mark.along, quantity: "length" },
        { label: "depth", value: mark.depth, quantity: "length" },
      ],
    })),
    ...mitreShapes(piece, flat, start, end, id),
    ...graftShapes(p, piece, start, flat, id),
  ];
  const middle = (mark: SideMark): number => (mark.top + mark.back) / 2;
  const [tailEnd, neckEnd] = [flat.tailAtLeft ? "start" : "end", flat.tailAtLeft ? "end" : "start"] as const;
  // The ends are named beyond the blocks' edges, whose own names stand at their left.
  const [toRight, toLeft] = [3, 3 + NAME_GAP + NAME * letter];
  const block = (name: string): number | undefined => inner.find((mark) => mark.id === name)?.along;
  const tailAt = (block("tail-block") ?? 5) + (flat.tailAtLeft ? toRight : toLeft);
  const neckAt = (block("neck-block") ?? flat.length - 5) - (flat.tailAtLeft ? toLeft : toRight);
  const texts: Text[] = [
    { id: id("at-start"), at: place(tailAt, middle(start)), text: start.name, height: letter, align: tailEnd },
    { id: id("at-end"), at: place(neckAt, middle(end)), text: end.name, height: letter, align: neckEnd },
    {
      id: id("face"),
      at: place(flat.length / 2, middle(start) + 12),
      text: face,
      height: letter,
      align: "middle",
    },
    ...inner.map((mark): Text => ({
      id: id(`${mark.id}-name`),
      at: place(mark.along + (flat.tailAtLeft ? -NAME_GAP : NAME_GAP), mark.back + 6),
      text: mark.name,
      height: Math.max(1, Math.min(NAME * letter, (mark.depth - 10) / textWidth(mark.name, 1))),
      align: "start",
      angle: Math.PI / 2,
    })),
  ];
  return { shapes, texts };
}

/** Where the ends are cut at the point of a horn, on the outer and on the inner face. */
function mitreShapes(piece: SidePiece, flat: FlatSide, start: SideMark, end: SideMark, id: (name: string) => string): Shape[] {
  const at = (which: "start" | "end", off: number): Path => {
    const mark = which === "start" ? start : end;
    const along = which === "start" ? off : flat.length - off;
    return segmentPath(flat.place(along, mark.back), flat.place(along, mark.top));
  };
  const both = [
    { which: "start" as const, cut: piece.mitre.atStart },
    { which: "end" as const, cut: piece.mitre.atEnd },
  ];
  return both.flatMap(({ which, cut }): Shape[] =>
    cut
      ? [
          ...(cut.outer > 0 && cut.outer < flat.length
            ? [
                {
                  id: id(`mitre-${which}`),
                  role: "guide",
                  line: "narrow",
                  path: at(which, cut.outer),
                  name: "mitre on the show face",
                  says: [{ label: "bevel against the face", value: cut.angleRad / 2, quantity: "angle" }],
                } satisfies Shape,
              ]
            : []),
          ...(cut.inner < flat.length
            ? [
                {
                  id: id(`mitre-${which}-inside`),
                  role: "guide",
                  line: "hidden",
                  path: at(which, cut.inner),
                  name: "mitre on the inside",
                } satisfies Shape,
              ]
            : []),
        ]
      : [],
  );
}

/** Half of the end graft, where the side is cut back for it at the tail. */
function graftShapes(p: SidesParams, piece: SidePiece, start: SideMark, flat: FlatSide, id: (name: string) => string): Shape[] {
  if (p.graft === "none" || piece.mitre.atStart) return [];
  const [top, bottom] = [p.graftTop / 2 + p.graftPurfling, p.graftBottom / 2 + p.graftPurfling];
  if (!(Math.max(top, bottom) < flat.length)) return [];
  return [
    {
      id: id("graft"),
      role: "guide",
      line: "narrow",
      path: segmentPath(flat.place(bottom, start.back), flat.place(top, start.top)),
      name: "edge of the end graft with its purfling",
    },
  ];
}
