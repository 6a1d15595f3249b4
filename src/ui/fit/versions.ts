/** The versions that the open design can be laid beside: as it was when it was cut, recent states, and other designs kept here. */
import { useEffect, useMemo, useState } from "react";
import { useStore } from "zustand";
import { numbersOfCut } from "../../document/cuts.ts";
import type { Design } from "../../document/design.ts";
import { readDesign } from "../../document/read.ts";
import type { DesignStorage } from "../../document/storage.ts";
import { useBench, useDesign } from "../bench.ts";

export interface Choosable {
  /** `cut 0`, `version 12`, `design 3f..` */
  readonly value: string;
  readonly label: string;
}

const day = (at: number): string => new Date(at).toLocaleString([], { dateStyle: "medium", timeStyle: "short" });

/** What can be chosen now, cuts first. */
export function useChoosable(): readonly Choosable[] {
  const bench = useBench();
  const design = useDesign();
  const id = useStore(bench.design, (state) => state.id);
  const [kept, setKept] = useState<readonly Choosable[]>([]);
  useEffect(() => {
    let gone = false;
    if (bench.storage) void listKept(bench.storage, id).then((found) => (gone ? undefined : setKept(found)));
    return () => {
      gone = true;
    };
  }, [bench, id]);
  return useMemo(
    () => [
      ...(design.cuts ?? []).map((cut, i) => ({
        value: `cut ${i}`,
        label: `When ${cut.part}, ${cut.template} was cut, ${cut.date}`,
      })),
      ...kept,
    ],
    [design.cuts, kept],
  );
}

async function listKept(storage: DesignStorage, id: string): Promise<readonly Choosable[]> {
  const [versions, designs] = await Promise.all([storage.versions(id), storage.list()]);
  return [
    ...(versions.ok ? versions.value : []).map(({ revision, savedAt }) => ({
      value: `version ${revision}`,
      label: `As it was, ${day(savedAt)}`,
    })),
    ...(designs.ok ? designs.value : [])
      .filter((one) => one.id !== id)
      .map((one) => ({
        value: `design ${one.id}`,
        label: [one.number, one.title || "a design without a title"].filter(Boolean).join(" "),
      })),
  ];
}

export type Chosen =
  | { readonly state: "none" | "coming" }
  | { readonly state: "here"; readonly design: Design }
  | { readonly state: "refused"; readonly message: string };

const NONE: Chosen = { state: "none" };

/** The design behind a choice. */
export function useChosen(value: string): Chosen {
  const bench = useBench();
  const design = useDesign();
  const id = useStore(bench.design, (state) => state.id);
  const [chosen, setChosen] = useState<Chosen>(NONE);
  const [what = "", which = ""] = value.split(" ");
  const cut = what === "cut" ? design.cuts?.[Number(which)] : undefined;
  const ofCut = useMemo((): Chosen => {
    if (!cut) return NONE;
    const numbers = numbersOfCut({ ...design, cuts: [cut] }, 0);
    return numbers.ok ? { state: "here", design: numbers.value } : { state: "refused", message: numbers.error.message };
    // A cut keeps its numbers whatever else changes.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [cut]);
  useEffect(() => {
    let gone = false;
    const { storage } = bench;
    if (!storage || (what !== "version" && what !== "design")) {
      setChosen(NONE);
      return undefined;
    }
    setChosen({ state: "coming" });
    void (what === "version" ? storage.loadVersion(id, Number(which)) : storage.load(which)).then((loaded) => {
      if (gone) return;
      if (!loaded.ok) return setChosen({ state: "refused", message: loaded.error.message });
      const read = readDesign(typeof loaded.value === "string" ? loaded.value : loaded.value.text);
      if (!read.ok) return setChosen({ state: "refused", message: read.message });
      if (read.damaged) return setChosen({ state: "refused", message: "it is damaged" });
      setChosen({ state: "here", design: read.design });
    });
    return () => {
      gone = true;
    };
  }, [bench, id, what, which]);
  return cut ? ofCut : chosen;
}
