import { useState } from "react";
import { vec, type Vec } from "../../../geometry/vec.ts";
import { offBoard } from "../outline-editor/points.ts";
import type { OutlineEditor } from "../outline-editor/use-outline-editor.ts";
import { tracedPoints, type TracedPlace } from "./trace.ts";

export interface Tracing {
  readonly places: readonly TracedPlace[];
  /** The next place is a corner. */
  readonly corner: boolean;
  readonly setCorner: (on: boolean) => void;
  /** At a place of the drawing. */
  readonly press: (at: Vec, pxPerMm: number, corner: boolean) => void;
  /** In the outline's own axes. */
  readonly put: (at: Vec) => void;
  readonly back: () => void;
  /** Undefined while there are too few places. */
  readonly finish: (() => void) | undefined;
  readonly clear: () => void;
}

/** From here a press is meant for the centre line. */
const CENTRE_PX = 8;

export function useTrace(editor: OutlineEditor | undefined, onDone: () => void): Tracing | undefined {
  const [places, setPlaces] = useState<readonly TracedPlace[]>([]);
  const [corner, setCorner] = useState(false);
  if (!editor) return undefined;
  const { outline } = editor;
  const add = (at: Vec, isCorner: boolean): void => setPlaces((old) => [...old, { at, corner: isCorner }]);
  const points = tracedPoints(outline, places);
  return {
    places,
    corner,
    setCorner,
    press: (at, pxPerMm, isCorner) => {
      const own = offBoard(outline, at);
      const near = outline.mirrored && Math.abs(own.y) * pxPerMm <= CENTRE_PX;
      add(vec(own.x, near ? 0 : own.y), isCorner || corner);
    },
    put: (at) => add(at, corner),
    back: () => setPlaces((old) => old.slice(0, -1)),
    finish:
      points &&
      (() => {
        editor.sayTraced(points);
        setPlaces([]);
        onDone();
      }),
    clear: () => setPlaces([]),
  };
}
