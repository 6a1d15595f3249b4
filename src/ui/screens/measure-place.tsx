/** Measuring an instrument: every number with how it is taken, what follows from them, the empty form, and a design begun from them. */
import { useState } from "react";
import type { RawRecord } from "../../parts/derived.ts";
import { NEW_KINDS, newDesign, type NewKind } from "../../document/new-design.ts";
import { compensationFound, numbersFound, OUT_MM, scaleFound } from "../../measuring/found.ts";
import { FRETS_ASKED, GROUPS, keyOfFret, READINGS, type Reading } from "../../measuring/readings.ts";
import { SKETCHES } from "../../measuring/sketch.ts";
import { beginFrom, pathOf, readTaken, takenFrom } from "../../measuring/taken.ts";
import { startDesign } from "../../store/commands/start-design.ts";
import { useBench, useDerived, useDesign, useNotation } from "../bench.ts";
import { DrawingSvg } from "../drawing-svg.tsx";
import { tellTrouble } from "../files.ts";
import { go, hashOf } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice } from "../kit/choice.tsx";
import { TextField } from "../kit/text-field.tsx";
import { say, type Notation } from "../notation.ts";
import { useEditing } from "../panels/editing.ts";
import { usePaperSettings } from "../sheets/paper-settings.ts";
import { saveForm } from "../measuring/save-form.ts";
import "./measure-place.css";

export function MeasurePlace() {
  const bench = useBench();
  const design = useDesign();
  const notation = useNotation();
  const reference = design.order?.reference ?? {};
  const [kind, setKind] = useState<NewKind>("steel-string");
  const paper = usePaperSettings(notation).chosen?.paper;

  async function begin(): Promise<void> {
    const result = await startDesign(bench, beginFrom(kind, reference, design.units));
    if (!result.ok) return tellTrouble("No new design was begun", result.error);
    go({ place: "numbers" });
  }

  const some = Object.keys(takenFrom(reference, design.units)).length > 0;
  return (
    <div className="taking">
      <div className="taking-sheet">
        <a className="taking-back" href={hashOf({ place: "order" })}>
          Back to the order
        </a>
        <h1 className="title">Measuring an instrument</h1>
        <p className="taking-about">
          The player&rsquo;s own guitar, or an old one that needs a part. What is written here is kept with the order; leave empty
          what cannot be reached.
        </p>
        <div className="taking-acts">
          <Button onClick={() => void saveForm(design, paper, "empty")}>Save the empty form, for the bench</Button>
          {some ? <Button onClick={() => void saveForm(design, paper, "filled")}>Save it as filled in</Button> : null}
        </div>
        {GROUPS.map((group) => (
          <section key={group} className="taking-group" aria-label={group}>
            <h2>{group}</h2>
            <ol>
              {READINGS.filter((reading) => reading.group === group).map((reading) => (
                <Taking key={reading.key} reading={reading} written={reference[reading.key]} notation={notation} />
              ))}
            </ol>
          </section>
        ))}
        <section className="taking-group" aria-label="Distances to the frets">
          <h2>From the nut to each fret</h2>
          <p className="note">
            All from one laying of a long rule, to the middle of the crown. They give the scale, and any slot that is out.
          </p>
          <div className="taking-frets">
            {FRETS_ASKED.map((fret) => (
              <FretTaking key={fret} fret={fret} written={reference[keyOfFret(fret)]} notation={notation} />
            ))}
          </div>
        </section>
      </div>
      <aside className="taking-found" aria-label="What follows">
        <h2>What follows</h2>
        <Follows reference={reference} notation={notation} />
        {some ? (
          <div className="taking-begin">
            <h3>Begin a design from it</h3>
            <p className="note">Every number above is set; the rest is usual for the kind.</p>
            <ListChoice
              label="Kind of instrument"
              value={kind}
              options={NEW_KINDS.map((value) => ({ value, label: newDesign(value).order?.title ?? value }))}
              onChoose={(value) => setKind(value as NewKind)}
            />
            <Button look="main" onClick={() => void begin()}>
              Begin it
            </Button>
          </div>
        ) : null}
      </aside>
    </div>
  );
}

/** The field in which a reading is written; a text that is no number is refused beside it. */
function TakenField({
  name,
  readingKey,
  written,
  notation,
  count = false,
}: {
  readonly name: string;
  readonly readingKey: string;
  readonly written: unknown;
  readonly notation: Notation;
  readonly count?: boolean;
}) {
  const editing = useEditing();
  const text =
    typeof written === "string" ? written : typeof written === "number" ? say(written, count ? "count" : "length", notation) : "";
  return (
    <TextField
      label={name}
      numeric
      value={text}
      onCommit={(typed) => {
        const path = `order.reference.${readingKey}`;
        if (typed.trim() !== "" && readTaken(readingKey, typed, notation.unit) === undefined)
          return {
            path,
            label: name,
            message: count ? "this is no count" : "this is no length",
            mend: count ? "Write a whole number, like 20." : "Write it as 1 11/16 in or 42.9 mm.",
          };
        return editing.sayValue(path, typed.trim() === "" ? undefined : typed.trim());
      }}
    />
  );
}

