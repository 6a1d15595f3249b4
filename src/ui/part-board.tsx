/** The drawing board on a part of the open design. */
import { useCallback } from "react";
import { useStore } from "zustand";
import type { Dimension, Drawing } from "../drawing/drawing.ts";
import type { DerivedPart, Field } from "../parts/derived.ts";
import { lookAt, openDialog, select } from "../store/session-store.ts";
import { useBench, useNotation, useSession } from "./bench.ts";
import { useNarrow } from "./frame/use-narrow.ts";
import { useTheme } from "./look/use-theme.ts";
import { useEditing } from "./panels/editing.ts";
import { Board } from "./board/board.tsx";
import { BoardTools } from "./board/tools/board-tools.tsx";
import { NO_EDGES } from "./board/viewport.ts";
import { useTrueScale } from "./screen-scale.ts";
import { showPlace, shownPlaceStore, stopPlacesStore } from "./shown-place.ts";
import "./part-board.css";
import { partName } from "../parts/part-name.ts";

/** Height of the foot with the bar for points over it; where the window is narrow the bar stands below the board. */
const POINTS_BAR_PX = 116;
/** Width of a tool's panel with its margin. */
const PANEL_PX = 320;

interface PartBoardProps {
  readonly part: DerivedPart;
  /** Height of what lies over the board's upper edge, px. */
  readonly coveredTop?: number;
  /** As wide as the window and low: the tools stand in its foot. */
  readonly wide?: boolean;
}

export function PartBoard({ part, coveredTop = 0, wide = false }: PartBoardProps) {
  const bench = useBench();
  const editing = useEditing();
  const notation = useNotation();
  const theme = useTheme();
  const narrow = useNarrow();
  const selection = useSession((s) => (s.selection?.part === part.id ? s.selection.shape : undefined));
  const camera = useSession((s) => s.cameras[part.id]);
  const trueScale = useTrueScale();
  const shownPlace = useStore(shownPlaceStore);
  const highlight = shownPlace?.part === part.id ? shownPlace : undefined;
  const stops = useStore(stopPlacesStore);
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
      <BoardTools
        part={part}
        theme={theme}
        units={notation}
        inFoot={wide}
        renderBoard={({ overlay, underlay, tool, dimensions, panel }) => (
          <Board
            drawing={withDimensions(part.drawing(), dimensions)}
            name={partName(part)}
            theme={theme}
            units={notation}
            selection={selection}
            onSelect={onSelect}
            textOf={textOf}
            onEdit={(path, text) => {
              const problem = editing.sayValue(path, text.trim() === "" ? undefined : text);
              return problem ? { ok: false, error: problem } : { ok: true, value: undefined };
            }}
            covered={{
              ...NO_EDGES,
              top: coveredTop,
              bottom: narrow || wide ? 0 : POINTS_BAR_PX,
              right: panel && !narrow ? PANEL_PX : 0,
            }}
            camera={camera}
            trueScale={trueScale}
            onMeasureScreen={() => openDialog(bench.session, { kind: "screen" })}
            onCamera={(next) => lookAt(bench.session, part.id, next)}
            highlight={highlight}
            stops={stops.part === part.id ? stops.places : undefined}
            overlay={overlay}
            underlay={underlay}
            tool={tool}
          />
        )}
      />
    </>
  );
}

const drawn = new WeakMap<Drawing, { readonly dimensions: readonly Dimension[]; readonly drawing: Drawing }>();

/** The drawing with further dimensions; the same for the same two, since the board lays out what is new to it. */
function withDimensions(drawing: Drawing, dimensions: readonly Dimension[]): Drawing {
  if (dimensions.length === 0) return drawing;
  const last = drawn.get(drawing);
  if (last?.dimensions === dimensions) return last.drawing;
  const both = { ...drawing, dimensions: [...drawing.dimensions, ...dimensions] };
  drawn.set(drawing, { dimensions, drawing: both });
  return both;
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
