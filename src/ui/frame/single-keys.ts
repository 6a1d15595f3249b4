/** Whether single letters do things. Kept with this browser's settings. */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";

/** The setting's name. */
export const SINGLE_KEYS = "singleKeys";
const store = createStore<{ readonly on: boolean; readonly set: (on: boolean) => void }>((set) => ({
  on: true,
  set: (on) => set({ on }),
}));

export const useSingleKeys = (): { readonly on: boolean; readonly set: (on: boolean) => void } => useStore(store);

/** Takes the setting that was kept, and keeps later changes. */
export function keepSingleKeys(kept: unknown, keep: (name: string, value: unknown) => void): void {
  if (typeof kept === "boolean") store.setState({ on: kept });
  store.subscribe(({ on }) => keep(SINGLE_KEYS, on));
}
