/** My first fingerboard: five numbers, and a true-size sheet. */
import { useEffect, useMemo, useState } from "react";
import type { Design } from "../../document/design.ts";
import { newDesign } from "../../document/new-design.ts";
import type { Derived, DerivedPart, DeriveOther, Field } from "../../parts/derived.ts";
import { openDesign } from "../../store/commands/open-design.ts";
import { startDesign } from "../../store/commands/start-design.ts";
import type { Workbench } from "../../store/workbench.ts";
import type { Template } from "../../templates/template.ts";
import { useBench, useDerived, useDeriveOther, useDesign, useNotation } from "../bench.ts";
import { tellTrouble } from "../files.ts";
import { hashOf } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { RowChoice } from "../kit/choice.tsx";
import { useEditing } from "../panels/editing.ts";
import { FieldRow } from "../panels/field-row.tsx";
import { PartBoard } from "../part-board.tsx";
import { sheetOptions } from "../sheets/options.ts";
import { usePaperSettings } from "../sheets/paper-settings.ts";
import { madeOf, patternsOf } from "../sheets/patterns.ts";
import { pdfOfJob } from "../sheets/save-sheets.ts";
import { useLayOut } from "../sheets/sheets-client.ts";
import { useSheetSaving } from "../sheets/use-saving.ts";
import "./first-board.css";

const TITLE = "My first fingerboard";

/** The five numbers, by the owner and the key of each, with what to do to find it. */
const STEPS: readonly {
  readonly part: "instrument" | "fingerboard";
  readonly key: string;
  readonly name?: string;
  readonly help: string;
}[] = [
  { part: "instrument", key: "scale", help: "Nut to fret 12 on an instrument you like, times two." },
  { part: "instrument", key: "frets", help: "As many as the board shall have." },
  { part: "instrument", key: "nutWidth", help: "Width of the finished board where it meets the nut." },
  { part: "fingerboard", key: "widthAtJoin", help: "Width of the finished board where neck and body meet." },
  { part: "fingerboard", key: "bindingThickness", name: "Binding", help: "Each side, purfling included; 0 for a board without." },
];

/** What is printed: the edge to saw to, that with the binding if there is one, and the slots. */
const TEMPLATES = new Set(["blank-outline", "bound-outline", "fret-slots"]);

const NONE: readonly Template[] = [];

const firstTemplates = (design: Design, deriveOther: DeriveOther): readonly Template[] => {
  const derived = deriveOther("first board", design);
  const board = boardOf(derived);
  return madeOf(patternsOf(design, derived)).filter((template) => template.partId === board?.id && TEMPLATES.has(template.name));
};

const boardOf = (derived: Derived): DerivedPart | undefined => derived.parts.find((part) => part.kind === "fingerboard");

export function FirstBoard() {
  const bench = useBench();
  const design = useDesign();
  const derived = useDerived();
  const notation = useNotation();
  const editing = useEditing();
  const saving = useSheetSaving();
  const [saved, setSaved] = useState(false);
  const ready = design.order?.title === TITLE;

  useEffect(() => {
    void putFirstOnBench(bench);
  }, [bench]);

  const board = boardOf(derived);
  const fields = STEPS.map(({ part, key, name, help }) => ({
    name,
    help,
    field: (part === "instrument" ? derived.instrument : board)?.fields.find((field) => field.key === key),
  }));
  const settings = usePaperSettings(notation);
  const options = useMemo(() => (settings.chosen ? sheetOptions(design, settings.chosen) : undefined), [design, settings]);
  // From the design as it is said: sheets are not laid out at every letter.
  const deriveOther = useDeriveOther();
  const templates = useMemo(() => (ready ? firstTemplates(design, deriveOther) : NONE), [ready, design, deriveOther]);
  const { set } = useLayOut(templates, options);
  const count = templates.length > 0 && set ? set.sheets.length : 0;
  const size = settings.fields.find((field) => field.key === "size");

  async function save(): Promise<void> {
    if (!options) return;
    setSaved(await saving.save({ design, templates, options }, pdfOfJob));
  }

  if (!ready || !board) return <p className="busy">One moment.</p>;
  return (
    <div className="first">
      <section className="first-sheet" aria-labelledby="first-title">
        <h1 className="title" id="first-title">
          {TITLE}
        </h1>
        <p className="first-about">Five numbers, and your printer gives you the board at true size.</p>
        <ol className="first-steps">
          {fields.map(({ field, name, help }, i) =>
            field ? (
              <Step
                key={field.path}
                field={field}
                name={name}
                help={help}
                first={i === 0}
                editing={editing}
                notation={notation}
              />
            ) : null,
          )}
        </ol>
        <div className="first-save">
          {size ? (
            <div className="first-paper">
              <span>Paper in your printer</span>
              <RowChoice
                label="Paper"
                value={String(size.value)}
                options={PAPERS}
                onChoose={(value) => void settings.editing.sayValue(size.path, value)}
              />
            </div>
          ) : null}
          {saving.progress === undefined ? (
            <Button look="main" disabled={count === 0} onClick={() => void save()}>
              Save the PDF{count === 0 ? "" : count === 1 ? ", 1 sheet" : `, ${count} sheets`}
            </Button>
          ) : (
            <Button onClick={saving.cancel}>Writing, {Math.round(saving.progress * 100)} %. Cancel</Button>
          )}
          {saved ? (
            <ol className="first-done">
              <li>Print it at 100 %, not fitted to the page.</li>
              <li>
                Lay a steel rule on the 100 mm bar. If it reads otherwise, measure the printer under{" "}
                <a href={hashOf({ place: "sheets" })}>Sheets</a> and print again.
              </li>
              <li>Join the sheets at their numbered marks.</li>
            </ol>
          ) : null}
          <p className="note">
            Radius, markers, nut and everything else wait under <a href={hashOf({ place: "parts", part: board.id })}>Parts</a>.
            Try the template in scrap before good wood.
          </p>
        </div>
      </section>
      <div className="first-board">
        <PartBoard part={board} />
      </div>
    </div>
  );
}

const PAPERS = [
  { value: "letter", label: "Letter" },
  { value: "a4", label: "A4" },
  { value: "tabloid", label: "Tabloid" },
  { value: "a3", label: "A3" },
];

interface StepProps {
  readonly field: Field;
  readonly name: string | undefined;
  readonly help: string;
  readonly first: boolean;
  readonly editing: ReturnType<typeof useEditing>;
  readonly notation: ReturnType<typeof useNotation>;
}

function Step({ field, name, help, first, editing, notation }: StepProps) {
  useEffect(() => {
    // The first number is what the maker came for: typing may begin at once.
    if (first) document.querySelector<HTMLInputElement>(".first-steps input")?.focus();
  }, [first]);
  return (
    <li>
      <div>
        <FieldRow field={field} notation={notation} editing={editing} name={name} quiet />
        <p className="first-help">{help}</p>
      </div>
    </li>
  );
}

/** Puts the design of the first fingerboard on the bench: the one that is kept already, or a new one. What was open stays kept. */
async function putFirstOnBench(bench: Workbench): Promise<void> {
  if (bench.design.getState().design.order?.title === TITLE) return;
  const list = await bench.storage?.list();
  const kept = list?.ok ? list.value.find((one) => one.title === TITLE) : undefined;
  const result = kept ? await openDesign(bench, kept.id) : await startDesign(bench, firstDesign());
  if (!result.ok) tellTrouble("No design was begun", result.error);
}

const firstDesign = () => ({ ...newDesign("steel-string"), order: { title: TITLE } });
