/** The open workbench for everything on screen. */
import { createContext, useContext, useMemo } from "react";
import { useStore } from "zustand";
import type { Design } from "../document/design.ts";
import type { Derived, DerivedPart, DeriveOther } from "../parts/derived.ts";
import type { SessionState } from "../store/session-store.ts";
import type { Workbench } from "../store/workbench.ts";
import { notationOf, type Notation } from "./notation.ts";

const Context = createContext<Workbench | undefined>(undefined);
export const BenchProvider = Context.Provider;

/** Throws outside a `BenchProvider`. */
export function useBench(): Workbench {
  const bench = useContext(Context);
  if (!bench) throw new Error("useBench: no workbench is open");
  return bench;
}

export const useDesign = (): Design => useStore(useBench().design, (state) => state.design);
export const useDerived = (): Derived => useStore(useBench().derived);
export const useSession = <T>(pick: (state: SessionState) => T): T => useStore(useBench().session, pick);

/** Derives designs beside the open one; another function whenever something has come for one of them. */
export function useDeriveOther(): DeriveOther {
  const { others } = useBench();
  const outside = useStore(others.outside);
  // Another outside is another answer.
  // eslint-disable-next-line react-hooks/exhaustive-deps, react/exhaustive-effect-dependencies
  return useMemo(() => (key, design) => others.derive(key, design), [others, outside]);
}

export function useNotation(): Notation {
  const unit = useStore(useBench().design, (state) => state.design.units);
  const fractions = useStore(useBench().design, (state) => notationOf(state.design).fractions);
  return useMemo(() => ({ unit, fractions }), [unit, fractions]);
}

/** The part with this id, the instrument too; undefined if the design has none. */
export function partNamed(derived: Derived, id: string): DerivedPart | undefined {
  return id === "instrument" ? derived.instrument : derived.parts.find((part) => part.id === id);
}
