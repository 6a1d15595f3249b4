/** Mouse, pen, fingers and keys on the board. */
import { useEffect, useLayoutEffect, useRef, type MouseEvent, type PointerEvent, type RefObject } from "react";
import type { Camera } from "../../store/session-store.ts";
import { panned, pinched, zoomed, type Px, type View } from "./viewport.ts";

export interface Gestures {
  readonly view: View | undefined;
  readonly onCamera: (camera: Camera) => void;
  readonly onFit: () => void;
  readonly onTrueSize: () => void;
  /** A press and release without a move between. `reach` in px: wider for a finger. */
  readonly onPress: (at: Px, reach: number, shift: boolean) => void;
  readonly onDoublePress: (at: Px) => void;
  /** The pointer is over the board, and nothing is being dragged; undefined: it has left. */
  readonly onHover: (at: Px | undefined) => void;
  readonly onEscape: () => void;
  readonly onStep: (by: 1 | -1) => void;
  /** True where an editor's own handle lies at this place, which then has the press to itself. */
  readonly taken: (at: Px) => boolean;
}

export interface GestureHandlers {
  readonly onPointerDownCapture: (e: PointerEvent<HTMLElement>) => void;
  readonly onMouseDownCapture: (e: MouseEvent<HTMLElement>) => void;
  readonly onPointerMove: (e: PointerEvent<HTMLElement>) => void;
  readonly onPointerUp: (e: PointerEvent<HTMLElement>) => void;
  readonly onPointerCancel: (e: PointerEvent<HTMLElement>) => void;
  readonly onPointerLeave: () => void;
  readonly onDoubleClick: (e: { readonly clientX: number; readonly clientY: number }) => void;
}

/** A press that moves less than this is still a press. px */
const STILL_PX = 4;
const MOUSE_REACH_PX = 6;
const FINGER_REACH_PX = 16;
const ARROW_PX = 48;
const KEY_ZOOM = 1.25;

/**
 * @param root takes the wheel and the keys
 * @param surface takes the pointers
 */
