import { Suspense, type ReactNode } from "react";
import { later } from "../later.ts";
import "./help.css";

const OpeningHelp = later(async () => (await import("./opening-help.tsx")).OpeningHelp);

export interface HelpProps {
  /** What is explained; the press that opens it. */
  readonly name: string;
  readonly id?: string;
  readonly open: boolean;
  readonly onOpen: (open: boolean) => void;
  readonly children: ReactNode;
}

/** The name of a thing, which opens a short explanation of it. Out of the tab order: the field beside it opens it by a key. */
export function NamedHelp(props: HelpProps) {
  const { name, id, onOpen } = props;
  return (
    <Suspense
      fallback={
        <button type="button" className="help-name" id={id} tabIndex={-1} onClick={() => onOpen(true)}>
          {name}
        </button>
      }
    >
      <OpeningHelp {...props} />
    </Suspense>
  );
}
