/** Several instruments from one design: each copy's number and player, and what it has of its own, beside the shared numbers. */
import { Fragment, useMemo, useState } from "react";
import { copyKey, copyName, copyOf, ownPaths } from "../../document/copies.ts";
import type { Design } from "../../document/design.ts";
import type { Derived, DeriveOther, Field, Problem } from "../../parts/derived.ts";
import { addCopyTo, sayOwn, takeCopy } from "../../store/commands/edit-copies.ts";
import { useBench, useDerived, useDeriveOther, useDesign, useNotation } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice } from "../kit/choice.tsx";
import { Sign } from "../kit/sign.tsx";
import { TextField } from "../kit/text-field.tsx";
import { quantityOf, say } from "../notation.ts";
import { partName } from "../../parts/part-name.ts";
import "./copies.css";

/** Numbers that a copy may have of its own, with the name of their part. */
interface Shared {
  readonly field: Field;
  readonly name: string;
}

const sharedNumbers = (derived: Derived): readonly Shared[] =>
  [derived.instrument, ...derived.parts].flatMap((part) =>
    part.fields
      .filter((field) => !field.idle && quantityOf(field.spec.type) !== undefined && typeof field.value === "number")
      .map((field) => ({
        field,
        name: part.id === "instrument" ? field.spec.label : `${partName(part)}: ${field.spec.label.toLowerCase()}`,
      })),
  );

const NONE = "none";

export function Copies() {
  const bench = useBench();
  const design = useDesign();
  const derived = useDerived();
  const [asked, setAsked] = useState<readonly string[]>([]);
  const [number, setNumber] = useState("");
  const [player, setPlayer] = useState("");
  const [wrong, setWrong] = useState<Problem>();
  const deriveOther = useDeriveOther();
  const copies = design.copies ?? [];
  const numbers = sharedNumbers(derived);
  const values = useMemo(() => (design.copies ?? []).map((_, i) => valuesOf(design, i, deriveOther)), [design, deriveOther]);
  const rows = [...new Set([...ownPaths(design), ...asked])].flatMap(
    (path) => numbers.find(({ field }) => field.path === path) ?? [],
  );

  function add(): void {
    const added = addCopyTo(bench, {
      ...(number.trim() ? { number: number.trim() } : {}),
      ...(player.trim() ? { player: player.trim() } : {}),
    });
    if (!added.ok) return setWrong({ path: "copies", label: "Number", message: added.error.message, mend: added.error.mend });
    setWrong(undefined);
    setNumber("");
    setPlayer("");
  }

  return (
    <section className="order-part" aria-labelledby="copies-title">
      <h3 id="copies-title">Copies</h3>
      <p className="note">
        {copies.length === 0
          ? "For a run of alike instruments, or a class: the numbers stand once, and each copy has only what differs."
          : "Whatever is not listed here is shared with this design, and follows it."}
      </p>
      {copies.length > 0 ? (
        <ul className="copies-list">
          {copies.map((copy, i) => (
            // A copy is known by its place in the list.
            // eslint-disable-next-line react/no-array-index-key
            <li key={i}>
              <span>
                <strong>{copyName(copy, i)}</strong> {copy.player ? <span className="note">for {copy.player}</span> : null}
              </span>
              <Button look="quiet" size="icon" label={`Take ${copyName(copy, i)} out`} onClick={() => takeCopy(bench, i)}>
                <Sign name="close" />
              </Button>
            </li>
          ))}
        </ul>
      ) : null}
      {copies.length > 0 ? rows.map((row) => <OwnNumber key={row.field.path} row={row} design={design} values={values} />) : null}
      {copies.length > 0 ? (
        <ListChoice
          label="A number that differs"
          value={NONE}
          follows
          options={[
            { value: NONE, label: "A number that differs" },
            ...numbers.filter((one) => !rows.includes(one)).map(({ field, name }) => ({ value: field.path, label: name })),
          ]}
          onChoose={(path) => (path === NONE ? undefined : setAsked([...asked, path]))}
        />
      ) : null}
      <div className="copies-add">
        <TextField label="Number of the copy" placeholder="number" value={number} onCommit={setNumber} problem={wrong} />
        <TextField label="Player of the copy" placeholder="player" value={player} onCommit={setPlayer} />
        <Button size="small" onClick={add}>
          Add a copy
        </Button>
      </div>
    </section>
  );
}

interface OwnNumberProps {
  readonly row: Shared;
  readonly design: Design;
  /** The numbers of every copy. */
  readonly values: readonly ReadonlyMap<string, number>[];
}

/** One number that differs: the design's, and every copy's. */
function OwnNumber({ row, design, values }: OwnNumberProps) {
  const bench = useBench();
  const notation = useNotation();
  const { field, name } = row;
  const quantity = quantityOf(field.spec.type) ?? "number";
  return (
    <div className="copies-number">
      <h4>{name}</h4>
      <span>this design</span>
      <span className="num copies-ours">{say(field.value as number, quantity, notation)}</span>
      {(design.copies ?? []).map((copy, i) => {
        const own = copy.own?.[field.path];
        const settled = values[i]?.get(field.path);
        return (
          // eslint-disable-next-line react/no-array-index-key
          <Fragment key={i}>
            <span>
              {copyName(copy, i)} <span className="note">{own === undefined ? "shared" : "its own"}</span>
            </span>
            <TextField
              label={`${name}, ${copyName(copy, i)}`}
              numeric
              follows={own === undefined}
              value={typeof own === "string" ? own : settled === undefined ? "" : say(settled, quantity, notation)}
              onCommit={(typed) => {
                const said = sayOwn(bench, i, field.path, typed);
                if (!said.ok) return { path: field.path, label: name, ...said.error };
                const found = valuesOf(bench.design.getState().design, i, bench.others.derive).get(field.path);
                if (found !== undefined || typed.trim() === "") return undefined;
                sayOwn(bench, i, field.path, own);
                return {
                  path: field.path,
                  label: name,
                  message: `${typed} does not fit here`,
                  mend: "Write it as 43 mm or 1 11/16 in.",
                };
              }}
            />
          </Fragment>
        );
      })}
    </div>
  );
}

/** The numbers of one copy by their paths; a number that cannot be settled is missing. */
function valuesOf(design: Design, index: number, deriveOther: DeriveOther): ReadonlyMap<string, number> {
  const copy = copyOf(design, index);
  if (!copy.ok) return new Map();
  const derived = deriveOther(copyKey(index), copy.value.design);
  return new Map(
    [derived.instrument, ...derived.parts]
      .flatMap(({ fields }) => fields)
      .flatMap(({ path, value }) => (typeof value === "number" ? [[path, value] as const] : [])),
  );
}
