/** The tools of a board: points of an outline, tracing, dividers, the photograph under it. One is in hand at a time. */
import { Suspense, useCallback, useMemo, useState, type KeyboardEvent, type ReactNode } from "react";
import type { BoardRecord } from "../../../document/board.ts";
import type { Dimension } from "../../../drawing/drawing.ts";
import type { Affine } from "../../../geometry/transform.ts";
import { vec, type Vec } from "../../../geometry/vec.ts";
import type { DerivedPart } from "../../../parts/derived.ts";
import { editPhotograph } from "../../../store/commands/edit-board.ts";
import { lookAt, type Camera } from "../../../store/session-store.ts";
import { useBench, useDesign } from "../../bench.ts";
import { takePhotograph } from "../../files.ts";
import { fetched } from "../../later.ts";
import type { ThemeName } from "../../look/theme.ts";
import type { Notation } from "../../notation.ts";
import { choosePhotograph } from "../../photograph/choose-photograph.ts";
import { PhotographLayer } from "../../photograph/photograph-layer.tsx";
import { pixelUnder } from "../../photograph/photograph-plane.ts";
import { usePicture } from "../../photograph/use-picture.ts";
import { marksIn, useScaling } from "../../photograph/use-scaling.ts";
import type { BoardTool, OnBoard } from "../board.tsx";
import { OutlineToolbar } from "../outline-editor/toolbar.tsx";
import { useOutlineEditor } from "../outline-editor/use-outline-editor.ts";
import { useColours } from "../use-page.ts";
import type { View } from "../viewport.ts";
import { dimensionsOf } from "./spans.ts";
import { ToolButtons, type ToolName } from "./tool-buttons.tsx";
import { useDividers } from "./use-dividers.ts";
import { useTrace } from "./use-trace.ts";

// What nobody has taken in hand yet is fetched when it is.
const OverBoard = fetched(async () => (await import("./over-board.tsx")).OverBoard);
const PhotographPanel = fetched(async () => (await import("../../photograph/photograph-panel.tsx")).PhotographPanel);
const DividersPanel = fetched(async () => (await import("./dividers-panel.tsx")).DividersPanel);
const TraceBar = fetched(async () => (await import("./trace-bar.tsx")).TraceBar);

/** What the tools bring to the board. */
export interface BoardExtras {
  readonly overlay: ((on: OnBoard) => ReactNode) | undefined;
  readonly underlay: ((view: View, ratio: number) => ReactNode) | undefined;
  readonly tool: BoardTool | undefined;
  /** Kept ones. */
  readonly dimensions: readonly Dimension[];
  /** A panel covers the board's right edge. */
  readonly panel: boolean;
}

interface BoardToolsProps {
  readonly part: DerivedPart;
  readonly theme: ThemeName;
  readonly units: Notation;
  /** The bar stands in the board's foot. */
  readonly inFoot: boolean;
  readonly renderBoard: (extras: BoardExtras) => ReactNode;
}

const NOTHING: BoardRecord = {};
const COARSE = 10;
const FINE = 0.1;
const ARROWS: Readonly<Record<string, Vec>> = {
  ArrowLeft: vec(-1, 0),
  ArrowRight: vec(1, 0),
  ArrowUp: vec(0, 1),
  ArrowDown: vec(0, -1),
};

