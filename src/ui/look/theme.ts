/** Which paper is on: light "paper" or dark "slate". The name stands on the root element, where the tokens look for it. */
export type ThemeName = "paper" | "slate";

/** Name of the setting that keeps the maker's choice. */
export const THEME = "theme";

export const systemWish = (): MediaQueryList => matchMedia("(prefers-color-scheme: dark)");

/** Puts the chosen paper on; what is no paper means the system's wish. */
export function putOn(chosen: unknown): void {
  const system: ThemeName = systemWish().matches ? "slate" : "paper";
  document.documentElement.dataset["theme"] = chosen === "paper" || chosen === "slate" ? chosen : system;
}
