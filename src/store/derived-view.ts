import type { Derived, Raw } from "../parts/derived.ts";
import { createDeriver } from "../parts/derive.ts";
import type { Design } from "../document/design.ts";
import { setValue } from "../document/set-value.ts";
import type { DesignStore } from "./design-store.ts";
import type { SessionStore } from "./session-store.ts";
import { viewOf, type View } from "./view.ts";

/** What follows from the open design, the values being dragged laid over it. Worked out when read, once for each state. */
export function derivedView(design: DesignStore, session: SessionStore): View<Derived> {
  const derive = createDeriver();
  let last: { readonly design: Design; readonly previews: ReadonlyMap<string, Raw>; readonly derived: Derived } | undefined;
  return viewOf([design, session], () => {
    const now = design.getState().design;
    const { previews } = session.getState();
    if (last?.design !== now || last.previews !== previews)
      last = { design: now, previews, derived: derive(withPreviews(now, previews)) };
    return last.derived;
  });
}

/** The design as it would be; a preview that cannot be set is left out. */
export function withPreviews(design: Design, previews: ReadonlyMap<string, Raw>): Design {
  let result = design;
  for (const [path, raw] of previews) {
    const set = setValue(result, path, raw);
    if (set.ok) result = set.value;
  }
  return result;
}
