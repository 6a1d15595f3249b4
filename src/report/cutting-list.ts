/** The cutting list by itself: on paper, and as a table for a spreadsheet. */
import type { Design } from "../document/design.ts";
import { fingerprintOf } from "../document/fingerprint.ts";
import { csvOf, type Cell, type DecimalSign } from "./csv.ts";
import type { CuttingList, PieceRow } from "../templates/cutting-list.ts";
import type { Report, Section } from "./report.ts";
import { lowerFirst } from "../sheets/words.ts";
import type { Say } from "./say.ts";

/** Lengths in the table are in mm whatever the design shows, so that no column mixes units. */
export function cuttingListCsv(list: CuttingList, decimal: DecimalSign): string {
  const head = [
    "What",
    "Part",
    "Item",
    "Wood",
    "Pieces",
    "Length mm",
    "Width mm",
    "Thickness mm",
    "Rough g each",
    "Finished g each",
    "Note",
  ];
  const rows: Cell[][] = [
    ...list.pieces.map((row): Cell[] => [
      "piece",
      row.placed.partLabel,
      row.placed.blank.title,
      row.wood,
      row.count,
      row.rough.length,
      row.rough.width,
      row.rough.thickness,
      row.roughG ?? "",
      row.finishedG ?? "",
      noteOf(row),
    ]),
    ...list.lengths.map((row): Cell[] => [
      "length",
      row.partLabel,
      row.title,
      "",
      row.count,
      row.total,
      row.width,
      row.height,
      "",
      "",
      `longest ${row.longest.toFixed(1)} mm`,
    ]),
    ...list.holes.map((row): Cell[] => [
      "hole",
      row.where.map(({ partLabel, count }) => `${partLabel} ${count}`).join(", "),
      "Drill",
      "",
      row.count,
      "",
      row.diameter,
      "",
      "",
      "",
      "",
    ]),
    ...list.bits.map((row): Cell[] => ["bit", row.for.join("; "), row.what, "", 1, "", row.size, "", "", "", ""]),
  ];
  return csvOf([head, ...rows], decimal);
}

const noteOf = ({ placed, density }: PieceRow): string => {
  const wood = placed.wood.value;
  const words = [
    wood && wood.allowance > 0 ? `${wood.allowance.toFixed(1)} mm left on all round` : "",
    wood && wood.planing > 0 ? `${wood.planing.toFixed(1)} mm on the thickness` : "",
    density?.basis === "estimated" ? "weight estimated" : "",
  ];
  return words.filter((text) => text !== "").join(", ");
};

/** Grams as they are said: whole from ten on. */
export const grams = (g: number): string => `${g >= 10 ? Math.round(g) : Number(g.toFixed(1))} g`;

/** The list as a report of its own. */
export function cuttingListReport(design: Design, list: CuttingList, say: Say): Report {
  const { order = {} } = design;
  const title = [order.number ? `No. ${order.number}` : "", order.title ?? ""].filter((text) => text !== "").join(", ");
  return {
    title: title === "" ? "Cutting list" : `Cutting list: ${title}`,
    facts: [],
    notes: "",
    pictures: [],
    sections: cuttingSections(list, say),
    stamp: [title, order.date ?? "", fingerprintOf(design)].filter((text) => text !== "").join(" · "),
  };
}

/** Its tables. */
export function cuttingSections(list: CuttingList, say: Say): Section[] {
  const length = (mm: number): string => say(mm, "length");
  const sections: Section[] = [
    {
      title: "Pieces of wood",
      about:
        "As they are sawn: length along the grain, with what is left on. Weights at 12 % moisture, of one piece, sawn and finished.",
      columns: [
        { head: "Piece", share: 24 },
        { head: "Wood", share: 20 },
        { head: "Pcs", share: 5, right: true },
        { head: "Long", share: 12, right: true },
        { head: "Wide", share: 12, right: true },
        { head: "Thick", share: 11, right: true },
        { head: "Sawn", share: 8, right: true },
        { head: "Done", share: 8, right: true },
      ],
      rows: list.pieces.map((row) => [
        row.placed.blank.title,
        row.wood,
        String(row.count),
        length(row.rough.length),
        length(row.rough.width),
        length(row.rough.thickness),
        row.roughG === undefined ? "" : grams(row.roughG),
        row.finishedG === undefined ? "" : grams(row.finishedG),
      ]),
    },
    {
      title: "By length",
      about: "What is left over each end is in it.",
      columns: [
        { head: "What", share: 30 },
        { head: "Section", share: 26 },
        { head: "Pieces", share: 10, right: true },
        { head: "Longest", share: 16, right: true },
        { head: "In all", share: 18, right: true },
      ],
      rows: list.lengths.map((row) => [
        `${row.partLabel}: ${lowerFirst(row.title)}`,
        `${length(row.width)} × ${length(row.height)}`,
        String(row.count),
        length(row.longest),
        length(row.total),
      ]),
    },
    {
      title: "Holes",
      columns: [
        { head: "Drill", share: 20, right: true },
        { head: "Holes", share: 12, right: true },
        { head: "Where", share: 68 },
      ],
      rows: list.holes.map((row) => [
        length(row.diameter),
        String(row.count),
        row.where.map(({ partLabel, count }) => `${partLabel} ${count}`).join(", "),
      ]),
    },
    {
      title: "Bits, bushes and saws",
      columns: [
        { head: "What", share: 20 },
        { head: "Size", share: 16, right: true },
        { head: "For", share: 64 },
      ],
      rows: list.bits.map((row) => [row.what, length(row.size), row.for.join("; ")]),
    },
  ];
  return sections.filter(({ rows }) => rows.length > 0);
}
