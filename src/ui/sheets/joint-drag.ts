/** Moving the joints of a template over its sheets, by dragging or by the arrow keys. Fingers scroll instead; the numbers in the panel do the same. */
import { useRef, useState, type KeyboardEvent, type PointerEvent } from "react";

interface Shift {
  readonly x: number;
  readonly y: number;
}

const KEYS: Readonly<Record<string, Shift>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowDown: { x: 0, y: -1 },
  ArrowUp: { x: 0, y: 1 },
};

export interface JointDrag {
  /** How far the joints would be moved, whole mm; undefined while nothing is dragged. */
  readonly by: Shift | undefined;
  readonly handlers: {
    readonly onPointerDown: (event: PointerEvent<HTMLElement>) => void;
    readonly onPointerMove: (event: PointerEvent<HTMLElement>) => void;
    readonly onPointerUp: (event: PointerEvent<HTMLElement>) => void;
    readonly onPointerCancel: () => void;
    readonly onKeyDown: (event: KeyboardEvent<HTMLElement>) => void;
    readonly "data-dragging"?: "";
  };
}

export function useJointDrag(pxPerMm: number, onDone: (by: Shift) => void): JointDrag {
  const start = useRef<Shift>(undefined);
  const [by, setBy] = useState<Shift>();
  const shiftOf = ({ clientX, clientY }: PointerEvent<HTMLElement>): Shift | undefined =>
    start.current && {
      x: Math.round((clientX - start.current.x) / pxPerMm),
      y: Math.round((start.current.y - clientY) / pxPerMm),
    };
  const end = (): void => {
    start.current = undefined;
    setBy(undefined);
  };
  return {
    by,
    handlers: {
      onPointerDown: (event) => {
        if (event.pointerType === "touch" || event.button !== 0) return;
        start.current = { x: event.clientX, y: event.clientY };
        event.currentTarget.setPointerCapture(event.pointerId);
      },
      onPointerMove: (event) => setBy(shiftOf(event)),
      onPointerUp: (event) => {
        const done = shiftOf(event);
        end();
        if (done && (done.x !== 0 || done.y !== 0)) onDone(done);
      },
      onPointerCancel: end,
      onKeyDown: (event) => {
        const way = KEYS[event.key];
        if (!way || event.ctrlKey || event.metaKey || event.altKey) return;
        event.preventDefault();
        const step = event.shiftKey ? 10 : 1;
        onDone({ x: way.x * step, y: way.y * step });
      },
      ...(by ? { "data-dragging": "" as const } : {}),
    },
  };
}
