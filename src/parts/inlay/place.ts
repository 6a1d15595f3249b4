/** From the letters' own frame into the frame of the part that they lie on. */
import { rayHits } from "../../geometry/intersect.ts";
import { pathBounds, pathsBounds } from "../../geometry/measure.ts";
import { pathsOf, type Outline } from "../../geometry/outline.ts";
import { compose, rotation, transformPath, translation, type Affine } from "../../geometry/transform.ts";
import { vec, type Vec } from "../../geometry/vec.ts";
import type { Sources } from "../contract.ts";
import type { Host } from "./host.ts";
import type { InlayParams } from "./numbers.ts";

export interface Placing {
  readonly place: Affine;
  /** Where the middle of the letters comes. */
  readonly middle: Vec;
  /** Why it could not be placed as asked. */
  readonly fault?: string;
}

/** Where the shape comes on its host; without a host it stays about the origin, only turned. Pure moves and turns: letters are never mirrored. */
export function placeOn(p: InlayParams, host: Host | undefined, outlines: readonly Outline[], from: Sources): Placing {
  const turn = rotation(p.turn);
  const at = (middle: Vec, fault?: string): Placing => ({
    place: compose(turn, translation(middle)),
    middle,
    ...(fault === undefined ? {} : { fault }),
  });
  if (!host) return at(vec(0, 0));
  switch (p.placed) {
    case "centre":
      return at(vec(p.x, p.y));
    case "fret": {
      const frets = p.on === "fingerboard" ? from.get("fingerboard")?.frets : undefined;
      const [before, fret] = [frets?.[p.fret - 1], frets?.[p.fret]];
      if (!frets) return at(vec(p.x, p.y), "only a fingerboard has frets to place it by");
      if (!before || !fret) return at(vec(p.x, p.y), `the fingerboard has no fret ${p.fret}`);
      return at(vec((before.fromNut + fret.fromNut) / 2, p.across));
    }
    case "edges":
      return byEdges(p, host, outlines, turn, from, at);
  }
}

function byEdges(
  p: InlayParams,
  host: Host,
  outlines: readonly Outline[],
  turn: Affine,
  from: Sources,
  at: (middle: Vec, fault?: string) => Placing,
): Placing {
  if (outlines.length === 0) return at(vec(p.x, p.y));
  const own = pathsBounds(outlines.flatMap(pathsOf).map((path) => transformPath(turn, path)));
  const box = pathBounds(host.outline);
  const x = p.fromEnd === "head" ? box.minX + p.endDistance - own.minX : box.maxX - p.endDistance - own.maxX;
  // The sides where the inlay's own middle lies along the instrument.
  const across = x + (own.minX + own.maxX) / 2;
  const start = vec(across, box.minY - 1);
  const hits = rayHits([host.outline], start, vec(0, 1));
  const [low, high] = [hits[0], hits.at(-1)];
  if (low === undefined || high === undefined) return at(vec(x, p.y), "it lies beyond the end of the part");
  const [bottom, top] = [start.y + low, start.y + high];
  const rising = from.get("instrument")?.side ?? 1;
  const toTop = p.fromSide === "treble" ? rising === 1 : rising === -1;
  if (p.fromSide === "middle") return at(vec(x, (bottom + top) / 2 - (own.minY + own.maxY) / 2));
  return at(vec(x, toTop ? top - p.sideDistance - own.maxY : bottom + p.sideDistance - own.minY));
}
