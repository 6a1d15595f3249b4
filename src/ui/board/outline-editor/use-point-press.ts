/** A press on one of the points by mouse, pen or finger: chooses it, or drags it. All points are one shape on the canvas, however many. */
import type Konva from "konva";
import { useEffect, useLayoutEffect, useRef } from "react";
import type { Vec } from "../../../geometry/vec.ts";
import { toScreen, toWorld, type Px, type View } from "../viewport.ts";
import { REACH_PX } from "./paint-points.ts";

interface PointPress {
  readonly view: View;
  readonly placeOf: (index: number) => Vec;
  readonly nearest: (at: Px) => number | undefined;
  /** `add`: chosen beside the others, or let go of. */
  readonly onChoose: (index: number, add: boolean) => void;
  readonly onStart: (index: number) => void;
  /** Where the point is to be; `freely`: without keeping to anything. The last one is meant. */
  readonly onDrag: (index: number, to: Vec, freely: boolean, last: boolean) => void;
}

/** A press that moves less is none. */
const STILL_PX = 3;

/** The point in reach of a place, a chosen one before the others; of several the nearest. */
export function nearestPoint(places: readonly Px[], at: Px, chosen: ReadonlySet<number>): number | undefined {
  let best: { readonly index: number; readonly away: number } | undefined;
  places.forEach(({ x, y }, index) => {
    const away = Math.hypot(x - at.x, y - at.y) - (chosen.has(index) ? 2 : 0);
    if (away <= REACH_PX / 2 && (!best || away <= best.away)) best = { index, away };
  });
  return best?.index;
}

export function usePointPress(given: PointPress): (e: Konva.KonvaEventObject<PointerEvent>) => void {
  const latest = useRef(given);
  useLayoutEffect(() => {
    latest.current = given;
  });
  const end = useRef<() => void>(undefined);
  useEffect(() => () => end.current?.(), []);

  return (e) => {
    const at = e.target.getStage()?.getPointerPosition();
    const index = at ? latest.current.nearest(at) : undefined;
    if (!at || index === undefined || e.evt.button > 0) return;
    const { pointerId, shiftKey, clientX, clientY } = e.evt;
    // What is taken hold of a little beside its middle stays as far beside it.
    const middle = toScreen(latest.current.view, latest.current.placeOf(index));
    const beside = { x: at.x - middle.x, y: at.y - middle.y };
    let dragging = false;
    const placeUnder = (now: PointerEvent): Vec =>
      toWorld(latest.current.view, { x: at.x - beside.x + now.clientX - clientX, y: at.y - beside.y + now.clientY - clientY });
    const move = (now: PointerEvent): void => {
      if (now.pointerId !== pointerId) return;
      if (!dragging && Math.hypot(now.clientX - clientX, now.clientY - clientY) < STILL_PX) return;
      if (!dragging) latest.current.onStart(index);
      dragging = true;
      latest.current.onDrag(index, placeUnder(now), now.altKey, false);
    };
    const up = (now: PointerEvent): void => {
      if (now.pointerId !== pointerId) return;
      end.current?.();
      if (dragging) latest.current.onDrag(index, placeUnder(now), now.altKey, true);
      else latest.current.onChoose(index, shiftKey);
    };
    end.current?.();
    end.current = () => {
      removeEventListener("pointermove", move);
      removeEventListener("pointerup", up);
      removeEventListener("pointercancel", up);
      end.current = undefined;
    };
    addEventListener("pointermove", move);
    addEventListener("pointerup", up);
    addEventListener("pointercancel", up);
  };
}
