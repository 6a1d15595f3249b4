import { useSyncExternalStore } from "react";
import type { ThemeName } from "./theme.ts";

const watch = (listener: () => void): (() => void) => {
  const observer = new MutationObserver(listener);
  observer.observe(document.documentElement, { attributeFilter: ["data-theme"] });
  return () => observer.disconnect();
};

/** The paper that is on now. */
export const useTheme = (): ThemeName =>
  useSyncExternalStore(watch, () => (document.documentElement.dataset["theme"] === "slate" ? "slate" : "paper"));
