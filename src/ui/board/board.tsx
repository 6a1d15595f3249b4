/**
 * The drawing board: a drawing at a scale, with rulers, dimensions that can be typed into, and everything said that is pointed at.
 * It knows drawings, never parts.
 */
import type Konva from "konva";
import { useCallback, useEffect, useMemo, useRef, useState, type ReactNode, type RefObject } from "react";
import type { Dimension, Drawing } from "../../drawing/drawing.ts";
import type { Vec } from "../../geometry/vec.ts";
import type { Camera } from "../../store/session-store.ts";
import type { LengthStyle } from "../../units/format.ts";
import { bareUnitOf, inside } from "../../units/unit.ts";
import { Button } from "../kit/button.tsx";
import type { ThemeName } from "../look/theme.ts";
import { BoardInWords } from "./board-in-words.tsx";
import { DimensionFields, type Edited } from "./dimension-fields.tsx";
import { layOut, type Measure } from "./dimension-layout.ts";
import { fitDrawing } from "./fit-drawing.ts";
import type { Room } from "./label-box.ts";
import { KonvaStage } from "./konva-stage.tsx";
import { DrawingLayer, MarkLayer, RulerLayer } from "./layers.tsx";
import { Note } from "./note.tsx";
import { DIMENSION_TYPE_PX, dimensionFont } from "./paint-dimensions.ts";
import { widthOnCanvas } from "./paint-text.ts";
import { RULER_PX } from "./paint-rulers.ts";
import { pickShape } from "./pick.ts";
import { createPointer } from "./pointer.ts";
import { indexShapes } from "./shape-index.ts";
import { obstaclesOf } from "./obstacles.ts";
import { useColours, useFaces, usePixelRatio, useSize } from "./use-page.ts";
import { useGestures } from "./use-gestures.ts";
import { lookingAt, NO_EDGES, toScreen, toWorld, zoomed, type Edges, type Px, type View } from "./viewport.ts";
import { dimensionText, scaleText, shapeText } from "./words.ts";
import "./board.css";

export interface BoardProps {
  readonly drawing: Drawing;
  /** What is drawn: "Fingerboard". */
  readonly name: string;
  readonly theme: ThemeName;
  readonly units: LengthStyle;
  /** Id of the chosen shape. */
  readonly selection?: string | undefined;
  readonly onSelect: (shape: string | undefined) => void;
  /** The text of a number as the maker typed it; undefined where it was not typed. */
  readonly textOf: (path: string) => string | undefined;
  /** A number typed into a dimension. */
  readonly onEdit: (path: string, text: string) => Edited;
  /** Undefined: all of the drawing is shown, whatever becomes of it and of the board's size. */
  readonly camera?: Camera | undefined;
  readonly onCamera: (camera: Camera | undefined) => void;
  /** A place to show, and the shape that it is about. */
  readonly highlight?: { readonly at: Vec; readonly shape?: string | undefined } | undefined;
  /** Places where the work stops, and the shapes that they are about. */
  readonly stops?: readonly { readonly at: Vec; readonly shape?: string | undefined }[] | undefined;
  /** A Konva stage of an editor, over the board's own; what listens there has its presses to itself. */
  readonly overlay?: ((on: OnBoard) => ReactNode) | undefined;
  /** Canvases under the drawing, which is then drawn without tints. */
  readonly underlay?: ((view: View, ratio: number) => ReactNode) | undefined;
  /** Has the presses and the pointer to itself while it is in hand. */
  readonly tool?: BoardTool | undefined;
  /** px of this screen that make a true mm. */
  readonly trueScale?: number | undefined;
  /** Asked for by the maker where the screen was not measured yet. */
  readonly onMeasureScreen?: (() => void) | undefined;
  /** Strips along the edges that other things cover, px. */
  readonly covered?: Edges | undefined;
}

/** What a stage over the drawing needs to know of the board. */
export interface OnBoard {
  readonly view: View;
  /** Device pixels a px. */
  readonly ratio: number;
  /** To be given to the stage, which is asked by it whether a press is its own. */
  readonly stage: RefObject<Konva.Stage | null>;
}

/** Something in hand that works with places of the drawing. */
export interface BoardTool {
  readonly onPress: (at: Vec, pxPerMm: number, e: { readonly shift: boolean }) => void;
  /** Undefined: the pointer has left the board. */
  readonly onHover?: (at: Vec | undefined, pxPerMm: number) => void;
}

