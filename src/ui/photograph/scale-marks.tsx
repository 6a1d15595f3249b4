/** The marks on a photograph while it is brought to scale: each to be dragged, or put by a press on the board. */
import { Circle, Group, Line, Shape, Text } from "react-konva";
import { inverse, transformPoint, type Affine } from "../../geometry/transform.ts";
import { vec } from "../../geometry/vec.ts";
import type { Colours } from "../board/colours.ts";
import { toScreen, toWorld, type View } from "../board/viewport.ts";
import { marksIn, type Scaling } from "./use-scaling.ts";

const REACH_PX = 22;
const ARM_PX = 13;

interface ScaleMarksProps {
  readonly scaling: Scaling;
  /** From the photograph's pixels to the drawing. */
  readonly toBoard: Affine;
  readonly view: View;
  readonly colours: Colours;
}

export function ScaleMarks({ scaling, toBoard, view, colours }: ScaleMarksProps) {
  const { draft } = scaling;
  if (!draft) return null;
  const places = draft.marks.slice(0, marksIn(draft)).map(([x, y]) => toScreen(view, transformPoint(toBoard, vec(x, y))));
  const lines = draft.by === "points" ? [[0, 1]] : [[0, 1], [1, 2], [2, 3], [3, 0], ...(places.length > 4 ? [[4, 5]] : [])];
  return (
    <>
      <Shape
        listening={false}
        sceneFunc={(context) => {
          for (const [colour, width] of [
            [colours.sheet, 3.5],
            [colours.pen, 1.5],
          ] as const) {
            context.setAttr("strokeStyle", colour);
            context.setAttr("lineWidth", width);
            for (const [a, b] of lines) {
              context.beginPath();
              context.moveTo(places[a!]!.x, places[a!]!.y);
              context.lineTo(places[b!]!.x, places[b!]!.y);
              context.stroke();
            }
          }
        }}
      />
      {places.map(({ x, y }, i) => (
        <Group
          key={`mark-${i + 1}`}
          name={`mark-${i + 1}`}
          x={x}
          y={y}
          draggable
          onMouseDown={() => scaling.change({ chosen: i })}
          onTouchStart={() => scaling.change({ chosen: i })}
          onDragMove={(e) => {
            const at = transformPoint(inverse(toBoard), toWorld(view, e.target.position()));
            scaling.put(i, [at.x, at.y]);
          }}
        >
          <Circle radius={REACH_PX / 2} fill={colours.sheet} opacity={draft.chosen === i ? 0.45 : 0.2} />
          {(["sheet", "pen"] as const).map((ink) => (
            <Group key={ink} listening={false}>
              <Line points={[-ARM_PX, 0, ARM_PX, 0]} stroke={colours[ink]} strokeWidth={ink === "sheet" ? 3.5 : 1.5} />
              <Line points={[0, -ARM_PX, 0, ARM_PX]} stroke={colours[ink]} strokeWidth={ink === "sheet" ? 3.5 : 1.5} />
            </Group>
          ))}
          {draft.chosen === i ? <Circle radius={REACH_PX / 2} stroke={colours.pen} strokeWidth={2} listening={false} /> : null}
          <Text
            x={12}
            y={8}
            text={`${i + 1}`}
            fontFamily={colours.numbers}
            fontStyle="600"
            fontSize={14}
            fill={colours.ink}
            stroke={colours.sheet}
            strokeWidth={3}
            fillAfterStrokeEnabled
            listening={false}
          />
        </Group>
      ))}
    </>
  );
}
