import type { Trouble } from "../../document/design.ts";
import { addPart, removePart, renamePart } from "../../document/edit-parts.ts";
import type { Result } from "../../units/result.ts";
import { commitResult } from "../commit-result.ts";
import { showPart } from "../session-store.ts";
import type { Workbench } from "../workbench.ts";

/**
 * Adds a part of a kind, with nothing said of it, and shows it.
 * @returns its id
 */
export function newPart(bench: Workbench, kind: string): Result<string, Trouble> {
  const added = addPart(bench.design.getState().design, kind);
  if (!added.ok) return added;
  const { design, id } = added.value;
  commitResult(bench, { ok: true, value: design }, { label: `new ${id}` });
  showPart(bench.session, id);
  return { ok: true, value: id };
}

/** Takes a part out of the design, with what was measured of it. */
export function dropPart(bench: Workbench, id: string): Result<void, Trouble> {
  const result = commitResult(bench, removePart(bench.design.getState().design, id), { label: `${id} taken out` });
  if (result.ok && bench.session.getState().activePart === id) showPart(bench.session, "instrument");
  return result;
}

/** Gives a part another id; formulas that name it follow. */
export function namePart(bench: Workbench, from: string, to: string): Result<void, Trouble> {
  const shown = bench.session.getState().activePart === from;
  const result = commitResult(bench, renamePart(bench.design.getState().design, from, to), { label: `name ${from}` });
  if (result.ok && shown) showPart(bench.session, to);
  return result;
}
