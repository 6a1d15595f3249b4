import { useMemo } from "react";
import type { Drawing } from "../drawing/drawing.ts";
import type { Derived } from "../parts/derived.ts";
import { arrange } from "../parts/general-arrangement.ts";
import { DrawingSvg } from "./drawing-svg.tsx";

/** The whole instrument with all parts in place; the first part where none has a place. */
export function Thumbnail({ derived, frontOnly = false }: { readonly derived: Derived; readonly frontOnly?: boolean }) {
  const drawing = useMemo(() => {
    const whole = arrange(derived).drawing;
    if (whole.layers.length > 0) return frontOnly ? frontOf(whole) : whole;
    const part = derived.parts.find((one) => one.problems.length === 0) ?? derived.instrument;
    return part.problems.length > 0 ? undefined : part.drawing();
  }, [derived, frontOnly]);
  return drawing ? <DrawingSvg drawing={drawing} says="" small /> : null;
}

/** Without what is seen from the side, and its heading. */
const frontOf = ({ layers }: Drawing): Drawing => ({
  layers: layers.filter(({ shapes }) => shapes.length > 0 && !shapes.some(({ id }) => id.includes("/side/"))),
  dimensions: [],
});