/** By the definition of a CSS px, 96 to the inch, which holds on few screens. */
const USUAL_SCALE = 96 / inside(1, bareUnitOf("in"));
const FIELD_PX = 24;
/** Height of the strip at the foot with the scale. */
const FOOT_PX = 52;

export function Board(props: BoardProps) {
  const {
    drawing,
    name,
    theme,
    units,
    selection,
    onSelect,
    textOf,
    onEdit,
    camera,
    onCamera,
    highlight,
    stops,
    overlay,
    underlay,
    tool,
  } = props;
  const trueScale = props.trueScale ?? USUAL_SCALE;
  const covered = props.covered ?? NO_EDGES;
  const root = useRef<HTMLElement>(null);
  const surface = useRef<HTMLDivElement>(null);
  const stage = useRef<Konva.Stage>(null);
  const size = useSize(root);
  const ratio = usePixelRatio();
  const colours = useColours(theme);
  const faces = useFaces(colours);
  const [pointer] = useState(createPointer);

  const index = useMemo(() => indexShapes(drawing), [drawing]);
  const texts = useMemo(() => drawing.layers.flatMap((layer) => layer.texts ?? []), [drawing]);
  const room = useMemo<Room | undefined>(
    () =>
      size && {
        left: RULER_PX + covered.left + 4,
        top: RULER_PX + covered.top + 4,
        right: size.width - covered.right - 4,
        bottom: size.height - Math.max(covered.bottom, FOOT_PX),
      },
    [size, covered.left, covered.top, covered.right, covered.bottom],
  );
  const measure = useMemo<Measure>(() => {
    const advance = widthOnCanvas()("0", dimensionFont(colours));
    return (dimension: Dimension, brief?: boolean) => {
      const text = dimensionText(dimension, brief ? { ...units, fractions: false } : units);
      const field = dimension.edits !== undefined;
      return {
        text,
        width: Math.ceil(text.length * advance) + (field ? 16 : 8),
        height: field ? FIELD_PX : DIMENSION_TYPE_PX + 5,
      };
    };
    // The faces change what a text measures.
    // eslint-disable-next-line react/exhaustive-deps
  }, [colours, units, faces]);

  const obstacles = useMemo(() => {
    const widthOf = widthOnCanvas();
    return (view: View) => obstaclesOf(index, texts, view, colours, widthOf);
    // eslint-disable-next-line react/exhaustive-deps
  }, [index, texts, colours, faces]);

  const view = useMemo<View | undefined>(
    () =>
      size && room
        ? {
            camera: camera ?? fitDrawing(drawing.focus ?? index.bounds, drawing.dimensions, size, room, measure, obstacles),
            ...size,
          }
        : undefined,
    [size, room, camera, index, drawing, measure, obstacles],
  );
  const placed = useMemo(() => {
    if (!view || !room) return [];
    const order = new Map(drawing.dimensions.map((one, i) => [one.id, i]));
    return layOut(drawing.dimensions, view, room, measure, obstacles(view)).toSorted(
      (a, b) => order.get(a.dimension.id)! - order.get(b.dimension.id)!,
    );
  }, [drawing, view, room, measure, obstacles]);

  const selected = selection === undefined ? undefined : index.byId.get(selection);
  const lit = highlight?.shape === undefined ? undefined : index.byId.get(highlight.shape)?.shape;
  const marks = useMemo(
    () => ({
      selected: selected?.shape,
      highlight: highlight && { at: highlight.at, shape: lit },
      stops: (stops ?? []).map(({ at, shape }) => ({
        at,
        shape: shape === undefined ? undefined : index.byId.get(shape)?.shape,
      })),
    }),
    [selected, highlight, lit, stops, index],
  );

  const reveal = useCallback(
    (p: Vec): void => {
      if (!view || !room) return;
      const { x, y } = toScreen(view, p);
      if (x < room.left || x > room.right || y < room.top || y > room.bottom) onCamera(lookingAt(view.camera, p));
    },
    [view, room, onCamera],
  );
  const shown = useRef<typeof highlight>(undefined);
  useEffect(() => {
    // Once for each place: afterwards the maker may look elsewhere.
    if (highlight === shown.current || !view) return;
    shown.current = highlight;
    if (highlight) reveal(highlight.at);
  }, [highlight, view, reveal]);
  useEffect(() => pointer.setState({ over: undefined }), [pointer, index]);

  const pick = (at: Px, reach?: number) => (view ? pickShape(index, toWorld(view, at), view.camera.pxPerMm, reach) : undefined);
  const zoomBy = (factor: number): void => {
    if (view) onCamera(zoomed(view, { x: view.width / 2, y: view.height / 2 }, factor));
  };
  const trueSize = (): void => {
    if (view) zoomBy(trueScale / view.camera.pxPerMm);
  };
  const fit = (): void => onCamera(undefined);
  const handlers = useGestures(root, surface, {
    view,
    onCamera,
    onFit: fit,
    onTrueSize: trueSize,
    onPress: (at, reach, shift) => {
      if (tool && view) tool.onPress(toWorld(view, at), view.camera.pxPerMm, { shift });
      else onSelect(pick(at, reach)?.shape.id);
    },
    onDoublePress: (at) => {
      if (!tool && !pick(at)) fit();
    },
    onHover: (at) => {
      if (tool && view) tool.onHover?.(at && toWorld(view, at), view.camera.pxPerMm);
      pointer.setState({ at, over: at && !tool ? pick(at) : undefined });
    },
    onEscape: () => onSelect(undefined),
    onStep: (by) => {
      const all = index.all;
      if (all.length === 0) return;
      const now = selected ? all.indexOf(selected) : by > 0 ? -1 : 0;
      const next = all[(now + by + all.length) % all.length]!;
      onSelect(next.shape.id);
      reveal({ x: (next.bounds.minX + next.bounds.maxX) / 2, y: (next.bounds.minY + next.bounds.maxY) / 2 });
    },
    taken: (at) => !!stage.current?.getIntersection(at),
  });

  const drawn = view ? { view, colours, ratio, faces } : undefined;
  const bare = useMemo(() => ({ ...colours, wood: "transparent", inlay: "transparent" }), [colours]);
  return (
    <section ref={root} className="board" aria-label={`Board: ${name}`}>
      <div
        ref={surface}
        className="board-surface"
        role="application"
        // An application takes the keys itself.
        // eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex
        tabIndex={0}
        aria-label={`Drawing of ${name}. Arrow keys move it, plus and minus zoom, F fits it, square brackets step through its lines.`}
        {...handlers}
      >
        {drawn ? (
          <div aria-hidden="true">
            {underlay?.(drawn.view, ratio)}
            <KonvaStage width={drawn.view.width} height={drawn.view.height} ratio={ratio}>
              <DrawingLayer {...drawn} colours={underlay ? bare : colours} index={index} texts={texts} placed={placed} />
              <RulerLayer {...drawn} units={units} />
              <MarkLayer {...drawn} pointer={pointer} marks={marks} />
            </KonvaStage>
            {overlay?.({ view: drawn.view, ratio, stage })}
          </div>
        ) : null}
      </div>
      <DimensionFields
        placed={placed}
        units={units}
        textOf={textOf}
        onEdit={onEdit}
        onOpen={() => pointer.setState({ at: undefined, over: undefined })}
      />
      {view ? (
        <>
          <Note view={view} units={units} pointer={pointer} selected={selected} />
          <div className="board-foot">
            <Button size="icon" label="Zoom out" onClick={() => zoomBy(1 / 1.25)}>
              −
            </Button>
            <Button size="icon" label="Zoom in" onClick={() => zoomBy(1.25)}>
              +
            </Button>
            <Button size="small" onClick={fit}>
              Fit
            </Button>
            <Button size="small" className="board-true" onClick={trueSize}>
              True size
            </Button>
            <span className="board-scale num">
              {scaleText(view.camera.pxPerMm / trueScale)} <span>on this screen</span>
            </span>
            {props.trueScale === undefined && props.onMeasureScreen ? (
              <Button look="link" size="small" className="board-measure" onClick={props.onMeasureScreen}>
                measure it
              </Button>
            ) : null}
          </div>
        </>
      ) : null}
      <output className="unseen">{selected ? `Chosen: ${shapeText(selected.shape, units)}` : ""}</output>
      <BoardInWords drawing={drawing} name={name} units={units} />
    </section>
  );
}
