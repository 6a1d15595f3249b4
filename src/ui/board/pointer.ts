/** Where the pointer is and what it is over. Kept apart from the board's own state, so that a move of the pointer draws only the marks. */
import { createStore, type StoreApi } from "zustand/vanilla";
import type { Indexed } from "./shape-index.ts";
import type { Px } from "./viewport.ts";

export interface Pointer {
  readonly at: Px | undefined;
  readonly over: Indexed | undefined;
}

export type PointerStore = StoreApi<Pointer>;

export const createPointer = (): PointerStore => createStore<Pointer>(() => ({ at: undefined, over: undefined }));
