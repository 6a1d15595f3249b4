/** The numbers of a part in their groups, made from what is derived of it: a new part needs no line here. */
import { useMemo } from "react";
import type { DerivedPart, Field } from "../../parts/derived.ts";
import { partOf } from "../../parts/registry.ts";
import { useNotation } from "../bench.ts";
import type { Notation } from "../notation.ts";
import { useEditing, type Editing } from "./editing.ts";
import { FieldRow } from "./field-row.tsx";
import "./numbers-panel.css";

interface Group {
  readonly name: string;
  readonly fields: readonly Field[];
}

/** The fields that are not idle, in groups, both in the order of the part's table. */
function groupsOf(part: DerivedPart): Group[] {
  const groups = new Map<string, Field[]>();
  for (const field of part.fields) {
    if (field.idle) continue;
    const { group } = field.spec;
    groups.set(group, [...(groups.get(group) ?? []), field]);
  }
  return [...groups].map(([name, fields]) => ({ name, fields }));
}

/** `level` is that of the groups' headings. */
export function NumbersPanel({ part, level = 3 }: { readonly part: DerivedPart; readonly level?: 2 | 3 }) {
  const notation = useNotation();
  const editing = useEditing();
  return (
    <>
      {groupsOf(part).map((group) => (
        <GroupOfNumbers key={group.name} group={group} part={part} level={level} notation={notation} editing={editing} />
      ))}
    </>
  );
}

interface GroupProps {
  readonly group: Group;
  readonly part: DerivedPart;
  readonly level: 2 | 3;
  readonly notation: Notation;
  readonly editing: Editing;
}

function GroupOfNumbers({ group, part, level, notation, editing }: GroupProps) {
  const Heading = level === 2 ? "h2" : "h3";
  const swaps = useMemo(() => swapsOf(part), [part]);
  return (
    <section className="panel-group" aria-label={group.name}>
      <Heading className="panel-group-name">{group.name}</Heading>
      <div className="panel-rows">
        {group.fields.map((field) => {
          const follower = swaps.get(field.path);
          return (
            <FieldRow
              key={field.path}
              field={field}
              notation={notation}
              editing={editing}
              onLetFollow={follower ? () => swap(field, follower, editing) : undefined}
            />
          );
        })}
      </div>
    </section>
  );
}

/** For every given number of a full balance: the number that follows in it now. */
function swapsOf(part: DerivedPart): ReadonlyMap<string, Field> {
  const swaps = new Map<string, Field>();
  for (const balance of partOf(part.kind)?.balances ?? []) {
    const members = part.fields.filter((field) => (balance.members as readonly string[]).includes(field.key) && !field.idle);
    const given = members.filter((field) => field.raw !== undefined);
    const follower = members.find((field) => field.raw === undefined && typeof field.value === "number");
    if (given.length !== balance.given || !follower) continue;
    for (const field of given) swaps.set(field.path, follower);
  }
  return swaps;
}

/** Takes one number back and gives the one that followed, at its present value: the drawing stays, and who follows whom is turned round. */
function swap(field: Field, follower: Field, editing: Editing): void {
  const gesture = `swap ${field.path} ${Date.now()}`;
  editing.sayValue(field.path, undefined, gesture);
  editing.sayValue(follower.path, follower.value, gesture);
}
