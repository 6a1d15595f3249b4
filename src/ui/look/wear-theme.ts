import type { SessionStore } from "../../store/session-store.ts";
import { putOn, systemWish } from "./theme.ts";

/** Keeps the paper that is on in step with the session and the system. @returns stops it */
export function wearTheme(session: SessionStore): () => void {
  const system = systemWish();
  const put = (): void => putOn(session.getState().theme);
  put();
  system.addEventListener("change", put);
  const leave = session.subscribe(put);
  return () => {
    system.removeEventListener("change", put);
    leave();
  };
}
