import type { Trouble } from "../document/design.ts";
import type { Result } from "../units/result.ts";
import { commit } from "./design-store.ts";
import { NO_STORAGE } from "./keep.ts";
import { readWhole } from "./read-whole.ts";
import { dropPreviews } from "./session-store.ts";
import type { Workbench } from "./workbench.ts";

/** Shows what is kept of the open design by now, as one step that can be undone. Must run in turn. */
export async function takeKept(bench: Workbench): Promise<Result<void, Trouble>> {
  if (!bench.storage) return { ok: false, error: NO_STORAGE };
  const loaded = await bench.storage.load(bench.design.getState().id);
  if (!loaded.ok) return loaded;
  const { text, revision, savedAt } = loaded.value;
  const read = await readWhole(text);
  if (!read.ok) return read;
  if (read.value.damaged) return { ok: false, error: { message: "what was kept is damaged", mend: "Restore a kept version." } };
  dropPreviews(bench.session);
  commit(bench.design, read.value.design, { label: "change in another tab" });
  bench.design.setState({ stored: { revision, savedAt, design: read.value.design } });
  bench.session.setState({ saving: { state: "saved", at: savedAt } });
  return { ok: true, value: undefined };
}
