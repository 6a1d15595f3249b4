/** The points on the board, their handles for the finger, the fairness lines and the marks of crossings. */
import type Konva from "konva";
import { useMemo } from "react";
import { Circle, Group, Line, Rect, RegularPolygon, Shape } from "react-konva";
import { mirroredPoints } from "../../../geometry/drawn/point.ts";
import { pointAt, tangentAt } from "../../../geometry/segment.ts";
import { selfCrossings } from "../../../geometry/self-crossing.ts";
import { add, dot, leftOf, lerp, scale, sub, unit, vec, type Vec } from "../../../geometry/vec.ts";
import type { ThemeName } from "../../look/theme.ts";
import type { LengthStyle } from "../../../units/format.ts";
import { ticks } from "../ticks.ts";
import { useColours } from "../use-page.ts";
import { toScreen, toWorld, type View } from "../viewport.ts";
import { bowed, insertedAt, moved } from "./actions.ts";
import { combsOf } from "./fairness.ts";
import { drawnOf, onBoard, pointOnBoard } from "./points.ts";
import { snapped, type SnapPlaces } from "./snap.ts";
import type { OutlineEditor } from "./use-outline-editor.ts";

const SIZE_PX = 5;
/** What a finger finds about a point. */
const REACH_PX = 22;
const SNAP_PX = 8;
const COMB_PX = 26;

interface PointsLayerProps {
  readonly editor: OutlineEditor;
  readonly view: View;
  readonly theme: ThemeName;
  readonly units: LengthStyle;
}

/** The finest division that the rulers show, mm. */
function gridOf(pxPerMm: number, units: LengthStyle): number {
  const [a, b] = ticks(0, 200 / pxPerMm, pxPerMm, units);
  return a && b ? b.at - a.at : 1;
}

