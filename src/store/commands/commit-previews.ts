import { labelOf } from "../../document/describe.ts";
import { commit } from "../design-store.ts";
import { withPreviews } from "../derived-view.ts";
import { dropPreviews } from "../session-store.ts";
import type { Workbench } from "../workbench.ts";

/** Says the values that are being dragged, all as one step. */
export function commitPreviews(bench: Workbench): void {
  const { design } = bench.design.getState();
  const { previews } = bench.session.getState();
  const paths = [...previews.keys()];
  const labels = [...new Set(paths.map((path) => labelOf(design, path)))];
  commit(bench.design, withPreviews(design, previews), { label: labels.join(", ") });
  dropPreviews(bench.session);
}
