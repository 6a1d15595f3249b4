/** Parts: the drawing board, the parts beside it as true outlines, the numbers of the one on the board, and what else there is to see of it. */
import { useEffect, useMemo, useState } from "react";
import { countBySeverity, findingsOf } from "../../checks/findings.ts";
import type { DerivedPart } from "../../parts/derived.ts";
import { arrange } from "../../parts/general-arrangement.ts";
import { REGISTRY } from "../../parts/registry.ts";
import { dropPart, newPart } from "../../store/commands/edit-parts.ts";
import { undo } from "../../store/commands/undo.ts";
import { showPart } from "../../store/session-store.ts";
import { partNamed, useBench, useDerived, useDesign, useNotation, useSession } from "../bench.ts";
import { DrawingSvg } from "../drawing-svg.tsx";
import { tellTrouble } from "../files.ts";
import { go, hashOf } from "../frame/route.ts";
import { PartBoard } from "../part-board.tsx";
import { useNarrow } from "../frame/use-narrow.ts";
import { Button } from "../kit/button.tsx";
import { Menu } from "../kit/menu.tsx";
import { FindingSign, Sign } from "../kit/sign.tsx";
import { Tabs } from "../kit/tabs.tsx";
import { sayWords } from "../notation.ts";
import { CuttingPage } from "../inlay/cutting-page.tsx";
import { InlayLegend } from "../inlay/inlay-legend.tsx";
import { NumbersPanel } from "../panels/numbers-panel.tsx";
import { NamePart } from "../dialogs/name-part.tsx";
import { partName } from "../../parts/part-name.ts";
import { tell } from "../kit/tell.tsx";
import { FindingList } from "./finding-list.tsx";
import { FromNut } from "./from-nut.tsx";
import { WHOLE, WholeInstrument } from "./whole-instrument.tsx";
import "./parts-place.css";

/** Height of the part's name over the board. */
const HEAD_PX = 84;

export function PartsPlace({ wanted }: { readonly wanted: string | undefined }) {
  const bench = useBench();
  const derived = useDerived();
  const active = useSession((s) => s.activePart);
  const part = partNamed(derived, wanted ?? active) ?? derived.parts[0] ?? derived.instrument;
  const shown = wanted === undefined && active === "instrument" ? (derived.parts[0] ?? part) : part;

  const narrow = useNarrow();

  const whole = wanted === WHOLE;

  useEffect(() => {
    if (!whole) showPart(bench.session, shown.id);
  }, [bench, shown.id, whole]);

  if (whole)
    return (
      <div className="parts">
        <PartList parts={derived.parts} shown={WHOLE} />
        <WholeInstrument />
      </div>
    );
  return (
    <div className="parts">
      <PartList parts={derived.parts} shown={shown.id} />
      <section className="parts-middle" aria-label={partName(shown)}>
        <div className="parts-head">
          <h1 className="title">{partName(shown)}</h1>
          <Summary part={shown} />
        </div>
        <div className="parts-board">
          <PartBoard part={shown} key={shown.id} coveredTop={narrow ? 0 : HEAD_PX} />
        </div>
        {shown.kind === "inlay" && shown.problems.length === 0 ? <InlayLegend part={shown} /> : null}
        <Below part={shown} />
      </section>
      <aside className="side parts-panel" aria-label={`Numbers of the ${partName(shown).toLowerCase()}`}>
        <div className="parts-panel-head">
          <h2 className="side-title">Numbers of the {partName(shown).toLowerCase()}</h2>
          <PartMenu part={shown} />
        </div>
        <div className="parts-panel-groups">
          <NumbersPanel part={shown} key={shown.id} />
        </div>
      </aside>
    </div>
  );
}

function Summary({ part }: { readonly part: DerivedPart }) {
  const notation = useNotation();
  return <p className="parts-summary">{part.summary.length > 0 ? sayWords(part.summary, notation) : part.about}</p>;
}

function PartList({ parts, shown }: { readonly parts: readonly DerivedPart[]; readonly shown: string }) {
  const bench = useBench();
  const kinds = REGISTRY.filter((part) => part.kind !== "instrument");
  return (
    <nav className="parts-list" aria-label="Parts">
      <WholeCard shown={shown === WHOLE} />
      {parts.map((part) => (
        <a
          key={part.id}
          className="part-card"
          href={hashOf({ place: "parts", part: part.id })}
          aria-current={part.id === shown ? "true" : undefined}
        >
          {part.problems.length > 0 ? <span className="dsvg" /> : <DrawingSvg drawing={part.drawing()} says="" small />}
          <span className="part-card-foot">
            <span className="part-card-name">{partName(part)}</span>
            <PartState part={part} />
          </span>
        </a>
      ))}
      <Menu
        align="start"
        trigger={
          <Button look="quiet" size="small" className="parts-add">
            <Sign name="plus" /> Add a part
          </Button>
        }
        entries={kinds.map((kind) => ({
          label: kind.label,
          about: kind.about,
          onChoose: () => {
            const added = newPart(bench, kind.kind);
            if (added.ok) go({ place: "parts", part: added.value });
            else tellTrouble("No part was added", added.error);
          },
        }))}
      />
    </nav>
  );
}

