/** What is taken hold of on the board, and what the tool in hand shows there: a Konva stage over the drawing, fetched when there is any of it. */
import Konva from "konva";
import { useLayoutEffect } from "react";
import { Layer, Line, Stage } from "react-konva";
import { transformPoint, type Affine } from "../../../geometry/transform.ts";
import { vec, type Vec } from "../../../geometry/vec.ts";
import type { Camera } from "../../../store/session-store.ts";
import type { ThemeName } from "../../look/theme.ts";
import type { Notation } from "../../notation.ts";
import { ScaleMarks } from "../../photograph/scale-marks.tsx";
import type { Scaling } from "../../photograph/use-scaling.ts";
import type { OnBoard } from "../board.tsx";
import type { Colours } from "../colours.ts";
import { PointsLayer } from "../outline-editor/points-layer.tsx";
import type { OutlineEditor } from "../outline-editor/use-outline-editor.ts";
import { RULER_PX } from "../paint-rulers.ts";
import { toScreen, type View } from "../viewport.ts";
import { DividerMarks, TraceMarks } from "./tool-marks.tsx";
import type { Dividers } from "./use-dividers.ts";
import type { Tracing } from "./use-trace.ts";

interface OverBoardProps extends OnBoard {
  readonly theme: ThemeName;
  readonly units: Notation;
  readonly colours: Colours;
  /** Its points are worked on now. */
  readonly editor?: OutlineEditor | undefined;
  /** An outline is being traced, place by place. */
  readonly trace?: { readonly tracing: Tracing; readonly editor: OutlineEditor } | undefined;
  readonly dividers?: Dividers | undefined;
  readonly scale?: { readonly scaling: Scaling; readonly toBoard: Affine } | undefined;
  readonly photograph?: HeldPhotograph | undefined;
}

/** A photograph that can be pushed about. */
interface HeldPhotograph {
  readonly width: number;
  readonly height: number;
  readonly toBoard: Affine;
  readonly onHold: (camera: Camera) => void;
  /** How far it has been pushed, mm; the last one is meant. */
  readonly onPush: (by: Vec, last: boolean) => void;
}

export function OverBoard(props: OverBoardProps) {
  const { view, ratio, stage, theme, units, colours, editor, trace, dividers, scale, photograph } = props;
  useLayoutEffect(() => {
    Konva.pixelRatio = ratio;
    for (const layer of stage.current?.getLayers() ?? []) {
      if (layer.getCanvas().getPixelRatio() === ratio) continue;
      layer.getCanvas().setPixelRatio(ratio);
      layer.batchDraw();
    }
  }, [ratio, stage]);
  return (
    <Stage ref={stage} width={view.width} height={view.height} className="board-stage">
      <Layer clipX={RULER_PX} clipY={RULER_PX} clipWidth={view.width} clipHeight={view.height}>
        {photograph ? <Frame photograph={photograph} view={view} colours={colours} /> : null}
        {editor ? <PointsLayer editor={editor} view={view} theme={theme} units={units} /> : null}
        {trace ? <TraceMarks places={trace.tracing.places} outline={trace.editor.outline} view={view} colours={colours} /> : null}
        {dividers ? <DividerMarks dividers={dividers} view={view} colours={colours} /> : null}
        {scale ? <ScaleMarks {...scale} view={view} colours={colours} /> : null}
      </Layer>
    </Stage>
  );
}

/** What a photograph is taken hold of by. */
function Frame({
  photograph: { width, height, toBoard, onHold, onPush },
  view,
  colours,
}: {
  readonly photograph: HeldPhotograph;
  readonly view: View;
  readonly colours: Colours;
}) {
  const corners = [vec(0, 0), vec(width, 0), vec(width, height), vec(0, height)];
  const pushed = (x: number, y: number): Vec => vec(x / view.camera.pxPerMm, -y / view.camera.pxPerMm);
  return (
    <Line
      points={corners.flatMap((corner) => {
        const { x, y } = toScreen(view, transformPoint(toBoard, corner));
        return [x, y];
      })}
      closed
      stroke={colours.pen}
      strokeWidth={1}
      dash={[6, 4]}
      // Enough to be taken hold of, not enough to be seen.
      fill="rgba(0,0,0,0.004)"
      draggable
      onDragStart={() => onHold(view.camera)}
      onDragMove={(e) => onPush(pushed(e.target.x(), e.target.y()), false)}
      onDragEnd={(e) => {
        onPush(pushed(e.target.x(), e.target.y()), true);
        e.target.position({ x: 0, y: 0 });
      }}
    />
  );
}
