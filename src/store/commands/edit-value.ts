import { labelOf } from "../../document/describe.ts";
import type { Trouble } from "../../document/design.ts";
import { setValue } from "../../document/set-value.ts";
import type { Raw } from "../../parts/derived.ts";
import type { Result } from "../../units/result.ts";
import { commitResult } from "../commit-result.ts";
import { dropPreviews } from "../session-store.ts";
import type { Workbench } from "../workbench.ts";

/**
 * Says a value at a path, as typed; undefined takes it back so that it follows again. Edits with the same gesture are one step of undo.
 * Whether the text can be read is told by the field's problem, not here: refused is only a path that is no place for a value.
 */
export function editValue(bench: Workbench, path: string, raw: Raw, gesture?: string): Result<void, Trouble> {
  const { design } = bench.design.getState();
  dropPreviews(bench.session);
  return commitResult(bench, setValue(design, path, raw), {
    label: labelOf(design, path),
    ...(gesture === undefined ? {} : { gesture }),
  });
}
