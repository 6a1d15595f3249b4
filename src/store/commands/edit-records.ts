import { entryLabelOf } from "../../document/describe.ts";
import type { Trouble } from "../../document/design.ts";
import { insertRecord, moveRecord, removeRecord } from "../../document/edit-records.ts";
import type { Raw } from "../../parts/derived.ts";
import type { Result } from "../../units/result.ts";
import { commitResult } from "../commit-result.ts";
import type { Workbench } from "../workbench.ts";

/** Adds an entry to a list such as `parts.fingerboard.binding`, before the entry at `index`; the list's length adds at the end. */
export function addRecord(bench: Workbench, path: string, index: number, record: Raw): Result<void, Trouble> {
  const { design } = bench.design.getState();
  const result = insertRecord(design, path, index, record);
  return commitResult(bench, result, { label: `new ${entryLabelOf(result.ok ? result.value : design, path, index)}` });
}

export function takeRecord(bench: Workbench, path: string, index: number): Result<void, Trouble> {
  const { design } = bench.design.getState();
  return commitResult(bench, removeRecord(design, path, index), { label: `${entryLabelOf(design, path, index)} taken out` });
}

/** Moves an entry so that it stands at index `to` afterwards. */
export function shiftRecord(bench: Workbench, path: string, from: number, to: number): Result<void, Trouble> {
  const { design } = bench.design.getState();
  return commitResult(bench, moveRecord(design, path, from, to), { label: `${entryLabelOf(design, path, from)} moved` });
}
