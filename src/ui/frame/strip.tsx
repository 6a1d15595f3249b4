/** The strip over everything: whose instrument this is, whether the work is safe, the five places, and what is needed everywhere. */
import { Suspense, useEffect, useState } from "react";
import { useStore } from "zustand";
import { redo, undo } from "../../store/commands/undo.ts";
import { switchUnits } from "../../store/commands/switch-units.ts";
import { isDirty } from "../../store/design-store.ts";
import { openDialog, setTheme, type Saving } from "../../store/session-store.ts";
import { useBench, useDesign, useNotation, useSession } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { RowChoice } from "../kit/choice.tsx";
import { Menu } from "../kit/menu.tsx";
import { Sign } from "../kit/sign.tsx";
import { later } from "../later.ts";
import type { FrameDeeds } from "./keys.ts";
import { go, hashOf, PLACE_NAMES, PLACES, useRoute } from "./route.ts";
import { titleOf } from "./title.ts";
import "./strip.css";

const PassingNotes = later(async () => (await import("../kit/notes.tsx")).PassingNotes);
const Stops = later(async () => (await import("./stops.tsx")).Stops);

type UnitsShown = "in" | "fractions" | "mm";
const UNITS_SHOWN: readonly { readonly value: UnitsShown; readonly label: string }[] = [
  { value: "in", label: "inch" },
  { value: "fractions", label: "½ inch" },
  { value: "mm", label: "mm" },
];

export function Strip({ deeds }: { readonly deeds: FrameDeeds }) {
  const bench = useBench();
  const design = useDesign();
  const { unit, fractions } = useNotation();
  const { undo: undoes, redo: redoes } = useStore(bench.history);
  const theme = useSession((s) => s.theme);
  const shown: UnitsShown = unit === "mm" ? "mm" : fractions ? "fractions" : "in";
  const chooseUnits = (value: UnitsShown): void => void switchUnits(bench, value === "mm" ? "mm" : "in", value === "fractions");

  return (
    <header className="strip">
      <div className="strip-left">
        <span className="strip-mark">
          <Mark />
          <span>Gramil</span>
        </span>
        <div className="strip-whose">
          <a className="strip-design" href={hashOf({ place: "order" })} title="To the order">
            <span className="strip-name">{titleOf(design)}</span>
            <SavedState />
          </a>
          <Rescue saveFile={deeds.saveFile} />
          <Suspense fallback={null}>
            <PassingNotes />
          </Suspense>
        </div>
      </div>
      <Places />
      <div className="strip-right">
        <Button
          look="quiet"
          size="icon"
          label={undoes === undefined ? "Undo" : `Undo ${undoes}`}
          title={undoes === undefined ? "Nothing to undo" : `Undo ${undoes}`}
          disabled={undoes === undefined}
          onClick={() => undo(bench)}
        >
          <Sign name="undo" />
        </Button>
        <Button
          look="quiet"
          size="icon"
          label={redoes === undefined ? "Redo" : `Redo ${redoes}`}
          title={redoes === undefined ? "Nothing to redo" : `Redo ${redoes}`}
          disabled={redoes === undefined}
          onClick={() => redo(bench)}
        >
          <Sign name="redo" />
        </Button>
        <span className="strip-units">
          <RowChoice label="Units of length" value={shown} options={UNITS_SHOWN} onChoose={chooseUnits} />
        </span>
        <Menu
          trigger={
            <Button look="quiet" size="icon" label="More">
              <Sign name="menu" />
            </Button>
          }
          entries={[
            { label: "Open a design file", keys: "Ctrl O", onChoose: deeds.openFile },
            { label: "Save the design as a file", keys: "Ctrl S", onChoose: deeds.saveFile },
            ...UNITS_SHOWN.map((one, i) => ({
              label: { in: "Decimal inches", fractions: "Inches in fractions", mm: "Millimetres" }[one.value],
              checked: one.value === shown,
              apart: i === 0,
              onChoose: () => chooseUnits(one.value),
            })),
            {
              label: "Light as paper",
              apart: true,
              checked: theme === "paper",
              onChoose: () => setTheme(bench.session, "paper"),
            },
            { label: "Dark as slate", checked: theme === "slate", onChoose: () => setTheme(bench.session, "slate") },
            { label: "As the system wishes", checked: theme === "system", onChoose: () => setTheme(bench.session, "system") },
            {
              label: "True size on this screen",
              apart: true,
              onChoose: () => openDialog(bench.session, { kind: "screen" }),
            },
            { label: "Help", onChoose: () => go({ place: "help" }) },
            { label: "Keys", keys: "?", onChoose: () => openDialog(bench.session, { kind: "keys" }) },
          ]}
        />
      </div>
    </header>
  );
}

