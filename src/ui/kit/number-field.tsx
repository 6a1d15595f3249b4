/**
 * A number as the maker types it. It keeps the maker's own spelling; tells a given number (solid box) from one that follows (dashed box)
 * and from a measured one; shows where it lies in its usual range; and says what is wrong beside itself, with the place and the mend.
 */
import { useEffect, useId, useLayoutEffect, useRef, useState, type KeyboardEvent } from "react";
import type { Field, Problem } from "../../parts/derived.ts";
import {
  bareUnit,
  plainValue,
  quantityOf,
  say,
  show,
  splitTyped,
  stepOf,
  type Notation,
  type Quantity,
  type Shown,
  wordsIn,
} from "../notation.ts";
import { RangeBar } from "./range-bar.tsx";
import "./number-field.css";

export interface NumberFieldProps {
  readonly field: Field;
  readonly notation: Notation;
  /** Id of the element that names the field; else `label`. */
  readonly labelledBy?: string;
  readonly label?: string;
  /** Without the range bar: for tables. */
  readonly bare?: boolean;
  /** Shows what a text would do without saying it, and gives what is wrong with it. */
  readonly onTry: (text: string) => Problem | undefined;
  /** Says the text; undefined takes the number back, so that it follows. Gives what is wrong, and then nothing has changed. */
  readonly onCommit: (text: string | undefined, gesture?: string) => Problem | undefined;
  /** Lets go of what was tried. */
  readonly onDrop: () => void;
}

/** Typing rests this long before a text that is not finished is called wrong. */
const PATIENCE_MS = 900;

type Numeric = {
  readonly min?: number;
  readonly max?: number;
  readonly step?: number;
  readonly usual?: { readonly from: number; readonly to: number };
  readonly absent?: string;
};

export function NumberField({ field, notation, labelledBy, label, bare = false, onTry, onCommit, onDrop }: NumberFieldProps) {
  const id = useId();
  const input = useRef<HTMLInputElement>(null);
  const [draft, setDraft] = useState<string>();
  const [wrong, setWrong] = useState<Problem>();
  const [selectAll, setSelectAll] = useState(0);
  const patience = useRef<ReturnType<typeof setTimeout>>(undefined);
  const entered = useRef(false);
  /** The text when the field was entered. The field itself shows what is tried, once it is tried. */
  const before = useRef("");

  const quantity = quantityOf(field.spec.type) ?? "number";
  const spec = field.spec as unknown as Numeric;
  const value = typeof field.value === "number" ? field.value : undefined;
  const typed = typeof field.raw === "string" && field.state !== "measured" ? field.raw : undefined;
  const shown = shownOf(field, quantity, notation, typed, value);
  const problem = wrong ?? (draft === undefined ? field.problem : undefined);

  useEffect(() => () => clearTimeout(patience.current), []);
  useLayoutEffect(() => {
    if (selectAll > 0 && document.activeElement === input.current) input.current?.select();
  }, [selectAll]);

  /** The whole text, as it is edited. */
  const whole = (): string => typed ?? (value === undefined ? "" : shown.typed);

  function rest(): void {
    clearTimeout(patience.current);
    setDraft(undefined);
    setWrong(undefined);
  }

  function change(text: string): void {
    if (draft === undefined) before.current = whole();
    setDraft(text);
    setWrong(undefined);
    clearTimeout(patience.current);
    if (text.trim() === "") return onDrop();
    const found = onTry(text);
    if (found) patience.current = setTimeout(() => setWrong(found), PATIENCE_MS);
  }

  function finish(): void {
    if (draft === undefined || draft === before.current) {
      onDrop();
      return rest();
    }
    const found = onCommit(draft.trim() === "" ? undefined : draft.trim());
    if (!found) return rest();
    clearTimeout(patience.current);
    setWrong(found);
  }

  function stepBy(direction: 1 | -1, tenfold: boolean, held: boolean): void {
    const from = draft === undefined ? value : (plainValue(draft, quantity, notation) ?? value);
    if (from === undefined) return;
    const step = stepOf(spec.step, quantity, notation) * (tenfold ? 10 : 1);
    const next = Math.min(Math.max(from + direction * step, spec.min ?? -Infinity), spec.max ?? Infinity);
    const found = onCommit(say(next, quantity, notation), held || draft === undefined ? `step ${field.path}` : undefined);
    if (found) return setWrong(found);
    rest();
    setSelectAll((n) => n + 1);
  }

  function press(event: KeyboardEvent<HTMLInputElement>): void {
    if (event.key === "Enter") {
      event.preventDefault();
      finish();
      setSelectAll((n) => n + 1);
    } else if (event.key === "Escape" && draft !== undefined) {
      event.preventDefault();
      event.stopPropagation();
      onDrop();
      rest();
      setSelectAll((n) => n + 1);
    } else if ((event.key === "ArrowUp" || event.key === "ArrowDown") && !event.altKey && !event.ctrlKey && !event.metaKey) {
      event.preventDefault();
      stepBy(event.key === "ArrowUp" ? 1 : -1, event.shiftKey, event.repeat);
    }
  }

  const state = problem
    ? "wrong"
    : draft !== undefined && draft !== whole()
      ? "typing"
      : field.state === "fallback"
        ? "follows"
        : field.state;
  const usual = spec.usual;
  const unusual = usual && value !== undefined && (value < usual.from - 1e-9 || value > usual.to + 1e-9);

  return (
    <div className={`numf numf-${state} ${draft === undefined && shown.rest !== "" ? "numf-rest" : ""}`} data-path={field.path}>
      <div className="numf-box">
        <input
          ref={input}
          className="numf-in"
          type="text"
          inputMode="text"
          autoComplete="off"
          autoCorrect="off"
          spellCheck={false}
          aria-label={label}
          aria-labelledby={labelledBy}
          aria-invalid={problem ? true : undefined}
          aria-describedby={`${id}-says${problem ? ` ${id}-error` : ""}`}
          placeholder={value === undefined ? spec.absent : undefined}
          value={draft ?? shown.text}
          onChange={(event) => change(event.target.value)}
          onFocus={() => {
            if (draft === undefined) {
              before.current = whole();
              if (whole() !== shown.text) setDraft(whole());
            }
            entered.current = true;
            setSelectAll((n) => n + 1);
          }}
          onMouseUp={(event) => {
            // The press that enters the field sets the caret after the focus; a drag keeps its own selection.
            const { selectionStart, selectionEnd } = event.currentTarget;
            if (entered.current && selectionStart === selectionEnd) event.currentTarget.select();
            entered.current = false;
          }}
          onBlur={finish}
          onKeyDown={press}
        />
        <span className="numf-unit" aria-hidden="true">
          {draft === undefined && shown.rest !== "" ? <span>{shown.rest}</span> : null}
          {draft === undefined ? shown.unit : unitWanted(draft, bareUnit(quantity, notation))}
        </span>
      </div>
      {problem ? <FieldError id={`${id}-error`} problem={problem} text={draft ?? typed} /> : null}
      {!bare && usual && value !== undefined && !problem ? (
        <RangeBar
          value={value}
          from={usual.from}
          to={usual.to}
          fromText={show(usual.from, quantity, notation).text}
          toText={show(usual.to, quantity, notation).text}
        />
      ) : null}
      <span id={`${id}-says`} className="unseen">
        {[
          shown.unit,
          field.state === "follows" || field.state === "fallback" ? "not given" : field.state,
          usual ? `usually ${say(usual.from, quantity, notation)} to ${say(usual.to, quantity, notation)}` : "",
          unusual ? "outside the usual range" : "",
          saidOf(field, notation),
        ]
          .filter(Boolean)
          .join(", ")}
      </span>
    </div>
  );
}

