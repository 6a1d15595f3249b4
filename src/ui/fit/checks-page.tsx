/** Every check as a sentence, the gravest first, with its place shown beside the list. */
import { useMemo, useState } from "react";
import { countBySeverity, findingsOf, sentenceOf, type PlacedFinding } from "../../checks/findings.ts";
import { laidOn } from "../../checks/offcut.ts";
import { placementTemplate } from "../../checks/placement.ts";
import type { Design } from "../../document/design.ts";
import type { Drawing } from "../../drawing/drawing.ts";
import type { Bounds } from "../../geometry/bounds.ts";
import type { Vec } from "../../geometry/vec.ts";
import type { MeasuresByKind, Severity } from "../../parts/contract.ts";
import type { Derived, DerivedPart } from "../../parts/derived.ts";
import { blanksOf } from "../../parts/wood.ts";
import { partNamed, useDerived, useDesign, useNotation } from "../bench.ts";
import { DrawingSvg } from "../drawing-svg.tsx";
import { hashOf } from "../frame/route.ts";
import { FINDING_WORD, FindingSign } from "../kit/sign.tsx";
import { sheetFindings } from "../../sheets/findings.ts";
import { say } from "../notation.ts";
import { useChangedCuts } from "../sheets/changed-cuts.ts";
import { usePaperSettings } from "../sheets/paper-settings.ts";
import { madeOf, patternsOf } from "../sheets/patterns.ts";
import { FindingList, keyOf } from "../screens/finding-list.tsx";
import { partName } from "../../parts/part-name.ts";

const ABOUT: Readonly<Record<Severity, string>> = { stop: "do not cut yet", look: "your call", fine: "nothing to do" };

export function ChecksPage() {
  const derived = useDerived();
  const findings = findingsOf(useDesign(), derived);
  const counts = countBySeverity(findings);
  const [shownKey, setShown] = useState<string>();
  const shown = findings.find((finding) => keyOf(finding) === shownKey) ?? findings.find((finding) => finding.at);
  return (
    <div className="fit">
      {/* It scrolls, and may hold nothing else to put the focus on. */}
      {/* eslint-disable-next-line jsx-a11y/no-noninteractive-tabindex */}
      <section className="fit-list" aria-labelledby="fit-title" tabIndex={0}>
        <div className="fit-list-inner">
          <h2 className="fit-verdict" id="fit-title">
            {counts.stop > 0 ? "Something does not fit" : counts.look > 0 ? "It fits; some things to look at" : "It fits"}
          </h2>
          <p className="fit-count">{findings.length} checks. A clear check is not a promise: try the template in scrap.</p>
          {derived.problems.length > 0 ? (
            <section className="fit-group says-stop">
              <div className="fit-group-head">
                <FindingSign severity="stop" />
                <h3>Numbers to mend first</h3>
              </div>
              <ul>
                {derived.problems.map((problem) => (
                  <li key={problem.path + problem.message} className="finding">
                    <span />
                    <div>
                      <p className="finding-says">{problem.message}</p>
                      <p className="finding-more">{problem.mend}</p>
                    </div>
                    <a
                      className="btn btn-small"
                      href={hashOf(
                        problem.path.startsWith("instrument")
                          ? { place: "numbers" }
                          : { place: "parts", part: problem.path.split(".")[1] ?? "" },
                      )}
                    >
                      Show
                    </a>
                  </li>
                ))}
              </ul>
            </section>
          ) : null}
          {(["stop", "look", "fine"] as const).map((severity) => (
            <Group
              key={severity}
              severity={severity}
              findings={findings.filter((finding) => finding.severity === severity)}
              shown={shown ? keyOf(shown) : undefined}
              onShow={(finding) => setShown(keyOf(finding))}
            />
          ))}
          <SinceCut />
          <OnPaper />
        </div>
      </section>
      <aside className="fit-side" aria-label="The place on the part">
        {shown ? (
          <PlaceOf finding={shown} />
        ) : (
          <p className="fit-side-head note">Point at a check and its place is shown here.</p>
        )}
      </aside>
    </div>
  );
}

