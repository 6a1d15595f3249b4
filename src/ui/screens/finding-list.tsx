/** Checks as sentences: measured, needed, where the limit comes from, what to change, and the way to the place. */
import { useStore } from "zustand";
import { limitOf, sentenceOf, type PlacedFinding } from "../../checks/findings.ts";
import { select, showPart } from "../../store/session-store.ts";
import { useBench, useNotation } from "../bench.ts";
import { go } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { FINDING_WORD, FindingSign } from "../kit/sign.tsx";
import { say, wordsIn, type Notation } from "../notation.ts";
import { wholeCheckOf } from "../../parts/whole-checks.ts";
import { showPlace } from "../shown-place.ts";
import { isChanged, LimitFields, openLimits, toggleLimits, useLimits } from "../fit/limits.tsx";
import "./finding-list.css";

interface FindingListProps {
  readonly findings: readonly PlacedFinding[];
  /** Names the part of each. */
  readonly named?: boolean;
  /** The one whose place is being shown beside the list. */
  readonly shown?: string | undefined;
  readonly onShow?: (finding: PlacedFinding) => void;
}

export const keyOf = (finding: PlacedFinding): string => `${finding.partId} ${finding.id}`;

export function FindingList({ findings, named = false, shown, onShow }: FindingListProps) {
  if (findings.length === 0) return <p className="note">No check applies here yet.</p>;
  return (
    <ul>
      {findings.map((finding) => (
        <FindingItem key={keyOf(finding)} finding={finding} named={named} shown={shown === keyOf(finding)} onShow={onShow} />
      ))}
    </ul>
  );
}

function FindingItem({
  finding,
  named,
  shown,
  onShow,
}: {
  readonly finding: PlacedFinding;
  readonly named: boolean;
  readonly shown: boolean;
  readonly onShow: FindingListProps["onShow"];
}) {
  const bench = useBench();
  const notation = useNotation();
  const limits = useLimits(finding);
  const open = useStore(openLimits, ({ keys }) => named && keys.has(keyOf(finding)));
  const sentence = sentenceOf(finding, (value, quantity) => say(value, quantity, notation));
  const limit = limitOf(finding, (value, quantity) => say(value, quantity, notation));

  function visit(): void {
    // What is laid on an offcut is seen under Fit.
    if (wholeCheckOf(finding.id) && finding.id.startsWith("offcut-")) return go({ place: "fit", part: "offcut" });
    go(finding.partId === "instrument" ? { place: "numbers" } : { place: "parts", part: finding.partId });
    showPart(bench.session, finding.partId);
    if (finding.shape) select(bench.session, { part: finding.partId, shape: finding.shape });
    showPlace(finding.at ? { part: finding.partId, at: finding.at, shape: finding.shape } : undefined);
  }

  return (
    // Pointing shows what the focus of its button shows.
    // eslint-disable-next-line jsx-a11y/no-noninteractive-element-interactions
    <li
      className={`finding finding-${finding.severity}`}
      data-shown={shown ? "" : undefined}
      onMouseEnter={() => onShow?.(finding)}
      onFocus={() => onShow?.(finding)}
    >
      <span className="finding-sign">
        <FindingSign severity={finding.severity} />
        <span className="unseen">{FINDING_WORD[finding.severity]}: </span>
      </span>
      <div>
        <p className="finding-says">
          <Sentence finding={finding} notation={notation} />
        </p>
        {finding.mend ? <p className="finding-more">{wordsIn(finding.mend, notation)}</p> : null}
        <p className="finding-basis">
          {named ? `${finding.partLabel}. ` : ""}
          {limit ? `${limit}. ` : ""}
          Basis: {wordsIn(finding.basis, notation)}
          {limits.some(isChanged) ? <strong className="finding-changed"> · limit changed by you</strong> : null}
          {limits.length > 0 && named ? (
            <span className="on-screen">
              {" · "}
              <Button
                look="link"
                label={`${limits.length === 1 ? "limit" : "limits"}: ${sentence}`}
                pressed={open}
                onClick={() => toggleLimits(keyOf(finding))}
              >
                {limits.length === 1 ? "limit" : "limits"}
              </Button>
            </span>
          ) : null}
        </p>
        {open ? <LimitFields limits={limits} /> : null}
      </div>
      {finding.severity === "fine" ? null : (
        <Button size="small" label={`Show the place: ${sentence}`} onClick={visit}>
          Show
        </Button>
      )}
    </li>
  );
}

/** The sentence with its numbers standing out. */
function Sentence({ finding, notation }: { readonly finding: PlacedFinding; readonly notation: Notation }) {
  return finding.says.split(/(\{measured\}|\{needed\})/).map((piece, i) => {
    const value = piece === "{measured}" ? finding.measured : piece === "{needed}" ? finding.needed : undefined;
    if (value === undefined) return piece;
    return (
      // The pieces of one sentence never change places.
      // eslint-disable-next-line react/no-array-index-key
      <span className="num" key={i}>
        {say(value, finding.quantity ?? "length", notation)}
      </span>
    );
  });
}