function Places() {
  const route = useRoute();
  return (
    <nav className="places" aria-label="Places">
      {PLACES.map((place) => (
        <a key={place} className="place-link" href={hashOf({ place })} aria-current={route.place === place ? "page" : undefined}>
          <span className="place-word" data-word={PLACE_NAMES[place]}>
            {PLACE_NAMES[place]}
          </span>
          {place === "fit" ? (
            <Suspense fallback={null}>
              <Stops />
            </Suspense>
          ) : null}
        </a>
      ))}
    </nav>
  );
}

function SavedState() {
  const bench = useBench();
  const saving = useSession((s) => s.saving);
  const untouched = useStore(bench.design, (s) => s.stored === undefined && !isDirty(s));
  useMinute();
  const bad = saving.state === "failed" || saving.state === "conflict";
  return (
    <output className={bad ? "strip-saved strip-saved-bad" : "strip-saved"}>
      {untouched ? "an example to try" : savedWords(saving)}
    </output>
  );
}

/** Where the work is not safe: the way out, beside the words that say so. */
function Rescue({ saveFile }: { readonly saveFile: () => void }) {
  const bench = useBench();
  const state = useSession((s) => s.saving.state);
  const touched = useStore(bench.design, isDirty);
  useEffect(() => {
    if (state === "conflict") openDialog(bench.session, { kind: "conflict" });
  }, [bench, state]);
  if (state === "conflict")
    return (
      <Button size="small" onClick={() => openDialog(bench.session, { kind: "conflict" })}>
        Choose
      </Button>
    );
  return state === "failed" && touched ? (
    <Button size="small" onClick={saveFile}>
      Save a file
    </Button>
  ) : null;
}

function savedWords(saving: Saving): string {
  switch (saving.state) {
    case "waiting":
      return "saving in this browser";
    case "saved": {
      const minutes = Math.floor((Date.now() - saving.at) / 60_000);
      if (minutes < 1) return "saved in this browser just now";
      if (minutes < 60) return `saved in this browser ${minutes} min ago`;
      return `saved in this browser at ${new Date(saving.at).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" })}`;
    }
    case "failed":
      return "not saved here: save a file";
    case "conflict":
      return saving.reason === "missing" ? "removed in another tab" : "changed in another tab";
  }
}

/** Draws again every minute, so that "just now" does not stay. */
function useMinute(): void {
  const [, tick] = useState(0);
  useEffect(() => {
    const timer = setInterval(() => tick((n) => n + 1), 60_000);
    return () => clearInterval(timer);
  }, []);
}

/** The gauge that scribes a line at a set distance from an edge. */
function Mark() {
  return (
    <svg viewBox="0 0 24 24" fill="none" stroke="currentColor" strokeWidth="1.6" strokeLinejoin="round" aria-hidden="true">
      <path d="M1.5 10.2h21v3.6h-21z" />
      <path d="M9 4.5h6v15H9z" fill="var(--sheet)" />
      <path d="M12 9.8v4.4" />
      <path d="M4 13.8v3.4" strokeWidth="1.8" />
    </svg>
  );
}
