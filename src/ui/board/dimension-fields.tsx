/** The dimensions that can be typed into: a button at the place of each text, and the field that it opens. */
import { useEffect, useId, useRef, useState } from "react";
import type { Dimension } from "../../drawing/drawing.ts";
import type { Result } from "../../units/result.ts";
import type { LengthStyle } from "../../units/format.ts";
import type { Placed } from "./dimension-layout.ts";
import { typedText } from "./words.ts";

/** What comes of typing a number: done, or why not and what to do. */
export type Edited = Result<unknown, { readonly message: string; readonly mend: string }>;

export interface DimensionFieldsProps {
  /** In the order of the drawing, which is the order of the Tab key. */
  readonly placed: readonly Placed[];
  readonly units: LengthStyle;
  /** The text as the maker typed it; undefined if the number was not typed. */
  readonly textOf: (path: string) => string | undefined;
  readonly onEdit: (path: string, text: string) => Edited;
  readonly onOpen: () => void;
}

export function DimensionFields({ placed, units, textOf, onEdit, onOpen }: DimensionFieldsProps) {
  const [open, setOpen] = useState<string>();
  // One that has lost its place, since the view or the drawing has changed, is not being typed into any more.
  if (open !== undefined && !placed.some((one) => one.dimension.id === open)) setOpen(undefined);
  const last = useRef<string>(undefined);
  const buttons = useRef(new Map<string, HTMLButtonElement>());
  useEffect(() => {
    // The keyboard goes back to where it came from.
    if (open === undefined && last.current !== undefined) buttons.current.get(last.current)?.focus();
    last.current = open;
  }, [open]);
  return placed.map((one) => {
    const { id, edits } = one.dimension;
    if (edits === undefined) return null;
    if (open === id) {
      return (
        <DimensionEditor
          key={id}
          placed={one}
          first={textOf(edits) ?? typedText(one.dimension, units)}
          onEdit={(text) => onEdit(edits, text)}
          onClose={() => setOpen(undefined)}
        />
      );
    }
    return (
      <button
        key={id}
        ref={(button) => {
          if (button) buttons.current.set(id, button);
          else buttons.current.delete(id);
        }}
        type="button"
        className="board-dimension"
        style={{
          left: one.box.centre.x,
          top: one.box.centre.y,
          width: one.box.width,
          height: one.box.height,
          rotate: `${one.box.angle}rad`,
        }}
        aria-label={`${one.text}: change`}
        onClick={() => {
          onOpen();
          setOpen(id);
        }}
      >
        {one.text}
      </button>
    );
  });
}

interface DimensionEditorProps {
  readonly placed: Placed;
  readonly first: string;
  readonly onEdit: (text: string) => Edited;
  readonly onClose: () => void;
}

function DimensionEditor({ placed, first, onEdit, onClose }: DimensionEditorProps) {
  const [text, setText] = useState(first);
  const [trouble, setTrouble] = useState<string>();
  const field = useRef<HTMLInputElement>(null);
  const says = useId();
  useEffect(() => field.current?.select(), []);
  const commit = (): void => {
    if (text.trim() === first.trim()) return onClose();
    const edited = onEdit(text);
    if (edited.ok) onClose();
    else setTrouble(`${upperFirst(edited.error.message)}. ${edited.error.mend}`);
  };
  return (
    <div className="board-editor" style={besideEdges(placed)}>
      <input
        ref={field}
        value={text}
        size={Math.max(8, text.length + 1)}
        aria-label={labelOf(placed.dimension)}
        aria-invalid={trouble !== undefined}
        aria-describedby={trouble === undefined ? undefined : says}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        // The maker has just pressed this very number.
        // eslint-disable-next-line jsx-a11y/no-autofocus
        autoFocus
        onChange={(e) => {
          setText(e.target.value);
          setTrouble(undefined);
        }}
        onKeyDown={(e) => {
          e.stopPropagation();
          if (e.key !== "Enter" && e.key !== "Escape") return;
          // The focus goes back to the button at once, and this very press must not press it.
          e.preventDefault();
          if (e.key === "Enter") commit();
          else onClose();
        }}
        onBlur={commit}
      />
      <p id={says} role="alert" className="board-trouble" hidden={trouble === undefined}>
        {trouble}
      </p>
    </div>
  );
}

/** At the place of the text, but with room for the field and what is said below it. */
const besideEdges = ({ box: { centre } }: Placed) => ({
  left: `clamp(6rem, ${centre.x}px, calc(100% - 12rem))`,
  top: `clamp(3.5rem, ${centre.y}px, calc(100% - 7rem))`,
});

const labelOf = ({ after, before }: Dimension): string =>
  after ? `Length ${after}` : before === "R" ? "Radius" : before ? "Diameter" : "Length";
const upperFirst = (words: string): string => words.slice(0, 1).toUpperCase() + words.slice(1);
