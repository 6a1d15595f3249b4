/** A list that scrolls keeps the one that is chosen in sight. */
import { useEffect, type RefObject } from "react";

/** Scrolls the list, and nothing else, by as much as brings the chosen one into it; again whenever another `chosen` is named. */
export function useInSight(list: RefObject<HTMLElement | null>, selector: string, chosen: string): void {
  useEffect(() => {
    const around = list.current;
    const one = around?.querySelector(selector);
    if (!around || !one) return;
    const [a, b] = [around.getBoundingClientRect(), one.getBoundingClientRect()];
    around.scrollBy?.({ left: beyond(b.left, b.right, a.left, a.right), top: beyond(b.top, b.bottom, a.top, a.bottom) });
    // Another one is chosen: it is looked for anew.
    // eslint-disable-next-line react/exhaustive-effect-dependencies
  }, [list, selector, chosen]);
}

/** How far from..to lies beyond low..high. */
const beyond = (from: number, to: number, low: number, high: number): number =>
  from < low ? from - low : Math.max(0, Math.min(to - high, from - low));
