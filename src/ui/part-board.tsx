/** The drawing board on a part of the open design. */
import { lazy, Suspense, useCallback } from "react";
import { useStore } from "zustand";
import type { DerivedPart, Field } from "../parts/derived.ts";
import { lookAt, openDialog, select } from "../store/session-store.ts";
import { useBench, useNotation, useSession } from "./bench.ts";
import { useTheme } from "./look/use-theme.ts";
import { useEditing } from "./panels/editing.ts";
import { NO_EDGES } from "./board/viewport.ts";
import { useTrueScale } from "./screen-scale.ts";
import { showPlace, shownPlaceStore } from "./shown-place.ts";
import "./part-board.css";

/** Fetched beside everything else from the start, since nearly every place shows a board, but not waited for. */
const fetched = import("./board/board.tsx");
fetched.catch(() => undefined);
const Board = lazy(async () => ({ default: (await fetched).Board }));
const EditOutline = lazy(async () => ({ default: (await import("./board/outline-editor/edit-outline.tsx")).EditOutline }));

/** Height of the foot with the bar for points over it. */
const POINTS_BAR_PX = 116;

interface PartBoardProps {
  readonly part: DerivedPart;
  /** Height of what lies over the board's upper edge, px. */
  readonly coveredTop?: number;
}

export function PartBoard({ part, coveredTop = 0 }: PartBoardProps) {
  const bench = useBench();
  const editing = useEditing();
  const notation = useNotation();
  const theme = useTheme();
  const selection = useSession((s) => (s.selection?.part === part.id ? s.selection.shape : undefined));
  const camera = useSession((s) => s.cameras[part.id]);
  const trueScale = useTrueScale();
  const shownPlace = useStore(shownPlaceStore);
  const highlight = shownPlace?.part === part.id ? shownPlace : undefined;
  const onSelect = useCallback(
    (shape: string | undefined) => {
      showPlace(undefined);
      select(bench.session, shape === undefined ? undefined : { part: part.id, shape });
    },
    [bench, part.id],
  );
  const textOf = useCallback((path: string) => typedAt(bench.derived.getState(), path), [bench]);

  if (part.problems.length > 0)
    return (
      <div className="board-waits" role="alert">
        <p className="board-waits-head">Nothing to draw until this is mended</p>
        {part.problems.map((problem) => (
          <p key={problem.path + problem.message}>
            {problem.message}. {problem.mend}
          </p>
        ))}
      </div>
    );
  return (
    <>
      <h2 className="unseen">Drawing</h2>
      <Suspense fallback={<p className="busy">The board is being laid out.</p>}>
        <EditOutline
          part={part}
          theme={theme}
          units={notation}
          renderBoard={(overlays) => (
            <Board
              drawing={part.drawing()}
              name={part.label}
              theme={theme}
              units={notation}
              selection={selection}
              onSelect={onSelect}
              textOf={textOf}
              onEdit={(path, text) => {
                const problem = editing.sayValue(path, text.trim() === "" ? undefined : text);
                return problem ? { ok: false, error: problem } : { ok: true, value: undefined };
              }}
              covered={{ ...NO_EDGES, top: coveredTop, bottom: overlays ? POINTS_BAR_PX : 0 }}
              camera={camera}
              trueScale={trueScale}
              onMeasureScreen={() => openDialog(bench.session, { kind: "screen" })}
              onCamera={(next) => lookAt(bench.session, part.id, next)}
              highlight={highlight}
              overlays={overlays}
            />
          )}
        />
      </Suspense>
    </>
  );
}

/** What the maker typed at a path, wherever it stands. */
function typedAt(
  derived: { readonly instrument: DerivedPart; readonly parts: readonly DerivedPart[] },
  path: string,
): string | undefined {
  const part = [derived.instrument, ...derived.parts].find((one) => path.startsWith(`${one.path}.`));
  const own: readonly Field[] = part?.fields ?? [];
  const inLists = own.flatMap((field) => field.records?.flat() ?? []);
  const raw = own.concat(inLists).find((field) => field.path === path)?.raw;
  return typeof raw === "string" ? raw : undefined;
}