export function BoardTools({ part, theme, units, inFoot, renderBoard }: BoardToolsProps) {
  const bench = useBench();
  const board = useDesign().boards?.[part.id] ?? NOTHING;
  const editor = useOutlineEditor(part);
  const colours = useColours(theme);
  const [name, setName] = useState<ToolName>();
  const close = useCallback(() => setName(undefined), []);
  const drawing = part.drawing();

  const { photograph, spans = [] } = board;
  const scaling = useScaling(part.id, photograph);
  const picture = usePicture(photograph, scaling.draft !== undefined);
  const [shift, setShift] = useState<Vec>();
  const dividers = useDividers(drawing);
  const tracing = useTrace(editor, () => {
    close();
    const finding = editor?.outline.loose?.finding;
    if (finding) void import("./tell-fit.ts").then(({ tellFit }) => tellFit(bench, part.id, finding, units));
  });
  const dimensions = useMemo(() => dimensionsOf(spans, drawing), [spans, drawing]);

  const shown = picture.state === "shown" && (photograph?.hidden !== true || scaling.draft) ? picture : undefined;
  const toBoard: Affine | undefined = shown && (shift ? moved(shown.toBoard, shift) : shown.toBoard);
  const holdsPhotograph = name === "photograph" && !scaling.draft && photograph !== undefined && photograph.locked !== true;

  const push = (by: Vec, gesture?: string): void => {
    if (!photograph) return;
    const rounded = (mm: number): number => Math.round(mm * 100) / 100;
    editPhotograph(bench, part.id, { at: [rounded(photograph.at[0] + by.x), rounded(photograph.at[1] + by.y)] }, gesture);
  };

  function onKeyDown(e: KeyboardEvent): void {
    if (e.target instanceof HTMLInputElement || e.target instanceof HTMLButtonElement || e.ctrlKey || e.metaKey) return;
    if (name === undefined) return editor?.onKeyDown(e);
    const arrow = ARROWS[e.key];
    const size = e.altKey ? FINE : e.shiftKey ? COARSE : 1;
    const acts: Readonly<Record<string, (() => void) | undefined>> = {
      Escape: () => (scaling.draft ? scaling.leave() : close()),
      ...(name === "trace" && tracing
        ? { Enter: tracing.finish, Backspace: tracing.back, c: () => tracing.setCorner(!tracing.corner) }
        : {}),
      ...(scaling.draft && name === "photograph"
        ? {
            ".": () => scaling.change({ chosen: (scaling.draft!.chosen + 1) % marksIn(scaling.draft!) }),
            ",": () =>
              scaling.change({ chosen: (scaling.draft!.chosen + marksIn(scaling.draft!) - 1) % marksIn(scaling.draft!) }),
          }
        : {}),
    };
    let act = acts[e.key];
    if (arrow && scaling.draft && name === "photograph") {
      const { chosen, marks } = scaling.draft;
      const [x, y] = marks[chosen]!;
      act = () => scaling.put(chosen, [x + arrow.x * size, y - arrow.y * size]);
    } else if (arrow && holdsPhotograph) act = () => push(vec(arrow.x * size, arrow.y * size), `photograph by ${e.key}`);
    if (!act) return;
    e.preventDefault();
    e.stopPropagation();
    act();
  }

  const tool: BoardTool | undefined =
    name === "trace" && tracing
      ? { onPress: (at, pxPerMm, { shift: corner }) => tracing.press(at, pxPerMm, corner) }
      : name === "dividers"
        ? { onPress: dividers.press, onHover: dividers.over }
        : name === "photograph" && scaling.draft && toBoard
          ? { onPress: (at) => scaling.put(scaling.draft!.chosen, pixelUnder(toBoard, at), { next: true }) }
          : undefined;

  const over = {
    theme,
    units,
    colours,
    editor: name === undefined ? editor : undefined,
    trace: name === "trace" && tracing && editor ? { tracing, editor } : undefined,
    dividers: name === "dividers" ? dividers : undefined,
    scale: name === "photograph" && toBoard ? { scaling, toBoard } : undefined,
    photograph:
      holdsPhotograph && shown
        ? {
            width: shown.sizes[0]!.width,
            height: shown.sizes[0]!.height,
            toBoard: shown.toBoard,
            onHold: (camera: Camera) => lookAt(bench.session, part.id, camera),
            onPush: (by: Vec, last: boolean) => {
              if (last) push(by);
              setShift(last ? undefined : by);
            },
          }
        : undefined,
  };
  const isOver = over.editor ?? over.trace ?? over.dividers ?? over.scale ?? over.photograph;

  return (
    <div className="board-tools" onKeyDownCapture={onKeyDown}>
      {renderBoard({
        overlay: isOver
          ? (on) => (
              <Suspense fallback={null}>
                <OverBoard {...on} {...over} />
              </Suspense>
            )
          : undefined,
        underlay:
          shown && toBoard
            ? (view, ratio) => (
                <PhotographLayer
                  shown={{ sizes: shown.sizes, toBoard }}
                  opacity={photograph?.opacity ?? 1}
                  view={view}
                  ratio={ratio}
                />
              )
            : undefined,
        tool,
        dimensions,
        panel: name === "dividers" || name === "photograph",
      })}
      <div className="points-over" data-in-foot={inFoot ? "" : undefined}>
        <Suspense fallback={null}>
          {name === "trace" && tracing && editor ? (
            <TraceBar
              tracing={tracing}
              units={units}
              onLeave={close}
              corners={!editor.outline.loose}
              finishLabel={editor.outline.loose?.finish ?? "Make it the outline"}
            />
          ) : (
            <OutlineToolbar
              editor={name === undefined ? editor : undefined}
              part={part}
              units={units}
              more={
                <ToolButtons
                  name={name}
                  traces={editor !== undefined}
                  onTake={(next) => {
                    tracing?.clear();
                    scaling.leave();
                    setName(next);
                    // A photograph of loose points is laid where they are looked at.
                    if (next === "trace" || (next === "photograph" && !photograph)) editor?.look();
                  }}
                />
              }
            />
          )}
        </Suspense>
      </div>
      <Suspense fallback={null}>
        {name === "dividers" ? (
          <DividersPanel part={part.id} dividers={dividers} spans={spans} notation={units} onClose={close} />
        ) : null}
        {name === "photograph" ? (
          <PhotographPanel
            part={part.id}
            photograph={photograph}
            state={picture.state}
            scaling={scaling}
            notation={units}
            onChoose={() => {
              void choosePhotograph().then((file) => file && takePhotograph(bench, part.id, file));
            }}
            onClose={() => {
              scaling.leave();
              close();
            }}
          />
        ) : null}
      </Suspense>
    </div>
  );
}

const moved = (map: Affine, by: Vec): Affine => ({ ...map, e: map.e + by.x, f: map.f + by.y });
