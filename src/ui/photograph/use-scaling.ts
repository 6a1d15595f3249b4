/** Bringing a photograph to scale: marks on it that are set by press, drag, keys or numbers, and taken over as one step. */
import { useState } from "react";
import type { Pair, Photograph, PhotographScale } from "../../document/board.ts";
import { sameSpot } from "../../geometry/picture-plane.ts";
import { editPhotograph } from "../../store/commands/edit-board.ts";
import { useBench } from "../bench.ts";
import { boardPlane, lengthOf, scaleOf } from "./photograph-plane.ts";

/** The marks and lengths while they are being set. */
export interface ScalingDraft {
  readonly by: "points" | "rectangle";
  /** Two points, or four corners, then those of a further length, pixels. */
  readonly marks: readonly Pair[];
  readonly length: string;
  readonly across: string;
  readonly down: string;
  /** Empty: no further length is known. */
  readonly check: string;
  readonly chosen: number;
}

export interface Scaling {
  readonly draft: ScalingDraft | undefined;
  readonly begin: (by: ScalingDraft["by"]) => void;
  readonly change: (given: Partial<ScalingDraft>) => void;
  /** Puts a mark; the next one is chosen then. */
  readonly put: (index: number, at: Pair, more?: { readonly next?: boolean }) => void;
  readonly leave: () => void;
  /** Why it cannot be taken over yet; undefined where it can. */
  readonly missing: string | undefined;
  readonly take: () => void;
}

export const marksIn = (draft: ScalingDraft): number => (draft.by === "points" ? 2 : draft.check === "" ? 4 : 6);

const share = ({ width, height }: Photograph, x: number, y: number): Pair => [Math.round(width * x), Math.round(height * y)];

function firstDraft(photograph: Photograph, by: ScalingDraft["by"]): ScalingDraft {
  const at = (x: number, y: number): Pair => share(photograph, x, y);
  const { scale } = photograph;
  const blank: ScalingDraft = {
    by,
    marks: by === "points" ? [at(0.25, 0.5), at(0.75, 0.5)] : CORNERS.map(([x, y]) => at(x, y)),
    length: "",
    across: "297 mm",
    down: "210 mm",
    check: "",
    chosen: 0,
  };
  if (scale?.by !== by) return blank;
  if (scale.by === "points") return { ...blank, marks: scale.points, length: scale.length };
  const { corners, across, down, check } = scale;
  return { ...blank, marks: [...corners, ...(check?.points ?? blank.marks.slice(4))], across, down, check: check?.length ?? "" };
}

const CORNERS = [
  [0.25, 0.25],
  [0.75, 0.25],
  [0.75, 0.75],
  [0.25, 0.75],
  [0.35, 0.5],
  [0.65, 0.5],
] as const;

function scaleFrom(draft: ScalingDraft): PhotographScale {
  const [a, b, c, d, e, f] = draft.marks as readonly [Pair, Pair, Pair, Pair, Pair, Pair];
  if (draft.by === "points") return { by: "points", points: [a, b], length: draft.length };
  return {
    by: "rectangle",
    corners: [a, b, c, d],
    across: draft.across,
    down: draft.down,
    ...(draft.check === "" ? {} : { check: { points: [e, f], length: draft.check } }),
  };
}

export function useScaling(part: string, photograph: Photograph | undefined): Scaling {
  const bench = useBench();
  const [kept, setDraft] = useState<ScalingDraft>();
  const draft = photograph ? kept : undefined;

  function missing(): string | undefined {
    if (!draft || !photograph) return undefined;
    if (draft.by === "points" && lengthOf(draft.length) === undefined) return "Type the length between the two points.";
    if (draft.by === "rectangle" && (lengthOf(draft.across) === undefined || lengthOf(draft.down) === undefined))
      return "Type both sides of the rectangle.";
    if (boardPlane({ ...photograph, scale: scaleFrom(draft) })) return undefined;
    return draft.by === "points"
      ? "The two points are one: set them apart."
      : "These are no four corners in order: set them one after the other, all round.";
  }
  const lacks = missing();

  return {
    draft,
    begin: (by) => setDraft(photograph && firstDraft(photograph, by)),
    change: (given) => setDraft((old) => old && { ...old, ...given }),
    put: (index, at, more) =>
      setDraft((old) => {
        if (!old || !photograph) return old;
        const within = (value: number, most: number): number => Math.min(most, Math.max(0, Math.round(value * 10) / 10));
        const held: Pair = [within(at[0], photograph.width), within(at[1], photograph.height)];
        return {
          ...old,
          marks: old.marks.map((mark, i) => (i === index ? held : mark)),
          chosen: more?.next ? (index + 1) % marksIn(old) : index,
        };
      }),
    leave: () => setDraft(undefined),
    missing: lacks,
    take: () => {
      if (!draft || !photograph || lacks !== undefined) return;
      const next = { ...photograph, scale: scaleFrom(draft) };
      const [before, scale] = [boardPlane(photograph), scaleOf(next)];
      // A flattened sheet lies square; how the camera was held is no matter of the sheet's.
      const spot = before && scale && sameSpot(before, scale, scale.by === "rectangle" ? Math.PI / 2 : undefined);
      const turn = spot ? (spot.turn * 180) / Math.PI : photograph.turn;
      editPhotograph(bench, part, {
        scale: next.scale,
        at: spot ? [Math.round(spot.at.x * 100) / 100, Math.round(spot.at.y * 100) / 100] : photograph.at,
        turn: Math.round(turn * 1000) / 1000 + 0,
      });
      setDraft(undefined);
    },
  };
}
