/** What the board needs to know of the page: its size, the screen's pixels, whether the faces are there. */
import { useEffect, useLayoutEffect, useState, type RefObject } from "react";
import { readColours, type Colours } from "./colours.ts";

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Size of the element in whole px; undefined until it has one. */
export function useSize(element: RefObject<HTMLElement | null>): Size | undefined {
  const [size, setSize] = useState<Size>();
  useLayoutEffect(() => {
    const it = element.current;
    if (!it) return undefined;
    const look = (): void => {
      const width = Math.floor(it.clientWidth);
      const height = Math.floor(it.clientHeight);
      if (width > 0 && height > 0) setSize((old) => (old?.width === width && old.height === height ? old : { width, height }));
    };
    look();
    const observer = new ResizeObserver(look);
    observer.observe(it);
    return () => observer.disconnect();
  }, [element]);
  return size;
}

/** Device pixels a px; follows the window to another screen and the browser's zoom. */
export function usePixelRatio(): number {
  const [ratio, setRatio] = useState(() => window.devicePixelRatio || 1);
  useEffect(() => {
    const query = window.matchMedia(`(resolution: ${ratio}dppx)`);
    const look = (): void => setRatio(window.devicePixelRatio || 1);
    query.addEventListener("change", look);
    return () => query.removeEventListener("change", look);
  }, [ratio]);
  return ratio;
}

/** The look's colours, read anew when the theme changes. */
export function useColours(theme: string): Colours {
  const [read, setRead] = useState(() => ({ theme, colours: readColours() }));
  if (read.theme === theme) return read.colours;
  const now = { theme, colours: readColours() };
  setRead(now);
  return now.colours;
}

/** Counts up when the bundled faces have come, since a canvas does not draw itself again then. */
export function useFaces(colours: Colours): number {
  const [count, setCount] = useState(0);
  useEffect(() => {
    if (!document.fonts) return undefined;
    let here = true;
    const faces = [`400 12px ${colours.numbers}`, `600 12px ${colours.numbers}`, `400 12px ${colours.words}`];
    void Promise.allSettled(faces.map((face) => document.fonts.load(face))).then(() => {
      if (here) setCount((n) => n + 1);
    });
    return () => {
      here = false;
    };
  }, [colours]);
  return count;
}
