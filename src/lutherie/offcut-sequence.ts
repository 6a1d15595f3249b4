/** Several pieces one after another along a board, so that its figure runs on from one to the next. */
import { intersection } from "../geometry/clipper.ts";
import { ringsOf, type Region } from "../geometry/region.ts";
import { vec } from "../geometry/vec.ts";
import { laidAt, type Pose } from "./offcut-fit.ts";
import { findPlace, type Answer, type Wanted } from "./offcut-search.ts";

export interface Sequence {
  /** `fits` where all are laid; `does-not-fit` where one has no place even on the whole board; else `too-close`. */
  readonly answer: Answer["answer"];
  /** Of those that were laid, in the order in which they were asked for. */
  readonly laid: readonly { readonly pose: Pose; readonly spare: number }[];
  /** The first that found no place, by its index, and what it lacks alone on the board. */
  readonly stuck?: { readonly index: number; readonly alone: Answer };
}

/** Halvings of the length that is saved for the next piece. */
const HALVINGS = 6;

/**
 * Lays pieces from the board's least x on. Each begins where the one before ends with its margin, a saw cut of `kerf` mm between them, and is
 * drawn up to it as closely as halving finds.
 */
export function laySequence(
  board: Region,
  wanted: readonly Wanted[],
  kerf: number,
  onProgress: (done: number) => void = () => undefined,
): Sequence {
  const laid: { pose: Pose; spare: number }[] = [];
  let from = -Infinity;
  const calls = wanted.length * (HALVINGS + 1);
  for (const [index, one] of wanted.entries()) {
    const part = (call: number) => (done: number) => onProgress((index * (HALVINGS + 1) + call + done) / calls);
    let best = findPlace(between(board, from, Infinity), one, part(0));
    if (best.answer !== "fits") {
      const alone = from === -Infinity ? best : findPlace(board, one, part(1));
      const answer = alone.answer === "does-not-fit" ? "does-not-fit" : "too-close";
      return { answer, laid, stuck: { index, alone } };
    }
    if (index < wanted.length - 1) {
      let low = Math.max(from, leastX(board));
      let high = endX(one, best.pose);
      for (let call = 1; call <= HALVINGS; call++) {
        const middle = (low + high) / 2;
        const nearer = findPlace(between(board, from, middle), one, part(call));
        if (nearer.answer === "fits") {
          best = nearer;
          high = endX(one, nearer.pose);
        } else low = middle;
      }
    }
    laid.push({ pose: best.pose, spare: best.spare });
    from = endX(one, best.pose) + kerf;
  }
  onProgress(1);
  return { answer: "fits", laid };
}

/** x of where a laid piece ends with its margin. */
function endX({ piece, margin }: Wanted, pose: Pose): number {
  return Math.max(...laidAt(piece, pose).flatMap(({ outer }) => outer.map((p) => p.x))) + margin;
}

const leastX = (board: Region): number => Math.min(...board.flatMap(({ outer }) => outer.map((p) => p.x)));

/** The part of the board between two cuts square to its x. */
function between(board: Region, from: number, to: number): Region {
  if (from === -Infinity && to === Infinity) return board;
  const points = ringsOf(board).flat();
  const [x0, x1] = [
    Math.max(from, Math.min(...points.map((p) => p.x)) - 1),
    Math.min(to, Math.max(...points.map((p) => p.x)) + 1),
  ];
  const [y0, y1] = [Math.min(...points.map((p) => p.y)) - 1, Math.max(...points.map((p) => p.y)) + 1];
  if (!(x1 > x0)) return [];
  return intersection(board, [{ outer: [vec(x0, y0), vec(x1, y0), vec(x1, y1), vec(x0, y1)], holes: [] }]);
}
