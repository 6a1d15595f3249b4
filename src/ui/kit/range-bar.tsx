import "./range-bar.css";

interface RangeBarProps {
  readonly value: number;
  readonly from: number;
  readonly to: number;
  readonly fromText: string;
  readonly toText: string;
}

/** The usual range takes the middle of the bar, 18 % stay at each side for values outside of it. */
const SIDE = 0.18;

/** Where a value lies in its usual range, the ends written. The same is said in words by the field's description. */
export function RangeBar({ value, from, to, fromText, toText }: RangeBarProps) {
  const span = to - from || 1;
  const at = SIDE + ((value - from) / span) * (1 - 2 * SIDE);
  const out = value < from || value > to;
  return (
    <div className={`range ${out ? "range-out" : ""}`} aria-hidden="true">
      <span>{fromText}</span>
      <span className="range-bar">
        <span className="range-usual" />
        <span className="range-at" style={{ left: `${Math.min(Math.max(at, 0), 1) * 100}%` }} />
      </span>
      <span>{toText}</span>
    </div>
  );
}
