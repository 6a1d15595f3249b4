/** The whole instrument on one sheet at a scale, for the wall and the order: marked as not for cutting, since nothing on it is true size. */
import type { Dimension, Drawing } from "../drawing/drawing.ts";
import { pathsBounds } from "../geometry/measure.ts";
import { compose, scaling, transformPath, transformPoint, translation } from "../geometry/transform.ts";
import { add, leftOf, scale, sub, unit, vec, type Vec } from "../geometry/vec.ts";
import { withoutCovered } from "./covered.ts";
import { LARGE, LEADING, linesHeight, Pen, PLAIN, SMALL } from "./furniture/pen.ts";
import { textWidth, wrap } from "./lettering.ts";
import { roomsOf, type Room } from "./rooms.ts";
import type { SheetOptions, SheetSet } from "./sheet.ts";
import { footLines } from "./words.ts";

/** One to this: the reductions of ISO 5455 and those between them that a shop uses. */
export const OVERVIEW_SCALES = [1, 2, 2.5, 3, 4, 5, 6, 8, 10, 15, 20] as const;

export interface OverviewOptions extends Pick<SheetOptions, "paper" | "margin" | "order" | "date" | "fingerprint" | "say"> {
  /** What the drawing is one part of: 4 for 1:4. Undefined: the largest that fits. */
  readonly reduction?: number;
}

export const NOT_FOR_CUTTING = "Not for cutting";

/** A sheet with the drawing, or why there is none. */
export type Overview =
  | { readonly ok: true; readonly value: SheetSet; readonly reduction: number }
  | { readonly ok: false; readonly error: { readonly message: string; readonly mend: string } };

/** A long roll is cut to this, mm. */
const ROLL = 1400;
/** Room round the drawing for dimension lines at its right edge, mm on paper. */
const ROUND = 8;

