/** The measuring sheet on paper: every number with how it is taken and a line to write on, empty for the bench or with what is known. */
import { transformPath } from "../geometry/transform.ts";
import { rectangle } from "../geometry/path.ts";
import { LARGE, linesHeight, Pen, PLAIN, SMALL } from "../sheets/furniture/pen.ts";
import { textWidth, wrap } from "../sheets/lettering.ts";
import type { Paper } from "../sheets/paper.ts";
import { roomsOf } from "../sheets/rooms.ts";
import type { Rect, Sheet, SheetSet } from "../sheets/sheet.ts";
import { FRETS_ASKED, GROUPS, keyOfFret, READINGS, type Reading } from "./readings.ts";
import { CARD, SKETCHES } from "./sketch.ts";

export interface FormOptions {
  readonly paper: Paper;
  /** What the printer leaves white along each edge, mm. */
  readonly margin: number;
  /** "No. 14, tenor guitar for H. Rowan"; empty on a form that is printed ahead. */
  readonly order: string;
  /** Unit that a bare number is in. */
  readonly unit: "in" | "mm";
  /** What is known already, by key of the reading, as written. */
  readonly written: Readonly<Record<string, string>>;
}

/** Size of a sketch on the sheet, and of what stands round it, mm. */
const SCALE = 0.6;
const SKETCH = { width: CARD.width * SCALE, height: CARD.height * SCALE };
const GAP = 5;
const LINE_ROOM = 8;
const HEADING = 9;
const FOOT = 6;
/** A shop's roll is cut to this, mm. */
const ROLL = 900;

/** One page that is being filled from the top. */
interface Page {
  readonly pen: Pen;
  y: number;
}

/** The form as sheets, as many as it takes. Printed at any size: nothing on it is measured. */
export function measuringForm(options: FormOptions): SheetSet {
  const { paper, margin } = options;
  const room = roomsOf({ paper, margin, orientation: "best", overlap: 0 }, ROLL).find(({ turned }) => !turned)!;
  const { usable } = room;
  const width = usable.x1 - usable.x0;
  const columns = Math.max(1, Math.floor((width + GAP) / (88 + GAP)));
  const cell = (width - (columns - 1) * GAP) / columns;
  const pages: Page[] = [];
  const fresh = (): Page => {
    const page = { pen: new Pen(), y: usable.y1 };
    pages.push(page);
    return page;
  };
  let page = fresh();
  drawHead(page, usable, options);
  const take = (height: number): number => {
    if (page.y - height < usable.y0 + FOOT) page = fresh();
    page.y -= height;
    return page.y;
  };
  for (const group of GROUPS) {
    const readings = READINGS.filter((reading) => reading.group === group);
    const rows = Array.from({ length: Math.ceil(readings.length / columns) }, (_, i) =>
      readings.slice(i * columns, (i + 1) * columns),
    );
    for (const [i, row] of rows.entries()) {
      const height = Math.max(...row.map((reading) => cellHeight(reading, cell)));
      const foot = take(height + (i === 0 ? HEADING : 0));
      if (i === 0) drawHeading(page.pen, usable, foot + height + HEADING, group);
      for (const [k, reading] of row.entries())
        drawReading(page.pen, usable.x0 + k * (cell + GAP), foot + height, cell, reading, options);
    }
  }
  const lines = Math.ceil(FRETS_ASKED.length / 3);
  const foot = take(HEADING + 8 + lines * LINE_ROOM);
  drawFrets(page.pen, usable, foot + HEADING + 8 + lines * LINE_ROOM, options);
  return {
    paper,
    waste: "none",
    sheets: pages.map(({ pen }, i) => sheetOf(pen, i, pages.length, room, usable)),
    tilings: [],
  };
}

function sheetOf(pen: Pen, index: number, count: number, room: Pick<Sheet, "width" | "height">, usable: Rect): Sheet {
  pen.layer("foot");
  pen.text(usable.x1, usable.y0 + 1, `${index + 1} of ${count}`, SMALL, { align: "end" });
  const { drawing, strong } = pen.finish();
  return {
    name: `Measuring an instrument, ${index + 1}`,
    tag: String(index + 1),
    row: 0,
    column: index,
    width: room.width,
    height: room.height,
    turned: false,
    correction: { x: 1, y: 1 },
    frame: usable,
    placed: [],
    furniture: drawing,
    strong,
  };
}

