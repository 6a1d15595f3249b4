/** One number, choice, list or switch of a part: its name with the explanation behind it, and the control that its kind asks for. */
import { Suspense, useId, useState, type ReactNode } from "react";
import type { ChoiceSpec, FlagSpec, TextSpec } from "../../parts/contract.ts";
import type { Field } from "../../parts/derived.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice, RowChoice, Switch } from "../kit/choice.tsx";
import { NamedHelp } from "../kit/help.tsx";
import { NumberField, saidOf } from "../kit/number-field.tsx";
import { TextField } from "../kit/text-field.tsx";
import { Sign } from "../kit/sign.tsx";
import { tell } from "../kit/tell.tsx";
import { openDialog } from "../../store/session-store.ts";
import { useBench } from "../bench.ts";
import { copyText } from "../copy-text.ts";
import { fetched } from "../later.ts";
import { quantityOf, say, wordsIn, type Notation } from "../notation.ts";
import type { Editing } from "./editing.ts";
import { NumberFigure } from "./number-figure.tsx";
import { RecordsField } from "./records-field.tsx";
import "./field-row.css";

const FontFileField = fetched(async () => (await import("../inlay/font-file-field.tsx")).FontFileField);
const FaceSample = fetched(async () => (await import("../inlay/face-sample.tsx")).FaceSample);
const SvgFileField = fetched(async () => (await import("./svg-file-field.tsx")).SvgFileField);

export interface FieldRowProps {
  readonly field: Field;
  readonly notation: Notation;
  readonly editing: Editing;
  /** Another name for it here. */
  readonly name?: string | undefined;
  /** Without the words of what it follows. */
  readonly quiet?: boolean;
  /** Lets this number follow instead of the one of its group that follows now. */
  readonly onLetFollow?: (() => void) | undefined;
}

/** The letters of the text beside a choice, in the face that is its value. */
const sampleOf = (path: string, key: string) => (face: string) => (
  <Suspense fallback={null}>
    <FaceSample face={face} textAt={path.replace(/[^.]+$/, key)} />
  </Suspense>
);

/** A row of choices stands in sight up to this many letters; longer ones open as a list. */
const ROW_LETTERS = 22;

export function FieldRow({ field, notation, editing, name, quiet = false, onLetFollow }: FieldRowProps) {
  const id = useId();
  const [explained, setExplained] = useState(false);
  const { spec, path } = field;
  const options = spec.type === "choice" ? (spec as ChoiceSpec<string, unknown>).options : undefined;
  const inRow =
    options !== undefined && options.length <= 3 && options.reduce((sum, o) => sum + o.label.length, 0) <= ROW_LETTERS;
  const shape =
    spec.type === "flag"
      ? "row-flag"
      : spec.type === "records" || (options && inRow)
        ? "row-wide"
        : options || spec.type === "text" || spec.type === "counts"
          ? "row-list"
          : "";

  const said = quantityOf(spec.type) && !quiet ? saidOf(field, notation) : undefined;

  return (
    <div className={`row ${shape}`} id={`field-${path}`}>
      <div className="row-name">
        <NamedHelp name={name ?? spec.label} id={id} open={explained} onOpen={setExplained}>
          <Explained field={field} notation={notation} editing={editing} onDone={() => setExplained(false)} />
        </NamedHelp>
        {said ? (
          <p className="row-says" aria-hidden="true">
            {said}
          </p>
        ) : null}
        {onLetFollow ? (
          <Button look="link" size="small" className="row-act" onClick={onLetFollow}>
            let this one follow
          </Button>
        ) : null}
      </div>
      <div className="row-control">
        <Control field={field} notation={notation} editing={editing} labelledBy={id} inRow={inRow} />
      </div>
    </div>
  );
}

interface ControlProps {
  readonly field: Field;
  readonly notation: Notation;
  readonly editing: Editing;
  readonly labelledBy: string;
  readonly inRow: boolean;
}

