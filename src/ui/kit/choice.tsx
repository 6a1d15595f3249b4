import { Switch as BaseSwitch } from "@base-ui/react/switch";
import { Toggle } from "@base-ui/react/toggle";
import { ToggleGroup } from "@base-ui/react/toggle-group";
import { Suspense, useState } from "react";
import { later } from "../later.ts";
import { earlyPress } from "./early.ts";
import type { ChoiceProps, ListProps } from "./opening-list.tsx";
import { Sign } from "./sign.tsx";
import "./choice.css";

const OpeningList = later(async () => (await import("./opening-list.tsx")).OpeningList);

/** One of two to four, all in sight. */
export function RowChoice<T extends string>({
  label,
  value,
  options,
  onChoose,
  wide = false,
}: ChoiceProps<T> & { readonly wide?: boolean }) {
  return (
    <ToggleGroup
      aria-label={label}
      className={wide ? "row-choice row-choice-wide" : "row-choice"}
      value={[value]}
      onValueChange={([next]) => (next === undefined ? undefined : onChoose(next as T))}
    >
      {options.map((option) => (
        <Toggle key={option.value} value={option.value} className="row-choice-one">
          {option.label}
        </Toggle>
      ))}
    </ToggleGroup>
  );
}

/** One of many, from a list that opens. `follows` dashes its edge: not chosen by the maker. */
export function ListChoice<T extends string>(props: ListProps<T>) {
  const { label, value, options, follows, id } = props;
  const [open, setOpen] = useState(false);
  const shown = options.find((option) => option.value === value)?.label ?? "";
  const closed = (
    <button
      type="button"
      aria-haspopup="listbox"
      className="list-choice"
      aria-label={`${label}: ${shown}`}
      id={id}
      data-follows={follows ? "" : undefined}
      {...earlyPress(() => setOpen(true))}
    >
      <span className="list-choice-value">{shown}</span>
      <span aria-hidden="true">
        <Sign name="down" />
      </span>
    </button>
  );
  return (
    <Suspense fallback={closed}>
      <OpeningList {...props} onChoose={(next) => props.onChoose(next as T)} open={open} onOpen={setOpen} />
    </Suspense>
  );
}

export interface YesNoProps {
  readonly label?: string;
  readonly labelledBy?: string;
  readonly on: boolean;
  readonly onChange: (on: boolean) => void;
}

export function Switch({ label, labelledBy, on, onChange }: YesNoProps) {
  return (
    <BaseSwitch.Root className="switch" checked={on} onCheckedChange={onChange} aria-label={label} aria-labelledby={labelledBy}>
      <BaseSwitch.Thumb className="switch-knob" />
    </BaseSwitch.Root>
  );
}
