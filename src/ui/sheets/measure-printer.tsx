/** Measuring a printer: its test sheet, what a rule reads on it, and what follows from that. */
import { useMemo, useState } from "react";
import { testFiguresOf, testSheetFile } from "../../export/test-sheet-job.ts";
import { NO_SOURCES, type ParamTable } from "../../parts/contract.ts";
import type { Field, Problem, Raw, RawRecord } from "../../parts/derived.ts";
import { openTable } from "../../parts/resolve.ts";
import { ruleError, type RuleClass, type Scale, type Skew } from "../../sheets/printer.ts";
import { LEAST_BAR, type TestFigures } from "../../sheets/test-sheet.ts";
import type { LengthUnit } from "../../units/unit.ts";
import { useNotation } from "../bench.ts";
import { saveBytes, tellTrouble } from "../files.ts";
import { Button } from "../kit/button.tsx";
import { Dialog } from "../kit/dialog.tsx";
import { FindingSign } from "../kit/sign.tsx";
import { say, type Notation } from "../notation.ts";
import type { Editing } from "../panels/editing.ts";
import { FieldRow } from "../panels/field-row.tsx";
import { choosePrinter, type PaperSettings } from "./paper-settings.ts";
import { enterPrinter, findingsOf, type MeasuredPrinter } from "./printers.ts";
import { fontBytes } from "./save-sheets.ts";
import "./measure-printer.css";

interface MeasurePrinterProps {
  readonly chosen: NonNullable<PaperSettings["chosen"]>;
  readonly onClose: () => void;
}

export function MeasurePrinter({ chosen: { paper, margin }, onClose }: MeasurePrinterProps) {
  const notation = useNotation();
  const choice = { paper, margin, style: notation };
  const figures = testFiguresOf(choice);
  const [raw, setRaw] = useState<RawRecord>({});
  const { fields, editing } = useReadings(raw, setRaw, figures, notation.unit);
  const printer = figures && printerOf(raw, fields, figures);
  const found = printer && findingsOf(printer);

  async function saveSheet(): Promise<void> {
    const content = fontBytes(new AbortController().signal).then((fonts) => testSheetFile(choice, fonts));
    try {
      await saveBytes(
        `printer-test-sheet-${paper.label.toLowerCase().replace(/\W+/g, "-")}.pdf`,
        content.then((bytes) => bytes!),
        "application/pdf",
      );
    } catch (error) {
      tellTrouble("The test sheet was not saved", {
        message: error instanceof Error ? error.message : String(error),
        mend: "Try again.",
      });
    }
  }
  function enter(): void {
    if (!printer) return;
    enterPrinter(printer);
    choosePrinter(printer.name);
    onClose();
  }

  if (!figures)
    return (
      <Dialog open onClose={onClose} title="Measure a printer">
        <p>
          {paper.label} has no room for bars of {say(LEAST_BAR, "length", notation)}. Choose the largest paper that the printer
          takes: what is found holds for every paper of this printer.
        </p>
      </Dialog>
    );
  return (
    <Dialog
      open
      onClose={onClose}
      title="Measure a printer"
      about="Once for each printer. What it does to a length is then made up for in every file."
      foot={
        <>
          <Button onClick={onClose}>Leave it</Button>
          <Button look="main" disabled={!found || printer?.name === ""} onClick={enter}>
            Correct by this
          </Button>
        </>
      }
    >
      <ol className="measure-steps">
        <li>
          <p>
            Print the test sheet on {paper.label} at 100 %, not fitted to the page. Let it lie for an hour: fresh from the printer
            paper is still dry, and shorter.
          </p>
          <Button size="small" onClick={() => void saveSheet()}>
            Save the test sheet
          </Button>
        </li>
        <li>
          <p>Lay a steel rule from end line to end line and type what it reads, as your rule is marked.</p>
          <div className="measure-fields">
            {fields
              .filter((field) => !field.idle)
              .map((field) => (
                <FieldRow key={field.path} field={field} notation={notation} editing={editing} />
              ))}
          </div>
        </li>
        <li>
          {found ? (
            <Found
              across={found.across}
              along={found.along}
              skew={found.skew}
              figures={figures}
              printer={printer}
              notation={notation}
            />
          ) : (
            <p className="note">What follows from the readings will stand here.</p>
          )}
        </li>
      </ol>
    </Dialog>
  );
}

interface FoundProps {
  readonly across: Scale;
  readonly along: Scale;
  readonly skew: Skew | undefined;
  readonly figures: TestFigures;
  readonly printer: MeasuredPrinter;
  readonly notation: Notation;
}

function Found({ across, along, skew, figures, printer, notation }: FoundProps) {
  const rule = say(ruleError(figures.along, printer.rule), "length", notation);
  return (
    <>
      <ul className="measure-found">
        <ScaleSaid way="across" as="as wide" scale={across} />
        <ScaleSaid way="along" as="as long" scale={along} />
        {skew ? <SkewSaid skew={skew} along={figures.along} notation={notation} /> : null}
      </ul>
      <p className="note">
        Reckoned at its worst: a reading {say(0.25, "length", notation)} off, and a class {printer.rule} rule that may itself be{" "}
        {rule} off (Directive 2014/32/EU, Annex X). Longer bars tell more.
      </p>
    </>
  );
}

const percent = (share: number): string => `${(share * 100).toFixed(2)} %`;