function Taking({
  reading,
  written,
  notation,
}: {
  readonly reading: Reading;
  readonly written: unknown;
  readonly notation: Notation;
}) {
  return (
    <li className="taking-one">
      <DrawingSvg drawing={SKETCHES[reading.sketch]()} says="" className="taking-sketch" />
      <div>
        <h3>{reading.label}</h3>
        <p className="note">{reading.how}</p>
      </div>
      <div className="taking-field">
        <TakenField
          name={reading.label}
          readingKey={reading.key}
          written={written}
          notation={notation}
          count={reading.count === true}
        />
        <span className="note">{reading.count ? "" : notation.unit}</span>
      </div>
    </li>
  );
}

function FretTaking({
  fret,
  written,
  notation,
}: {
  readonly fret: number;
  readonly written: unknown;
  readonly notation: Notation;
}) {
  return (
    <div className="taking-fret">
      <span>fret {fret}</span>
      <TakenField name={`Nut to fret ${fret}`} readingKey={keyOfFret(fret)} written={written} notation={notation} />
    </div>
  );
}

function Follows({ reference, notation }: { readonly reference: RawRecord; readonly notation: Notation }) {
  const design = useDesign();
  const derived = useDerived();
  const editing = useEditing();
  const taken = takenFrom(reference, design.units);
  const found = numbersFound(taken);
  if (found.length === 0) return <p className="note">As soon as something is written, what it gives stands here beside ours.</p>;
  const scale = scaleFound(taken);
  const compensation = compensationFound(taken);
  const length = (mm: number): string => say(mm, "length", notation);
  const signed = (mm: number): string => `${mm < 0 ? "−" : "+"}${length(Math.abs(mm))}`;
  return (
    <>
      <ul className="taking-list">
        {found.map((one) => {
          const path = pathOf(design, one);
          const field = [derived.instrument, ...derived.parts].flatMap(({ fields }) => fields).find((each) => each.path === path);
          const quantity = typeof field?.value === "number" && field.spec.type === "count" ? "count" : "length";
          const label = field?.spec.label ?? one.from;
          const same = typeof field?.value === "number" && Math.abs(field.value - one.value) < 0.005;
          return (
            <li key={`${one.kind} ${one.key}`}>
              <span className="taking-name">{label}</span>
              <span className="taking-value">{say(one.value, quantity, notation)}</span>
              <span className="note">{one.from}</span>
              {field && typeof field.value === "number" ? (
                same ? (
                  <span className="note">ours is the same</span>
                ) : (
                  <span className="note">
                    ours {say(field.value, quantity, notation)}{" "}
                    <Button
                      look="link"
                      size="small"
                      label={`Take over ${label}: ${say(one.value, quantity, notation)}`}
                      onClick={() => void editing.sayValue(field.path, one.value)}
                    >
                      Take over
                    </Button>
                  </span>
                )
              ) : (
                <span className="note">we have no such part yet</span>
              )}
            </li>
          );
        })}
      </ul>
      {scale && scale.frets.length > 1 ? (
        <table className="taking-residuals">
          <caption>Each fret against the scale of {length(scale.scale)}</caption>
          <thead>
            <tr>
              <th scope="col">Fret</th>
              <th scope="col">Measured</th>
              <th scope="col">Off</th>
            </tr>
          </thead>
          <tbody>
            {scale.frets.map((one) => (
              <tr key={one.fret} data-out={one.fret === scale.out ? "" : undefined}>
                <td>{one.fret}</td>
                <td>{length(one.distance)}</td>
                <td>{signed(one.residual)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : null}
      {scale?.out !== undefined ? (
        <p className="taking-out">
          Fret {scale.out} stands more than {length(OUT_MM)} from where the others put it: measure it again, or its slot is out.
        </p>
      ) : null}
      {compensation.treble !== undefined || compensation.bass !== undefined ? (
        <p>
          The saddle now compensates{" "}
          {[
            compensation.treble === undefined ? "" : `the thinnest string by ${length(compensation.treble)}`,
            compensation.bass === undefined ? "" : `the thickest by ${length(compensation.bass)}`,
          ]
            .filter(Boolean)
            .join(", ")}
          .
        </p>
      ) : null}
    </>
  );
}
