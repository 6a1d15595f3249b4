/** All that is open at one time: the design with its undo, what follows from it, the session, and the browser's storage if there is one. */
import { newDesign } from "../document/new-design.ts";
import type { Design } from "../document/design.ts";
import type { DesignStorage } from "../document/storage.ts";
import type { Derived } from "../parts/derived.ts";
import type { Beside } from "./beside.ts";
import { dated } from "./day.ts";
import { createDesignStore, type DesignStore, type Stored } from "./design-store.ts";
import { derivedView } from "./derived-view.ts";
import { historyView, type HistoryLabels } from "./history-view.ts";
import { createOthers, type Others } from "./others.ts";
import { createSessionStore, type SessionState, type SessionStore } from "./session-store.ts";
import type { View } from "./view.ts";

export interface Workbench {
  readonly design: DesignStore;
  readonly session: SessionStore;
  /** Everything derived from the open design with the previews laid over it. */
  readonly derived: View<Derived>;
  /** Designs beside the open one. */
  readonly others: Others;
  /** The words of the next undo and redo. */
  readonly history: View<HistoryLabels>;
  /** Undefined where this browser keeps nothing: the work is safe only in saved files. */
  readonly storage: DesignStorage | undefined;
  /** Milliseconds since 1970. */
  readonly now: () => number;
  /** Runs what opens and saves designs one after the other, in the order in which it was asked for. */
  readonly inTurn: <T>(work: () => Promise<T>) => Promise<T>;
}

export interface WorkbenchOptions {
  /** The design to start with; a new steel-string if none is given. */
  readonly first?: { readonly id: string; readonly design: Design; readonly stored?: Stored };
  readonly storage?: DesignStorage | undefined;
  readonly session?: Partial<SessionState>;
  /** Faces and heavy work; absent: none of the one, the other on the spot. */
  readonly beside?: Beside;
  /** The same for designs beside the open one. */
  readonly besideOthers?: Beside;
  readonly now?: () => number;
}

export function createWorkbench({
  first,
  storage,
  session,
  beside,
  besideOthers,
  now = Date.now,
}: WorkbenchOptions = {}): Workbench {
  const design = createDesignStore(first ?? { id: newId(), design: dated(newDesign("steel-string"), now()) });
  const sessionStore = createSessionStore(session);
  return {
    design,
    session: sessionStore,
    derived: derivedView(design, sessionStore, beside),
    others: createOthers(besideOthers),
    history: historyView(design),
    storage,
    now,
    inTurn: turns(),
  };
}

function turns(): Workbench["inTurn"] {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const next = last.then(work);
    last = next.catch(() => undefined);
    return next;
  };
}

/** A key for a design in this browser: 96 random bits. */
export const newId = (): string =>
  [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