function shownOf(
  field: Field,
  quantity: Quantity,
  notation: Notation,
  typed: string | undefined,
  value: number | undefined,
): Shown {
  if (typed !== undefined && !(typed.trim().startsWith("=") && value !== undefined))
    return splitTyped(typed, bareUnit(quantity, notation));
  if (value !== undefined) return show(value, quantity, notation);
  const text = typeof field.raw === "number" ? String(field.raw) : "";
  return { text, rest: "", unit: bareUnit(quantity, notation), typed: text };
}

/** The unit that a bare number would have; nothing where the text names its own, or is a formula. */
const unitWanted = (draft: string, bare: string): string =>
  draft.trim().startsWith("=") || /["'′″°a-z]\s*$/i.test(draft) ? "" : bare;

/** What is said beside the number: what it follows, its formula, the planned value, or the same in the units shown. */
export function saidOf(field: Field, notation: Notation): string | undefined {
  const { spec, state, raw, value, planned } = field;
  const quantity = quantityOf(spec.type);
  if (state === "measured")
    return typeof planned === "number" ? `as measured; planned ${say(planned, quantity ?? "number", notation)}` : "as measured";
  if (state === "follows" && "follows" in spec && spec.follows) return `follows: ${wordsIn(spec.follows.words, notation)}`;
  if (typeof raw !== "string" || typeof value !== "number") return undefined;
  if (raw.trim().startsWith("=")) return raw.trim();
  if (quantity !== "length" || splitTyped(raw, notation.unit).unit === notation.unit) return undefined;
  return `= ${say(value, quantity, notation)}`;
}

/** What is wrong and how to mend it, with the place in the text marked. */
export function FieldError({
  id,
  problem,
  text,
}: {
  readonly id: string;
  readonly problem: Problem;
  readonly text: string | undefined;
}) {
  const { at, length = 0 } = problem;
  return (
    <p className="numf-error" id={id} role="alert">
      {text && at !== undefined ? (
        <span className="numf-error-text" aria-hidden="true">
          {text.slice(0, at)}
          {length > 0 ? <mark>{text.slice(at, at + length)}</mark> : <span className="numf-error-gap" />}
          {text.slice(at + length)}
        </span>
      ) : null}
      {sentence(problem.message)} {problem.mend}
    </p>
  );
}

const sentence = (message: string): string =>
  `${message.charAt(0).toUpperCase()}${message.slice(1)}${/[.!?]$/.test(message) ? "" : "."}`;
