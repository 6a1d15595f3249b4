import { arcRadius, arcSweep } from "../../geometry/arc.ts";
import type { Path } from "../../geometry/path.ts";
import { partOf, piecesOf, type Piece } from "../../geometry/segment.ts";
import type { Vec } from "../../geometry/vec.ts";
import { numberText } from "../number-text.ts";

/** Decimals of a mm in SVG files: 0.00001 mm, a thousandth of the accuracy promised. */
export const SVG_DIGITS = 5;

/**
 * SVG path data of `path`, every point carried by `place` (a move and a flip of y). Arcs stay arcs, cubics stay cubics; a closed path
 * ends in Z.
 */
export function pathData(path: Path, place: (p: Vec) => Vec): string {
  const at = (p: Vec): string => {
    const { x, y } = place(p);
    return `${numberText(x, SVG_DIGITS)} ${numberText(y, SVG_DIGITS)}`;
  };
  const commands = [`M${at(path.start)}`];
  const pieces = piecesOf(path).flatMap(arcsInThirds);
  for (const [i, { from, segment }] of pieces.entries()) {
    if (segment.kind === "cubic") commands.push(`C${at(segment.c1)} ${at(segment.c2)} ${at(segment.to)}`);
    else if (at(from) === at(segment.to)) continue;
    else if (segment.kind === "arc") {
      const radius = numberText(arcRadius(from, segment), SVG_DIGITS);
      // Seen with y down a counter-clockwise arc still looks counter-clockwise: sweep-flag 0.
      commands.push(`A${radius} ${radius} 0 0 ${segment.ccw ? 0 : 1} ${at(segment.to)}`);
    } else if (!(path.closed && i === pieces.length - 1)) commands.push(`L${at(segment.to)}`);
  }
  return `${commands.join("")}${path.closed ? "Z" : ""}`;
}

/**
 * An arc as arcs of at most a third of a turn. A reader finds the centre from radius and ends; near half a turn a rounding of 0.00001 mm
 * in them would move it by 0.05 mm.
 */
function arcsInThirds(piece: Piece): Piece[] {
  if (piece.segment.kind !== "arc") return [piece];
  const count = Math.ceil(Math.abs(arcSweep(piece.from, piece.segment)) / ((2 * Math.PI) / 3) - 1e-9);
  return count <= 1 ? [piece] : Array.from({ length: count }, (_, i) => partOf(piece, i / count, (i + 1) / count));
}
