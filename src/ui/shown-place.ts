/** The places of checks on the board: the one that a check led to, until another part or shape is looked at, and those that stop the work. */
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

export interface StopPlaces {
  /** Id of the part. */
  readonly part: string;
  readonly places: readonly { readonly at: Vec; readonly shape?: string | undefined }[];
}

/** Of the part that is on the board, as soon as its findings are known. */
export const stopPlacesStore = createStore<StopPlaces>(() => ({ part: "", places: [] }));
