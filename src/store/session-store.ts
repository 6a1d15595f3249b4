/** What is true only while the program is open: what is looked at, what is being dragged, what is being said. Nothing of it is a design. */
import { createStore, type StoreApi } from "zustand/vanilla";
import type { Raw } from "../parts/derived.ts";
import type { Repair } from "../document/read.ts";
import type { Trouble } from "../document/design.ts";

/** What is picked out on the board or in a panel: a shape of a part's drawing, or a number. */
export interface Selection {
  /** Id of the part, `instrument` for the shared numbers. */
  readonly part: string;
  /** Id of the shape on its drawing. */
  readonly shape?: string;
  /** Path of the number: `parts.fingerboard.overhang`. */
  readonly path?: string;
}

/** Where the board looks. */
export interface Camera {
  /** Point of the drawing in the middle of the board, mm. */
  readonly centre: { readonly x: number; readonly y: number };
  readonly pxPerMm: number;
}

export type Theme = "system" | "paper" | "slate";

/** A message that comes and goes. */
export interface Toast {
  readonly id: number;
  readonly tone: "said" | "trouble";
  readonly text: string;
}

/** Whether the work is safe. */
export type Saving =
  | { readonly state: "saved"; readonly at: number }
  | { readonly state: "waiting" }
  | { readonly state: "failed"; readonly reason: "full" | "forbidden" | "broken"; readonly trouble: Trouble }
  /** Another tab has changed or removed the design since it was opened here; nothing is saved until one of the two is chosen. */
  | { readonly state: "conflict"; readonly reason: "conflict" | "missing"; readonly trouble: Trouble };

export type Dialog =
  | { readonly kind: "new" | "open" | "keys" | "help" | "versions" | "conflict" | "screen" }
  /** What a number came out at on the work. */
  | { readonly kind: "built"; readonly path: string }
  | { readonly kind: "repairs"; readonly name: string; readonly repairs: readonly Repair[] }
  | { readonly kind: "confirm"; readonly question: string; readonly action: string; readonly then: () => void };

export interface SessionState {
  /** Id of the part on the board, `instrument` for the shared numbers. */
  readonly activePart: string;
  readonly selection: Selection | undefined;
  readonly hover: Selection | undefined;
  /** The chosen points of a part's outline, by their place in its list. */
  readonly points: { readonly part: string; readonly indices: readonly number[] } | undefined;
  /** By id of the part; none: fit to view. */
  readonly cameras: Readonly<Record<string, Camera>>;
  /** Values being dragged or typed, by path: drawn, but not yet said. `undefined` takes the value back. */
  readonly previews: ReadonlyMap<string, Raw>;
  readonly theme: Theme;
  /** How many times designs were taken in beside the open one: lists of what is kept are read again. */
  readonly arrivals: number;
  readonly toasts: readonly Toast[];
  readonly dialog: Dialog | undefined;
  readonly saving: Saving;
}

export type SessionStore = StoreApi<SessionState>;

export function createSessionStore(first: Partial<SessionState> = {}): SessionStore {
  return createStore<SessionState>()(() => ({
    activePart: "instrument",
    selection: undefined,
    hover: undefined,
    points: undefined,
    cameras: {},
    previews: NO_PREVIEWS,
    theme: "system",
    arrivals: 0,
    toasts: [],
    dialog: undefined,
    saving: { state: "waiting" },
    ...first,
  }));
}

const NO_PREVIEWS: ReadonlyMap<string, Raw> = new Map();

/** Shows a part; what was picked out on another is let go. */
export const showPart = (store: SessionStore, part: string): void =>
  store.setState((s) =>
    s.activePart === part ? s : { activePart: part, selection: undefined, hover: undefined, points: undefined },
  );

export const select = (store: SessionStore, selection: Selection | undefined): void => store.setState({ selection });

export const hover = (store: SessionStore, hovered: Selection | undefined): void => store.setState({ hover: hovered });

/** Chooses points of a part's outline; none lets go of them. */
export const choosePoints = (store: SessionStore, part: string, indices: readonly number[]): void =>
  store.setState({ points: indices.length > 0 ? { part, indices: [...new Set(indices)] } : undefined });

/** Points the board's camera at a part; undefined fits the part to the board. */
export const lookAt = (store: SessionStore, part: string, camera: Camera | undefined): void =>
  store.setState(({ cameras }) => {
    const { [part]: _, ...others } = cameras;
    return { cameras: camera ? { ...others, [part]: camera } : others };
  });

/** Shows a value that is not said yet. */
export const preview = (store: SessionStore, path: string, raw: Raw): void =>
  store.setState(({ previews }) => ({ previews: new Map(previews).set(path, raw) }));

/** Lets go of every value that is not said yet. */
export const dropPreviews = (store: SessionStore): void =>
  store.setState((s) => (s.previews.size === 0 ? s : { previews: NO_PREVIEWS }));

export const setTheme = (store: SessionStore, theme: Theme): void => store.setState({ theme });

let lastToast = 0;
/** @returns the message's number, with which it can be taken away */
export function say(store: SessionStore, text: string, tone: Toast["tone"] = "said"): number {
  const id = ++lastToast;
  store.setState(({ toasts }) => ({ toasts: [...toasts, { id, tone, text }].slice(-4) }));
  return id;
}

export const unsay = (store: SessionStore, id: number): void =>
  store.setState(({ toasts }) => ({ toasts: toasts.filter((t) => t.id !== id) }));

export const openDialog = (store: SessionStore, dialog: Dialog): void => store.setState({ dialog });

export const closeDialog = (store: SessionStore): void => store.setState({ dialog: undefined });
