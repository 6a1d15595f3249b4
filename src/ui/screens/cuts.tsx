/** What was cut, from which numbers, and whether the templates still are what was cut. */
import { useId, useMemo, useState } from "react";
import { stateWords } from "../../report/content.ts";
import { cutStates, type CutState } from "../../report/cut-state.ts";
import { lowerFirst } from "../../sheets/words.ts";
import { recordCut } from "../../store/commands/record-cut.ts";
import { returnToCut } from "../../store/commands/return-to-cut.ts";
import { isSame } from "../../templates/difference.ts";
import type { Template } from "../../templates/template.ts";
import { dayOf } from "../../store/day.ts";
import { useBench, useDerived, useDeriveOther, useDesign, useNotation } from "../bench.ts";
import { tellTrouble } from "../files.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice } from "../kit/choice.tsx";
import { Dialog } from "../kit/dialog.tsx";
import { FindingSign } from "../kit/sign.tsx";
import { say } from "../notation.ts";
import { madeOf, patternsOf } from "../sheets/patterns.ts";
import { tellWithUndo } from "../tell-undo.ts";
import "./cuts.css";

export function Cuts() {
  const bench = useBench();
  const design = useDesign();
  const derived = useDerived();
  const deriveOther = useDeriveOther();
  const [entering, setEntering] = useState(false);
  const states = useMemo(() => cutStates(design, derived, deriveOther), [design, derived, deriveOther]);
  const templates = useMemo(() => madeOf(patternsOf(design, derived)), [design, derived]);

  function goBack(index: number): void {
    const result = returnToCut(bench, index);
    if (!result.ok) return tellTrouble("Nothing was changed", result.error);
    tellWithUndo(bench, "The numbers of that cut are back.");
  }

  return (
    <section className="order-part" aria-labelledby="cuts-title">
      <h3 id="cuts-title">What was cut</h3>
      {states.length === 0 ? (
        <p className="note">Enter a template when it is sawn: its numbers are kept with it, and later changes are told here.</p>
      ) : null}
      <ul className="cuts-list">
        {states.map((state, index) => (
          // A cut is never moved or taken out.
          // eslint-disable-next-line react/no-array-index-key
          <CutItem key={index} state={state} onGoBack={() => goBack(index)} />
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

interface CutItemProps {
  readonly state: CutState;
  readonly onGoBack: () => void;
}

function CutItem({ state, onGoBack }: CutItemProps) {
  const notation = useNotation();
  const { cut, name, difference, waiting } = state;
  const same = difference !== undefined && isSame(difference);
  return (
    <li>
      <div className="cuts-head">
        <span className="cuts-name">{name}</span>
        <span className="num note">{cut.date}</span>
      </div>
      {[cut.material, cut.note].some(Boolean) ? (
        <p className="note">{[cut.material, cut.note].filter(Boolean).join(". ")}</p>
      ) : null}
      <div className="cuts-foot">
        <span className={waiting ? "part-state" : same ? "part-state says-fine" : "part-state says-look"}>
          {waiting ? null : <FindingSign severity={same ? "fine" : "look"} />}{" "}
          {stateWords(state, (mm) => say(mm, "length", notation))}
        </span>
        <span className="note">
          sign <span className="num">{cut.fingerprint}</span>
        </span>
        {same || waiting ? null : (
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
              label: `${template.partLabel}, ${lowerFirst(template.title)}`,
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
