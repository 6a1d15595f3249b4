/** Which paper is on: the system's wish or the maker's choice, kept on the root element for the tokens. */
import type { SessionStore } from "../../store/session-store.ts";

export type ThemeName = "paper" | "slate";

/** Keeps the paper on the root element in step with the session and the system. @returns stops it */
export function wearTheme(session: SessionStore): () => void {
  const system = matchMedia("(prefers-color-scheme: dark)");
  const put = (): void => {
    const { theme } = session.getState();
    document.documentElement.dataset["theme"] = theme === "system" ? (system.matches ? "slate" : "paper") : theme;
  };
  put();
  system.addEventListener("change", put);
  const leave = session.subscribe(put);
  return () => {
    system.removeEventListener("change", put);
    leave();
  };
}
