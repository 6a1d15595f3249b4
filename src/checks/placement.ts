/** A sheet that shows where blanks lie on an offcut, true to size, to be laid on the wood. */
import type { Shape, Text } from "../drawing/drawing.ts";
import { moveShape } from "../drawing/move.ts";
import { pathBounds } from "../geometry/measure.ts";
import { offsetPath } from "../geometry/offset.ts";
import { transformPath } from "../geometry/transform.ts";
import { vec } from "../geometry/vec.ts";
import type { MeasuresByKind, TemplateSource } from "../parts/contract.ts";
import type { DerivedPart } from "../parts/derived.ts";
import { mapOf, type LaidPiece } from "./offcut.ts";
import { partName } from "../parts/part-name.ts";

/** The template of an offcut with its pieces: their finished outlines, and dashed the line to saw along. */
export function placementTemplate(
  part: DerivedPart,
  { outline }: MeasuresByKind["offcut"],
  laid: readonly LaidPiece[],
): TemplateSource & { readonly id: string; readonly partId: string; readonly partLabel: string } {
  const pieces = laid.flatMap((piece) => (piece.own && piece.placed ? [{ ...piece, own: piece.own, placed: piece.placed }] : []));
  const finished = pieces.map(({ index, own: { outline: path, holes }, pose, placed }) =>
    moveShape(mapOf(pose), {
      id: `piece-${index + 1}`,
      role: "mark",
      line: "visible",
      path,
      ...(holes.length > 0 ? { holes } : {}),
      name: placed.blank.title,
    }),
  );
  const rough = pieces.flatMap(({ index, own, pose, placed }) => {
    const allowance = placed.wood.value?.allowance ?? 0;
    if (!(allowance > 0)) return [];
    return offsetPath(own.outline, allowance).map(({ outer }, i): Shape => ({
      id: `saw-${index + 1}${i === 0 ? "" : `-${i + 1}`}`,
      role: "cut",
      line: "hidden",
      path: transformPath(mapOf(pose), outer),
      name: `saw line of ${placed.blank.title}`,
    }));
  });
  const texts = pieces.map(({ index, own, pose, placed }): Text => {
    const size = Math.min(own.size.maxX - own.size.minX, own.size.maxY - own.size.minY);
    const { minX, maxX, minY, maxY } = pathBounds(transformPath(mapOf(pose), own.outline));
    return {
      id: `name-${index + 1}`,
      at: vec((minX + maxX) / 2, (minY + maxY) / 2),
      text: `${index + 1} ${placed.blank.title}`,
      height: Math.min(3.5, Math.max(1.8, size / 6)),
      align: "middle",
    };
  });
  const base = part.drawing().layers.filter(({ name }) => name !== "outline");
  return {
    id: `${part.id}/placement`,
    partId: part.id,
    partLabel: partName(part),
    name: "placement",
    title: "Placement on the wood",
    lineIs: "finished pieces in full lines, saw lines dashed; lay the edge of the wood on its outline",
    drawing: {
      layers: [
        {
          name: "outline",
          shapes: outline ? [{ id: "outline", role: "guide", line: "visible", path: outline, name: "edge of the wood" }] : [],
        },
        ...base,
        { name: "saw", shapes: rough },
        { name: "pieces", shapes: finished, texts },
      ],
      dimensions: [],
    },
  };
}
