/** The sheet that a printer is measured by: a long bar each way, and a square with its diagonals. Printed without any correction. */
import { textWidth, wrap } from "./lettering.ts";
import { LEADING, LARGE, linesHeight, PLAIN, Pen, SMALL } from "./furniture/pen.ts";
import { roomsOf } from "./rooms.ts";
import type { Paper } from "./paper.ts";
import type { SheetSet } from "./sheet.ts";
import { rectangle } from "../geometry/path.ts";

export interface TestSheetOptions {
  readonly paper: Paper;
  /** What the printer leaves white along each edge, mm. */
  readonly margin: number;
  /** The length of a step of the bars and the next larger one that is numbered, mm: 10 and 50, or half an inch and an inch. */
  readonly step: number;
  readonly numbered: number;
  /** Says a length in the maker's units, with the unit. */
  readonly say: (mm: number) => string;
}

/** The lengths to be measured, mm. */
export interface TestFigures {
  readonly across: number;
  readonly along: number;
  readonly side: number;
  readonly diagonal: number;
}

/** Shorter bars say too little. */
export const LEAST_BAR = 150;

/** Room beside the bars for their marks and numbers, and above them for the words, mm. */
const BESIDE = 10;
const WORDS = 27;
/** Room after the last mark. */
const AFTER = 1;
/** The square keeps off the bars, mm. */
const OFF = 12;

const wholeSteps = (room: number, step: number): number => Math.floor(room / step + 1e-9) * step;

/** What the sheet holds; undefined where the paper has no room for bars of 150 mm. */
export function testFigures({
  paper,
  margin,
  step,
}: Pick<TestSheetOptions, "paper" | "margin" | "step">): TestFigures | undefined {
  const { usable } = roomOf(paper, margin);
  const across = wholeSteps(usable.x1 - usable.x0 - BESIDE - AFTER, step);
  const along = wholeSteps(usable.y1 - usable.y0 - BESIDE - WORDS, step);
  const side = wholeSteps(Math.min(across, along) - OFF, step);
  return Math.min(across, along) < LEAST_BAR ? undefined : { across, along, side, diagonal: side * Math.SQRT2 };
}

/** A long roll is cut to this, mm. */
const ROLL = 900;

const roomOf = (paper: Paper, margin: number) =>
  roomsOf({ paper, margin, orientation: "best", overlap: 0 }, ROLL).find(({ turned }) => !turned)!;

/** The test sheet as a set of one sheet; undefined where `testFigures` is. */
export function testSheet(options: TestSheetOptions): SheetSet | undefined {
  const figures = testFigures(options);
  if (!figures) return undefined;
  const { paper, margin, say } = options;
  const room = roomOf(paper, margin);
  const { usable } = room;
  const pen = new Pen();
  const origin = { x: usable.x0 + BESIDE, y: usable.y0 + BESIDE };
  drawBar(pen, origin.x, origin.y, figures.across, "across", options);
  drawBar(pen, origin.x, origin.y, figures.along, "along", options);
  drawSquare(pen, origin.x + OFF, origin.y + OFF, figures, say);
  drawWords(pen, usable.x0, usable.y1, usable.x1 - usable.x0, paper.label, figures, say);
  const { drawing, strong } = pen.finish();
  const sheet = {
    name: "Printer test sheet",
    tag: "",
    row: 0,
    column: 0,
    width: room.width,
    height: room.height,
    turned: false,
    correction: { x: 1, y: 1 },
    frame: usable,
    placed: [],
    furniture: drawing,
    strong,
  };
  return { paper, waste: "none", sheets: [sheet], tilings: [] };
}

/** A bar from (x, y), its marks on the outer side. The bar itself is a single line of its exact length. */
function drawBar(
  pen: Pen,
  x: number,
  y: number,
  length: number,
  way: "across" | "along",
  { step, numbered, say }: TestSheetOptions,
): void {
  pen.layer(`bar-${way}`);
  // u runs along the bar, v away from the sheet's middle.
  const line = (u0: number, v0: number, u1: number, v1: number, name: string): void =>
    way === "across"
      ? pen.line(x + u0, y - v0, x + u1, y - v1, "narrow", name)
      : pen.line(x - v0, y + u0, x - v1, y + u1, "narrow", name);
  line(0, 0, length, 0, `bar ${way}`);
  const steps = Math.round(length / step);
  for (let k = 0; k <= steps; k++) {
    const isEnd = k === 0 || k === steps;
    const isNumbered = Math.abs((k * step) / numbered - Math.round((k * step) / numbered)) < 1e-9;
    line(k * step, isEnd ? -6 : 0, k * step, isEnd ? 7 : isNumbered ? 3.4 : 1.8, "mark");
    const last = steps * step;
    const crowded = !isEnd && (k * step < 12 || last - k * step < 24);
    if (!(isNumbered || isEnd) || crowded) continue;
    const said = k === 0 ? "0" : say(k * step);
    const align = k === 0 ? "start" : isEnd ? "end" : "middle";
    const away = isEnd ? (k === 0 ? 1 : -1) : 0;
    if (way === "across") pen.text(x + k * step + away, y - 5 - SMALL, said, SMALL, { align, strong: isEnd });
    else pen.text(x - 5, y + k * step + away, said, SMALL, { align, upward: true, strong: isEnd });
  }
}

function drawSquare(pen: Pen, x: number, y: number, { side, diagonal }: TestFigures, say: (mm: number) => string): void {
  pen.layer("square");
  pen.path(rectangle(x, y, x + side, y + side), "narrow", "square");
  pen.line(x, y, x + side, y + side, "narrow", "rising diagonal");
  pen.line(x, y + side, x + side, y, "narrow", "falling diagonal");
  const near = side / 2 - 20;
  pen.text(x + side / 2, y + side / 2 + 30, `both diagonals ${say(diagonal)}`, SMALL, { align: "middle" });
  pen.text(x + near - 2, y + near + 4, "rising", SMALL, { align: "end" });
  pen.text(x + side - near + 2, y + near + 4, "falling", SMALL, { align: "start" });
}

function drawWords(
  pen: Pen,
  x: number,
  top: number,
  width: number,
  label: string,
  figures: TestFigures,
  say: (mm: number) => string,
): void {
  pen.layer("words");
  pen.lines(x, top, [`Printer test sheet, ${label}`], LARGE * 0.8, { strong: true });
  const lines = wrap(
    "Print at 100 %, not fitted to the page. Let the sheet lie for an hour: fresh from the printer it is still dry. Lay a steel rule from line to line, write down what it reads, and type it under Sheets.",
    width,
    PLAIN * 0.8,
  );
  const from = top - LARGE * 0.8 - PLAIN;
  pen.lines(x, from, lines, PLAIN * 0.8);
  const y = from - linesHeight(lines.length, PLAIN * 0.8) - PLAIN * LEADING - PLAIN;
  const notes = [
    ["across", figures.across],
    ["along", figures.along],
    ["rising", figures.diagonal],
    ["falling", figures.diagonal],
  ] as const;
  const cell = width / notes.length;
  for (const [i, [name, length]] of notes.entries()) {
    const left = x + i * cell;
    pen.text(left, y, name, SMALL, { strong: true });
    const after = left + textWidth(name, SMALL) + 1.5;
    pen.line(after, y - 0.6, left + cell - 4, y - 0.6, "narrow", "note");
    pen.text(left, y - SMALL * LEADING - 0.8, `drawn ${say(length)}`, SMALL);
  }
}
