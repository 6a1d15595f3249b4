/** Whether templates come off the printer as they should: room on the paper, and a printer whose error is known. */
import { optionsProblem, roomsOf } from "./rooms.ts";
import { inkBounds } from "./ink.ts";
import type { SheetOptions } from "./sheet.ts";
import { GEOMETRY, PRACTICE } from "../parts/finding.ts";
import type { Finding } from "../parts/contract.ts";
import type { Template } from "../templates/template.ts";
import { lowerFirst } from "./words.ts";

/** What office printers leave white along an edge at most, mm. */
const WHITE_EDGE = 4.2;
/** What a printer may be off, as a share, that nobody has measured: trade experience, no published figure was found. */
const UNMEASURED = 0.005;
/** Over this a measured error is more likely a setting of the print dialog than the printer, as a share. */
const SUSPECT = 0.02;

type Choices = Pick<SheetOptions, "paper" | "margin" | "orientation" | "overlap" | "printer">;

/** The findings on a choice of paper and printer for these templates. */
export function sheetFindings(templates: readonly Template[], options: Choices): readonly Finding[] {
  const problem = optionsProblem(options);
  if (problem)
    return [
      {
        id: "paper-room",
        severity: "stop",
        says: `Nothing can be laid out: ${problem.message}.`,
        basis: GEOMETRY,
        mend: problem.mend,
      },
    ];
  return [marginFinding(options), ...roomFindings(templates, options), printerFinding(templates, options)];
}

function marginFinding({ margin }: Choices): Finding {
  const common = {
    id: "paper-margin",
    measured: margin,
    needed: WHITE_EDGE,
    bound: "least",
    quantity: "length",
    basis: PRACTICE,
  } as const;
  return margin >= WHITE_EDGE - 1e-9
    ? {
        ...common,
        severity: "fine",
        says: "A margin of {measured} keeps every line off the edge that the printer leaves white.",
        mend: "",
      }
    : {
        ...common,
        severity: "look",
        says: "A margin of {measured} may lie in what the printer leaves white; office printers need {needed}.",
        mend: "Widen the margin, or measure what your printer leaves white.",
      };
}

/** Templates that do not lie on one sheet within its margins, told with what they are over by, the worst first. */
function roomFindings(templates: readonly Template[], options: Choices): Finding[] {
  const rooms = roomsOf(options, longest(templates)).map(({ usable }) => [usable.x1 - usable.x0, usable.y1 - usable.y0] as const);
  const over = templates
    .map((template) => {
      const box = inkBounds(template);
      const [length, width] = [box.maxX - box.minX, box.maxY - box.minY];
      const short = Math.min(...rooms.flatMap(([x, y]) => [Math.max(length - x, width - y), Math.max(length - y, width - x)]));
      return { template, short };
    })
    .filter(({ short }) => short > 0)
    .toSorted((a, b) => b.short - a.short);
  const [worst] = over;
  if (!worst)
    return templates.length === 0
      ? []
      : [
          {
            id: "paper-fit",
            severity: "fine",
            says: "Every template lies on one sheet within its margins.",
            basis: GEOMETRY,
            mend: "",
          },
        ];
  const others = over.length === 1 ? "" : `, and ${over.length - 1} more are joined too`;
  return [
    {
      id: "paper-fit",
      severity: "look",
      says: `${worst.template.partLabel}, ${lowerFirst(worst.template.title)}: {measured} too large for one sheet within its margins; it is joined from several${others}.`,
      measured: worst.short,
      quantity: "length",
      basis: GEOMETRY,
      mend: "Join with care and measure the whole length, or take larger paper.",
    },
  ];
}

function longest(templates: readonly Template[]): number {
  return Math.max(
    100,
    ...templates.map((template) => {
      const box = inkBounds(template);
      return Math.max(box.maxX - box.minX, box.maxY - box.minY);
    }),
  );
}

function printerFinding(templates: readonly Template[], { printer }: Choices): Finding {
  const length = longest(templates);
  if (!printer)
    return {
      id: "printer-corrected",
      severity: "look",
      says: "The printer is not measured: over the longest template it may be off by {measured}.",
      measured: length * UNMEASURED,
      quantity: "length",
      basis: "half a per cent, trade experience; no published figure was found",
      mend: "Print the test sheet under Sheets, measure it, and type what it reads.",
    };
  const off = Math.max(Math.abs(printer.sx - 1), Math.abs(printer.sy - 1));
  const common = {
    id: "printer-corrected",
    measured: off * 100,
    needed: SUSPECT * 100,
    bound: "most",
    quantity: "number",
  } as const;
  return off > SUSPECT
    ? {
        ...common,
        severity: "look",
        says: "The printer is corrected by {measured} %, more than {needed} %: is it printing at 100 %?",
        basis: PRACTICE,
        mend: "Look for a setting that fits the page, print the test sheet again, and measure it.",
      }
    : { ...common, severity: "fine", says: "The printer is corrected by {measured} %.", basis: "measured", mend: "" };
}
