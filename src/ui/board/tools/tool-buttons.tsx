import { Button } from "../../kit/button.tsx";

export type ToolName = "trace" | "dividers" | "photograph";

interface ToolButtonsProps {
  readonly name: ToolName | undefined;
  /** The part has an outline to trace. */
  readonly traces: boolean;
  /** The one in hand is laid down by taking none. */
  readonly onTake: (name: ToolName | undefined) => void;
}

const WORDS: Readonly<Record<ToolName, string>> = { trace: "Trace", dividers: "Dividers", photograph: "Photograph" };

export const ToolButtons = ({ name, traces, onTake }: ToolButtonsProps) =>
  (["trace", "dividers", "photograph"] as const)
    .filter((one) => traces || one !== "trace")
    .map((one) => (
      <Button
        key={one}
        size="small"
        look={name === one ? "main" : "plain"}
        pressed={name === one}
        onClick={() => onTake(name === one ? undefined : one)}
      >
        {WORDS[one]}
      </Button>
    ));
