/** How many dots of this screen make a true millimetre: measured once by the maker, kept for each screen of this browser. */
import { useEffect, useState } from "react";
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";

/** A screen by its size as the browser gives it, which no zoom changes; two of one size count as one. */
const screenKey = (): string => `${screen.width}x${screen.height}`;

/** Screens made so far lie well between these, dots a mm. */
const LEAST = 1;
const MOST = 60;

export const SCREENS_SETTING = "screens";
const store = createStore<{ readonly dotsPerMm: Readonly<Record<string, number>> }>(() => ({ dotsPerMm: {} }));

/** Takes the screens that were kept, and keeps later changes. */
export function keepScreens(kept: unknown, keep: (name: string, value: unknown) => void): void {
  if (typeof kept === "object" && kept !== null)
    store.setState({ dotsPerMm: Object.fromEntries(Object.entries(kept).filter(([, dots]) => isDots(dots))) });
  store.subscribe(({ dotsPerMm }) => keep(SCREENS_SETTING, dotsPerMm));
}

const isDots = (dots: unknown): dots is number => typeof dots === "number" && dots >= LEAST && dots <= MOST;

/** px of the page that make a true mm on this screen at the browser's present zoom; undefined while it is not measured. */
export function useTrueScale(): number | undefined {
  const dots = useStore(store, (state) => state.dotsPerMm[screenKey()]);
  const ratio = useRatio();
  return dots === undefined ? undefined : dots / ratio;
}

/** Device pixels a px, which the browser's zoom and another screen change. */
function useRatio(): number {
  const [ratio, setRatio] = useState(() => devicePixelRatio || 1);
  useEffect(() => {
    const look = (): void => setRatio(devicePixelRatio || 1);
    addEventListener("resize", look);
    return () => removeEventListener("resize", look);
  }, []);
  return ratio;
}

/** Whether a length of so many px a mm can be a screen's. */
export const isScreenScale = (pxPerMm: number): boolean => isDots(pxPerMm * (devicePixelRatio || 1));

/** Enters what was measured: px of the page that make a true mm. */
export function setScreenScale(pxPerMm: number): void {
  const dots = pxPerMm * (devicePixelRatio || 1);
  if (isDots(dots)) store.setState(({ dotsPerMm }) => ({ dotsPerMm: { ...dotsPerMm, [screenKey()]: dots } }));
}
