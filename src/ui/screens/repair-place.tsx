/** A repair as a start: what to measure on the old instrument, what follows at once, and the design begun from it. */
import { useState } from "react";
import { NEW_KINDS, newDesign, type NewKind } from "../../document/new-design.ts";
import { beginRepair, readAnswers, REPAIRS, type Ask, type Repair } from "../../measuring/repairs.ts";
import { SKETCHES } from "../../measuring/sketch.ts";
import { startDesign } from "../../store/commands/start-design.ts";
import { useBench, useNotation } from "../bench.ts";
import { DrawingSvg } from "../drawing-svg.tsx";
import { tellTrouble } from "../files.ts";
import { go, hashOf } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice } from "../kit/choice.tsx";
import { tell } from "../kit/tell.tsx";
import { TextField } from "../kit/text-field.tsx";
import { say } from "../notation.ts";
import "./measure-place.css";
import "./repair-place.css";

export function RepairPlace() {
  const [id, setId] = useState(REPAIRS[0]!.id);
  const repair = REPAIRS.find((one) => one.id === id)!;
  return (
    <div className="repair">
      <nav className="repair-list" aria-label="Repairs">
        <a className="taking-back" href={hashOf({ place: "order" })}>
          Back to the order
        </a>
        <h1 className="title">A repair</h1>
        <ul>
          {REPAIRS.map((one) => (
            <li key={one.id}>
              <button
                type="button"
                className="repair-one"
                aria-current={one.id === id ? "true" : undefined}
                onClick={() => setId(one.id)}
              >
                <strong>{one.label}</strong>
                <span className="note">{one.about}</span>
              </button>
            </li>
          ))}
        </ul>
      </nav>
      <RepairForm key={repair.id} repair={repair} />
    </div>
  );
}

function RepairForm({ repair }: { readonly repair: Repair }) {
  const bench = useBench();
  const notation = useNotation();
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const [kind, setKind] = useState<NewKind>("steel-string");
  const { answers, wrong, missing } = readAnswers(repair, typed, notation.unit);
  const works = repair.works?.(answers) ?? [];
  const label = (key: string): string => repair.asks.find((ask) => ask.key === key)!.label.toLowerCase();

  async function begin(): Promise<void> {
    const result = await startDesign(bench, beginRepair(repair, kind, typed, notation.unit));
    if (!result.ok) return tellTrouble("No new design was begun", result.error);
    tell({ title: "The repair is on the bench.", more: repair.next, kind: "fine" });
    go({ place: "parts" });
  }

  return (
    <section className="repair-form" aria-labelledby="repair-title">
      <h2 className="title" id="repair-title">
        {repair.label}
      </h2>
      <p className="taking-about">{repair.about}</p>
      <div className="repair-kind">
        <span>On a</span>
        <ListChoice
          label="Kind of instrument"
          value={kind}
          options={NEW_KINDS.map((value) => ({ value, label: newDesign(value).order?.title ?? value }))}
          onChoose={(value) => setKind(value as NewKind)}
        />
      </div>
      <ol>
        {repair.asks.map((ask) => (
          <AskRow
            key={ask.key}
            ask={ask}
            unit={notation.unit}
            typed={typed[ask.key] ?? ""}
            onType={(text) => {
              const next = { ...typed, [ask.key]: text };
              if (readAnswers(repair, next, notation.unit).wrong.includes(ask.key)) return false;
              setTyped(next);
              return true;
            }}
          />
        ))}
      </ol>
      {works.length > 0 ? (
        <ul className="repair-works" aria-live="polite">
          {works.map((one) => (
            <li key={one.label}>
              <span>{one.label}</span>
              <strong className="num">{say(one.value, "length", notation)}</strong>
              <span className="note">{one.from}</span>
            </li>
          ))}
        </ul>
      ) : null}
      <div className="repair-begin">
        <Button look="main" disabled={missing.length > 0 || wrong.length > 0} onClick={() => void begin()}>
          Begin the repair
        </Button>
        <p className="note">
          {missing.length > 0
            ? `Still wanted: ${missing.map(label).join(", ")}.`
            : "A design of its own, with an order to write the instrument’s number into. What is open now stays kept."}
        </p>
      </div>
    </section>
  );
}

interface AskRowProps {
  readonly ask: Ask;
  readonly unit: "in" | "mm";
  readonly typed: string;
  /** Gives whether the text is a number. */
  readonly onType: (text: string) => boolean;
}

function AskRow({ ask, unit, typed, onType }: AskRowProps) {
  const { key, label, how, sketch, count, row, needed } = ask;
  return (
    <li className="taking-one">
      <DrawingSvg drawing={SKETCHES[sketch]()} says="" className="taking-sketch" />
      <div>
        <h3>
          {label}
          {needed ? <span className="note"> needed</span> : null}
        </h3>
        <p className="note">{how}</p>
      </div>
      <div className="taking-field">
        <TextField
          label={label}
          numeric
          value={typed}
          {...(row ? { placeholder: "4.1 11.6 19.2" } : {})}
          onCommit={(text) =>
            onType(text)
              ? undefined
              : {
                  path: key,
                  label,
                  message: row ? "these are no rising lengths" : count ? "this is no count" : "this is no length",
                  mend: row
                    ? "Write them with blanks between: 4.1 11.6 19.2."
                    : count
                      ? "Write a whole number."
                      : "Write it as 1 11/16 in or 42.9 mm.",
                }
          }
        />
        <span className="note">{count ? "" : unit}</span>
      </div>
    </li>
  );
}
