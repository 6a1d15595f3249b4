import { Suspense } from "react";
import { later } from "../later.ts";
import { earlyPress } from "./early.ts";
import type { HelpProps } from "./opening-help.tsx";
import "./help.css";

const OpeningHelp = later(async () => (await import("./opening-help.tsx")).OpeningHelp);

/** The name of a thing, which opens a short explanation of it. Out of the tab order: the field beside it opens it by a key. */
export function NamedHelp(props: HelpProps) {
  const { name, id, onOpen } = props;
  return (
    <Suspense
      fallback={
        <button type="button" className="help-name" id={id} tabIndex={-1} {...earlyPress(() => onOpen(true))}>
          {name}
        </button>
      }
    >
      <OpeningHelp {...props} />
    </Suspense>
  );
}
