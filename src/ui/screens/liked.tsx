/** The instrument that the player likes: its measured lengths beside ours, with the difference, each to be taken over. */
import { useState } from "react";
import type { Derived, Field } from "../../parts/derived.ts";
import { useDerived, useDesign, useNotation } from "../bench.ts";
import { hashOf } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice } from "../kit/choice.tsx";
import { TextField } from "../kit/text-field.tsx";
import { plainValue, quantityOf, say, type Notation } from "../notation.ts";
import { partName } from "../../parts/part-name.ts";
import { useEditing, type Editing } from "../panels/editing.ts";

/** A length of ours that can be measured on a finished instrument too. */
interface Measurable {
  readonly field: Field;
  readonly name: string;
}

const isLength = (field: Field): boolean =>
  !field.idle && quantityOf(field.spec.type) === "length" && typeof field.value === "number";

const measurables = (derived: Derived): readonly Measurable[] =>
  [derived.instrument, ...derived.parts].flatMap((part) =>
    part.fields.filter(isLength).map((field) => ({
      field,
      name: part.id === "instrument" ? field.spec.label : `${partName(part)}: ${field.spec.label.toLowerCase()}`,
    })),
  );

/** Lengths that are asked for on every order; others are added. */
const ASKED = new Set(["scale", "nutWidth", "nutSpread", "nutMargin", "saddleSpread"]);
const NONE = "none";

export function Liked() {
  const derived = useDerived();
  const { order } = useDesign();
  const notation = useNotation();
  const editing = useEditing();
  const [added, setAdded] = useState<readonly string[]>([]);
  const measured = order?.reference ?? {};
  const all = measurables(derived);
  // A length goes by its short name or by its whole path.
  const keyIn = ({ field }: Measurable): string => (Object.hasOwn(measured, field.path) ? field.path : field.key);
  const isShown = (one: Measurable): boolean =>
    (one.field.path.startsWith("instrument.") && ASKED.has(one.field.key)) ||
    Object.hasOwn(measured, keyIn(one)) ||
    added.includes(one.field.path);
  return (
    <section className="order-part" aria-labelledby="liked-title">
      <h3 id="liked-title">An instrument the player likes</h3>
      <p className="note">
        Measure it and write the lengths down; ours stand beside.{" "}
        <a href={hashOf({ place: "measure" })}>How each is taken, and a form to print</a>
      </p>
      <table className="liked">
        <thead>
          <tr>
            <th scope="col">Length</th>
            <th scope="col">Theirs</th>
            <th scope="col">Ours</th>
          </tr>
        </thead>
        <tbody>
          {all.filter(isShown).map((one) => (
            <LikedRow
              key={one.field.path}
              {...one}
              place={keyIn(one)}
              theirs={measured[keyIn(one)]}
              notation={notation}
              editing={editing}
            />
          ))}
        </tbody>
      </table>
      <ListChoice
        label="Another length"
        value={NONE}
        follows
        options={[
          { value: NONE, label: "Another length" },
          ...all.filter((one) => !isShown(one)).map(({ field, name }) => ({ value: field.path, label: name })),
        ]}
        onChoose={(path) => (path === NONE ? undefined : setAdded([...added, path]))}
      />
    </section>
  );
}

interface LikedRowProps extends Measurable {
  readonly place: string;
  readonly theirs: unknown;
  readonly notation: Notation;
  readonly editing: Editing;
}

/** Nearer than a rule or a calliper shows. */
const SAME_MM = 0.005;

function LikedRow({ field, name, place, theirs, notation, editing }: LikedRowProps) {
  const text = typeof theirs === "string" ? theirs : typeof theirs === "number" ? say(theirs, "length", notation) : "";
  const value = text === "" ? undefined : plainValue(text, "length", notation);
  const ours = field.value as number;
  const off = value === undefined ? undefined : value - ours;
  const differs = off !== undefined && Math.abs(off) >= SAME_MM;
  return (
    <tr>
      <td>{name}</td>
      <td>
        <TextField
          label={`${name}, theirs`}
          numeric
          value={text}
          onCommit={(typed) => {
            if (typed.trim() !== "" && plainValue(typed, "length", notation) === undefined)
              return { path: field.path, label: name, message: "this is no length", mend: "Write it as 1 11/16 in or 42.9 mm." };
            return editing.sayValue(`order.reference.${place}`, typed.trim() === "" ? undefined : typed.trim());
          }}
        />
      </td>
      <td className="liked-ours">
        {say(ours, "length", notation)}
        {off === undefined ? null : (
          <span className="liked-off">
            {differs ? `theirs ${off > 0 ? "+" : "−"}${say(Math.abs(off), "length", notation)}` : "the same"}
          </span>
        )}
        {differs ? (
          <Button look="link" label={`take theirs: ${name}, ${text}`} onClick={() => void editing.sayValue(field.path, theirs)}>
            take theirs
          </Button>
        ) : null}
      </td>
    </tr>
  );
}
