/** Parts: the drawing board, the parts beside it as true outlines, the numbers of the one on the board, and what else there is to see of it. */
import { Suspense, useEffect, useMemo, useRef, useState } from "react";
import type { DerivedPart } from "../../parts/derived.ts";
import { arrange } from "../../parts/general-arrangement.ts";
import { dropPart } from "../../store/commands/edit-parts.ts";
import { showPart } from "../../store/session-store.ts";
import { partNamed, useBench, useDerived, useNotation, useSession } from "../bench.ts";
import { DrawingSvg } from "../drawing-svg.tsx";
import { tellTrouble } from "../files.ts";
import { go, hashOf, WHOLE } from "../frame/route.ts";
import { PartBoard } from "../part-board.tsx";
import { useNarrow } from "../frame/use-narrow.ts";
import { Button } from "../kit/button.tsx";
import { useInSight } from "../kit/in-sight.ts";
import { Menu, MenuToCome } from "../kit/menu.tsx";
import { Sign } from "../kit/sign.tsx";
import { sayWords } from "../notation.ts";
import { fetched, later } from "../later.ts";
import { NumbersPanel } from "../panels/numbers-panel.tsx";
import { partName } from "../../parts/part-name.ts";
import { tellWithUndo } from "../tell-undo.ts";
import "./parts-place.css";

const WholeInstrument = fetched(async () => (await import("./whole-instrument.tsx")).WholeInstrument);
const InlayLegend = fetched(async () => (await import("../inlay/inlay-legend.tsx")).InlayLegend);
const NamePart = fetched(async () => (await import("../dialogs/name-part.tsx")).NamePart);
const BelowBoard = later(async () => (await import("./below-board.tsx")).BelowBoard);
const PartState = later(async () => (await import("./part-state.tsx")).PartState);
const AddPart = fetched(async () => (await import("./add-part.tsx")).AddPart, { firstPicture: true, everyPart: true });

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
        <Suspense fallback={<p className="busy">One moment.</p>}>
          <WholeInstrument />
        </Suspense>
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
        <Suspense fallback={null}>
          {shown.kind === "inlay" && shown.problems.length === 0 ? <InlayLegend part={shown} /> : null}
        </Suspense>
        <div className="parts-below">
          <Suspense fallback={null}>
            <BelowBoard part={shown} />
          </Suspense>
        </div>
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

const ADD = (
  <Button look="quiet" size="small" className="parts-add">
    <Sign name="plus" /> Add a part
  </Button>
);

function PartList({ parts, shown }: { readonly parts: readonly DerivedPart[]; readonly shown: string }) {
  const list = useRef<HTMLElement>(null);
  const [adds, setAdds] = useState(false);
  useInSight(list, "[aria-current]", shown);
  return (
    <nav className="parts-list" aria-label="Parts" ref={list}>
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
            <Suspense fallback={null}>
              <PartState part={part} />
            </Suspense>
          </span>
        </a>
      ))}
      <Suspense fallback={<MenuToCome trigger={ADD} onPress={() => setAdds(true)} />}>
        <AddPart trigger={ADD} open={adds} onOpen={setAdds} />
      </Suspense>
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
    tellWithUndo(bench, `${partName(part)} is taken out.`);
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
      <Suspense fallback={null}>{naming ? <NamePart part={part} onClose={() => setNaming(false)} /> : null}</Suspense>
    </>
  );
}
