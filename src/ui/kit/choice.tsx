import { Checkbox } from "@base-ui/react/checkbox";
import { CSPProvider } from "@base-ui/react/csp-provider";
import { Select } from "@base-ui/react/select";
import { Switch as BaseSwitch } from "@base-ui/react/switch";
import { Toggle } from "@base-ui/react/toggle";
import { ToggleGroup } from "@base-ui/react/toggle-group";
import { Sign } from "./sign.tsx";
import "./choice.css";
import "./popups.css";

export interface Option<T extends string> {
  readonly value: T;
  readonly label: string;
}

interface ChoiceProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly options: readonly Option<T>[];
  readonly onChoose: (value: T) => void;
}

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
export function ListChoice<T extends string>({
  label,
  value,
  options,
  onChoose,
  follows = false,
  id,
}: ChoiceProps<T> & { readonly follows?: boolean; readonly id?: string }) {
  return (
    // The page's content policy takes no style sheet from a script.
    <CSPProvider disableStyleElements>
      <Select.Root
        items={options}
        value={value}
        onValueChange={(next) => (next === null ? undefined : onChoose(next))}
        modal={false}
      >
        <Select.Trigger className="list-choice" aria-label={label} id={id} data-follows={follows ? "" : undefined}>
          <Select.Value className="list-choice-value" />
          <Select.Icon>
            <Sign name="down" />
          </Select.Icon>
        </Select.Trigger>
        <Select.Portal>
          <Select.Positioner className="pop-place" sideOffset={4} alignItemWithTrigger={false}>
            <Select.Popup className="pop">
              <Select.List>
                {options.map((option) => (
                  <Select.Item key={option.value} value={option.value} className="pop-item">
                    <span>
                      <Select.ItemIndicator>
                        <Sign name="tick" />
                      </Select.ItemIndicator>
                    </span>
                    <Select.ItemText>{option.label}</Select.ItemText>
                  </Select.Item>
                ))}
              </Select.List>
            </Select.Popup>
          </Select.Positioner>
        </Select.Portal>
      </Select.Root>
    </CSPProvider>
  );
}

interface YesNoProps {
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

export function TickBox({ label, labelledBy, on, onChange }: YesNoProps) {
  return (
    <Checkbox.Root className="tickbox" checked={on} onCheckedChange={onChange} aria-label={label} aria-labelledby={labelledBy}>
      <Checkbox.Indicator>
        <Sign name="tick" />
      </Checkbox.Indicator>
    </Checkbox.Root>
  );
}
