/**
 * A Konva stage of the board: a layer with one shape for each thing that is painted, in the order in which they stand. Konva is spoken to directly, since
 * its React layer is as large as React and is needed only where something on the board is taken hold of (`tools/over-board.tsx`).
 */
import { Konva } from "konva/lib/Global.js";
import { Layer } from "konva/lib/Layer.js";
import { Shape } from "konva/lib/Shape.js";
import { Stage } from "konva/lib/Stage.js";
import { createContext, useContext, useLayoutEffect, useRef, useState, type ReactNode } from "react";

const OnStage = createContext<Stage | undefined>(undefined);

interface KonvaStageProps {
  /** px */
  readonly width: number;
  readonly height: number;
  /** Device pixels a px. */
  readonly ratio: number;
  readonly children: ReactNode;
}

/** Another size is another stage: each layer is painted once, when it is put on. */
export const KonvaStage = (props: KonvaStageProps) => (
  <StageOfSize key={`${props.width} ${props.height} ${props.ratio}`} {...props} />
);

function StageOfSize({ width, height, ratio, children }: KonvaStageProps) {
  const element = useRef<HTMLDivElement>(null);
  const [stage, setStage] = useState<Stage>();
  useLayoutEffect(() => {
    Konva.pixelRatio = ratio;
    const made = new Stage({ container: element.current!, width, height, listening: false });
    setStage(made);
    return () => {
      quietly(() => made.destroy());
    };
  }, [width, height, ratio]);
  return (
    <div ref={element} className="board-painted">
      {stage ? <OnStage value={stage}>{children}</OnStage> : null}
    </div>
  );
}

/** A shape that paints in px on a canvas that is empty: at once when the stage is new, with the next frame after other changes. */
export function Painted({ paint }: { readonly paint: (canvas: CanvasRenderingContext2D) => void }) {
  const stage = useContext(OnStage);
  const paints = useRef(paint);
  const painted = useRef<Layer>(null);
  useLayoutEffect(() => {
    paints.current = paint;
    painted.current?.batchDraw();
  });
  useLayoutEffect(() => {
    if (!stage) return undefined;
    const layer = quietly(() => {
      const made = new Layer({ listening: false });
      made.add(
        new Shape({
          sceneFunc: (context) => {
            // Konva wraps every call of the canvas; thousands of lines go to the canvas itself.
            // eslint-disable-next-line no-underscore-dangle
            const canvas = context._context;
            canvas.save();
            paints.current(canvas);
            canvas.restore();
          },
        }),
      );
      stage.add(made);
      return made;
    });
    painted.current = layer;
    return () => {
      painted.current = null;
      quietly(() => layer.destroy());
    };
  }, [stage]);
  return null;
}

/** Without the further picture that Konva asks for at whatever is made, put on a stage or taken off. */
function quietly<T>(change: () => T): T {
  const before = Konva.autoDrawEnabled;
  Konva.autoDrawEnabled = false;
  try {
    return change();
  } finally {
    Konva.autoDrawEnabled = before;
  }
}