/** What was cut and is drawn otherwise now. */
function SinceCut() {
  const changed = useChangedCuts();
  if (changed.length === 0) return null;
  return (
    <section className="fit-group" aria-labelledby="fit-cut">
      <div className="fit-group-head">
        <h3 id="fit-cut">Since it was cut</h3>
        <p>
          as entered under <a href={hashOf({ place: "order" })}>What was cut</a>
        </p>
      </div>
      <ul>
        {changed.map(({ partId, template, name, says }) => (
          <li key={`${partId}/${template}`} className="finding">
            <span className="finding-sign says-look">
              <FindingSign severity="look" />
              <span className="unseen">{FINDING_WORD.look}: </span>
            </span>
            <div>
              <p className="paper-says">
                {name}. {says}
              </p>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What the paper and the printer of this browser do to the templates; not of the design, so not counted with its checks. */
function OnPaper() {
  const design = useDesign();
  const derived = useDerived();
  const notation = useNotation();
  const settings = usePaperSettings(notation);
  const templates = useMemo(() => madeOf(patternsOf(design, derived)), [design, derived]);
  if (!settings.chosen) return null;
  const findings = sheetFindings(templates, settings.chosen);
  return (
    <section className="fit-group" aria-labelledby="fit-paper">
      <div className="fit-group-head">
        <h3 id="fit-paper">On paper</h3>
        <p>
          with this browser's printer and paper, set under <a href={hashOf({ place: "sheets" })}>Sheets</a>
        </p>
      </div>
      <ul>
        {findings.map((finding) => (
          <li key={finding.id} className="finding">
            <span className={`finding-sign says-${finding.severity}`}>
              <FindingSign severity={finding.severity} />
              <span className="unseen">{FINDING_WORD[finding.severity]}: </span>
            </span>
            <div>
              <p className="paper-says">{sentenceOf(finding, (value, quantity) => say(value, quantity, notation))}</p>
              {finding.mend ? <p className="finding-more">{finding.mend}</p> : null}
              <p className="finding-basis">Basis: {finding.basis}</p>
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Group({
  severity,
  findings,
  shown,
  onShow,
}: {
  readonly severity: Severity;
  readonly findings: readonly PlacedFinding[];
  readonly shown: string | undefined;
  readonly onShow: (finding: PlacedFinding) => void;
}) {
  if (findings.length === 0) return null;
  return (
    <section className="fit-group" aria-labelledby={`fit-${severity}`}>
      <div className={`fit-group-head says-${severity}`}>
        <FindingSign severity={severity} />
        <h3 id={`fit-${severity}`}>{FINDING_WORD[severity]}</h3>
        <span>
          {findings.length}, {ABOUT[severity]}
        </span>
      </div>
      <FindingList findings={findings} named shown={shown} onShow={onShow} />
    </section>
  );
}

function PlaceOf({ finding }: { readonly finding: PlacedFinding }) {
  const design = useDesign();
  const derived = useDerived();
  const part = partNamed(derived, finding.partId);
  if (!part || part.problems.length > 0) return null;
  const drawing = part.kind === "offcut" ? placementOf(design, derived, part) : part.drawing();
  const place = { ...(finding.at ? { ring: finding.at } : {}), ...(finding.shape ? { marked: finding.shape } : {}) };
  return (
    <>
      <div className="fit-side-head">
        <h3 className="side-title">{partName(part)}</h3>
      </div>
      <div className="fit-whole">
        <DrawingSvg drawing={drawing} says={`${partName(part)}, the place ringed`} {...place} />
      </div>
      {finding.at ? (
        <>
          <p className="fit-side-note note">The place, enlarged</p>
          <div className="fit-near">
            <DrawingSvg
              className="dsvg-cut"
              drawing={drawing}
              says={`The place on the ${partName(part).toLowerCase()}, enlarged`}
              cut={around(finding.at)}
              {...place}
              ringPart={0.12}
            />
          </div>
        </>
      ) : null}
    </>
  );
}

/** An offcut with what is laid on it. */
function placementOf(design: Design, derived: Derived, part: DerivedPart): Drawing {
  const offcut = part.measures as MeasuresByKind["offcut"];
  return placementTemplate(part, offcut, laidOn(offcut, blanksOf(design, derived))).drawing;
}

/** Half the width and height of what is shown enlarged, mm. */
const NEAR = { x: 36, y: 24 };

const around = ({ x, y }: Vec): Bounds => ({ minX: x - NEAR.x, minY: y - NEAR.y, maxX: x + NEAR.x, maxY: y + NEAR.y });
