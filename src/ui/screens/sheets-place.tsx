/** Sheets: what will come out of the printer, page by page at true proportion, and the ways to save it. */
import { useMemo, useState } from "react";
import { createStore } from "zustand/vanilla";
import { useStore } from "zustand";
import { makingPath } from "../../parts/makings.ts";
import { CAUTIONS } from "../../sheets/furniture/notes.ts";
import { optionsProblem } from "../../sheets/rooms.ts";
import { editValue } from "../../store/commands/edit-value.ts";
import { sharedIdOf } from "../../templates/copies.ts";
import { jointsOf } from "../../templates/patterns.ts";
import { useBench, useDerived, useDeriveOther, useDesign, useNotation } from "../bench.ts";
import { hashOf } from "../frame/route.ts";
import { Button } from "../kit/button.tsx";
import { FindingSign } from "../kit/sign.tsx";
import { MakingPanel } from "../sheets/making-panel.tsx";
import { sheetOptions } from "../sheets/options.ts";
import { Pages } from "../sheets/pages.tsx";
import { PaperPanel } from "../sheets/paper-panel.tsx";
import { usePaperSettings } from "../sheets/paper-settings.ts";
import { madeOf, patternsOfAll } from "../sheets/patterns.ts";
import { archiveOfJob, pdfOfJob, svgOfJob, type SheetJob } from "../sheets/save-sheets.ts";
import { useLayOut } from "../sheets/sheets-client.ts";
import { TemplateList } from "../sheets/template-list.tsx";
import type { PlainOptions } from "../sheets/worker-words.ts";
import { useSheetSaving } from "../sheets/use-saving.ts";
import { stopCount, stopsSaid } from "../stop-count.ts";
import "../panels/numbers-panel.css";
import "./sheets-place.css";

/** Templates that are left out, by the design's id and theirs: of this session. */
const leftOutStore = createStore<Readonly<Record<string, ReadonlySet<string>>>>(() => ({}));
const NONE: ReadonlySet<string> = new Set();

function leaveOut(design: string, ids: readonly string[], out: boolean): void {
  leftOutStore.setState((state) => {
    const next = new Set(state[design]);
    for (const id of ids) {
      if (out) next.add(id);
      else next.delete(id);
    }
    return { [design]: next };
  });
}

export function SheetsPlace() {
  const bench = useBench();
  const design = useDesign();
  const derived = useDerived();
  const settings = usePaperSettings(useNotation());
  const designId = useStore(bench.design, (s) => s.id);
  const leftOut = useStore(leftOutStore, (s) => s[designId] ?? NONE);
  const [shown, setShown] = useState<string>();
  const deriveOther = useDeriveOther();
  const { patterns, waiting } = useMemo(() => patternsOfAll(design, derived, deriveOther), [design, derived, deriveOther]);
  const templates = useMemo(() => madeOf(patterns.filter(({ source }) => !leftOut.has(source.id))), [patterns, leftOut]);
  const options = useMemo(
    () => (settings.chosen ? { ...sheetOptions(design, settings.chosen), joints: jointsOf(patterns) } : undefined),
    [design, settings, patterns],
  );
  const problem = options && optionsProblem(options);
  const laid = useLayOut(templates, problem ? undefined : options);
  const shownPattern = patterns.find(({ source }) => shown !== undefined && source.id === sharedIdOf(shown));
  const tiling = laid.set?.tilings.find(({ templateId }) => templateId === shown);

  function moveJoints(ids: readonly string[], by: { readonly x: number; readonly y: number }): void {
    const gesture = `joints ${ids.join(" ")} ${Date.now()}`;
    for (const id of new Set(ids.map(sharedIdOf))) {
      const joint = patterns.find(({ source }) => source.id === id)?.joint ?? { x: 0, y: 0 };
      editValue(bench, `${makingPath(id)}.jointAcross`, `${joint.x + by.x} mm`, gesture);
      editValue(bench, `${makingPath(id)}.jointUp`, `${joint.y + by.y} mm`, gesture);
    }
  }

  /** Shows how a template is made, and its first sheet; the same one again puts the paper back. */
  function show(id: string): void {
    setShown(id === shown ? undefined : id);
    const sheet = laid.set?.tilings.find(({ templateId }) => templateId === id)?.sheets[0];
    if (sheet !== undefined) document.getElementById(`sheet-${sheet}`)?.scrollIntoView({ behavior: "smooth", block: "nearest" });
  }

  return (
    <div className="sheets">
      <TemplateList
        patterns={patterns}
        leftOut={leftOut}
        set={laid.set}
        shown={shownPattern?.source.id}
        onLeaveOut={(ids, out) => leaveOut(designId, ids, out)}
        onShow={show}
      />
      <Pages laid={laid} problem={problem} none={patterns.length === 0} onJoint={moveJoints} />
      {shownPattern ? (
        <MakingPanel
          key={shownPattern.source.id}
          pattern={shownPattern}
          joined={(tiling?.sheets.length ?? 0) > 1}
          onBack={() => setShown(undefined)}
        />
      ) : (
        <PaperPanel settings={settings} />
      )}
      <Foot
        templates={templates}
        options={problem ? undefined : options}
        set={laid.busy || laid.stopped ? undefined : laid.set}
        waiting={waiting || (laid.busy && laid.set === undefined)}
      />
    </div>
  );
}

interface FootProps extends Pick<SheetJob, "templates" | "set"> {
  readonly options: PlainOptions | undefined;
  /** What is still being worked out would be missing from the files; and nobody has seen the sheets yet. */
  readonly waiting: boolean;
}

function Foot({ templates, options, set, waiting }: FootProps) {
  const design = useDesign();
  const stops = stopCount(design, useDerived());
  const saving = useSheetSaving();
  const ready = options !== undefined && templates.length > 0 && !waiting;
  const start = (write: Parameters<typeof saving.save>[1]) => (): void => {
    if (options) void saving.save({ design, templates, options, set }, write);
  };
  return (
    <footer className="sheets-foot">
      <div className="sheets-cautions">
        <h2>Before you cut</h2>
        <ul>
          {CAUTIONS.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </div>
      {saving.progress === undefined ? (
        <div className="sheets-save">
          {stops > 0 ? (
            <p className="sheets-stops">
              <FindingSign severity="stop" />
              <span>
                {stopsSaid(stops)}: <a href={hashOf({ place: "fit" })}>look at Fit</a> before cutting.
              </span>
            </p>
          ) : null}
          <Button look="main" disabled={!ready} onClick={start(pdfOfJob)}>
            Save PDF
          </Button>
          <Button disabled={!ready} onClick={start(svgOfJob)}>
            SVG
          </Button>
          <Button disabled={!ready} onClick={start(archiveOfJob)}>
            All in one archive
          </Button>
        </div>
      ) : (
        <div className="sheets-progress">
          <output>Writing</output>
          <progress className="sheets-progress-bar" aria-label="Writing the sheets" max={1} value={saving.progress} />
          <Button onClick={saving.cancel}>Cancel the save</Button>
        </div>
      )}
    </footer>
  );
}
