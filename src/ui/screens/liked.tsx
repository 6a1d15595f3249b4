/** The instrument that the player likes: its measured lengths beside ours, with the difference, each to be taken over. */
import type { DerivedPart, Field } from "../../parts/derived.ts";
import { useDerived, useDesign, useNotation } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { TextField } from "../kit/text-field.tsx";
import { plainValue, quantityOf, say, type Notation } from "../notation.ts";
import { useEditing, type Editing } from "../panels/editing.ts";

/** The shared lengths that can be measured on a finished instrument, in the order of the part's table. */
const lengthsOf = (instrument: DerivedPart): readonly Field[] =>
  instrument.fields.filter((field) => !field.idle && quantityOf(field.spec.type) === "length" && typeof field.value === "number");

export function Liked() {
  const { instrument } = useDerived();
  const { order } = useDesign();
  const notation = useNotation();
  const editing = useEditing();
  const measured = order?.reference ?? {};
  return (
    <section className="order-part" aria-labelledby="liked-title">
      <h3 id="liked-title">An instrument the player likes</h3>
      <p className="note">Measure it and write the lengths down; ours stand beside.</p>
      <table className="liked">
        <thead>
          <tr>
            <th scope="col">Length</th>
            <th scope="col">Theirs</th>
            <th scope="col">Ours</th>
            <th scope="col">
              <span className="unseen">Take over</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {lengthsOf(instrument).map((field) => (
            <LikedRow key={field.path} field={field} theirs={measured[field.path]} notation={notation} editing={editing} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

function LikedRow({
  field,
  theirs,
  notation,
  editing,
}: {
  readonly field: Field;
  readonly theirs: unknown;
  readonly notation: Notation;
  readonly editing: Editing;
}) {
  const text = typeof theirs === "string" ? theirs : typeof theirs === "number" ? say(theirs, "length", notation) : "";
  const value = text === "" ? undefined : plainValue(text, "length", notation);
  const ours = field.value as number;
  const off = value === undefined ? undefined : value - ours;
  return (
    <tr>
      <td>{field.spec.label}</td>
      <td>
        <TextField
          label={`${field.spec.label}, theirs`}
          numeric
          value={text}
          onCommit={(typed) => {
            if (typed.trim() !== "" && plainValue(typed, "length", notation) === undefined)
              return {
                path: field.path,
                label: field.spec.label,
                message: "this is no length",
                mend: "Write it as 1 11/16 in or 42.9 mm.",
              };
            return editing.sayValue(`order.reference.${field.path}`, typed.trim() === "" ? undefined : typed.trim());
          }}
        />
      </td>
      <td className="liked-ours">
        {say(ours, "length", notation)}
        {off === undefined ? null : (
          <span className="liked-off">
            {Math.abs(off) < 0.005 ? "the same" : `theirs ${off > 0 ? "+" : "−"}${say(Math.abs(off), "length", notation)}`}
          </span>
        )}
      </td>
      <td>
        {off !== undefined && Math.abs(off) >= 0.005 ? (
          <Button
            size="small"
            label={`Take over ${field.spec.label}: ${text}`}
            onClick={() => void editing.sayValue(field.path, theirs)}
          >
            Take over
          </Button>
        ) : null}
      </td>
    </tr>
  );
}
