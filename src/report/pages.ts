/** The report on paper: set in lines and columns, page after page, with the order at the foot of each. Not to scale, nothing to cut by. */
import type { Drawing, Shape } from "../drawing/drawing.ts";
import { pathsBounds } from "../geometry/measure.ts";
import { compose, scaling, transformPath, translation } from "../geometry/transform.ts";
import { vec } from "../geometry/vec.ts";
import { LEADING, LARGE, linesHeight, Pen, PLAIN, SMALL } from "../sheets/furniture/pen.ts";
import { textWidth, wrap } from "../sheets/lettering.ts";
import type { SheetPaper } from "../sheets/paper.ts";
import { SHEET_DEFAULTS, type Sheet, type SheetSet } from "../sheets/sheet.ts";
import type { Report, Section } from "./report.ts";

/** White round the page, mm: room for the holes of a file at the left. */
const MARGIN = { left: 20, right: 12, top: 14, bottom: 16 };
const HEADING = 3.5;
/** White over a section and over a group within one, mm. */
const ABOVE = { section: 8, group: 3.5 };
/** What must follow a heading that has no rows of its own on its page, mm. */
const AT_LEAST_BELOW = 16;
/** Between two rows of a table and between two columns, mm. */
const ROW_GAP = 1.3;
const COLUMN_GAP = 3;
const PICTURE_HEIGHT = 26;

/** Writes from the top of a page to its foot and goes on on the next. */
class Flow {
  readonly #paper: SheetPaper;
  readonly #pens: Pen[] = [];
  #y = 0;

  constructor(paper: SheetPaper) {
    this.#paper = paper;
    this.turnPage();
  }

  readonly left = MARGIN.left;
  get width(): number {
    return this.#paper.width - MARGIN.left - MARGIN.right;
  }
  get y(): number {
    return this.#y;
  }
  get pen(): Pen {
    return this.#pens.at(-1)!;
  }
  get pens(): readonly Pen[] {
    return this.#pens;
  }

  turnPage(): void {
    this.#pens.push(new Pen().layer("report"));
    this.#y = this.#paper.height - MARGIN.top;
  }

  /** Whether so many mm are left on this page. */
  holds(height: number): boolean {
    return this.#y - height >= MARGIN.bottom;
  }

  down(height: number): void {
    this.#y -= height;
  }

