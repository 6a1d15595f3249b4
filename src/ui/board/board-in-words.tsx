/** The drawing for those who do not see it: its dimensions and what it holds, layer by layer. */
import { memo } from "react";
import type { Drawing } from "../../drawing/drawing.ts";
import type { LengthStyle } from "../../units/format.ts";
import { dimensionText, shapeText } from "./words.ts";

/** A layer with more shapes than this is told by its first and last ones. */
const MOST = 40;

export const BoardInWords = memo(function BoardInWords({
  drawing,
  name,
  units,
}: {
  readonly drawing: Drawing;
  readonly name: string;
  readonly units: LengthStyle;
}) {
  return (
    <div className="unseen">
      <h3>{name} in words</h3>
      {drawing.dimensions.length > 0 ? (
        <>
          <h4>Dimensions</h4>
          <ul>
            {drawing.dimensions.map((one) => (
              <li key={one.id}>{dimensionText(one, units)}</li>
            ))}
          </ul>
        </>
      ) : null}
      {drawing.layers
        .filter(({ shapes }) => shapes.length > 0)
        .map(({ name: layer, shapes }) => (
          <div key={layer}>
            <h4>
              {layer.replaceAll("-", " ")}, {shapes.length}
            </h4>
            <ul>
              {(shapes.length > MOST ? [...shapes.slice(0, MOST - 1), shapes.at(-1)!] : shapes).map((shape) => (
                <li key={shape.id}>{shapeText(shape, units)}</li>
              ))}
            </ul>
          </div>
        ))}
    </div>
  );
});