function Control({ field, notation, editing, labelledBy, inRow }: ControlProps): ReactNode {
  const { spec, path, state } = field;
  const follows = state === "follows" || state === "fallback";
  // Where the measured value leads, it is the one that is shown and typed over.
  const leading = state === "measured" ? `measured.${path}` : path;
  const sayOrTell = (raw: unknown): void => {
    const problem = editing.sayValue(path, raw);
    if (problem) tell({ title: problem.message, more: problem.mend, kind: "stop" });
  };
  switch (spec.type) {
    case "flag":
      return <Switch labelledBy={labelledBy} on={field.value === true} onChange={sayOrTell} />;
    case "choice": {
      const { options, label, lettered } = spec as ChoiceSpec<string, Readonly<Record<string, unknown>>>;
      const shared = { label, value: String(field.value ?? ""), options, onChoose: sayOrTell };
      if (inRow) return <RowChoice {...shared} wide />;
      return <ListChoice {...shared} follows={follows} renderSample={lettered ? sampleOf(path, lettered) : undefined} />;
    }
    case "text":
    case "counts":
      if ("file" in spec && spec.file) {
        const FileField = spec.file === "font" ? FontFileField : SvgFileField;
        return (
          <Suspense fallback={null}>
            <FileField kept={String(field.value ?? "")} onTake={(held) => editing.sayValue(path, held)} />
          </Suspense>
        );
      }
      return (
        <TextField
          labelledBy={labelledBy}
          numeric={spec.type === "counts"}
          follows={follows}
          value={
            typeof field.raw === "string"
              ? field.raw
              : Array.isArray(field.value)
                ? field.value.join(" ")
                : String(field.value ?? "")
          }
          problem={field.problem}
          onCommit={(text) => editing.sayValue(path, textSaid(spec, text.trim()))}
        />
      );
    case "records":
      return (
        <RecordsField
          field={field}
          notation={notation}
          editing={editing}
          renderRow={(one) => <FieldRow key={one.path} field={one} notation={notation} editing={editing} />}
        />
      );
    default:
      return (
        <NumberField
          field={field}
          notation={notation}
          labelledBy={labelledBy}
          onTry={(text) => editing.tryValue(leading, text)}
          onCommit={(text, gesture) => editing.sayValue(leading, text, gesture)}
          onDrop={editing.drop}
        />
      );
  }
}

/** An emptied field takes the number back, but for a text that is not usually empty: there nothing says something. */
const textSaid = (spec: Field["spec"], typed: string): string | undefined =>
  typed === "" && !(spec.type === "text" && "fallback" in spec && spec.fallback !== "") ? undefined : typed;

/** What can be measured on the work: a number of the instrument or of a part, not of a list, a paper or a template. */
const NUMBER_OF_A_PART = /^(instrument|parts\.[^.[]+)\.[^.[]+$/;

/** What the number is, where its usual range comes from, and the way back to what it follows. */
function Explained({
  field,
  notation,
  editing,
  onDone,
}: {
  readonly field: Field;
  readonly notation: Notation;
  readonly editing: Editing;
  readonly onDone: () => void;
}) {
  const spec = field.spec as (FlagSpec<unknown> | TextSpec<unknown>) & {
    usual?: { from: number; to: number; basis: string };
    follows?: { words: string };
  };
  const bench = useBench();
  const quantity = quantityOf(field.spec.type);
  const given = field.raw !== undefined;
  return (
    <>
      <NumberFigure path={field.path} />
      <p>{spec.help}</p>
      <dl className="help-facts">
        {spec.usual && quantity ? (
          <>
            <dt>Usually</dt>
            <dd>
              {say(spec.usual.from, quantity, notation)} to {say(spec.usual.to, quantity, notation)}
            </dd>
            <dt>Basis</dt>
            <dd>{wordsIn(spec.usual.basis, notation)}</dd>
          </>
        ) : null}
        {spec.follows ? (
          <>
            <dt>Follows</dt>
            <dd>{wordsIn(spec.follows.words, notation)}</dd>
          </>
        ) : null}
        {quantity ? (
          <>
            <dt>In formulas</dt>
            <dd className="num">{field.key}</dd>
          </>
        ) : null}
      </dl>
      <div className="help-acts">
        {quantity && typeof field.value === "number" ? <CopyNumber text={say(field.value, quantity, notation)} /> : null}
        {quantity && NUMBER_OF_A_PART.test(field.path) ? (
          <Button
            size="small"
            onClick={() => {
              openDialog(bench.session, { kind: "built", path: field.path });
              onDone();
            }}
          >
            Measured on the work
          </Button>
        ) : null}
        {given && field.spec.type !== "records" ? (
          <Button
            size="small"
            onClick={() => {
              editing.sayValue(field.path, undefined);
              onDone();
            }}
          >
            {spec.follows ? "Let it follow again" : "Back to the usual"}
          </Button>
        ) : null}
      </div>
    </>
  );
}

function CopyNumber({ text }: { readonly text: string }) {
  return (
    <Button size="small" onClick={() => void copyText(text, `${text} is copied.`)}>
      <Sign name="copy" /> Copy {text}
    </Button>
  );
}
