/** What a printer does to a length, from bars measured on its test sheet, and how far a rule can be trusted with that. */
import type { PrinterCorrection } from "./sheet.ts";

/**
 * Greatest errors of a rule, mm: a + b L, with L in metres rounded up. Accuracy classes of Directive 2014/32/EU, Annex X (MI-008), table 1
 * (UK SI 2016/1153, schedule 1I), at 20 °C.
 */
const RULES = {
  I: { a: 0.1, b: 0.1 },
  II: { a: 0.3, b: 0.2 },
  III: { a: 0.6, b: 0.4 },
} as const;
export type RuleClass = keyof typeof RULES;
export const RULE_CLASSES = Object.keys(RULES) as readonly RuleClass[];

export const ruleError = (length: number, rule: RuleClass): number => RULES[rule].a + RULES[rule].b * Math.ceil(length / 1000);

/** How nearly a line is read off between the marks of a rule, mm; common experience, no source. */
export const READING_ERROR = 0.25;

/** Beyond this share a sheet was fitted to the page or mismeasured, rather than printed by a printer that is off. */
export const SUSPECT = 0.02;

/** A bar as drawn and as it reads, mm. */
export interface BarReading {
  readonly drawn: number;
  readonly reads: number;
}

/** The scale of one direction. */
export interface Scale {
  /** What drawings are multiplied by, so that they print true: drawn over read. */
  readonly factor: number;
  /** How far the factor may be off, a share of 1: reading and rule, both at their worst. */
  readonly uncertainty: number;
  /** The bar differs from what was drawn by more than it can be read to. */
  readonly differs: boolean;
  readonly suspect: boolean;
}

/** The scale from one bar. Both lengths must be above 0. */
export function scaleOf({ drawn, reads }: BarReading, rule: RuleClass): Scale {
  if (!(drawn > 0 && reads > 0)) throw new RangeError("scaleOf: the lengths must be above 0");
  return {
    factor: drawn / reads,
    uncertainty: (READING_ERROR + ruleError(drawn, rule)) / reads,
    differs: Math.abs(reads - drawn) > READING_ERROR,
    suspect: Math.abs(drawn / reads - 1) > SUSPECT,
  };
}

/** How far from square a printer prints. */
export interface Skew {
  /** Radians by which the upright sides lean to the right (to the left below 0). */
  readonly lean: number;
  /** How far that may be off, radians, for readings each READING_ERROR off. */
  readonly uncertainty: number;
  readonly differs: boolean;
}

/**
 * The lean of a printed square of true sides `across` and `along` from its diagonals. The rising one runs from lower left to upper right.
 * In a parallelogram r² - f² = 4 a b sin(lean). Undefined where no parallelogram has such diagonals.
 */
export function skewOf(
  sides: { readonly across: number; readonly along: number },
  rising: number,
  falling: number,
): Skew | undefined {
  const { across, along } = sides;
  const sine = (rising ** 2 - falling ** 2) / (4 * across * along);
  if (!(rising > 0 && falling > 0 && across > 0 && along > 0) || !(Math.abs(sine) < 1)) return undefined;
  const uncertainty = (2 * (rising + falling) * READING_ERROR) / (4 * across * along);
  return { lean: Math.asin(sine), uncertainty, differs: Math.abs(sine) > uncertainty };
}

/** The correction of a printer from its two bars. */
export const correctionOf = (name: string, across: Scale, along: Scale): PrinterCorrection => ({
  name,
  sx: across.factor,
  sy: along.factor,
});
