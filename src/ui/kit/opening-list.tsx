import { CSPProvider } from "@base-ui/react/csp-provider";
import { Select } from "@base-ui/react/select";
import type { ReactNode } from "react";
import { Sign } from "./sign.tsx";
import "./popups.css";

export interface Option<T extends string> {
  readonly value: T;
  readonly label: string;
}

export interface ChoiceProps<T extends string> {
  readonly label: string;
  readonly value: T;
  readonly options: readonly Option<T>[];
  readonly onChoose: (value: T) => void;
}

export type ListProps<T extends string> = ChoiceProps<T> & {
  readonly follows?: boolean;
  readonly id?: string;
  /** What is seen of each choice behind its name. */
  readonly renderSample?: ((value: string) => ReactNode) | undefined;
};

/** A list of choices with all that opens. */
export function OpeningList({
  label,
  value,
  options,
  onChoose,
  follows = false,
  id,
  renderSample,
  open,
  onOpen,
}: ListProps<string> & { readonly open: boolean; readonly onOpen: (open: boolean) => void }) {
  return (
    // The page's content policy takes no style sheet from a script.
    <CSPProvider disableStyleElements>
      <Select.Root
        items={options}
        value={value}
        onValueChange={(next) => (next === null ? undefined : onChoose(next))}
        modal={false}
        open={open}
        onOpenChange={onOpen}
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
                    {renderSample ? <span aria-hidden="true">{renderSample(option.value)}</span> : null}
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
