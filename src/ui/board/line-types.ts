/** How the line types of ISO 128-2 look on the board. */
import type { LineType, Shape } from "../../drawing/drawing.ts";

export interface Pen {
  /** px */
  readonly width: number;
  /** px, as canvases take it; empty: unbroken. */
  readonly dash: readonly number[];
  readonly ink: "ink" | "soft";
}

interface Weight {
  /** Width on a drawing at full size, mm. */
  readonly mm: number;
  /** Widths on the screen are held between these, so that no line vanishes far off or covers its neighbours near by. px. */
  readonly least: number;
  readonly most: number;
  /** In widths: ISO 128-2 has dashes of 12, long dashes of 24, gaps of 3, dots of at most half a width. */
  readonly dash: readonly number[];
}

const WEIGHTS: Readonly<Record<LineType, Weight>> = {
  visible: { mm: 0.7, least: 1.5, most: 2.6, dash: [] },
  narrow: { mm: 0.35, least: 1, most: 1.4, dash: [] },
  hidden: { mm: 0.35, least: 1, most: 1.4, dash: [12, 3] },
  centre: { mm: 0.3, least: 1, most: 1.2, dash: [24, 3, 0.5, 3] },
  adjacent: { mm: 0.3, least: 1, most: 1.2, dash: [24, 3, 0.5, 3, 0.5, 3] },
};

/** What is drawn within an edge that is cut stands back from it. */
const WITHIN: Weight = { mm: 0.5, least: 1, most: 1.8, dash: [] };

/** The pen for a shape where `pxPerMm` px stand for a mm. */
export function penFor({ line, role }: Pick<Shape, "line" | "role">, pxPerMm: number): Pen {
  const { mm, least, most, dash } = line === "visible" && role !== "cut" ? WITHIN : WEIGHTS[line];
  const width = Math.min(most, Math.max(least, mm * pxPerMm));
  return {
    width,
    // A dot shorter than a pixel would be a smear.
    dash: dash.map((widths) => Math.max(1, widths * Math.max(1, width * 0.7))),
    ink: line === "centre" || line === "adjacent" || role === "guide" ? "soft" : "ink",
  };
}