function ScaleSaid({ way, as, scale }: { readonly way: string; readonly as: string; readonly scale: Scale }) {
  const off = 1 / scale.factor - 1;
  return (
    <li>
      <FindingSign severity={scale.suspect ? "look" : "fine"} />
      <span>
        {scale.differs ? (
          <>
            It prints <span className="num">{percent(Math.abs(off))}</span> too {off < 0 ? "short" : "long"} {way}: sheets are
            drawn <span className="num">{scale.factor.toFixed(4)}</span> times {as}, give or take{" "}
            <span className="num">{percent(scale.uncertainty)}</span>.
          </>
        ) : (
          <>
            True {way}, as far as a rule can tell, give or take <span className="num">{percent(scale.uncertainty)}</span>.
          </>
        )}
        {scale.suspect ? " That is over 2 %: look whether the sheet was fitted to the page, and measure again." : null}
      </span>
    </li>
  );
}

function SkewSaid({ skew, along, notation }: { readonly skew: Skew; readonly along: number; readonly notation: Notation }) {
  const off = Math.abs(Math.tan(skew.lean)) * along;
  return (
    <li>
      <FindingSign severity={skew.differs ? "look" : "fine"} />
      <span>
        {skew.differs ? (
          <>
            It prints out of square: over the long bar a side leans {say(off, "length", notation)} to the{" "}
            {skew.lean > 0 ? "right" : "left"}. That is not made up for: feed the paper straight, or cut templates that must be
            square by their numbers.
          </>
        ) : (
          "Square, as far as the diagonals can tell."
        )}
      </span>
    </li>
  );
}

interface Readings {
  readonly name: string;
  readonly across: number | undefined;
  readonly along: number | undefined;
  readonly rising: number | undefined;
  readonly falling: number | undefined;
  readonly rule: RuleClass;
}

const ROOT = "printer";

/** Readings may be a tenth off what was drawn. */
const tableFor = ({ across, along, diagonal }: TestFigures): ParamTable<Readings> => {
  const reading = (label: string, help: string, drawn: number) =>
    ({
      type: "optional-length",
      label,
      help,
      group: "",
      absent: "not read",
      min: drawn * 0.91,
      max: drawn * 1.1,
      usual: { from: drawn * 0.995, to: drawn * 1.005, basis: "office printers: common experience, no source" },
    }) as const;
  return {
    name: {
      type: "text",
      label: "Name",
      help: "What you call this printer. It stands on every sheet that is corrected for it.",
      group: "",
      fallback: "",
      maxLength: 30,
    },
    across: reading("Bar across", "From end line to end line along the lower edge.", across),
    along: reading("Bar along", "From end line to end line along the left edge.", along),
    rising: reading("Rising diagonal", "From the square's lower left corner to its upper right one.", diagonal),
    falling: reading("Falling diagonal", "From the square's upper left corner to its lower right one.", diagonal),
    rule: {
      type: "choice",
      label: "Rule of class",
      help: "The accuracy class stamped on the rule, I to III. Without a stamp take III.",
      group: "",
      fallback: "II",
      options: [
        { value: "I", label: "I" },
        { value: "II", label: "II" },
        { value: "III", label: "III" },
      ],
    },
  };
};

const NO_FIGURES: TestFigures = { across: 200, along: 200, side: 150, diagonal: 212 };

function useReadings(
  raw: RawRecord,
  setRaw: (raw: RawRecord) => void,
  figures: TestFigures | undefined,
  unit: LengthUnit,
): { readonly fields: readonly Field[]; readonly editing: Editing } {
  return useMemo(() => {
    const table = tableFor(figures ?? NO_FIGURES);
    const open = (record: RawRecord) => openTable(table, record, { path: ROOT, units: unit, from: NO_SOURCES });
    const withValue = (path: string, value: Raw): RawRecord => {
      const key = path.slice(ROOT.length + 1);
      // A bare reading keeps the unit that it was typed in.
      const bare = key !== "name" && typeof value === "string" && /^[\d\s.,/]+$/.test(value);
      return { ...raw, [key]: bare ? `${value.trim()} ${unit}` : value };
    };
    const problemAt = (record: RawRecord, path: string): Problem | undefined =>
      open(record)
        .problems()
        .find((problem) => problem.path === path);
    const editing: Editing = {
      tryValue: (path, value) => problemAt(withValue(path, value), path),
      sayValue: (path, value) => {
        const next = withValue(path, value);
        const problem = problemAt(next, path);
        if (!problem) setRaw(next);
        return problem;
      },
      drop: () => undefined,
    };
    return { fields: open(raw).fields(), editing };
  }, [raw, setRaw, figures, unit]);
}

/** The printer as far as it was read; undefined while a bar is missing. */
function printerOf(raw: RawRecord, fields: readonly Field[], drawn: TestFigures): MeasuredPrinter | undefined {
  const said = (key: string): string | undefined => (typeof raw[key] === "string" ? raw[key] : undefined);
  const [across, along, rising, falling] = [said("across"), said("along"), said("rising"), said("falling")];
  const rule = fields.find((field) => field.key === "rule")?.value as RuleClass | undefined;
  if (across === undefined || along === undefined || rule === undefined) return undefined;
  return {
    name: (said("name") ?? "").trim(),
    drawn,
    across,
    along,
    ...(rising === undefined ? {} : { rising }),
    ...(falling === undefined ? {} : { falling }),
    rule,
  };
}
