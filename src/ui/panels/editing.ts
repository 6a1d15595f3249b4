/** Trying and saying numbers: what a field does to the design. */
import { useMemo } from "react";
import type { Problem, Raw } from "../../parts/derived.ts";
import { editValue } from "../../store/commands/edit-value.ts";
import { dropPreviews, preview } from "../../store/session-store.ts";
import type { Workbench } from "../../store/workbench.ts";
import { useBench } from "../bench.ts";

export interface Editing {
  /** Draws what a value would do. What is wrong with it, and then nothing of it is drawn. */
  readonly tryValue: (path: string, raw: Raw) => Problem | undefined;
  /** Says a value; undefined lets the number follow. What is wrong with it, and then nothing has changed. */
  readonly sayValue: (path: string, raw: Raw, gesture?: string) => Problem | undefined;
  readonly drop: () => void;
}

/** Whether a problem stands at the value itself or, for a list, inside it. */
function standsAt(problem: Problem, path: string): boolean {
  // What is wrong with a measured value is told at the number.
  const number = path.replace(/^measured\./, "");
  return problem.path === number || problem.path.startsWith(`${number}[`);
}

export function editingOf(bench: Workbench): Editing {
  const drop = (): void => dropPreviews(bench.session);

  function tryValue(path: string, raw: Raw): Problem | undefined {
    drop();
    preview(bench.session, path, raw);
    const found = bench.derived.getState().problems.find((problem) => standsAt(problem, path));
    if (found) drop();
    return found;
  }

  function sayValue(path: string, raw: Raw, gesture?: string): Problem | undefined {
    const found = raw === undefined ? undefined : tryValue(path, raw);
    if (found) return found;
    const result = editValue(bench, path, raw, gesture);
    return result.ok ? undefined : { path, label: path, message: result.error.message, mend: result.error.mend };
  }

  return { tryValue, sayValue, drop };
}

export function useEditing(): Editing {
  const bench = useBench();
  return useMemo(() => editingOf(bench), [bench]);
}
