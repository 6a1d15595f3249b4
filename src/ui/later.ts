/** What is not needed to work with the first picture is fetched when that stands, so that it stands sooner. */
import { lazy, type ComponentType } from "react";
import { createStore } from "zustand/vanilla";

let tell: () => void;
const stands = new Promise<void>((resolve) => {
  tell = resolve;
});

/** Says that the first picture stands. */
export const pictureStands = (): void => tell();

/** Whether something has not come. A browser does not ask for it again before the page is loaded anew. */
export const lacking = createStore(() => ({ lacks: false }));

/**
 * A component whose code is fetched after the first picture; shown inside a `Suspense` that keeps its room. Where the code does not come, that is
 * said once for all, and the page goes on without it.
 */
export const later = <P>(load: () => Promise<ComponentType<P>>) =>
  lazy(async () => {
    await stands;
    try {
      return { default: await load() };
    } catch {
      lacking.setState({ lacks: true });
      return new Promise<never>(() => {});
    }
  });
