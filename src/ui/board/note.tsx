/** What a shape is and its numbers: beside the pointer for what is under it, in the lower left corner for what is chosen. */
import type { CSSProperties } from "react";
import { useStore } from "zustand";
import type { LengthStyle } from "../../units/format.ts";
import type { PointerStore } from "./pointer.ts";
import type { Indexed } from "./shape-index.ts";
import type { View } from "./viewport.ts";
import { shapeNumbers } from "./words.ts";

/** From the pointer to the note, px. */
const AWAY_PX = 14;

export interface NoteProps {
  readonly view: View;
  readonly units: LengthStyle;
  readonly pointer: PointerStore;
  readonly selected: Indexed | undefined;
}

export function Note({ view, units, pointer, selected }: NoteProps) {
  const { at, over } = useStore(pointer);
  const chosen = selected ? <Numbers one={selected} units={units} className="board-note-chosen" style={{}} /> : null;
  if (!over || !at || over === selected) return chosen;
  const side = at.x > view.width / 2 ? { right: view.width - at.x + AWAY_PX } : { left: at.x + AWAY_PX };
  const level = at.y > view.height / 2 ? { bottom: view.height - at.y + AWAY_PX } : { top: at.y + AWAY_PX };
  return (
    <>
      {chosen}
      <Numbers one={over} units={units} className="" style={{ ...side, ...level }} />
    </>
  );
}

interface NumbersProps {
  readonly one: Indexed;
  readonly units: LengthStyle;
  readonly className: string;
  readonly style: CSSProperties;
}

function Numbers({ one: { shape }, units, className, style }: NumbersProps) {
  const numbers = shapeNumbers(shape, units);
  return (
    // Said by the live region where it is chosen; under the pointer it is for the eye alone.
    <div className={`board-note ${className}`} style={style} aria-hidden="true">
      <strong>{shape.name}</strong>
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
