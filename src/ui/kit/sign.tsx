/** Small signs. A finding's sign always stands beside its word; the others beside theirs or inside a labelled button. */
import type { Severity } from "../../parts/contract.ts";
import "./sign.css";

const FINDING: Record<Severity, string> = {
  stop: "M5 1h6l4 4v6l-4 4H5l-4-4V5z",
  look: "M8 1.6 15.4 14.6H.6z",
  fine: "M1.8 8.6 6.2 13 14.4 3.4",
};

/** The sign of a finding: octagon for stop, triangle for look, tick for fine. */
export function FindingSign({ severity }: { readonly severity: Severity }) {
  return (
    <svg className={`sign sign-${severity}`} viewBox="0 0 16 16" aria-hidden="true">
      {severity === "fine" ? (
        <path d={FINDING.fine} fill="none" stroke="currentColor" strokeWidth="2.4" />
      ) : (
        <path d={FINDING[severity]} fill="currentColor" />
      )}
    </svg>
  );
}

/** How many findings stop the work and how many want a look, each with its sign; nothing where there are none. */
export const FindingCounts = ({ stop, look }: { readonly stop: number; readonly look: number }) => (
  <>
    {stop > 0 ? (
      <span className="says-stop">
        <FindingSign severity="stop" /> {stop}
      </span>
    ) : null}{" "}
    {look > 0 ? (
      <span className="says-look">
        <FindingSign severity="look" /> {look}
      </span>
    ) : null}
  </>
);

/** "Stop", "Look", "Fine": what a finding asks for, in a word. */
export const FINDING_WORD: Record<Severity, string> = { stop: "Stop", look: "Look", fine: "Fine" };

const STROKES = {
  undo: "M6.5 3 2.5 7l4 4M3 7h6.5a4 4 0 0 1 0 8H7",
  redo: "M9.5 3l4 4-4 4M13 7H6.5a4 4 0 0 0 0 8H9",
  close: "M3.5 3.5l9 9M12.5 3.5l-9 9",
  down: "M3.5 6 8 10.5 12.5 6",
  tick: "M2.5 8.5 6.5 12.5 13.5 4",
  plus: "M8 2.5v11M2.5 8h11",
  minus: "M2.5 8h11",
  up: "M3.5 10 8 5.5 12.5 10",
  bin: "M3 4.5h10M6 4.5V2.5h4v2M4.5 4.5l.7 9h5.6l.7-9",
  copy: "M5.5 5.5v-3h8v8h-3M2.5 5.5h8v8h-8z",
  sun: "M8 4.8a3.2 3.2 0 1 0 0 6.4 3.2 3.2 0 0 0 0-6.4M8 1v1.6M8 13.4V15M1 8h1.6M13.4 8H15M3 3l1.2 1.2M11.8 11.8 13 13M13 3l-1.2 1.2M4.2 11.8 3 13",
  moon: "M13 9.8A5.6 5.6 0 0 1 6.2 3a5.6 5.6 0 1 0 6.8 6.8z",
  menu: "M2.5 4.5h11M2.5 8h11M2.5 11.5h11",
  back: "M10 3.5 5.5 8 10 12.5",
  dividers: "M8 1.5v2M8 3.5 4 14.5M8 3.5l4 11M5.6 9.2h4.8",
} as const;

export type SignName = keyof typeof STROKES;

export function Sign({ name }: { readonly name: SignName }) {
  return (
    <svg
      className="sign"
      viewBox="0 0 16 16"
      fill="none"
      stroke="currentColor"
      strokeWidth="1.5"
      strokeLinecap="round"
      strokeLinejoin="round"
      aria-hidden="true"
    >
      <path d={STROKES[name]} />
    </svg>
  );
}
