/** The divisions of a ruler: round steps in the chosen unit, as fine as the zoom leaves room for. */
import type { LengthStyle } from "../../units/format.ts";
import { formatLength } from "../../units/format.ts";
import { bareUnitOf, inside } from "../../units/unit.ts";

export interface Tick {
  /** mm */
  readonly at: number;
  /** 2: with a number, 1: half way or a fifth, 0: the finest. */
  readonly rank: 0 | 1 | 2;
  readonly label?: string;
}

/** Numbers stand no nearer than this, however short: closer ones are not read as a scale. */
const NUMBER_PX = { mm: 36, in: 52 } as const;
/** A character of a number on the ruler (11 px type), and the room behind a number. */
const CHARACTER_PX = 6.6;
const BEHIND_PX = 8;
/** Divisions stand no nearer than this: at full size millimetres (3.8 px) and sixteenths (6 px) are shown. */
const DIVISION_PX = 3.5;

/** How a step is divided: the finest parts in it, and the parts in it that are drawn longer. */
interface Step {
  /** In the ruler's unit. */
  readonly size: number;
  /** From coarse to fine: counts of parts. Each divides the next. */
  readonly parts: readonly number[];
}

/** 1, 2 and 5 times the powers of ten, divided into parts that are again such steps. */
function decimalSteps(lowest: number, highest: number): Step[] {
  const steps: Step[] = [];
  for (let power = lowest; power <= highest; power++) {
    const ten = 10 ** power;
    steps.push({ size: ten, parts: [2, 10] }, { size: 2 * ten, parts: [2, 4, 20] }, { size: 5 * ten, parts: [5, 10, 50] });
  }
  return steps;
}

const DECIMAL = decimalSteps(-3, 5);

/** Inches halved down to 1/64, and whole inches by the half dozen upward. */
const HALVES: readonly Step[] = [
  ...[64, 32, 16, 8, 4, 2].map((bottom) => ({ size: 1 / bottom, parts: [2, 4].filter((n) => bottom * n <= 64) })),
  { size: 1, parts: [2, 4, 8, 16, 32, 64] },
  { size: 2, parts: [2, 4, 8, 16, 32] },
  { size: 6, parts: [2, 6, 12, 24, 48] },
  { size: 12, parts: [2, 12, 24, 48] },
  { size: 24, parts: [2, 4, 24, 48] },
  { size: 60, parts: [5, 10, 60] },
  { size: 120, parts: [2, 10, 20, 120] },
  { size: 600, parts: [5, 10, 50] },
  { size: 1200, parts: [2, 10, 20, 100] },
  { size: 6000, parts: [5, 10, 50] },
];

/** The ticks of a ruler from `from` to `to` mm at `pxPerMm`, in rising order. */
export function ticks(from: number, to: number, pxPerMm: number, style: LengthStyle): Tick[] {
  const mmPerUnit = inside(1, bareUnitOf(style.unit));
  const pxPerUnit = pxPerMm * mmPerUnit;
  const fractions = style.unit === "in" && style.fractions;
  const steps = fractions ? HALVES : DECIMAL;
  const numbersFit = ({ size }: Step): boolean => {
    const apart = size * pxPerUnit;
    if (apart < NUMBER_PX[style.unit]) return false;
    const labels = multiplesBetween(from / mmPerUnit, to / mmPerUnit, size).map((i) => labelOf(i * size * mmPerUnit, style));
    return labels.every((label, i) => label !== labels[i - 1] && label.length * CHARACTER_PX + BEHIND_PX <= apart);
  };
  const step = steps.find(numbersFit) ?? steps.at(-1)!;
  const roomFor = step.parts.filter((parts) => (step.size / parts) * pxPerUnit >= DIVISION_PX);
  const finest = roomFor.at(-1) ?? 1;
  const middle = roomFor[0] ?? 1;
  const unit = step.size / finest;
  const result: Tick[] = [];
  for (const i of multiplesBetween(from / mmPerUnit, to / mmPerUnit, unit)) {
    // From the whole count, so that no rounding adds up along the ruler.
    const at = ((i * step.size) / finest) * mmPerUnit;
    if (i % finest === 0) result.push({ at, rank: 2, label: labelOf(at, style) });
    else result.push({ at, rank: finest > middle && i % (finest / middle) === 0 ? 1 : 0 });
  }
  return result;
}

/** The whole numbers n with `from` <= n `unit` <= `to`, in rising order. */
function multiplesBetween(from: number, to: number, unit: number): number[] {
  const first = Math.ceil(from / unit - 1e-9);
  // Adding 0 makes 0 of the -0 that rounding up may give.
  return Array.from({ length: Math.max(0, Math.floor(to / unit + 1e-9) - first + 1) }, (_, i) => first + i + 0);
}

const labelOf = (at: number, style: LengthStyle): string => formatLength(at, style).main;
