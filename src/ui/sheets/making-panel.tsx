/** How one template is followed, held and lettered, with what cannot be made of it, said beside its numbers. */
import { useMemo } from "react";
import { setValue } from "../../document/set-value.ts";
import type { Derived, Field, Problem, Raw } from "../../parts/derived.ts";
import { makingPath, makingsOf } from "../../parts/makings.ts";
import { JOINTS } from "../../parts/making.ts";
import { partName } from "../../parts/part-name.ts";
import { lowerFirst } from "../../sheets/words.ts";
import { editValue } from "../../store/commands/edit-value.ts";
import type { Workbench } from "../../store/workbench.ts";
import { madeFrom } from "../../templates/edge.ts";
import type { Pattern } from "../../templates/patterns.ts";
import { partNamed, useBench, useDerived, useDesign, useNotation } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { FindingSign, Sign } from "../kit/sign.tsx";
import type { Editing } from "../panels/editing.ts";
import { FieldRow } from "../panels/field-row.tsx";
import { sentence } from "./words.ts";
import "./making-panel.css";

interface MakingPanelProps {
  readonly pattern: Pattern;
  /** It lies on several sheets. */
  readonly joined: boolean;
  readonly onBack: () => void;
}

export function MakingPanel({ pattern, joined, onBack }: MakingPanelProps) {
  const bench = useBench();
  const design = useDesign();
  const derived = useDerived();
  const notation = useNotation();
  const { source, made } = pattern;
  const part = partNamed(derived, source.partId);
  const name = part ? partName(part) : source.partLabel;
  const makings = useMemo(() => makingsOf(design, derived), [design, derived]);
  const own = makings.of(source.id, madeFrom(source));
  const shared = makings.shared(source.partId);
  const editing = useMemo(() => makingEditing(bench, derived, pattern), [bench, derived, pattern]);
  const fields = [...own.fields, ...(madeFrom(source).centreLine ? shared.fields : [])].filter(
    (field) => !field.idle && (joined || field.spec.group !== JOINTS),
  );
  const groups = [...new Set(fields.map((field) => field.spec.group))];
  const changed = [...own.fields, ...shared.fields].some((field) => field.raw !== undefined);
  return (
    <aside className="side sheets-paper" aria-label={`${name}, ${source.title}`}>
      <Button look="link" className="making-back" onClick={onBack}>
        <Sign name="back" /> Paper and printer
      </Button>
      <h2 className="side-title">
        {name}, {lowerFirst(source.title)}
      </h2>
      {made.ok ? (
        <>
          <p className="making-line">{sentence(made.value.lineIs)}</p>
          {(made.value.cautions ?? []).map((caution) => (
            <p key={caution} className="making-says">
              <FindingSign severity="look" /> <span>{caution}</span>
            </p>
          ))}
        </>
      ) : (
        <p className="making-says" role="alert">
          <FindingSign severity="stop" />{" "}
          <span>
            Not made: {made.error.message}. {made.error.mend}
          </span>
        </p>
      )}
      <div className="sheets-paper-groups">
        {groups.map((group) => (
          <section key={group} className="panel-group" aria-label={group}>
            <h3 className="panel-group-name">{group}</h3>
            <div className="panel-rows">
              {fields
                .filter((field) => field.spec.group === group)
                .map((field) => (
                  <FieldRow key={field.path} field={field} notation={notation} editing={editing} />
                ))}
            </div>
          </section>
        ))}
      </div>
      {changed ? (
        <Button size="small" className="making-reset" onClick={() => takeBack(bench, [...own.fields, ...shared.fields])}>
          As drawn again
        </Button>
      ) : null}
    </aside>
  );
}

function takeBack(bench: Workbench, fields: readonly Field[]): void {
  const gesture = `as drawn ${Date.now()}`;
  for (const field of fields) if (field.raw !== undefined) editValue(bench, field.path, undefined, gesture);
}

/** What the panel's fields do to the design. */
function makingEditing(bench: Workbench, derived: Derived, { source }: Pattern): Editing {
  function tryValue(path: string, raw: Raw): Problem | undefined {
    const set = setValue(bench.design.getState().design, path, raw);
    if (!set.ok) return { path, label: path, message: set.error.message, mend: set.error.mend };
    const makings = makingsOf(set.value, derived);
    const settled = path.startsWith(`${makingPath(source.id)}.`)
      ? makings.of(source.id, madeFrom(source))
      : makings.shared(source.partId);
    return settled.problems.find((problem) => problem.path === path);
  }
  return {
    tryValue,
    sayValue: (path, raw, gesture) => {
      const found = raw === undefined ? undefined : tryValue(path, raw);
      if (found) return found;
      const result = editValue(bench, path, raw, gesture);
      return result.ok ? undefined : { path, label: path, message: result.error.message, mend: result.error.mend };
    },
    drop: () => undefined,
  };
}