/** All parts in place, before the parts. */
function WholeCard({ shown }: { readonly shown: boolean }) {
  const derived = useDerived();
  const { drawing } = useMemo(() => arrange(derived), [derived]);
  return (
    <a className="part-card" href={hashOf({ place: "parts", part: WHOLE })} aria-current={shown ? "true" : undefined}>
      <DrawingSvg drawing={drawing} says="" small />
      <span className="part-card-foot">
        <span className="part-card-name">Whole instrument</span>
      </span>
    </a>
  );
}

/** What can be done with a part as a whole. */
function PartMenu({ part }: { readonly part: DerivedPart }) {
  const bench = useBench();
  const [naming, setNaming] = useState(false);
  if (part.id === "instrument") return null;

  function takeOut(): void {
    const result = dropPart(bench, part.id);
    if (!result.ok) return tellTrouble("It was not taken out", result.error);
    go({ place: "parts" });
    tell({ title: `${partName(part)} is taken out.`, action: { label: "Undo", onChoose: () => undo(bench) } });
  }

  return (
    <>
      <Menu
        trigger={
          <Button look="quiet" size="icon" label={`More about the ${partName(part).toLowerCase()}`}>
            <Sign name="menu" />
          </Button>
        }
        entries={[
          { label: "Give it another name", onChoose: () => setNaming(true) },
          { label: "Take this part out", apart: true, onChoose: takeOut },
        ]}
      />
      {naming ? <NamePart part={part} onClose={() => setNaming(false)} /> : null}
    </>
  );
}

/** How its checks stand: a shape and a word. */
function PartState({ part }: { readonly part: DerivedPart }) {
  const { stop, look, fine } = useMemo(() => countBySeverity(part.findings()), [part]);
  if (part.problems.length > 0) return <State severity="stop" says="a number to mend" />;
  if (stop > 0) return <State severity="stop" says={stop === 1 ? "1 stop" : `${stop} stops`} />;
  if (look > 0) return <State severity="look" says={`${look} to look at`} />;
  return fine > 0 ? <State severity="fine" says="all clear" /> : null;
}

const State = ({ severity, says }: { readonly severity: "stop" | "look" | "fine"; readonly says: string }) => (
  <span className={`part-state says-${severity}`}>
    <FindingSign severity={severity} /> {says}
  </span>
);

/** Under the board: the part's tables, its checks, its templates. */
function Below({ part }: { readonly part: DerivedPart }) {
  const [open, setOpen] = useState<string>();
  const templates = part.templates();
  const table = part.kind === "inlay" ? undefined : templates.find((template) => template.table)?.table;
  const derived = useDerived();
  const findings = findingsOf(useDesign(), derived).filter((finding) => finding.partId === part.id);
  const { stop, look } = countBySeverity(findings);
  const pages = [
    ...(part.kind === "inlay" ? [{ id: "cutting", label: "Cutting", page: <CuttingPage part={part} /> }] : []),
    ...(table
      ? [
          {
            id: "table",
            label: table.title.startsWith("From the nut") ? "From the nut" : "Distances",
            page: <FromNut table={table} />,
          },
        ]
      : []),
    {
      id: "fit",
      label: (
        <>
          Fit{" "}
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
      ),
      page: <FindingList findings={findings} />,
    },
    {
      id: "templates",
      label: `Templates ${templates.length}`,
      page: (
        <ul className="patterns">
          {templates.map((template) => (
            <li key={template.name} className="pattern">
              <DrawingSvg drawing={template.drawing} says={template.title} small />
              <p className="pattern-name">{template.title}</p>
              <p className="note">{template.lineIs}</p>
            </li>
          ))}
        </ul>
      ),
    },
  ];
  const shown = pages.find((page) => page.id === open)?.id ?? pages[0]!.id;
  return (
    <div className="parts-below">
      <Tabs label={`More of the ${part.label.toLowerCase()}`} pages={pages} open={shown} onOpen={setOpen} />
    </div>
  );
}