function drawHead(page: Page, { x0, x1 }: Rect, { order, unit }: FormOptions): void {
  const { pen } = page;
  pen.layer("head");
  pen.lines(x0, page.y, ["Measuring an instrument"], LARGE * 0.8, { strong: true });
  page.y -= LARGE * 0.8 + PLAIN;
  const about = wrap(
    `A number without a unit is ${unit === "in" ? "inches" : "millimetres"}. Write what the tool reads: 1 11/16, 42.9 mm, 95 thou. Leave empty what cannot be reached.`,
    x1 - x0,
    SMALL,
  );
  pen.lines(x0, page.y, about, SMALL);
  page.y -= linesHeight(about.length, SMALL) + LINE_ROOM;
  const blanks = [
    ["Instrument", order],
    ["Date", ""],
    ["Taken by", ""],
  ] as const;
  const shares = [0.5, 0.22, 0.28];
  let x = x0;
  for (const [i, [name, known]] of blanks.entries()) {
    const width = (x1 - x0) * shares[i]!;
    blank(pen, x, page.y, width - 4, name, known);
    x += width;
  }
  page.y -= 3;
}

/** A name, and a line behind it to write on. */
function blank(pen: Pen, x: number, y: number, width: number, name: string, known: string): void {
  pen.text(x, y, name, SMALL, { strong: true });
  const from = x + textWidth(name, SMALL) + 1.5;
  pen.line(from, y - 0.6, x + width, y - 0.6, "narrow", "blank");
  if (known !== "") pen.text(from + 1, y + 0.3, known, SMALL);
}

function drawHeading(pen: Pen, { x0, x1 }: Rect, top: number, group: string): void {
  pen.layer("headings");
  pen.line(x0, top - 2, x1, top - 2, "narrow", "rule");
  pen.lines(x0, top - 3.5, [group], PLAIN, { strong: true });
}

const wordsWidth = (cell: number): number => cell - SKETCH.width - 3;
const howLines = ({ how }: Reading, cell: number): string[] => wrap(how, wordsWidth(cell), SMALL);
const labelLines = ({ label }: Reading, cell: number): string[] => wrap(label, wordsWidth(cell), SMALL * 1.1);

function cellHeight(reading: Reading, cell: number): number {
  const words =
    linesHeight(labelLines(reading, cell).length, SMALL * 1.1) +
    SMALL +
    linesHeight(howLines(reading, cell).length, SMALL) +
    LINE_ROOM;
  return Math.max(SKETCH.height + 2, words) + 4;
}

function drawReading(pen: Pen, x: number, top: number, cell: number, reading: Reading, { written, unit }: FormOptions): void {
  pen.layer(reading.key);
  const to = { a: SCALE, b: 0, c: 0, d: SCALE, e: x, f: top - SKETCH.height };
  for (const shape of SKETCHES[reading.sketch]().layers[0]!.shapes)
    pen.path(transformPath(to, shape.path), shape.line, shape.name);
  const left = x + SKETCH.width + 3;
  const label = labelLines(reading, cell);
  pen.lines(left, top, label, SMALL * 1.1, { strong: true });
  const how = howLines(reading, cell);
  const under = top - linesHeight(label.length, SMALL * 1.1) - SMALL;
  pen.lines(left, under, how, SMALL);
  const y = under - linesHeight(how.length, SMALL) - LINE_ROOM + 1.5;
  pen.path(rectangle(left, y - 1, left + wordsWidth(cell) - 14, y + 5), "narrow", "blank");
  pen.text(left + wordsWidth(cell) - 12, y, reading.count ? "frets" : unit, SMALL);
  const known = written[reading.key];
  if (known !== undefined) pen.text(left + 1.5, y + 0.6, known, PLAIN);
}

function drawFrets(pen: Pen, { x0, x1 }: Rect, top: number, { written }: FormOptions): void {
  drawHeading(pen, { x0, x1, y0: 0, y1: 0 }, top, "From the nut to the middle of each fret's crown");
  pen.layer("frets");
  pen.lines(
    x0,
    top - HEADING - SMALL / 2,
    ["All read from one laying of a long rule, never from fret to fret. They give the scale, and any slot that is out."],
    SMALL,
  );
  const rows = Math.ceil(FRETS_ASKED.length / 3);
  for (const [i, fret] of FRETS_ASKED.entries()) {
    const width = (x1 - x0) / 3;
    const y = top - HEADING - 8 - ((i % rows) + 0.75) * LINE_ROOM;
    blank(pen, x0 + Math.floor(i / rows) * width, y, width - 6, `fret ${fret}`, written[keyOfFret(fret)] ?? "");
  }
}
