/** The offcut at true proportion with its pieces: dragged, turned by keys, each told to those who do not see it. */
import { useRef, type KeyboardEvent, type PointerEvent } from "react";
import { mapOf, type LaidPiece } from "../../checks/offcut.ts";
import { joinBounds } from "../../geometry/bounds.ts";
import { pathBounds } from "../../geometry/measure.ts";
import type { Path } from "../../geometry/path.ts";
import { transformPath } from "../../geometry/transform.ts";
import { offsetPath } from "../../geometry/offset.ts";
import { pathData } from "../../export/svg/path-data.ts";
import type { MeasuresByKind } from "../../parts/contract.ts";
import type { DerivedPart } from "../../parts/derived.ts";
import { commitPreviews } from "../../store/commands/commit-previews.ts";
import { editValue } from "../../store/commands/edit-value.ts";
import { dropPreviews, preview } from "../../store/session-store.ts";
import { useBench } from "../bench.ts";
import { ShapeSvg } from "../drawing-svg.tsx";

interface BoardProps {
  readonly part: DerivedPart;
  readonly offcut: MeasuresByKind["offcut"];
  readonly laid: readonly LaidPiece[];
  readonly picked: number | undefined;
  readonly onPick: (index: number) => void;
}

const flipped = (p: { readonly x: number; readonly y: number }) => ({ x: p.x, y: -p.y });
const dataOf = (paths: readonly Path[]): string => paths.map((path) => pathData(path, flipped)).join("");

interface Drag {
  readonly index: number;
  readonly from: { readonly x: number; readonly y: number };
  readonly pose: { readonly x: number; readonly y: number };
  moved: boolean;
}

export function OffcutBoard({ part, offcut, laid, picked, onPick }: BoardProps) {
  const bench = useBench();
  const svg = useRef<SVGSVGElement>(null);
  const drag = useRef<Drag>(undefined);
  const drawing = part.drawing();
  const box = joinBounds([
    ...(offcut.outline ? [pathBounds(offcut.outline)] : []),
    ...laid.flatMap(({ own, pose }) => (own ? [pathBounds(transformPath(mapOf(pose), own.outline))] : [])),
  ]);
  const margin = Math.max(box.maxX - box.minX, box.maxY - box.minY) * 0.03;

  function pointOf(event: PointerEvent): { x: number; y: number } | undefined {
    const matrix = svg.current?.getScreenCTM()?.inverse();
    if (!matrix) return undefined;
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix);
    return { x: at.x, y: -at.y };
  }

  const pathOf = (index: number, key: "x" | "y" | "turn"): string => `${part.path}.pieces[${index}].${key}`;

  function press(event: PointerEvent<SVGGElement>, piece: LaidPiece): void {
    const from = pointOf(event);
    if (!from || event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    onPick(piece.index);
    drag.current = { index: piece.index, from, pose: piece.pose, moved: false };
  }

  function move(event: PointerEvent<SVGGElement>): void {
    const now = drag.current && pointOf(event);
    if (!now || !drag.current) return;
    const { index, from, pose } = drag.current;
    drag.current.moved = true;
    preview(bench.session, pathOf(index, "x"), tenth(pose.x + now.x - from.x));
    preview(bench.session, pathOf(index, "y"), tenth(pose.y + now.y - from.y));
  }

  function release(): void {
    if (drag.current?.moved) commitPreviews(bench);
    drag.current = undefined;
  }

  function key(event: KeyboardEvent<SVGGElement>, { index, pose }: LaidPiece): void {
    const step = event.shiftKey ? 10 : event.altKey ? 0.1 : 1;
    const gesture = `lay ${index}`;
    const by = { ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, step], ArrowDown: [0, -step] }[event.key];
    if (by) {
      event.preventDefault();
      if (by[0]) editValue(bench, pathOf(index, "x"), tenth(pose.x + by[0]!), gesture);
      if (by[1]) editValue(bench, pathOf(index, "y"), tenth(pose.y + by[1]!), gesture);
    } else if (event.key === "[" || event.key === "]") {
      event.preventDefault();
      const turn = ((pose.turn - offcut.grain) * 180) / Math.PI + (event.key === "]" ? -step : step);
      editValue(bench, pathOf(index, "turn"), `${Number(turn.toFixed(4))} deg`, gesture);
    } else if (event.key === "Escape") {
      drag.current = undefined;
      dropPreviews(bench.session);
    }
  }

  return (
    <div className="offcut-board">
      <svg
        ref={svg}
        className="dsvg offcut-svg"
        viewBox={`${box.minX - margin} ${-box.maxY - margin} ${box.maxX - box.minX + 2 * margin} ${box.maxY - box.minY + 2 * margin}`}
        aria-label="The offcut with what is laid on it"
        // A picture with pieces to take hold of: neither a fieldset nor details.
        // eslint-disable-next-line jsx-a11y/prefer-tag-over-role
        role="group"
      >
        {drawing.layers.flatMap((layer) => layer.shapes.map((shape) => <ShapeSvg key={shape.id} shape={shape} />))}
        {laid.map((piece) => (
          <Piece
            key={piece.index}
            piece={piece}
            picked={piece.index === picked}
            onPress={(event) => press(event, piece)}
            onMove={move}
            onRelease={release}
            onKey={(event) => key(event, piece)}
            onFocus={() => onPick(piece.index)}
          />
        ))}
      </svg>
      <p className="note offcut-keys">
        Drag a piece, or with the piece in focus: arrows move it by 1 mm (Shift 10, Alt 0.1), [ and ] turn it.
      </p>
    </div>
  );
}

