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

/**
 * A history as plain data to keep beside the design that it belongs to. A photograph is in every step since it was taken in; it is written
 * once, and not at all where the design itself holds it.
 */
export function packHistory({ past, step, future }: History, present: Design): unknown {
  const pictures = picturesIn(present);
  const own = pictures.length;
  const packed = (moment: Moment): Moment => ({
    ...moment,
    design: mapPictures(moment.design, (data) => {
      const at = pictures.indexOf(data);
      return `${at >= 0 ? at : pictures.push(data) - 1}`;
    }),
  });
  const [packedPast, packedFuture] = [past.map(packed), future.map(packed)];
  return { past: packedPast, step, future: packedFuture, pictures: pictures.slice(own) };
}

/** The steps kept with a design, if they are of this version of the file. Gestures ended when the page was closed. */
export function historyFrom(kept: unknown, present: Design): History {
  if (!isHistory(kept)) return NO_HISTORY;
  const more = (kept as { readonly pictures?: readonly string[] }).pictures ?? [];
  const pictures = [...picturesIn(present), ...more];
  const whole = (moment: Moment): Moment =>
    ended({ ...moment, design: mapPictures(moment.design, (at) => pictures[Number(at)]) });
  return { past: kept.past.map(whole), step: { label: kept.step.label }, future: kept.future.map(whole) };
}

/** The pictures of a design, each once. */
const picturesIn = ({ boards = {} }: Design): string[] => [
  ...new Set(Object.values(boards).flatMap(({ photograph }) => photograph?.data ?? [])),
];

/** A design with other data in the place of its pictures; one without data goes. */
function mapPictures(design: Design, map: (data: string) => string | undefined): Design {
  if (!design.boards) return design;
  const boards = Object.entries(design.boards).map(([id, { photograph, ...others }]) => {
    const data = photograph && map(photograph.data);
    return [id, { ...others, ...(photograph && data !== undefined ? { photograph: { ...photograph, data } } : {}) }] as const;
  });
  return { ...design, boards: Object.fromEntries(boards) };
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
