/** What was cut, from which numbers, and whether the templates still are what was cut. */
import { useId, useMemo, useState } from "react";
import { numbersOfCut } from "../../document/cuts.ts";
import type { Cut, Design } from "../../document/design.ts";
import { createDeriver } from "../../parts/derive.ts";
import type { Derived } from "../../parts/derived.ts";
import { recordCut } from "../../store/commands/record-cut.ts";
import { returnToCut } from "../../store/commands/return-to-cut.ts";
import { undo } from "../../store/commands/undo.ts";
import type { Template } from "../../templates/template.ts";
import { dayOf } from "../../store/day.ts";
import { useBench, useDerived, useDesign } from "../bench.ts";
import { tellTrouble } from "../files.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice } from "../kit/choice.tsx";
import { Dialog } from "../kit/dialog.tsx";
import { FindingSign } from "../kit/sign.tsx";
import { tell } from "../kit/tell.tsx";
import { madeOf, patternsOf } from "../sheets/patterns.ts";
import "./cuts.css";

export function Cuts() {
  const bench = useBench();
  const design = useDesign();
  const derived = useDerived();
  const [entering, setEntering] = useState(false);
  const cuts = design.cuts ?? [];
  const templates = useMemo(() => madeOf(patternsOf(design, derived)), [design, derived]);

  function goBack(index: number): void {
    const result = returnToCut(bench, index);
    if (!result.ok) return tellTrouble("Nothing was changed", result.error);
    tell({ title: "The numbers of that cut are back.", action: { label: "Undo", onChoose: () => undo(bench) } });
  }

  return (
    <section className="order-part" aria-labelledby="cuts-title">
      <h3 id="cuts-title">What was cut</h3>
      {cuts.length === 0 ? (
        <p className="note">Enter a template when it is sawn: its numbers are kept with it, and later changes are told here.</p>
      ) : null}
      <ul className="cuts-list">
        {cuts.map((cut, index) => (
          // A cut is never moved or taken out.
          // eslint-disable-next-line react/no-array-index-key
          <CutItem key={index} cut={cut} design={design} index={index} now={derived} onGoBack={() => goBack(index)} />
        ))}
      </ul>
      <div className="cuts-enter">
        <Button size="small" disabled={templates.length === 0} onClick={() => setEntering(true)}>
          Enter a cut
        </Button>
      </div>
      {entering ? <EnterCut templates={templates} onClose={() => setEntering(false)} /> : null}
    </section>
  );
}

/** The template of a cut as it is made of these numbers, whatever the sign of them all. */
const templateOf = (design: Design, derived: Derived, cut: Cut): Template | undefined =>
  madeOf(patternsOf(design, derived, "")).find((template) => template.partId === cut.part && template.name === cut.template);

interface CutItemProps {
  readonly cut: Cut;
  readonly design: Design;
  readonly index: number;
  readonly now: Derived;
  readonly onGoBack: () => void;
}

function CutItem({ cut, design, index, now, onGoBack }: CutItemProps) {
  const then = useMemo(() => {
    const numbers = numbersOfCut(design, index);
    return numbers.ok ? templateOf(numbers.value, createDeriver()(numbers.value), cut) : undefined;
  }, [design, index, cut]);
  const present = useMemo(() => templateOf(design, now, cut), [design, now, cut]);
  const same = then !== undefined && JSON.stringify(then.drawing.layers) === JSON.stringify(present?.drawing.layers);
  return (
    <li>
      <div className="cuts-head">
        <span className="cuts-name">
          {then ? `${then.partLabel}, ${then.title.toLowerCase()}` : `${cut.part}, ${cut.template}`}
        </span>
        <span className="num note">{cut.date}</span>
      </div>
      {[cut.material, cut.note].some(Boolean) ? (
        <p className="note">{[cut.material, cut.note].filter(Boolean).join(". ")}</p>
      ) : null}
      <div className="cuts-foot">
        <span className={same ? "part-state says-fine" : "part-state says-look"}>
          <FindingSign severity={same ? "fine" : "look"} />{" "}
          {same ? "still matches" : present ? "no longer matches" : "no such template now"}
        </span>
        <span className="note">
          sign <span className="num">{cut.fingerprint}</span>
        </span>
        {same ? null : (
          <Button look="link" onClick={onGoBack}>
            back to its numbers
          </Button>
        )}
      </div>
    </li>
  );
}

function EnterCut({ templates, onClose }: { readonly templates: readonly Template[]; readonly onClose: () => void }) {
  const bench = useBench();
  const ids = { date: useId(), material: useId(), note: useId() };
  const [chosen, setChosen] = useState(templates[0]?.id ?? "");
  const [date, setDate] = useState(() => dayOf(bench.now()));
  const [material, setMaterial] = useState("");
  const [note, setNote] = useState("");

  function enter(): void {
    const template = templates.find((one) => one.id === chosen);
    if (!template) return;
    recordCut(bench, {
      date: date || dayOf(bench.now()),
      part: template.partId,
      template: template.name,
      ...(material.trim() ? { material: material.trim() } : {}),
      ...(note.trim() ? { note: note.trim() } : {}),
    });
    onClose();
  }

  return (
    <Dialog
      open
      onClose={onClose}
      title="Enter a cut"
      about="The numbers are kept as they are now. Changes after today are told against them."
      foot={
        <>
          <Button onClick={onClose}>Leave it</Button>
          <Button look="main" onClick={enter}>
            Enter it
          </Button>
        </>
      }
    >
      <div className="cuts-form">
        <div>
          <span className="order-label">Template</span>
          <ListChoice
            label="Template"
            value={chosen}
            options={templates.map((template) => ({
              value: template.id,
              label: `${template.partLabel}, ${template.title.toLowerCase()}`,
            }))}
            onChoose={setChosen}
          />
        </div>
        <div>
          <label className="order-label" htmlFor={ids.date}>
            Date
          </label>
          <input id={ids.date} className="textf" type="date" value={date} onChange={(event) => setDate(event.target.value)} />
        </div>
        <div>
          <label className="order-label" htmlFor={ids.material}>
            Material
          </label>
          <input
            id={ids.material}
            className="textf"
            placeholder="6 mm MDF"
            value={material}
            onChange={(event) => setMaterial(event.target.value)}
          />
        </div>
        <div>
          <label className="order-label" htmlFor={ids.note}>
            Note
          </label>
          <input id={ids.note} className="textf" value={note} onChange={(event) => setNote(event.target.value)} />
        </div>
      </div>
    </Dialog>
  );
}
