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
  for (const layer of withoutCovered(drawing).layers) {
    pen.layer(layer.name);
    for (const shape of layer.shapes)
      for (const path of [shape.path, ...(shape.holes ?? [])]) pen.path(transformPath(to, path), shape.line, shape.name);
  }
  pen.layer("dimensions");
  for (const dimension of drawing.dimensions)
    drawDimension(pen, dimension, (at) => transformPoint(to, at), reduction, options.say);

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

/** A dimension line with its slanted ticks, its length over it. Rows keep their distance on paper as on the drawing. */
function drawDimension(
  pen: Pen,
  { from, to, along, offset, value, after }: Dimension,
  place: (at: Vec) => Vec,
  reduction: number,
  say: (mm: number) => string,
): void {
  const [a, b] = [place(from), place(to)];
  const way =
    along === "x" ? vec(Math.sign(b.x - a.x) || 1, 0) : along === "y" ? vec(0, Math.sign(b.y - a.y) || 1) : unit(sub(b, a));
  const off = scale(leftOf(way), offset / reduction);
  const foot = (at: Vec): Vec => (along === "x" ? vec(at.x, a.y + off.y) : along === "y" ? vec(a.x + off.x, at.y) : add(at, off));
  const [p, q] = [foot(a), foot(b)];
  for (const [end, on] of [
    [a, p],
    [b, q],
  ] as const)
    if (Math.hypot(on.x - end.x, on.y - end.y) > GAP) pen.line(end.x, end.y, on.x, on.y, "narrow", "extension line");
  pen.line(p.x, p.y, q.x, q.y, "narrow", "dimension line");
  for (const on of [p, q]) pen.line(on.x - TICK / 2, on.y - TICK / 2, on.x + TICK / 2, on.y + TICK / 2, "narrow", "tick");
  const upward = along === "y" || Math.abs(way.y) > Math.abs(way.x);
  const room = Math.hypot(q.x - p.x, q.y - p.y) - 2;
  const said = say(value);
  const text = after !== undefined && textWidth(`${said} ${after}`, SMALL) <= room ? `${said} ${after}` : said;
  const middle = vec((p.x + q.x) / 2, (p.y + q.y) / 2);
  // What has no room between its ticks stands before them.
  const outside = !upward && textWidth(text, SMALL) > room + 1;
  if (outside) pen.text(Math.min(p.x, q.x) - GAP, middle.y + 0.6, text, SMALL, { align: "end" });
  else pen.text(middle.x - (upward ? 0.6 : 0), middle.y + (upward ? 0 : 0.6), text, SMALL, { align: "middle", upward });
}
