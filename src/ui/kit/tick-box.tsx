import { Checkbox } from "@base-ui/react/checkbox";
import type { YesNoProps } from "./choice.tsx";
import { Sign } from "./sign.tsx";
import "./choice.css";

/** `partly`: for some of what it stands for. */
export function TickBox({ label, labelledBy, on, partly = false, onChange }: YesNoProps & { readonly partly?: boolean }) {
  return (
    <Checkbox.Root
      className="tickbox"
      checked={on}
      indeterminate={partly}
      onCheckedChange={onChange}
      aria-label={label}
      aria-labelledby={labelledBy}
    >
      <Checkbox.Indicator>
        <Sign name={partly ? "minus" : "tick"} />
      </Checkbox.Indicator>
    </Checkbox.Root>
  );
}
