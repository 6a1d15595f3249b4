import { useId, useState, type KeyboardEvent } from "react";
import type { Problem } from "../../parts/derived.ts";
import { FieldError } from "./number-field.tsx";
import "./text-field.css";

export interface TextFieldProps {
  readonly value: string;
  readonly onCommit: (text: string) => Problem | undefined | void;
  readonly label?: string;
  readonly labelledBy?: string;
  readonly placeholder?: string;
  /** Many lines; Enter then begins a new one. */
  readonly lines?: boolean;
  /** A row of numbers. */
  readonly numeric?: boolean;
  readonly follows?: boolean;
  readonly problem?: Problem | undefined;
  readonly type?: "text" | "date" | "search";
}

/** Words, said on Enter or when the field is left; Escape restores. */
export function TextField(props: TextFieldProps) {
  const {
    value,
    onCommit,
    label,
    labelledBy,
    placeholder,
    lines = false,
    numeric = false,
    follows = false,
    type = "text",
  } = props;
  const id = useId();
  const [draft, setDraft] = useState<string>();
  const [wrong, setWrong] = useState<Problem>();
  const problem = wrong ?? (draft === undefined ? props.problem : undefined);

  function finish(): void {
    if (draft === undefined) return;
    const found = draft === value ? undefined : onCommit(draft);
    setWrong(found ?? undefined);
    if (!found) setDraft(undefined);
  }

  function press(event: KeyboardEvent<HTMLElement>): void {
    if (event.key === "Enter" && !lines) finish();
    if (event.key === "Escape" && draft !== undefined) {
      event.stopPropagation();
      setDraft(undefined);
      setWrong(undefined);
    }
  }

  const shared = {
    className: `textf ${numeric ? "textf-num" : ""} ${follows && draft === undefined ? "textf-follows" : ""} ${problem ? "textf-wrong" : ""}`,
    value: draft ?? value,
    placeholder,
    "aria-label": label,
    "aria-labelledby": labelledBy,
    "aria-invalid": problem ? true : undefined,
    "aria-describedby": problem ? id : undefined,
    onChange: (event: { target: { value: string } }) => {
      setDraft(event.target.value);
      setWrong(undefined);
    },
    onBlur: finish,
    onKeyDown: press,
  };
  return (
    <>
      {lines ? <textarea {...shared} rows={4} /> : <input {...shared} type={type} autoComplete="off" spellCheck={!numeric} />}
      {problem ? <FieldError id={id} problem={problem} text={draft ?? value} /> : null}
    </>
  );
}
