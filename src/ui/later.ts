/** Code that is fetched when it is needed, or when the first picture stands, so that it stands sooner. */
import { lazy, type ComponentType } from "react";
import { createStore } from "zustand/vanilla";
import { everyPart } from "../parts/registry.ts";

let tell: () => void;
const stands = new Promise<void>((resolve) => {
  tell = resolve;
});

/** Says that the first picture stands. */
export const pictureStands = (): void => tell();

/** Whether something has not come or has broken. The page is loaded anew for it, since some browsers do not ask twice for code that did not come. */
export const lacking = createStore(() => ({ lacks: false }));

/** Says once for all that something lacks, and on the console what. */
export function onFailure(error: unknown): void {
  reportError(error);
  lacking.setState({ lacks: true });
}

interface Before {
  /** Fetched only when the first picture stands. */
  readonly firstPicture?: boolean;
  /** Not shown before every part is here: designs are read there, or parts put in. */
  readonly everyPart?: boolean;
}

/**
 * A component whose code is fetched when it is wanted; shown inside a `Suspense` that keeps its room. Where the code does not come, that is said
 * once for all, and the page goes on without it.
 */
export const fetched = <P>(load: () => Promise<ComponentType<P>>, before: Before = {}) =>
  lazy(async () => {
    try {
      if (before.firstPicture) await stands;
      const [component] = await Promise.all([load(), before.everyPart ? everyPart() : undefined]);
      return { default: component };
    } catch (error) {
      onFailure(error);
      return new Promise<never>(() => {});
    }
  });

/** As `fetched`, after the first picture. */
export const later = <P>(load: () => Promise<ComponentType<P>>) => fetched(load, { firstPicture: true });

/** As `fetched`, with every part. */
export const withEveryPart = <P>(load: () => Promise<ComponentType<P>>) => fetched(load, { everyPart: true });