  /** Lines across a column from `x`, the first below the present place. */
  lines(lines: readonly string[], height: number, how: { readonly strong?: boolean; readonly x?: number } = {}): void {
    this.pen.lines(how.x ?? this.left, this.#y, lines, height, { strong: how.strong ?? false });
  }
}

/** Sets a report on sheets of paper; they carry no templates and are true at any size. */
export function reportPages(report: Report, paper: SheetPaper): SheetSet {
  const flow = new Flow(paper);
  setTitle(flow, report);
  setPictures(flow, report);
  for (const section of report.sections) setSection(flow, section);
  const count = flow.pens.length;
  return {
    paper,
    waste: SHEET_DEFAULTS.waste,
    tilings: [],
    sheets: flow.pens.map((pen, i) => {
      setFoot(pen, paper, report.stamp, `${i + 1} of ${count}`);
      return pageOf(pen, paper, i);
    }),
  };
}

function pageOf(pen: Pen, { width, height }: SheetPaper, i: number): Sheet {
  const { drawing, strong } = pen.finish();
  return {
    name: `Report, page ${i + 1}`,
    tag: String(i + 1),
    row: 0,
    column: i,
    width,
    height,
    turned: false,
    correction: { x: 1, y: 1 },
    frame: { x0: MARGIN.left, y0: MARGIN.bottom, x1: width - MARGIN.right, y1: height - MARGIN.top },
    placed: [],
    furniture: drawing,
    strong,
  };
}

function setTitle(flow: Flow, { title, facts, notes }: Report): void {
  const lines = wrap(title, flow.width, LARGE);
  flow.lines(lines, LARGE, { strong: true });
  flow.down(linesHeight(lines.length, LARGE) + 5);
  const words = Math.max(0, ...facts.map(([word]) => textWidth(word, SMALL)));
  for (const [word, text] of facts) {
    const said = wrap(text, flow.width - words - COLUMN_GAP, PLAIN);
    flow.lines([word], SMALL);
    flow.lines(said, PLAIN, { x: flow.left + words + COLUMN_GAP });
    flow.down(linesHeight(said.length, PLAIN) + ROW_GAP);
  }
  const agreed = notes.split("\n").flatMap((line) => (line.trim() === "" ? [] : wrap(line, flow.width, PLAIN)));
  if (agreed.length === 0) return;
  flow.down(3);
  for (const line of agreed) {
    if (!flow.holds(PLAIN)) flow.turnPage();
    flow.lines([line], PLAIN);
    flow.down(PLAIN * LEADING);
  }
}

/** Small pictures of the parts beside each other, each as large as its cell allows. */
function setPictures(flow: Flow, { pictures }: Report): void {
  if (pictures.length === 0) return;
  const columns = Math.min(3, pictures.length);
  const cell = (flow.width - (columns - 1) * COLUMN_GAP) / columns;
  const height = PICTURE_HEIGHT + PLAIN + 3;
  flow.down(5);
  for (let i = 0; i < pictures.length; i += columns) {
    if (!flow.holds(height)) flow.turnPage();
    for (const [j, { title, drawing }] of pictures.slice(i, i + columns).entries()) {
      const x = flow.left + j * (cell + COLUMN_GAP);
      drawPicture(flow.pen, drawing, { x0: x, y0: flow.y - PICTURE_HEIGHT, x1: x + cell, y1: flow.y });
      flow.pen.text(x, flow.y - PICTURE_HEIGHT - PLAIN - 1, wrap(title, cell, SMALL)[0] ?? "", SMALL);
    }
    flow.down(height);
  }
}

const isEdge = ({ line, role }: Shape): boolean => line !== "centre" && line !== "adjacent" && role !== "guide";

function drawPicture(pen: Pen, drawing: Drawing, to: { x0: number; y0: number; x1: number; y1: number }): void {
  const shapes = drawing.layers.flatMap((layer) => layer.shapes.filter(isEdge));
  if (shapes.length === 0) return;
  const paths = shapes.flatMap(({ path, holes = [] }) => [path, ...holes]);
  const box = pathsBounds(paths);
  const fits = Math.min((to.x1 - to.x0) / Math.max(box.maxX - box.minX, 1), (to.y1 - to.y0) / Math.max(box.maxY - box.minY, 1));
  const middle = vec((to.x0 + to.x1) / 2, (to.y0 + to.y1) / 2);
  const place = compose(
    translation(vec(-(box.minX + box.maxX) / 2, -(box.minY + box.maxY) / 2)),
    scaling(fits),
    translation(middle),
  );
  for (const path of paths) pen.path(transformPath(place, path), "narrow", "picture");
}

function setSection(flow: Flow, section: Section): void {
  const about = section.about === undefined ? [] : wrap(section.about, flow.width, SMALL);
  const rows = section.rows.map((row) => cellsOf(section, row, flow.width));
  const [above, heading] = section.within ? [ABOVE.group, PLAIN] : [ABOVE.section, HEADING];
  const head = heading + 3 + linesHeight(about.length, SMALL) + 8;
  // A heading never stands alone at the foot of a page.
  if (!flow.holds(above + head + (rows[0] ? rowHeight(rows[0]) : AT_LEAST_BELOW))) flow.turnPage();
  else flow.down(above);
  flow.lines([section.title], heading, { strong: true });
  flow.down(heading + (section.within ? 1 : 2.5));
  if (about.length > 0) {
    flow.lines(about, SMALL);
    flow.down(linesHeight(about.length, SMALL) + 2.5);
  }
  if (rows.length > 0) setHead(flow, section);
  for (const row of rows) {
    if (!flow.holds(rowHeight(row))) {
      flow.turnPage();
      setHead(flow, section);
    }
    setRow(flow, section, row);
    flow.down(rowHeight(row) + ROW_GAP);
  }
}

type Cells = readonly (readonly string[])[];

const rowHeight = (row: Cells): number => Math.max(0, ...row.map((lines) => linesHeight(lines.length, SMALL)));

/** Where the columns of a section start and how wide they are. */
function columnsOf({ columns }: Section, width: number): readonly { readonly x: number; readonly width: number }[] {
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  const room = width - (columns.length - 1) * COLUMN_GAP;
  let x = 0;
  return columns.map(({ share }) => {
    const column = { x, width: (room * share) / shares };
    x += column.width + COLUMN_GAP;
    return column;
  });
}

const cellsOf = (section: Section, row: readonly string[], width: number): Cells =>
  columnsOf(section, width).map((column, i) => wrap(row[i] ?? "", column.width, SMALL));

function setHead(flow: Flow, section: Section): void {
  const heads = section.columns.map(({ head }) => (head === "" ? [] : [head]));
  setRow(flow, section, heads, true);
  if (heads.some((lines) => lines.length > 0)) flow.down(SMALL + 1);
  flow.pen.line(flow.left, flow.y, flow.left + flow.width, flow.y);
  flow.down(1.5);
}

function setRow(flow: Flow, section: Section, row: Cells, strong = false): void {
  for (const [i, column] of columnsOf(section, flow.width).entries()) {
    const right = section.columns[i]!.right === true;
    const x = flow.left + column.x + (right ? column.width : 0);
    flow.pen.lines(x, flow.y, row[i] ?? [], SMALL, { strong, align: right ? "end" : "start" });
  }
}

function setFoot(pen: Pen, { width }: SheetPaper, stamp: string, page: string): void {
  const y = MARGIN.bottom - 6;
  pen.text(MARGIN.left, y, wrap(stamp, width - MARGIN.left - MARGIN.right - 24, SMALL)[0] ?? "", SMALL);
  pen.text(width - MARGIN.right, y, page, SMALL, { align: "end" });
}
