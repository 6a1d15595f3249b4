/** Blocks of words and figures that stand wherever a sheet has room: how to join, cautions, distances from the nut. */
import { textWidth, wrap } from "../lettering.ts";
import type { Grid } from "../frames.ts";
import { LEADING, linesHeight, PLAIN, SMALL, type Pen } from "./pen.ts";

/** A block of one size, drawn with its lower left corner at (x, y). */
export interface Block {
  readonly width: number;
  readonly height: number;
  readonly draw: (pen: Pen, x: number, y: number) => void;
}

const PAD = 2;

/** Said once in every set of sheets. */
export const CAUTIONS = [
  "Measure both bars of every sheet with a steel rule, and again once the paper is glued down: wet glue makes paper grow.",
  "Try the template in scrap before good wood. A print true to 0.01 mm is not a cut true to 0.01 mm.",
  "Routers, saws and spindles injure: guards, push blocks, a sharp bit; eyes, ears and a dust mask. Dust of rosewoods, ebony and some cedars sensitises; lacquer burns.",
  "Some species need papers to be traded or taken abroad. Tool makers' instructions, local rules and qualified practice come before anything printed here.",
];

/** How the sheets of a grid are put together, for an overlap or a butt joint. */
export function joiningWords({ columns, rows }: Pick<Grid, "columns" | "rows">, overlap: number): string[] {
  const sides = [columns > 1 ? "left" : "", rows > 1 ? "top" : ""].filter((side) => side !== "").join(" and ");
  return overlap > 0
    ? [
        `Cut along the full line at the ${sides} of each sheet.`,
        "Lay it over the neighbour named there, crosses of one number on each other, and glue.",
      ]
    : [
        "Cut along the full lines of each frame.",
        "Set the edges together so that crosses of one number meet, and tape the back.",
      ];
}

/** A heading over paragraphs, at several widths to choose from, the widest first. */
export function wordsBlocks(heading: string, paragraphs: readonly string[], widths: readonly number[]): Block[] {
  return widths.map((width) => {
    const lines = paragraphs.map((paragraph) => wrap(paragraph, width - 2 * PAD, SMALL));
    const title = wrap(heading, width - 2 * PAD, PLAIN);
    const head = linesHeight(title.length, PLAIN) + SMALL;
    const height = 2 * PAD + head + lines.reduce((sum, p) => sum + linesHeight(p.length, SMALL) + SMALL * (LEADING - 1) + 0.6, 0);
    return {
      width,
      height,
      draw: (pen, x, y) => {
        pen.layer("notes");
        let top = y + height - PAD;
        pen.lines(x + PAD, top, title, PLAIN, { strong: true });
        top -= head;
        for (const paragraph of lines) {
          pen.lines(x + PAD, top, paragraph, SMALL);
          top -= linesHeight(paragraph.length, SMALL) + SMALL * (LEADING - 1) + 0.6;
        }
      },
    };
  });
}

/** A title is broken into lines where its table is narrower; never narrower than this. */
const NARROWEST_TITLE = 50;

export interface Table {
  readonly title: string;
  readonly rows: readonly { readonly label: string; readonly value: number }[];
}

/** The table in one to four columns of rows, the most columns first. `say` adds the maker's units where these are not mm. */
export function tableBlocks(table: Table, say: (mm: number) => string): Block[] {
  const said = table.rows.map(({ value }) => /^(.*\S)\s+(\S+)$/.exec(say(value)) ?? ["", say(value), ""]);
  const unit = said[0]?.[2] ?? "mm";
  const inUnit = alignedDecimals(said.map((match) => match[1]!));
  const rows = table.rows.map(({ label, value }, i) => [label, value.toFixed(2), ...(unit === "mm" ? [] : [inUnit[i]!])]);
  const head = ["", "mm", ...(unit === "mm" ? [] : [unit])];
  const gap = 4;
  const widths = head.map((h, c) => Math.max(...[h, ...rows.map((row) => row[c] ?? "")].map((text) => textWidth(text, SMALL))));
  const columnWidth = widths.reduce((sum, w) => sum + w + gap, 0) + gap;
  const pitch = SMALL * 1.9;
  return [4, 3, 2, 1]
    .filter((columns) => columns === 1 || rows.length >= columns * 4)
    .map((columns) => {
      const deep = Math.ceil(rows.length / columns);
      const columnsWidth = columns * columnWidth - gap;
      const title = wrap(table.title, Math.max(columnsWidth, NARROWEST_TITLE), PLAIN);
      const titleHeight = linesHeight(title.length, PLAIN) + SMALL;
      const height = 2 * PAD + titleHeight + (deep + 1) * pitch;
      const width = 2 * PAD + Math.max(columnsWidth, ...title.map((text) => textWidth(text, PLAIN)));
      return {
        width,
        height,
        draw: (pen: Pen, x: number, y: number) => {
          pen.layer("table");
          const top = y + height - PAD;
          pen.lines(x + PAD, top, title, PLAIN, { strong: true });
          for (let column = 0; column < columns; column++) {
            const left = x + PAD + column * columnWidth;
            const writeRow = (cells: readonly string[], baseline: number): void => {
              let right = left;
              for (const [c, text] of cells.entries()) {
                right += widths[c]!;
                pen.text(c === 0 ? left : right, baseline, text, SMALL, { align: c === 0 ? "start" : "end" });
                right += gap;
              }
            };
            const first = top - titleHeight - SMALL;
            writeRow(head, first);
            pen.line(left, first - 0.7, left + columnWidth - 2 * gap, first - 0.7, "narrow", "rule");
            for (const [i, row] of rows.slice(column * deep, (column + 1) * deep).entries())
              writeRow(row, first - (i + 1) * pitch);
          }
        },
      };
    });
}

/** Decimal numbers filled up with zeros to the longest, so that their points stand below each other; fractions as they are. */
function alignedDecimals(texts: readonly string[]): string[] {
  const decimals = (text: string): number => (/^-?\d+\.(\d+)$/.exec(text)?.[1] ?? "").length;
  const most = Math.max(0, ...texts.map(decimals));
  return texts.map((text) => (/^-?\d+(\.\d+)?$/.test(text) ? Number(text).toFixed(most) : text));
}