const tenth = (mm: number): number => Number(mm.toFixed(2));

function Piece({
  piece,
  picked,
  onPress,
  onMove,
  onRelease,
  onKey,
  onFocus,
}: {
  readonly piece: LaidPiece;
  readonly picked: boolean;
  readonly onPress: (event: PointerEvent<SVGGElement>) => void;
  readonly onMove: (event: PointerEvent<SVGGElement>) => void;
  readonly onRelease: () => void;
  readonly onKey: (event: KeyboardEvent<SVGGElement>) => void;
  readonly onFocus: () => void;
}) {
  const { own, placed, pose, spare, lie } = piece;
  if (!own || !placed) return null;
  const state = spare === undefined || !lie ? "look" : spare >= 0 ? "fine" : lie.spare > 0 ? "look" : "stop";
  const map = mapOf(pose);
  const allowance = placed.wood.value?.allowance ?? 0;
  const rough = allowance > 0 ? offsetPath(own.outline, allowance).map(({ outer }) => transformPath(map, outer)) : [];
  const outline = transformPath(map, own.outline);
  const label = transformPath(map, { start: { x: 0, y: 0 }, segments: [], closed: false }).start;
  const size = Math.min(own.size.maxX - own.size.minX, own.size.maxY - own.size.minY);
  return (
    <g
      className={`offcut-piece offcut-${state}`}
      data-picked={picked ? "" : undefined}
      // HTML buttons do not live in a drawing.
      // eslint-disable-next-line jsx-a11y/prefer-tag-over-role
      role="button"
      aria-roledescription="piece laid on the wood"
      aria-label={`${piece.index + 1}. ${placed.blank.title}, ${state === "fine" ? "lies in the wood" : state === "look" ? "its allowance is short" : "reaches out of the wood"}`}
      aria-pressed={picked}
      tabIndex={0}
      onPointerDown={onPress}
      onPointerMove={onMove}
      onPointerUp={onRelease}
      onPointerCancel={onRelease}
      onKeyDown={onKey}
      onFocus={onFocus}
    >
      <path className="offcut-rough" d={dataOf(rough)} />
      <path
        className="offcut-own"
        d={dataOf([outline, ...own.holes.map((hole) => transformPath(map, hole))])}
        fillRule="evenodd"
      />
      <text
        x={label.x}
        y={-label.y}
        fontSize={Math.min(12, Math.max(4, size * 0.28))}
        textAnchor="middle"
        dominantBaseline="central"
      >
        {piece.index + 1}
      </text>
    </g>
  );
}
