/** Writing down what a number came out at: from then on what depends on it follows the wood, if the maker wants that. */
import { useId } from "react";
import type { Measured } from "../../document/design.ts";
import type { Problem, Raw } from "../../parts/derived.ts";
import { useBench, useDerived, useDeriveOther, useDesign, useNotation } from "../bench.ts";
import { dayOf } from "../../store/day.ts";
import { Button } from "../kit/button.tsx";
import { RowChoice, Switch } from "../kit/choice.tsx";
import { Dialog } from "../kit/dialog.tsx";
import { TextField } from "../kit/text-field.tsx";
import { say, quantityOf } from "../notation.ts";
import { useEditing } from "../panels/editing.ts";
import { builtAt, fieldAt, USUAL_FACES } from "./built.ts";
import { cutSaid, offSaid } from "./built-words.ts";
import "./built.css";

export function BuiltDialog({ path, onClose }: { readonly path: string; readonly onClose: () => void }) {
  const bench = useBench();
  const design = useDesign();
  const derived = useDerived();
  const notation = useNotation();
  const editing = useEditing();
  const deriveOther = useDeriveOther();
  const ids = { value: useId(), date: useId(), how: useId(), perFace: useId(), leads: useId() };
  const field = fieldAt(derived, path);
  if (!field) return null;
  const quantity = quantityOf(field.spec.type) ?? "number";
  const built = builtAt(design, derived, path, notation, deriveOther);
  const entry = design.measured?.[path];
  const place = `measured.${path}`;
  const planned = built ? built.planned : field.value;
  const sayEntry = (change: Partial<Record<keyof Measured, Raw>>): Problem | undefined => {
    const next = Object.fromEntries(Object.entries({ ...entry, ...change }).filter(([, value]) => value !== undefined));
    return editing.sayValue(place, next);
  };
  const text = (raw: unknown, as: typeof quantity): string =>
    typeof raw === "string" ? raw : typeof raw === "number" ? say(raw, as, notation) : "";

  return (
    <Dialog
      open
      onClose={onClose}
      title={`${field.spec.label}, as built`}
      about="Measured on the work itself. The plan stays written beside it."
      foot={
        <>
          {entry ? (
            <Button
              onClick={() => {
                editing.sayValue(place, undefined);
                onClose();
              }}
            >
              Take the measured value back
            </Button>
          ) : null}
          <Button look="main" onClick={onClose}>
            Done
          </Button>
        </>
      }
    >
      <div className="built-form">
        <p className="built-planned">
          Planned <span className="num">{typeof planned === "number" ? say(planned, quantity, notation) : "nothing yet"}</span>
        </p>
        <span id={ids.value}>Measured</span>
        <TextField
          labelledBy={ids.value}
          numeric
          value={text(entry?.value, quantity)}
          onCommit={(typed) => {
            if (typed.trim() === "") return editing.sayValue(place, undefined);
            return sayEntry({ value: typed.trim(), date: entry?.date ?? dayOf(bench.now()) });
          }}
        />
        {entry ? (
          <>
            <span id={ids.date}>On</span>
            <TextField
              labelledBy={ids.date}
              type="date"
              value={entry.date ?? ""}
              onCommit={(typed) => sayEntry({ date: typed === "" ? undefined : typed })}
            />
            <span id={ids.how}>How it was taken</span>
            <TextField
              labelledBy={ids.how}
              placeholder="calliper, after scraping"
              value={entry.how ?? ""}
              onCommit={(typed) => sayEntry({ how: typed.trim() === "" ? undefined : typed.trim() })}
            />
            {quantity === "length" ? (
              <>
                <span id={ids.perFace}>Scraping and finish take off each face</span>
                <TextField
                  labelledBy={ids.perFace}
                  numeric
                  placeholder="0"
                  value={text(entry.perFace, "length")}
                  onCommit={(typed) => sayEntry({ perFace: typed.trim() === "" ? undefined : typed.trim() })}
                />
                <span className="built-label">Faces it lies between</span>
                <RowChoice
                  label="Faces it lies between"
                  value={String(entry.faces ?? USUAL_FACES)}
                  options={[
                    { value: "1", label: "One" },
                    { value: "2", label: "Two" },
                  ]}
                  onChoose={(value) => void sayEntry({ faces: Number(value) })}
                />
              </>
            ) : null}
            <span id={ids.leads}>What depends on it follows the wood</span>
            <Switch
              labelledBy={ids.leads}
              on={entry.leads !== false}
              onChange={(on) => void sayEntry({ leads: on ? undefined : false })}
            />
          </>
        ) : null}
      </div>
      {built ? (
        <p className="built-says" aria-live="polite">
          {[offSaid(built, notation), cutSaid(built, notation)].filter(Boolean).join(". ")}.
        </p>
      ) : null}
    </Dialog>
  );
}
