/** The points on the board, their handles for the finger, the fairness lines and the marks of crossings. */
import type Konva from "konva";
import { useMemo, useState } from "react";
import { Circle, Group, Line, RegularPolygon, Shape } from "react-konva";
import { mirroredPoints } from "../../../geometry/drawn/point.ts";
import { pieceLength, pointAt, tangentAt } from "../../../geometry/segment.ts";
import { selfCrossings } from "../../../geometry/self-crossing.ts";
import { add, dot, leftOf, lerp, scale, sub, unit, vec, type Vec } from "../../../geometry/vec.ts";
import type { ThemeName } from "../../look/theme.ts";
import type { LengthStyle } from "../../../units/format.ts";
import { ticks } from "../ticks.ts";
import { useColours } from "../use-page.ts";
import { toScreen, toWorld, type View } from "../viewport.ts";
import { tracePath } from "../trace.ts";
import { bowed, insertedAt, moved, type Edit } from "./actions.ts";
import { combsOf } from "./fairness.ts";
import { paintPoint, paintReach, plainCanvas, REACH_PX } from "./paint-points.ts";
import { drawnOf, offBoard, onBoard, pointOnBoard, type EditedPoint } from "./points.ts";
import { snapped, type SnapPlaces } from "./snap.ts";
import { nearestPoint, usePointPress } from "./use-point-press.ts";
import type { OutlineEditor } from "./use-outline-editor.ts";

/** A side shorter than this has no room for what puts a point in. */
const LEAST_SIDE_PX = 48;
/** With more points than this, what follows from them is worked out when they are let go. */
const MOST_LIVE = 60;
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
  const [dragged, setDragged] = useState<readonly EditedPoint[]>();
  const points: readonly EditedPoint[] = dragged ?? outline.points;
  const places = useMemo(() => points.map((point) => toScreen(view, pointOnBoard(outline, point))), [points, outline, view]);
  const drawn = useMemo(() => drawnOf(outline, points), [outline, points]);
  // What crosses is looked for while few points are dragged, and when many are let go.
  const crossings = useMemo(
    () => (drawn && !dragged ? selfCrossings(onBoard(outline, drawn.path)) : []),
    [outline, drawn, dragged],
  );

  function placesFor(index: number, together: ReadonlySet<number>): SnapPlaces {
    const px = view.camera.pxPerMm;
    const all = outline.mirrored ? mirroredPoints(outline.points) : outline.points;
    const still = all.filter((_, i) => !together.has(i));
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

  /** The chosen points carried along with the one that is dragged to a place of the drawing. */
  function carried(index: number, to: Vec, together: ReadonlySet<number>, freely: boolean): Edit | undefined {
    const now = { ...editor.now(), chosen: together };
    const point = now.points[index];
    if (!point) return undefined;
    const wanted = offBoard(outline, to);
    const { at } = freely || outline.loose ? { at: wanted } : snapped(wanted, placesFor(index, together));
    return moved(now, vec(at.x - point.x, at.y - point.y));
  }

  const press = usePointPress({
    view,
    placeOf: (index) => pointOnBoard(outline, points[index]!),
    nearest: (at) => nearestPoint(places, at, chosen),
    onChoose: (index, add) => {
      if (!add) return editor.choose([index]);
      editor.choose(chosen.has(index) ? [...chosen].filter((one) => one !== index) : [...chosen, index]);
    },
    onStart: (index) => {
      editor.hold(view.camera);
      if (!chosen.has(index)) editor.choose([index]);
    },
    onDrag: (index, to, freely, last) => {
      const edit = carried(index, to, chosen.has(index) ? chosen : new Set([index]), freely);
      if (!edit) return;
      // With many points all that follows from them is worked out when they are let go; here they move at once.
      const light = edit.points.length > MOST_LIVE;
      setDragged(light && !last ? edit.points : undefined);
      if (last) editor.say(edit);
      else if (!light) editor.show(edit);
    },
  });

  /** The arc through its ends and the place to which its handle is dragged, brought square to its chord. */
  function bowTo(e: Konva.KonvaEventObject<DragEvent>, index: number, last: boolean): void {
    const base = drawnOf(outline, editor.now().points)?.sides[outline.before.length + index];
    if (!base) return;
    const chord = sub(base.segment.to, base.from);
    const at = offBoard(outline, toWorld(view, e.target.position()));
    const right = scale(leftOf(unit(chord)), -1);
    const rise = dot(sub(at, lerp(base.from, base.segment.to, 0.5)), right);
    e.target.position(toScreen(view, pointOnBoard(outline, add(lerp(base.from, base.segment.to, 0.5), scale(right, rise)))));
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
  const inner = only !== undefined && points[only]?.side === "arc" ? 0.25 : 0.5;
  const side = only === undefined || dragged ? undefined : drawn?.sides[outline.before.length + only];

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
          if (dragged && drawn) {
            context.beginPath();
            tracePath(plainCanvas(context), onBoard(outline, drawn.path), view);
            context.setAttr("strokeStyle", colours.pen);
            context.setAttr("lineWidth", 1.5);
            context.stroke();
          }
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
      <Shape
        name="points"
        onPointerDown={press}
        sceneFunc={(context) => {
          places.forEach((place, i) => paintPoint(context, place, points[i]!.kind, colours.board, colours.pen));
          // Those that are chosen on top, however close the others stand.
          for (const i of chosen) {
            const place = places[i];
            if (!place) continue;
            paintReach(context, place, colours.pen);
            paintPoint(context, place, points[i]!.kind, colours.pen, colours.pen);
          }
        }}
        hitFunc={(context, shape) => {
          context.beginPath();
          for (const { x, y } of places) {
            context.moveTo(x + REACH_PX / 2, y);
            context.arc(x, y, REACH_PX / 2, 0, 2 * Math.PI);
          }
          context.fillShape(shape);
        }}
        fill={colours.pen}
      />
      {side && only !== undefined && side.segment.kind === "arc" ? (
        <Group
          name="bow"
          {...toScreen(view, pointOnBoard(outline, pointAt(side, 0.5)))}
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
      {side && only !== undefined && pieceLength(side) * view.camera.pxPerMm > LEAST_SIDE_PX ? (
        <Group
          {...toScreen(view, pointOnBoard(outline, pointAt(side, inner)))}
          onClick={() => editor.say(insertedAt(outline, editor.now().points, only, inner))}
          onTap={() => editor.say(insertedAt(outline, editor.now().points, only, inner))}
        >
          <Circle radius={9} fill={colours.sheet} stroke={colours.pen} strokeWidth={1} dash={[3, 2]} />
          <Line points={[-4, 0, 4, 0]} stroke={colours.pen} strokeWidth={1.5} />
          <Line points={[0, -4, 0, 4]} stroke={colours.pen} strokeWidth={1.5} />
        </Group>
      ) : null}
    </>
  );
}
