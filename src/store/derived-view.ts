import type { Derived, Raw } from "../parts/derived.ts";
import { createDeriver, type Outside } from "../parts/derive.ts";
import type { Design } from "../document/design.ts";
import { setValue } from "../document/set-value.ts";
import type { Beside } from "./beside.ts";
import type { DesignStore } from "./design-store.ts";
import type { SessionStore } from "./session-store.ts";
import { viewOf, type View } from "./view.ts";

interface Shown {
  readonly design: Design;
  readonly previews: ReadonlyMap<string, Raw>;
  readonly outside: Outside | undefined;
  readonly derived: Derived;
}

/**
 * What follows from the open design, the values being dragged laid over it. Worked out when read, once for each state; again when something that
 * is done beside the page has come. With nothing beside, heavy work is done on the spot and there are no faces.
 */
export function derivedView(design: DesignStore, session: SessionStore, beside?: Beside): View<Derived> {
  const derive = createDeriver();
  let last: Shown | undefined;
  return viewOf([design, session, ...(beside ? [beside.arrivals] : [])], () => {
    const now = design.getState().design;
    const { previews } = session.getState();
    const outside = beside?.outside();
    if (last?.design !== now || last.previews !== previews || last.outside !== outside) {
      last = { design: now, previews, outside, derived: derive(withPreviews(now, previews), outside) };
      beside?.want(last.derived.faces);
    }
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