/** Lays the arrangement on the paper, lying or upright, whichever shows it larger. */
export function overviewSheet(drawing: Drawing, options: OverviewOptions): Overview {
  const shapes = drawing.layers.flatMap((layer) => layer.shapes);
  if (shapes.length === 0) return { ok: false, error: { message: "there is nothing to draw", mend: "Mend the numbers first." } };
  const box = pathsBounds(shapes.map((shape) => shape.path));
  const lines = wordsOf(options);
  const rooms = roomsOf({ paper: options.paper, margin: options.margin, orientation: "best", overlap: 0 }, ROLL);
  const free = (
    room: Room,
  ): { readonly width: number; readonly height: number; readonly strip: number; readonly wrapped: readonly string[] } => {
    const width = room.usable.x1 - room.usable.x0;
    const wrapped = lines.flatMap((line) => wrap(line, width, SMALL));
    const strip = LARGE + PLAIN * LEADING + linesHeight(wrapped.length, SMALL) + 6;
    return { width, height: room.usable.y1 - room.usable.y0 - strip, strip, wrapped };
  };
  const needed = (room: Room): number => {
    const { width, height } = free(room);
    return Math.max((box.maxX - box.minX) / (width - 2 * ROUND), (box.maxY - box.minY) / (height - 2 * ROUND));
  };
  const room = rooms.toSorted((a, b) => needed(a) - needed(b))[0]!;
  const least = needed(room);
  const reduction = options.reduction ?? OVERVIEW_SCALES.find((n) => n >= least);
  if (reduction === undefined || reduction < least - 1e-9)
    return {
      ok: false,
      error: {
        message: `1:${reduction ?? OVERVIEW_SCALES.at(-1)} is too large for ${options.paper.label}`,
        mend: `Take a larger paper, or 1:${OVERVIEW_SCALES.find((n) => n >= least) ?? Math.ceil(least)}.`,
      },
    };

  const { strip, wrapped, width, height } = free(room);
  const { usable } = room;
  const pen = new Pen();
  const middle = vec((box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2);
  const to = compose(
    scaling(1 / reduction, 1 / reduction, middle),
    translation(sub(vec(usable.x0 + width / 2, usable.y0 + strip + height / 2), middle)),
  );
  const place = (at: Vec): Vec => transformPoint(to, at);
  for (const layer of withoutCovered(drawing).layers) {
    pen.layer(layer.name);
    for (const shape of layer.shapes)
      for (const path of [shape.path, ...(shape.holes ?? [])]) pen.path(transformPath(to, path), shape.line, shape.name);
    // Lettering is read on the paper, whatever the scale.
    for (const { at, text, align } of layer.texts ?? []) pen.text(place(at).x, place(at).y, text, PLAIN, { align });
  }
  pen.layer("dimensions");
  const dimensions = drawing.dimensions.map((dimension) => ({ ...dimension, ...linesOf(dimension, place, reduction) }));
  const upright = dimensions.filter(({ along }) => along === "x").flatMap(({ extensions }) => extensions);
  for (const dimension of dimensions) drawDimension(pen, dimension, upright, options.say);

  pen.layer("title-strip");
  const top = usable.y0 + strip;
  pen.line(usable.x0, top, usable.x1, top, "narrow", "title strip");
  pen.text(usable.x0, top - 2 - LARGE, `General arrangement, 1:${reduction}`, LARGE * 0.8, { strong: true });
  pen.text(usable.x1, top - 2 - LARGE, NOT_FOR_CUTTING, LARGE * 0.8, { align: "end", strong: true });
  pen.lines(usable.x0, top - 2 - LARGE - PLAIN, wrapped, SMALL);
  const { drawing: furniture, strong } = pen.finish();
  return {
    ok: true,
    reduction,
    value: {
      paper: options.paper,
      waste: "none",
      tilings: [],
      sheets: [
        {
          name: "General arrangement",
          tag: "",
          row: 0,
          column: 0,
          width: room.width,
          height: room.height,
          turned: room.turned,
          correction: { x: 1, y: 1 },
          frame: usable,
          placed: [],
          furniture,
          strong,
        },
      ],
    },
  };
}

function wordsOf(options: OverviewOptions): string[] {
  const [facts = ""] = footLines({ ...options, orientation: "best", overlap: 0, share: false, waste: "none" });
  return [
    "An overview of all parts in place. It is not true size and no pattern: measure and cut by the templates.",
    ...(facts === "" ? [] : [facts]),
  ];
}

const TICK = 1.2;
const GAP = 1;
/** From a dimension line to the words over it, mm. */
const OVER = 0.6;

interface DimensionLines {
  /** The ends of the line itself, and what leads there from what is measured. */
  readonly p: Vec;
  readonly q: Vec;
  readonly extensions: readonly (readonly [Vec, Vec])[];
}

/** Where a dimension's lines lie on paper. Rows keep their distance there as on the drawing. */
function linesOf({ from, to, along, offset }: Dimension, place: (at: Vec) => Vec, reduction: number): DimensionLines {
  const [a, b] = [place(from), place(to)];
  const way =
    along === "x" ? vec(Math.sign(b.x - a.x) || 1, 0) : along === "y" ? vec(0, Math.sign(b.y - a.y) || 1) : unit(sub(b, a));
  const off = scale(leftOf(way), offset / reduction);
  const foot = (at: Vec): Vec => (along === "x" ? vec(at.x, a.y + off.y) : along === "y" ? vec(a.x + off.x, at.y) : add(at, off));
  const [p, q] = [foot(a), foot(b)];
  const ends = [[a, p] as const, [b, q] as const];
  return { p, q, extensions: ends.filter(([end, on]) => Math.hypot(on.x - end.x, on.y - end.y) > GAP) };
}

/** A dimension line with its slanted ticks, its length over it, beside the upright lines that lead on to other rows. */
function drawDimension(
  pen: Pen,
  { p, q, extensions, along, value, after }: Dimension & DimensionLines,
  upright: DimensionLines["extensions"],
  say: (mm: number) => string,
): void {
  for (const [end, on] of extensions) pen.line(end.x, end.y, on.x, on.y, "narrow", "extension line");
  pen.line(p.x, p.y, q.x, q.y, "narrow", "dimension line");
  for (const on of [p, q]) pen.line(on.x - TICK / 2, on.y - TICK / 2, on.x + TICK / 2, on.y + TICK / 2, "narrow", "tick");
  const steep = along === "y" || Math.abs(q.y - p.y) > Math.abs(q.x - p.x);
  const room = Math.hypot(q.x - p.x, q.y - p.y) - 2;
  const said = say(value);
  const text = after !== undefined && textWidth(`${said} ${after}`, SMALL) <= room ? `${said} ${after}` : said;
  const width = textWidth(text, SMALL);
  const middle = vec((p.x + q.x) / 2, (p.y + q.y) / 2);
  if (steep) {
    // Upright beside a line that may lean: clear of it at both ends of the words.
    const lean = (Math.abs(q.x - p.x) / Math.abs(q.y - p.y)) * (width / 2);
    pen.text(middle.x - OVER - lean, middle.y, text, SMALL, { align: "middle", upward: true });
    return;
  }
  const [left, right] = [Math.min(p.x, q.x), Math.max(p.x, q.x)];
  // What has no room between its ticks stands before them.
  if (width > room + 1) {
    pen.text(left - GAP, middle.y + OVER, text, SMALL, { align: "end" });
    return;
  }
  const crossing = upright
    .filter(([end, on]) => Math.min(end.y, on.y) < middle.y - 1e-6 && on.x > left + 1e-6 && on.x < right - 1e-6)
    .map(([, on]) => on.x);
  pen.text(nearestClear(middle.x, width / 2 + 2 * GAP, [left, ...crossing, right]), middle.y + OVER, text, SMALL, {
    align: "middle",
  });
}

/** The place nearest to `at` with `half` free of lines on both sides, or `at` itself where there is none. */
function nearestClear(at: number, half: number, lines: readonly number[]): number {
  const sorted = lines.toSorted((a, b) => a - b);
  const places = sorted
    .slice(1)
    .map((to, i) => ({ from: sorted[i]! + half, to: to - half }))
    .filter(({ from, to }) => from <= to)
    .map(({ from, to }) => Math.min(Math.max(at, from), to));
  return places.toSorted((a, b) => Math.abs(a - at) - Math.abs(b - at))[0] ?? at;
}
