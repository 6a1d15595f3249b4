/** What is not needed to work with the first picture is fetched when that stands, so that it stands sooner. */
import { lazy, type ComponentType } from "react";

let tell: () => void;
const stands = new Promise<void>((resolve) => {
  tell = resolve;
});

/** Says that the first picture stands. */
export const pictureStands = (): void => tell();

/** A component whose code is fetched after the first picture; shown inside a `Suspense` that keeps its room. */
export const later = <P>(load: () => Promise<ComponentType<P>>) =>
  lazy(async () => {
    await stands;
    return { default: await load() };
  });
