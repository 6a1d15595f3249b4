/** The small note beside what is pointed at or chosen: what it is, and its numbers. */
import { useStore } from "zustand";
import type { LengthStyle } from "../../units/format.ts";
import type { PointerStore } from "./pointer.ts";
import type { Indexed } from "./shape-index.ts";
import { toScreen, type Px, type View } from "./viewport.ts";
import { shapeNumbers } from "./words.ts";

export interface NoteProps {
  readonly view: View;
  readonly units: LengthStyle;
  readonly pointer: PointerStore;
  readonly selected: Indexed | undefined;
}

export function Note({ view, units, pointer, selected }: NoteProps) {
  const { at, over } = useStore(pointer);
  const one = over ?? selected;
  if (!one) return null;
  const place = over && at ? at : middleOf(one, view);
  if (place.x < 0 || place.y < 0 || place.x > view.width || place.y > view.height) return null;
  const numbers = shapeNumbers(one.shape, units);
  const side = place.x > view.width / 2 ? { right: view.width - place.x + 14 } : { left: place.x + 14 };
  const level = place.y > view.height / 2 ? { bottom: view.height - place.y + 14 } : { top: place.y + 14 };
  return (
    // Said by the live region where it is chosen; under the pointer it is for the eye alone.
    <div className="board-note" style={{ ...side, ...level }} aria-hidden="true">
      <strong>{one.shape.name}</strong>
      {numbers.length > 0 ? (
        <dl>
          {numbers.map(({ label, value }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      ) : null}
    </div>
  );
}

const middleOf = ({ bounds }: Indexed, view: View): Px =>
  toScreen(view, { x: (bounds.minX + bounds.maxX) / 2, y: (bounds.minY + bounds.maxY) / 2 });
