/** What this browser keeps, for the list of designs and for the shop's series of numbers. */
import { useEffect, useMemo, useState } from "react";
import { readDesign } from "../../document/read.ts";
import type { Kept } from "../../document/storage.ts";
import type { Derived } from "../../parts/derived.ts";
import { GIVEN_NUMBERS, givenOf } from "../../store/series.ts";
import { useBench, useDeriveOther, useSession } from "../bench.ts";

export interface KeptList {
  readonly kept: readonly Kept[];
  /** Numbers of designs that were removed. */
  readonly given: readonly string[];
  /** Reads the list again. */
  readonly again: () => void;
}

const NONE = { kept: [], given: [] };

/** The list of what is kept, read again when the open design is saved or another tab changes something. */
export function useKept(): KeptList {
  const { storage } = useBench();
  const savedAt = useSession((s) => (s.saving.state === "saved" ? s.saving.at : 0));
  const arrivals = useSession((s) => s.arrivals);
  const [turn, setTurn] = useState(0);
  const [found, setFound] = useState<Omit<KeptList, "again">>(NONE);
  useEffect(() => {
    let gone = false;
    void Promise.all([storage?.list(), storage?.setting(GIVEN_NUMBERS)]).then(([list, given]) =>
      gone || !list?.ok ? undefined : setFound({ kept: list.value, given: given?.ok ? givenOf(given.value) : [] }),
    );
    return () => {
      gone = true;
    };
    // Read again after every save here, and when it is asked for.
    // eslint-disable-next-line react/exhaustive-effect-dependencies
  }, [storage, savedAt, arrivals, turn]);
  useEffect(() => storage?.onForeignChange(() => setTurn((n) => n + 1)), [storage]);
  return useMemo(() => ({ ...found, again: () => setTurn((n) => n + 1) }), [found]);
}

/** What is derived from a kept design, for its picture. */
export function useKeptDerived({ id, revision }: Kept): Derived | undefined {
  const { storage } = useBench();
  const [text, setText] = useState<string>();
  useEffect(() => {
    let gone = false;
    void storage?.load(id).then((found) => (!gone && found.ok ? setText(found.value.text) : undefined));
    return () => {
      gone = true;
    };
    // Another revision is another text.
    // eslint-disable-next-line react/exhaustive-effect-dependencies
  }, [storage, id, revision]);
  const deriveOther = useDeriveOther();
  const read = useMemo(() => (text === undefined ? undefined : readDesign(text)), [text]);
  return useMemo(() => (read?.ok ? deriveOther(`kept ${id}`, read.design) : undefined), [read, deriveOther, id]);
}
