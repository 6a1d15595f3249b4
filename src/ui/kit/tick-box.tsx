import { Checkbox } from "@base-ui/react/checkbox";
import type { YesNoProps } from "./choice.tsx";
import { Sign } from "./sign.tsx";
import "./choice.css";

export function TickBox({ label, labelledBy, on, onChange }: YesNoProps) {
  return (
    <Checkbox.Root className="tickbox" checked={on} onCheckedChange={onChange} aria-label={label} aria-labelledby={labelledBy}>
      <Checkbox.Indicator>
        <Sign name="tick" />
      </Checkbox.Indicator>
    </Checkbox.Root>
  );
}
