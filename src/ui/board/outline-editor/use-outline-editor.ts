/** The outline of the part on the board as something to edit: what is chosen, what a drag or a key does, and what is said of it. */
import { useCallback, useRef, useState, type KeyboardEvent } from "react";
import type { PointOutline } from "../../../parts/contract.ts";
import type { DerivedPart } from "../../../parts/derived.ts";
import { editValue } from "../../../store/commands/edit-value.ts";
import { choosePoints, dropPreviews, lookAt, preview, type Camera } from "../../../store/session-store.ts";
import { vec, type Vec } from "../../../geometry/vec.ts";
import { useBench, useSession } from "../../bench.ts";
import { tellTrouble } from "../../files.ts";
import { faired, inserted, moved, ofKind, removed, start, type Edit } from "./actions.ts";
import { rawPoints, stepOffBoard } from "./points.ts";
import { SNAPS, type Snap } from "./snap.ts";

export interface OutlineEditor {
  readonly outline: PointOutline;
  /** The titles of all outlines of the part, where it has several; `take` another one to work on. */
  readonly titles: readonly string[];
  readonly take: (title: string) => void;
  /** Has the board look at the place of loose points, if they are such. */
  readonly look: () => void;
  readonly chosen: ReadonlySet<number>;
  readonly choose: (indices: Iterable<number>) => void;
  readonly snaps: ReadonlySet<Snap>;
  readonly toggleSnap: (snap: Snap) => void;
  readonly fairness: boolean;
  readonly setFairness: (on: boolean) => void;
  /** The points as they stand, to change. */
  readonly now: () => Edit;
  /** Says a change as one step; with the same gesture it joins the step before. */
  readonly say: (edit: Edit | undefined, gesture?: string) => void;
  /** Says the points of a trace, and with loose ones how they lie, as one step. */
  readonly sayTraced: (points: Edit["points"]) => void;
  /** Draws what a change would do. */
  readonly show: (edit: Edit) => void;
  readonly drop: () => void;
  /** Keeps the board looking where it does: a drag must not move what it is measured against. */
  readonly hold: (camera: Camera) => void;
  readonly onKeyDown: (e: KeyboardEvent) => void;
}

/** Width of the board that what is looked at takes, px. */
const LOOK_PX = 640;
const COARSE = 10;
const STEP = 1;
const FINE = 0.1;
const NO_POINTS: readonly number[] = [];
/** A run of one key pressed again within this is one step of undo. */
const RUN_MS = 1000;

const named = (outlines: readonly PointOutline[], title: string): PointOutline | undefined =>
  outlines.find((one) => one.title === title) ?? outlines[0];

const within = (indices: readonly number[], outline: PointOutline | undefined): ReadonlySet<number> =>
  new Set(indices.filter((i) => i < (outline?.points.length ?? 0)));