export function useGestures(
  root: RefObject<HTMLElement | null>,
  surface: RefObject<HTMLElement | null>,
  gestures: Gestures,
): GestureHandlers {
  const latest = useRef(gestures);
  // With the commit itself: an effect that runs later would put an older camera over one that has been turned to since.
  useLayoutEffect(() => {
    latest.current = gestures;
  });
  const pointers = useRef(new Map<number, Px>());
  const press = useRef<{ readonly start: Px; moved: boolean } | undefined>(undefined);
  const space = useRef(false);

  /** Moves the camera on; the next event counts from there even where nothing has been drawn in between. */
  const turn = (next: (view: View) => Camera): void => {
    const { view, onCamera } = latest.current;
    if (!view) return;
    const camera = next(view);
    latest.current = { ...latest.current, view: { ...view, camera } };
    onCamera(camera);
  };
  const placeOf = (e: { readonly clientX: number; readonly clientY: number }): Px => {
    const box = surface.current!.getBoundingClientRect();
    return { x: e.clientX - box.left, y: e.clientY - box.top };
  };

  useEffect(() => {
    const element = root.current;
    if (!element) return undefined;
    // React's own wheel listeners are passive and could not keep the page from scrolling or zooming.
    const onWheel = (e: WheelEvent): void => {
      e.preventDefault();
      const px = e.deltaMode === WheelEvent.DOM_DELTA_LINE ? 24 : e.deltaMode === WheelEvent.DOM_DELTA_PAGE ? 400 : 1;
      if (e.shiftKey && !e.ctrlKey) return turn((view) => panned(view, -(e.deltaX || e.deltaY) * px, 0));
      // A pinch on a trackpad comes as a wheel with Ctrl, in much smaller steps.
      turn((view) =>
        zoomed(view, placeOf(e), Math.exp(-Math.max(-240, Math.min(240, e.deltaY * px)) * (e.ctrlKey ? 0.01 : 0.0015))),
      );
    };
    const onKeyDown = (e: KeyboardEvent): void => {
      const typing = e.target instanceof HTMLInputElement;
      if (typing || e.ctrlKey || e.metaKey || e.altKey) return;
      const { view, onFit, onTrueSize, onEscape, onStep } = latest.current;
      const middle = { x: (view?.width ?? 0) / 2, y: (view?.height ?? 0) / 2 };
      const step = e.shiftKey ? 4 * ARROW_PX : ARROW_PX;
      const acts: Readonly<Record<string, () => void>> = {
        f: onFit,
        F: onFit,
        "1": onTrueSize,
        "+": () => turn((v) => zoomed(v, middle, KEY_ZOOM)),
        "=": () => turn((v) => zoomed(v, middle, KEY_ZOOM)),
        "-": () => turn((v) => zoomed(v, middle, 1 / KEY_ZOOM)),
        ArrowLeft: () => turn((v) => panned(v, step, 0)),
        ArrowRight: () => turn((v) => panned(v, -step, 0)),
        ArrowUp: () => turn((v) => panned(v, 0, step)),
        ArrowDown: () => turn((v) => panned(v, 0, -step)),
        "[": () => onStep(-1),
        "]": () => onStep(1),
        Escape: onEscape,
      };
      // On a button the space bar presses it.
      if (e.key === " " && e.target === surface.current) space.current = true;
      else if (!acts[e.key]) return;
      acts[e.key]?.();
      e.preventDefault();
    };
    const onKeyUp = (e: KeyboardEvent): void => {
      if (e.key === " ") space.current = false;
    };
    element.addEventListener("wheel", onWheel, { passive: false });
    element.addEventListener("keydown", onKeyDown);
    element.addEventListener("keyup", onKeyUp);
    return () => {
      element.removeEventListener("wheel", onWheel);
      element.removeEventListener("keydown", onKeyDown);
      element.removeEventListener("keyup", onKeyUp);
    };
    // `turn` and `placeOf` read refs alone.
    // eslint-disable-next-line react/exhaustive-deps
  }, [root, surface]);

  const release = (e: PointerEvent<HTMLElement>): void => {
    pointers.current.delete(e.pointerId);
    if (pointers.current.size === 0) press.current = undefined;
  };

  return {
    onPointerDownCapture: (e) => {
      const at = placeOf(e);
      const dragging = space.current || e.button === 1;
      if (!dragging && (e.button !== 0 || latest.current.taken(at))) return;
      // What lies on the board must not take a press that moves the board.
      if (dragging) e.stopPropagation();
      e.currentTarget.setPointerCapture?.(e.pointerId);
      pointers.current.set(e.pointerId, at);
      press.current = { start: at, moved: dragging || pointers.current.size > 1 };
    },
    onMouseDownCapture: (e) => {
      if (!space.current && e.button !== 1) return;
      // Konva's drags begin with this one, as does the browser's own scrolling with the middle button.
      e.stopPropagation();
      e.preventDefault();
    },
    onPointerMove: (e) => {
      const at = placeOf(e);
      const before = pointers.current.get(e.pointerId);
      if (!before || !press.current) {
        if (e.pointerType !== "touch") latest.current.onHover(at);
        return;
      }
      if (Math.hypot(at.x - press.current.start.x, at.y - press.current.start.y) >= STILL_PX) {
        if (!press.current.moved) latest.current.onHover(undefined);
        press.current.moved = true;
      }
      if (!press.current.moved) return;
      const other = [...pointers.current].find(([id]) => id !== e.pointerId)?.[1];
      pointers.current.set(e.pointerId, at);
      turn((view) => (other ? pinched(view, [before, other], [at, other]) : panned(view, at.x - before.x, at.y - before.y)));
    },
    onPointerUp: (e) => {
      const still = press.current && !press.current.moved && pointers.current.has(e.pointerId);
      release(e);
      if (still) latest.current.onPress(placeOf(e), e.pointerType === "touch" ? FINGER_REACH_PX : MOUSE_REACH_PX, e.shiftKey);
    },
    onPointerCancel: release,
    onPointerLeave: () => latest.current.onHover(undefined),
    onDoubleClick: (e) => latest.current.onDoublePress(placeOf(e)),
  };
}
