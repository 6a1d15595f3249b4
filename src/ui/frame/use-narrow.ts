import { useSyncExternalStore } from "react";

const NARROW = "(max-width: 900px)";

const watch = (listener: () => void): (() => void) => {
  const query = matchMedia(NARROW);
  query.addEventListener("change", listener);
  return () => query.removeEventListener("change", listener);
};

/** Whether the window is as narrow as an upright tablet: places are then laid in one column. The style sheets break at the same width. */
export const useNarrow = (): boolean => useSyncExternalStore(watch, () => matchMedia(NARROW).matches);