/** Undefined where the part has no outline by points. */
export function useOutlineEditor(part: DerivedPart): OutlineEditor | undefined {
  const bench = useBench();
  const [taken, setTaken] = useState("");
  const outlines = part.outlines();
  const outline = named(outlines, taken);
  const indices = useSession((s) => (s.points?.part === part.id ? s.points.indices : NO_POINTS));
  const [snaps, setSnaps] = useState<ReadonlySet<Snap>>(() => new Set(SNAPS));
  const [fairness, setFairness] = useState(false);
  const run = useRef({ name: "", at: 0 });
  const path = outline ? `${part.path}.${outline.key}` : "";
  const field = part.fields.find(({ key }) => key === outline?.key);
  // A drag counts from what stood when it began, not from its own previews.
  const base = useRef<{ readonly outline: PointOutline; readonly raw: unknown } | undefined>(undefined);

  const chosen = within(indices, outline);
  const count = outline?.points.length ?? 0;
  const choose = useCallback((next: Iterable<number>) => choosePoints(bench.session, part.id, [...next]), [bench, part.id]);

  if (!outline) return undefined;

  const standing = (): { readonly outline: PointOutline; readonly raw: unknown } =>
    (base.current ??= { outline, raw: field?.raw });
  const now = (): Edit => start(standing().outline, chosen);
  const rawOf = (edit: Edit) => rawPoints(standing().raw, standing().outline.points, edit.points, outline.loose);
  const drop = (): void => {
    base.current = undefined;
    dropPreviews(bench.session);
  };
  const show = (edit: Edit): void => preview(bench.session, path, rawOf(edit));
  const say = (edit: Edit | undefined, gesture?: string): void => {
    if (!edit) return drop();
    const raw = rawOf(edit);
    drop();
    const said = editValue(bench, path, raw, gesture);
    if (!said.ok) return tellTrouble("The outline was not changed", said.error);
    choose(edit.chosen);
  };

  const sayTraced = (points: Edit["points"]): void => {
    const gesture = `trace ${path} ${bench.now()}`;
    say({ points, chosen: new Set() }, gesture);
    for (const [key, value] of Object.entries(outline.loose?.traced ?? {}))
      if (part.fields.find((one) => one.key === key)?.raw === undefined) editValue(bench, `${part.path}.${key}`, value, gesture);
  };

  const look = (at: PointOutline | undefined): void => {
    if (at?.loose) lookAt(bench.session, part.id, { centre: at.origin, pxPerMm: LOOK_PX / at.loose.across });
  };

  /** Edits by one key held or pressed on are one step. */
  const gestureOf = (name: string): string => {
    const at = bench.now();
    const joins = run.current.name.startsWith(name) && at - run.current.at < RUN_MS;
    run.current = { name: joins ? run.current.name : `${name} ${at}`, at };
    return run.current.name;
  };
  const nudge = (by: Vec): void => say(moved(now(), stepOffBoard(standing().outline, by)), gestureOf(`move points ${path}`));
  const step = (by: number, more: boolean): void => {
    if (count === 0) return;
    const last = [...chosen].at(-1) ?? (by > 0 ? -1 : 0);
    const next = (last + by + count) % count;
    choose(more ? [...chosen, next] : [next]);
  };

  function onKeyDown(e: KeyboardEvent): void {
    if (e.target instanceof HTMLInputElement || e.target instanceof HTMLButtonElement || e.ctrlKey || e.metaKey) return;
    const size = e.altKey ? FINE : e.shiftKey ? COARSE : STEP;
    const acts: Readonly<Record<string, () => void>> = {
      ".": () => step(1, false),
      ",": () => step(-1, false),
      ">": () => step(1, true),
      "<": () => step(-1, true),
      ...(chosen.size === 0
        ? {}
        : {
            ArrowLeft: () => nudge(vec(-size, 0)),
            ArrowRight: () => nudge(vec(size, 0)),
            ArrowUp: () => nudge(vec(0, size)),
            ArrowDown: () => nudge(vec(0, -size)),
            Insert: () => say(inserted(outline!, now())),
            i: () => say(inserted(outline!, now())),
            Delete: () => say(removed(now())),
            Backspace: () => say(removed(now())),
            Escape: () => choose([]),
          }),
      ...(chosen.size === 0 || outline!.loose
        ? {}
        : {
            c: () => say(ofKind(now(), "corner")),
            v: () => say(ofKind(now(), "fair")),
            e: () => say(ofKind(now(), "even")),
          }),
      a: () => choose(outline!.points.keys()),
      ...(outline!.loose ? {} : { w: () => say(faired(now(), 0.25)), b: () => setFairness(!fairness) }),
    };
    const act = acts[e.key];
    if (!act) return;
    e.preventDefault();
    e.stopPropagation();
    act();
  }

  return {
    outline,
    titles: outlines.map(({ title }) => title),
    take: (title) => {
      drop();
      choose([]);
      setTaken(title);
      look(named(outlines, title));
    },
    look: () => look(outline),
    chosen,
    choose,
    snaps,
    toggleSnap: (snap) =>
      setSnaps((old) => (old.has(snap) ? new Set([...old].filter((one) => one !== snap)) : new Set([...old, snap]))),
    fairness,
    setFairness,
    now,
    say,
    sayTraced,
    show,
    drop,
    hold: (camera) => lookAt(bench.session, part.id, camera),
    onKeyDown,
  };
}