export function PointsLayer({ editor, view, theme, units }: PointsLayerProps) {
  const { outline, chosen, fairness } = editor;
  const colours = useColours(theme);
  const drawn = useMemo(() => drawnOf(outline, outline.points), [outline]);
  const crossings = useMemo(() => (drawn ? selfCrossings(onBoard(outline, drawn.path)) : []), [outline, drawn]);

  function placesFor(index: number): SnapPlaces {
    const px = view.camera.pxPerMm;
    const all = outline.mirrored ? mirroredPoints(outline.points) : outline.points;
    const still = all.filter((_, i) => !chosen.has(i) && i !== index);
    const fixed = [...outline.before, ...outline.after];
    const sides = drawn?.sides ?? [];
    const at = outline.before.length + index;
    const straight = [at - 2, at + 1].flatMap((i) => {
      const side = sides[(i + sides.length) % Math.max(1, sides.length)];
      const way = side?.segment.kind === "line" ? tangentAt(side, 0.5) : undefined;
      return side && way ? [{ at: side.from, direction: way }] : [];
    });
    return {
      on: editor.snaps,
      reach: SNAP_PX / px,
      grid: gridOf(px, units),
      points: [...still, ...fixed].map(({ x, y }) => vec(x, y)),
      strings: outline.guides,
      tangents: straight,
    };
  }

  function dragTo(e: Konva.KonvaEventObject<DragEvent>, index: number, last: boolean): void {
    const point = editor.now().points[index];
    if (!point) return;
    const board = toWorld(view, e.target.position());
    const wanted = sub(board, outline.origin);
    const { at } = e.evt.altKey ? { at: wanted } : snapped(wanted, placesFor(index));
    const by = vec(at.x - point.x, at.y - point.y);
    const now = chosen.has(index) ? editor.now() : { ...editor.now(), chosen: new Set([index]) };
    const edit = moved(now, by);
    e.target.position(toScreen(view, pointOnBoard(outline, edit.points[index]!)));
    if (last) editor.say(edit);
    else editor.show(edit);
  }

  /** The arc through its ends and the place to which its handle is dragged, brought square to its chord. */
  function bowTo(e: Konva.KonvaEventObject<DragEvent>, index: number, last: boolean): void {
    const base = drawnOf(outline, editor.now().points)?.sides[outline.before.length + index];
    if (!base) return;
    const chord = sub(base.segment.to, base.from);
    const at = sub(toWorld(view, e.target.position()), outline.origin);
    const right = scale(leftOf(unit(chord)), -1);
    const rise = dot(sub(at, lerp(base.from, base.segment.to, 0.5)), right);
    e.target.position(toScreen(view, add(outline.origin, add(lerp(base.from, base.segment.to, 0.5), scale(right, rise)))));
    const edit = bowed(editor.now(), index, rise);
    if (last) editor.say(edit);
    else editor.show(edit);
  }

  const combs =
    fairness && drawn
      ? combsOf(
          onBoard(outline, drawn.path),
          10 / view.camera.pxPerMm,
          900 / view.camera.pxPerMm,
          (COMB_PX * 2) / view.camera.pxPerMm,
        )
      : [];
  const only = chosen.size === 1 ? [...chosen][0] : undefined;
  const side = only === undefined ? undefined : drawn?.sides[outline.before.length + only];

  return (
    <>
      <Shape
        listening={false}
        sceneFunc={(context) => {
          const stroke = (points: readonly Vec[], colour: string, width: number): void => {
            context.beginPath();
            points.forEach((p, i) => {
              const { x, y } = toScreen(view, p);
              if (i === 0) context.moveTo(x, y);
              else context.lineTo(x, y);
            });
            context.setAttr("strokeStyle", colour);
            context.setAttr("lineWidth", width);
            context.stroke();
          };
          for (const comb of combs) {
            for (const { foot, tip } of comb) stroke([foot, tip], colours.soft, 0.75);
            stroke(
              comb.map(({ tip }) => tip),
              colours.pen,
              1.25,
            );
          }
          for (const p of crossings) {
            const { x, y } = toScreen(view, p);
            context.beginPath();
            context.arc(x, y, 12, 0, 2 * Math.PI);
            context.setAttr("strokeStyle", colours.ink);
            context.setAttr("lineWidth", 2.5);
            context.stroke();
          }
        }}
      />
      {outline.points.map((point, i) => {
        const isChosen = chosen.has(i);
        const place = toScreen(view, pointOnBoard(outline, point));
        const look = {
          fill: isChosen ? colours.pen : colours.board,
          stroke: colours.pen,
          strokeWidth: 1.75,
        };
        return (
          <Group
            key={`point-${i + 1}`}
            name={`point-${i + 1}`}
            {...place}
            draggable
            dragDistance={3}
            onMouseDown={(e) => (e.evt.shiftKey ? undefined : isChosen ? undefined : editor.choose([i]))}
            onTap={() => editor.choose(isChosen && chosen.size > 1 ? [...chosen].filter((one) => one !== i) : [i])}
            onClick={(e) => {
              if (!e.evt.shiftKey) return editor.choose([i]);
              editor.choose(isChosen ? [...chosen].filter((one) => one !== i) : [...chosen, i]);
            }}
            onDragStart={() => {
              editor.hold(view.camera);
              if (!isChosen) editor.choose([i]);
            }}
            onDragMove={(e) => dragTo(e, i, false)}
            onDragEnd={(e) => dragTo(e, i, true)}
          >
            <Circle radius={REACH_PX / 2} fill={colours.pen} opacity={isChosen ? 0.14 : 0} />
            {point.kind === "corner" ? (
              <Rect x={-SIZE_PX} y={-SIZE_PX} width={2 * SIZE_PX} height={2 * SIZE_PX} {...look} />
            ) : point.kind === "fair" ? (
              <Circle radius={SIZE_PX + 0.5} {...look} />
            ) : (
              <RegularPolygon sides={4} radius={SIZE_PX + 2.5} {...look} />
            )}
          </Group>
        );
      })}
      {side && only !== undefined && side.segment.kind === "arc" ? (
        <Group
          name="bow"
          {...toScreen(view, add(outline.origin, pointAt(side, 0.5)))}
          draggable
          dragDistance={3}
          onDragStart={() => editor.hold(view.camera)}
          onDragMove={(e) => bowTo(e, only, false)}
          onDragEnd={(e) => bowTo(e, only, true)}
        >
          <Circle radius={REACH_PX / 2} fill={colours.pen} opacity={0.14} />
          <RegularPolygon sides={3} radius={7} fill={colours.board} stroke={colours.pen} strokeWidth={1.75} />
        </Group>
      ) : null}
      {side && only !== undefined ? (
        <Group
          {...toScreen(view, add(outline.origin, pointAt(side, side.segment.kind === "arc" ? 0.25 : 0.5)))}
          onClick={() => editor.say(insertedAt(outline, editor.now().points, only, 0.5))}
          onTap={() => editor.say(insertedAt(outline, editor.now().points, only, 0.5))}
        >
          <Circle radius={9} fill={colours.sheet} stroke={colours.pen} strokeWidth={1} dash={[3, 2]} />
          <Line points={[-4, 0, 4, 0]} stroke={colours.pen} strokeWidth={1.5} />
          <Line points={[0, -4, 0, 4]} stroke={colours.pen} strokeWidth={1.5} />
        </Group>
      ) : null}
    </>
  );
}
