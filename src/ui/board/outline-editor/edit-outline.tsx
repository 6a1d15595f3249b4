/** Puts the editor of points about a board. */
import type { ReactNode } from "react";
import type { DerivedPart } from "../../../parts/derived.ts";
import type { LengthStyle } from "../../../units/format.ts";
import type { ThemeName } from "../../look/theme.ts";
import type { View } from "../viewport.ts";
import { PointsLayer } from "./points-layer.tsx";
import { OutlineToolbar } from "./toolbar.tsx";
import { useOutlineEditor } from "./use-outline-editor.ts";

interface EditOutlineProps {
  readonly part: DerivedPart;
  readonly theme: ThemeName;
  readonly units: LengthStyle;
  /** The board with the editor's nodes over its drawing; none where the part has no outline by points. */
  readonly renderBoard: (overlays: ((view: View) => ReactNode) | undefined) => ReactNode;
}

export function EditOutline({ part, theme, units, renderBoard }: EditOutlineProps) {
  const editor = useOutlineEditor(part);
  if (!editor) return renderBoard(undefined);
  return (
    <div onKeyDownCapture={editor.onKeyDown}>
      {renderBoard((view) => (
        <PointsLayer editor={editor} view={view} theme={theme} units={units} />
      ))}
      <div className="points-over">
        <OutlineToolbar editor={editor} part={part} units={units} />
      </div>
    </div>
  );
}
