/** The printers that were measured, by name: of this browser. What is kept is what was read; the correction follows from it. */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import { correctionOf, RULE_CLASSES, scaleOf, skewOf, type RuleClass, type Scale, type Skew } from "../../sheets/printer.ts";
import type { PrinterCorrection } from "../../sheets/sheet.ts";
import type { TestFigures } from "../../sheets/test-sheet.ts";
import { readQuantity } from "../../units/read.ts";

/** What was read off a test sheet. Readings as typed, with their unit. */
export interface MeasuredPrinter {
  readonly name: string;
  readonly drawn: TestFigures;
  readonly across: string;
  readonly along: string;
  readonly rising?: string;
  readonly falling?: string;
  readonly rule: RuleClass;
}

/** What follows from the readings. */
export interface PrinterFindings {
  readonly across: Scale;
  readonly along: Scale;
  readonly skew: Skew | undefined;
}

const lengthOf = (text: string | undefined): number | undefined => {
  if (text === undefined) return undefined;
  const read = readQuantity(text, { quantity: "length", bareUnit: "mm" });
  return read.ok && read.value.value > 0 ? read.value.value : undefined;
};

/** Undefined where a bar was not read. The skew is known where both diagonals were. */
export function findingsOf(printer: MeasuredPrinter): PrinterFindings | undefined {
  const { drawn, rule } = printer;
  const [acrossReads, alongReads] = [lengthOf(printer.across), lengthOf(printer.along)];
  if (acrossReads === undefined || alongReads === undefined) return undefined;
  const across = scaleOf({ drawn: drawn.across, reads: acrossReads }, rule);
  const along = scaleOf({ drawn: drawn.along, reads: alongReads }, rule);
  const [rising, falling] = [lengthOf(printer.rising), lengthOf(printer.falling)];
  const sides = { across: drawn.side / across.factor, along: drawn.side / along.factor };
  return {
    across,
    along,
    skew: rising === undefined || falling === undefined ? undefined : skewOf(sides, rising, falling),
  };
}

export function correctionFor(printer: MeasuredPrinter): PrinterCorrection | undefined {
  const found = findingsOf(printer);
  return found && correctionOf(printer.name, found.across, found.along);
}

export const PRINTERS_SETTING = "printers";
const store = createStore<{ readonly printers: readonly MeasuredPrinter[] }>(() => ({ printers: [] }));

/** Takes the printers that were kept, and keeps later changes. */
export function keepPrinters(kept: unknown, keep: (name: string, value: unknown) => void): void {
  if (Array.isArray(kept)) store.setState({ printers: kept.filter(isPrinter) });
  store.subscribe(({ printers }) => keep(PRINTERS_SETTING, printers));
}

function isPrinter(kept: unknown): kept is MeasuredPrinter {
  const { name, drawn, across, along, rule } = (kept ?? {}) as Partial<Record<keyof MeasuredPrinter, unknown>>;
  const figures = (drawn ?? {}) as Partial<Record<keyof TestFigures, unknown>>;
  return (
    typeof name === "string" &&
    typeof across === "string" &&
    typeof along === "string" &&
    RULE_CLASSES.includes(rule as RuleClass) &&
    [figures.across, figures.along, figures.side].every((length) => typeof length === "number" && length > 0)
  );
}

export const usePrinters = (): readonly MeasuredPrinter[] => useStore(store, (state) => state.printers);

/** Enters a printer in place of one of the same name. */
export const enterPrinter = (printer: MeasuredPrinter): void =>
  store.setState(({ printers }) => ({ printers: [...printers.filter(({ name }) => name !== printer.name), printer] }));

export const removePrinter = (name: string): void =>
  store.setState(({ printers }) => ({ printers: printers.filter((printer) => printer.name !== name) }));
