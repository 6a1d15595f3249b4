/** A list of like things: strings, binding layers. Few numbers each stand in a table, many in cards; each can be moved and taken out. */
import { useState, type ReactNode } from "react";
import type { RecordsSpec, ChoiceSpec } from "../../parts/contract.ts";
import type { Trouble } from "../../document/design.ts";
import type { AnySpec, Field, Raw } from "../../parts/derived.ts";
import { entryName } from "../../parts/part-name.ts";
import { editValue } from "../../store/commands/edit-value.ts";
import { addRecord, shiftRecord, takeRecord } from "../../store/commands/edit-records.ts";
import type { Result } from "../../units/result.ts";
import { useBench, useSession } from "../bench.ts";
import { tellTrouble } from "../files.ts";
import { Button } from "../kit/button.tsx";
import { ListChoice, Switch } from "../kit/choice.tsx";
import { Menu } from "../kit/menu.tsx";
import { FieldError, NumberField } from "../kit/number-field.tsx";
import { Sign } from "../kit/sign.tsx";
import { TextField } from "../kit/text-field.tsx";
import { quantityOf, type Notation } from "../notation.ts";
import type { Editing } from "./editing.ts";
import "./records-field.css";

interface CellProps {
  readonly field: Field;
  readonly notation: Notation;
  readonly editing: Editing;
}

type AnyRecords = RecordsSpec<Record<string, unknown>, unknown>;

/** Cards on one page of a long list. */
const PAGE = 12;
/** More numbers than this in a record, and it becomes a card. */
const TABLE_COLUMNS = 4;

const done = (result: Result<void, Trouble>): void => (result.ok ? undefined : tellTrouble("Nothing was changed", result.error));

export interface RecordsFieldProps extends CellProps {
  /** A whole row for one number of a record, where records are cards. */
  readonly renderRow: (field: Field) => ReactNode;
}

