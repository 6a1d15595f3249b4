/** The open design with undo and redo of everything. */
import { temporal, type TemporalState } from "zundo";
import { createStore, type StoreApi } from "zustand/vanilla";
import { FORMAT, VERSION, type Design } from "../document/design.ts";

/** How many steps can be taken back. */
export const UNDO_LIMIT = 500;

/** What led to the present design. */
export interface Step {
  /** "nut width": completes "Undo ..." and "Redo ...". */
  readonly label: string;
  /** Edits of one gesture (one key held down, one run of typing in a field) are one step. */
  readonly gesture?: string;
}

/** What undo brings back. */
export interface Moment {
  readonly design: Design;
  readonly step: Step;
}

/** The copy in this browser that the open design grew from. */
export interface Stored {
  /** Counts the saves of this design; 0 before the first. */
  readonly revision: number;
  /** Milliseconds since 1970. */
  readonly savedAt: number;
  readonly design: Design;
}

export interface DesignState extends Moment {
  /** Key of the design in this browser. */
  readonly id: string;
  /** Undefined: not kept in this browser yet. */
  readonly stored: Stored | undefined;
}

export type DesignStore = StoreApi<DesignState> & { readonly temporal: StoreApi<TemporalState<Moment>> };

/** Whether something would be lost: a change since the last save in this browser, or any change if there was none. */
export const isDirty = ({ design, stored, step }: DesignState): boolean =>
  stored ? stored.design !== design : step.label !== "";

/** No step has led here. */
const FIRST_STEP: Step = { label: "" };

/** A store that holds an open design, with nothing to undo. */
export function createDesignStore(first: {
  readonly id: string;
  readonly design: Design;
  readonly stored?: Stored;
}): DesignStore {
  return createStore<DesignState>()(
    temporal((): DesignState => ({ id: first.id, design: first.design, step: FIRST_STEP, stored: first.stored }), {
      limit: UNDO_LIMIT,
      partialize: ({ design, step }): Moment => ({ design, step }),
      equality: (past, current) => past.design === current.design,
    }),
  );
}

/**
 * Puts a changed design in place of the open one, as one step that can be undone; a further edit of the same gesture joins the step
 * before it. The same design is no step.
 */
export function commit(store: DesignStore, design: Design, step: Step): void {
  const now = store.getState();
  if (now.design === design) return;
  const joins =
    step.gesture !== undefined && step.gesture === now.step.gesture && store.temporal.getState().futureStates.length === 0;
  if (joins) store.temporal.getState().pause();
  store.setState({ design, step });
  if (joins) store.temporal.getState().resume();
}

/** The steps around the present, oldest first in both; kept with the design so that undo survives a reload. */
export interface History {
  readonly past: readonly Moment[];
  readonly step: Step;
  /** The next to redo is the last. */
  readonly future: readonly Moment[];
}

export const NO_HISTORY: History = { past: [], step: FIRST_STEP, future: [] };

/** Steps to each side of the present that are kept with the design. */
const KEPT_STEPS = 200;

export function historyOf(store: DesignStore): History {
  const { pastStates, futureStates } = store.temporal.getState();
  return {
    past: pastStates.slice(-KEPT_STEPS) as Moment[],
    step: store.getState().step,
    future: futureStates.slice(-KEPT_STEPS) as Moment[],
  };
}

const ended = ({ design, step }: Moment): Moment => ({ design, step: { label: step.label } });

/** The steps kept with a design, if they are of this version of the file. Gestures ended when the page was closed. */
export function historyFrom(kept: unknown): History {
  if (!isHistory(kept)) return NO_HISTORY;
  return { past: kept.past.map(ended), step: { label: kept.step.label }, future: kept.future.map(ended) };
}

function isHistory(kept: unknown): kept is History {
  const { past, step, future } = (kept ?? {}) as Partial<Record<keyof History, unknown>>;
  return Array.isArray(past) && Array.isArray(future) && isStep(step) && [...past, ...future].every(isMoment);
}

const isStep = (step: unknown): boolean => typeof (step as Step | undefined)?.label === "string";

const isMoment = (moment: Partial<Moment> | undefined): boolean =>
  moment?.design?.format === FORMAT && moment.design.version === VERSION && isStep(moment.step);

/** Opens another design: the steps of the one before are put away with it. */
export function replaceDesign(
  store: DesignStore,
  next: { readonly id: string; readonly design: Design; readonly stored: Stored | undefined; readonly history?: History },
): void {
  const { past, step, future } = next.history ?? NO_HISTORY;
  const temporal = store.temporal;
  temporal.getState().pause();
  store.setState({ id: next.id, design: next.design, step, stored: next.stored });
  temporal.setState({ pastStates: [...past], futureStates: [...future], isTracking: true });
}
