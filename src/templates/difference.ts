/** What has changed between a template that was cut and the same template of the present numbers. */
import type { Drawing, Shape } from "../drawing/drawing.ts";
import { farthestApart } from "../geometry/farthest.ts";
import type { Path } from "../geometry/path.ts";
import type { Vec } from "../geometry/vec.ts";

export interface Difference {
  /** The greatest distance of a line of one from its like in the other, mm; 0 where nothing has moved. */
  readonly farthest: number;
  /** The line that has moved farthest, in words, and where. */
  readonly name?: string;
  readonly at?: Vec;
  /** Lines that only the one has, in words. */
  readonly gone: readonly string[];
  readonly added: readonly string[];
}

/** What is cut, drilled or sawn to: all but lines that only help to read the drawing. */
const CUT: ReadonlySet<Shape["role"]> = new Set(["cut", "pocket", "plug", "drill", "slot"]);

const cutShapes = (drawing: Drawing): ReadonlyMap<string, Shape> =>
  new Map(
    drawing.layers
      .flatMap((layer) => layer.shapes)
      .filter((shape) => CUT.has(shape.role))
      .map((shape) => [shape.id, shape]),
  );

/** Compares what is cut by a template, line by line. */
export function differenceOf(then: Drawing, now: Drawing): Difference {
  const [before, after] = [cutShapes(then), cutShapes(now)];
  let worst: Omit<Difference, "gone" | "added"> = { farthest: 0 };
  for (const [id, shape] of before) {
    const same = after.get(id);
    if (!same) continue;
    const moved = movedBy(shape, same);
    if (moved.distance > worst.farthest) worst = { farthest: moved.distance, name: same.name, at: moved.at };
  }
  const holed = [...before.values()].filter(({ id, holes = [] }) => {
    const same = after.get(id);
    return same !== undefined && (same.holes ?? []).length !== holes.length;
  });
  const only = (some: typeof before, others: typeof before): string[] =>
    [...some.values()].filter(({ id }) => !others.has(id)).map(({ name }) => name);
  return {
    ...worst,
    gone: only(before, after),
    added: [...only(after, before), ...holed.map(({ name }) => `what is cut out of ${name}`)],
  };
}

/** Below this two files are the same: what is promised of a line in a file, mm. */
const SAME_MM = 0.01;

export const isSame = ({ farthest, gone, added }: Difference): boolean =>
  farthest < SAME_MM && gone.length === 0 && added.length === 0;

function movedBy(then: Shape, now: Shape): { readonly distance: number; readonly at: Vec } {
  let worst = { distance: 0, at: now.path.start };
  const compare = (a: Path, b: Path): void => {
    if (JSON.stringify(a) === JSON.stringify(b)) return;
    const found = farthestApart(a, b);
    if (found.distance > worst.distance) worst = found;
  };
  compare(then.path, now.path);
  const [holesThen, holesNow] = [then.holes ?? [], now.holes ?? []];
  for (const [i, hole] of holesNow.entries()) if (holesThen[i]) compare(holesThen[i], hole);
  return worst;
}