export function RecordsField({ field, notation, editing, renderRow }: RecordsFieldProps) {
  const bench = useBench();
  const spec = field.spec as unknown as AnyRecords;
  const records = field.records ?? [];
  const full = records.length >= spec.maxItems;
  const numberOf = (index: number): number => (spec.countsDown ? records.length - index : index + 1);

  const followed = field.raw === undefined ? followedRecords(field, spec) : undefined;

  const acts = (index: number) => (
    <Menu
      trigger={
        <Button look="quiet" size="icon" label={`${entryName(spec, index, records.length)}: move or take out`}>
          <Sign name="menu" />
        </Button>
      }
      entries={[
        { label: "Move up", disabled: index === 0, onChoose: () => done(shiftRecord(bench, field.path, index, index - 1)) },
        {
          label: "Move down",
          disabled: index === records.length - 1,
          onChoose: () => done(shiftRecord(bench, field.path, index, index + 1)),
        },
        {
          label: `Another like it`,
          disabled: full,
          onChoose: () => done(addRecord(bench, field.path, index + 1, recordOf(records[index]))),
        },
        { label: `Take out`, apart: true, onChoose: () => done(takeRecord(bench, field.path, index)) },
      ]}
    />
  );

  const columns = Object.keys(spec.of);
  const chosen = useSession((s) =>
    s.points && field.path.startsWith(`parts.${s.points.part}.`) ? s.points.indices[0] : undefined,
  );
  const [turned, setTurned] = useState<{ readonly page: number; readonly chosen: number | undefined }>();
  // The page of what is chosen on the board, until another is turned to.
  const wanted = turned && turned.chosen === chosen ? turned.page : Math.floor((chosen ?? 0) / PAGE);
  const page = Math.max(0, Math.min(wanted, Math.ceil(records.length / PAGE) - 1));
  const setPage = (next: number): void => setTurned({ page: next, chosen });
  const first = page * PAGE;
  const shownRecords = records.slice(first, first + PAGE);
  const shown = columns.filter((key) => records.some((record) => record.some((f) => f.key === key && !f.idle)));
  return (
    <div className="recs">
      {field.problem ? <FieldError id={`error-${field.path}`} problem={field.problem} text={undefined} /> : null}
      {followed ? (
        <>
          <p className="recs-none">
            {followed.length} {spec.item}s that follow {spec.follows?.words}. Move one on the board, or set them all by hand from
            there.
          </p>
          <div>
            <Button size="small" onClick={() => done(editValue(bench, field.path, followed))}>
              Set the {spec.item}s by hand
            </Button>
          </div>
        </>
      ) : records.length === 0 ? (
        <p className="recs-none">None. Add a {spec.item} and it takes its place on the drawing.</p>
      ) : null}
      {records.length > 0 && columns.length <= TABLE_COLUMNS ? (
        <div className="recs-scroll">
          <table className="recs-table">
            <thead>
              <tr>
                <th scope="col">
                  <span className="unseen">{spec.item}</span>
                </th>
                {shown.map((key) => (
                  <th scope="col" key={key}>
                    {(spec.of[key] as unknown as { label: string }).label}
                  </th>
                ))}
                <th scope="col">
                  <span className="unseen">Move or take out</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {records.map((record, index) => (
                <tr key={record[0]?.path ?? index}>
                  <td className="recs-count">{numberOf(index)}</td>
                  {shown.map((key) => {
                    const one = record.find((f) => f.key === key);
                    return (
                      <td key={key}>
                        {one && !one.idle ? (
                          <Cell field={one} notation={notation} editing={editing} name={entryName(spec, index, records.length)} />
                        ) : null}
                      </td>
                    );
                  })}
                  <td className="recs-acts">{acts(index)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      ) : null}
      {records.length > PAGE && columns.length > TABLE_COLUMNS ? (
        <div className="recs-pages">
          <Button size="small" disabled={first === 0} onClick={() => setPage(page - 1)}>
            Before
          </Button>
          <span>
            {numberOf(first)} to {numberOf(first + shownRecords.length - 1)} of {records.length}
          </span>
          <Button size="small" disabled={first + PAGE >= records.length} onClick={() => setPage(page + 1)}>
            Next
          </Button>
        </div>
      ) : null}
      {columns.length > TABLE_COLUMNS
        ? shownRecords
            .map((record, i) => [record, first + i] as const)
            .map(([record, index]) => (
              <div className="recs-card" key={record[0]?.path ?? index}>
                <div className="recs-card-head">
                  {spec.item.charAt(0).toUpperCase() + spec.item.slice(1)} {numberOf(index)}
                  {acts(index)}
                </div>
                {record.filter((f) => !f.idle).map(renderRow)}
              </div>
            ))
        : null}
      <div hidden={followed !== undefined}>
        <Button
          size="small"
          disabled={full}
          onClick={() => done(addRecord(bench, field.path, records.length, recordOf(records.at(-1))))}
        >
          <Sign name="plus" /> Add a {spec.item}
        </Button>
      </div>
    </div>
  );
}

function Cell({ field, notation, editing, name }: CellProps & { readonly name: string }) {
  const { spec, path } = field;
  const label = `${name}, ${spec.label.toLowerCase()}`;
  if (spec.type === "flag")
    return <Switch label={label} on={field.value === true} onChange={(on) => editing.sayValue(path, on)} />;
  if (spec.type === "choice")
    return (
      <ListChoice
        label={label}
        value={String(field.value)}
        options={(spec as ChoiceSpec<string, unknown>).options}
        onChoose={(value) => editing.sayValue(path, value)}
      />
    );
  if (!quantityOf(spec.type))
    return (
      <TextField
        label={label}
        value={String(field.raw ?? field.value ?? "")}
        problem={field.problem}
        onCommit={(text) => editing.sayValue(path, text)}
      />
    );
  return (
    <NumberField
      field={field}
      notation={notation}
      label={label}
      bare
      onTry={(text) => editing.tryValue(path, text)}
      onCommit={(text, gesture) => editing.sayValue(path, text, gesture)}
      onDrop={editing.drop}
    />
  );
}

/** The records that a list follows, as the maker would say them: lengths in mm, angles in degrees; undefined where it follows none. */
function followedRecords({ value }: Field, spec: AnyRecords): Record<string, Raw>[] | undefined {
  if (!spec.follows || !Array.isArray(value) || value.length === 0) return undefined;
  return (value as readonly Record<string, unknown>[]).map((entry) =>
    Object.fromEntries(
      Object.entries(spec.of).flatMap(([key, one]) => {
        const { type, fallback } = one as unknown as AnySpec & { readonly fallback?: unknown };
        const raw = entry[key];
        if (raw === undefined || raw === fallback) return [];
        const isAngle = typeof raw === "number" && quantityOf(type) === "angle";
        return [
          [
            key,
            isAngle ? Math.round((raw * 180e5) / Math.PI) / 1e5 : typeof raw === "number" ? Math.round(raw * 1e4) / 1e4 : raw,
          ],
        ];
      }),
    ),
  );
}

/** A record as the maker would say it: what was typed, else lengths in mm and angles in degrees; what follows is left out. */
const recordOf = (record: readonly Field[] = []): Record<string, Raw> =>
  Object.fromEntries(
    record.flatMap((field) => (field.state === "follows" || field.value === undefined ? [] : [[field.key, rawOf(field)]])),
  );

const rawOf = (field: Field): Raw =>
  field.raw ??
  (typeof field.value === "number" && quantityOf(field.spec.type) === "angle" ? (field.value * 180) / Math.PI : field.value);
