import { addCopy, removeCopy, setOwn } from "../../document/copies.ts";
import { labelOf } from "../../document/describe.ts";
import type { Copy, Trouble } from "../../document/design.ts";
import type { Raw } from "../../parts/derived.ts";
import type { Result } from "../../units/result.ts";
import { commitResult } from "../commit-result.ts";
import { commit } from "../design-store.ts";
import type { Workbench } from "../workbench.ts";

/** Adds one more instrument from the same numbers. */
export const addCopyTo = (bench: Workbench, copy: Pick<Copy, "number" | "player">): Result<void, Trouble> =>
  commitResult(bench, addCopy(bench.design.getState().design, copy), { label: "a copy" });

/** Takes a copy out. */
export const takeCopy = (bench: Workbench, index: number): void =>
  void commit(bench.design, removeCopy(bench.design.getState().design, index), { label: "a copy taken out" });

/** Says a copy's own number at a path; undefined or blank lets it share the design's again. */
export function sayOwn(bench: Workbench, index: number, path: string, raw: Raw): Result<void, Trouble> {
  const { design } = bench.design.getState();
  return commitResult(bench, setOwn(design, index, path, raw), { label: `${labelOf(design, path)} of a copy` });
}
