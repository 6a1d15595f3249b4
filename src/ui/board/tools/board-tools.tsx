/** The tools of a board: points of an outline, tracing, dividers, the photograph under it. One is in hand at a time. */
import { useCallback, useMemo, useState, type KeyboardEvent, type ReactNode } from "react";
import { Line } from "react-konva";
import type { BoardRecord } from "../../../document/board.ts";
import type { Dimension } from "../../../drawing/drawing.ts";
import { transformPoint, type Affine } from "../../../geometry/transform.ts";
import { vec, type Vec } from "../../../geometry/vec.ts";
import type { DerivedPart } from "../../../parts/derived.ts";
import { editPhotograph } from "../../../store/commands/edit-board.ts";
import { lookAt } from "../../../store/session-store.ts";
import { useBench, useDesign } from "../../bench.ts";
import { takePhotograph } from "../../files.ts";
import type { ThemeName } from "../../look/theme.ts";
import type { Notation } from "../../notation.ts";
import { choosePhotograph } from "../../photograph/choose-photograph.ts";
import { PhotographLayer } from "../../photograph/photograph-layer.tsx";
import { PhotographPanel } from "../../photograph/photograph-panel.tsx";
import { pixelUnder, ScaleMarks } from "../../photograph/scale-marks.tsx";
import { usePicture } from "../../photograph/use-picture.ts";
import { marksIn, useScaling } from "../../photograph/use-scaling.ts";
import type { BoardTool } from "../board.tsx";
import { PointsLayer } from "../outline-editor/points-layer.tsx";
import { OutlineToolbar } from "../outline-editor/toolbar.tsx";
import { useOutlineEditor } from "../outline-editor/use-outline-editor.ts";
import { useColours } from "../use-page.ts";
import { toScreen, type View } from "../viewport.ts";
import { DividersPanel } from "./dividers-panel.tsx";
import { dimensionsOf } from "./spans.ts";
import { DividerMarks, TraceMarks } from "./tool-marks.tsx";
import { ToolButtons, type ToolName } from "./tool-buttons.tsx";
import { TraceBar } from "./trace-bar.tsx";
import { useDividers } from "./use-dividers.ts";
import { useTrace } from "./use-trace.ts";

/** What the tools bring to the board. */
export interface BoardExtras {
  readonly overlays: (view: View) => ReactNode;
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

export function BoardTools({ part, theme, units, renderBoard }: BoardToolsProps) {
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
  const tracing = useTrace(editor, close);
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

  const overlays = (view: View): ReactNode => (
    <>
      {holdsPhotograph && shown && toBoard ? (
        <Line
          points={corners(shown.sizes[0]!).flatMap((corner) => {
            const { x, y } = toScreen(view, transformPoint(shown.toBoard, corner));
            return [x, y];
          })}
          closed
          stroke={colours.pen}
          strokeWidth={1}
          dash={[6, 4]}
          // Enough to be taken hold of, not enough to be seen.
          fill="rgba(0,0,0,0.004)"
          draggable
          onDragStart={() => lookAt(bench.session, part.id, view.camera)}
          onDragMove={(e) => setShift(vec(e.target.x() / view.camera.pxPerMm, -e.target.y() / view.camera.pxPerMm))}
          onDragEnd={(e) => {
            push(vec(e.target.x() / view.camera.pxPerMm, -e.target.y() / view.camera.pxPerMm));
            e.target.position({ x: 0, y: 0 });
            setShift(undefined);
          }}
        />
      ) : null}
      {editor && name === undefined ? <PointsLayer editor={editor} view={view} theme={theme} units={units} /> : null}
      {name === "trace" && tracing && editor ? (
        <TraceMarks places={tracing.places} outline={editor.outline} view={view} colours={colours} />
      ) : null}
      {name === "dividers" ? <DividerMarks dividers={dividers} view={view} colours={colours} /> : null}
      {name === "photograph" && toBoard ? <ScaleMarks scaling={scaling} toBoard={toBoard} view={view} colours={colours} /> : null}
    </>
  );

  return (
    <div onKeyDownCapture={onKeyDown}>
      {renderBoard({
        overlays,
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
      <div className="points-over">
        {name === "trace" && tracing && editor ? (
          <TraceBar tracing={tracing} units={units} onLeave={close} />
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
                }}
              />
            }
          />
        )}
      </div>
    </div>
  );
}

const moved = (map: Affine, by: Vec): Affine => ({ ...map, e: map.e + by.x, f: map.f + by.y });

const corners = ({ width, height }: { readonly width: number; readonly height: number }): Vec[] => [
  vec(0, 0),
  vec(width, 0),
  vec(width, height),
  vec(0, height),
];
