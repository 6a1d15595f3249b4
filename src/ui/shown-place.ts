/** The place that a check led to, until another part or shape is looked at. */
import { createStore } from "zustand/vanilla";
import type { Vec } from "../geometry/vec.ts";

export interface ShownPlace {
  /** Id of the part. */
  readonly part: string;
  readonly at: Vec;
  readonly shape?: string | undefined;
}

export const shownPlaceStore = createStore<ShownPlace | undefined>(() => undefined);

export const showPlace = (place: ShownPlace | undefined): void => shownPlaceStore.setState(place, true);
