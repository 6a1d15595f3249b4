/** Sheets: what will come out of the printer, page by page at true proportion, and the ways to save it. */
import { useEffect, useId, useMemo, useRef, useState, type RefObject } from "react";
import { createStore } from "zustand/vanilla";
import { useStore } from "zustand";
import { CAUTIONS } from "../../sheets/furniture/notes.ts";
import { optionsProblem } from "../../sheets/rooms.ts";
import type { SheetSet, Tiling } from "../../sheets/sheet.ts";
import { templatesOf, type Template } from "../../templates/template.ts";
import { useDerived, useDesign, useNotation } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { TickBox } from "../kit/choice.tsx";
import { FieldRow } from "../panels/field-row.tsx";
import { sheetOptions } from "../sheets/options.ts";
import { paperSettings, usePaperRaw, type PaperSettings } from "../sheets/paper-settings.ts";
import { archiveOfJob, pdfOfJob, svgOfJob } from "../sheets/save-sheets.ts";
import { Inks, SheetSvg } from "../sheets/sheet-svg.tsx";
import { useLayOut } from "../sheets/sheets-client.ts";
import type { PlainOptions } from "../sheets/worker-words.ts";
import { useSheetSaving } from "../sheets/use-saving.ts";
import "../panels/numbers-panel.css";
import "./sheets-place.css";

/** Templates that are left out, by id: of this session. */
const leftOutStore = createStore<{ readonly ids: ReadonlySet<string> }>(() => ({ ids: new Set() }));

function leaveOut(ids: readonly string[], out: boolean): void {
  leftOutStore.setState((state) => {
    const next = new Set(state.ids);
    for (const id of ids) {
      if (out) next.add(id);
      else next.delete(id);
    }
    return { ids: next };
  });
}

export function SheetsPlace() {
  const design = useDesign();
  const derived = useDerived();
  const notation = useNotation();
  const raw = usePaperRaw();
  const leftOut = useStore(leftOutStore, (s) => s.ids);
  const all = useMemo(() => templatesOf(derived), [derived]);
  const settings = useMemo(() => paperSettings(raw, notation.unit), [raw, notation.unit]);
  const templates = useMemo(() => all.filter((template) => !leftOut.has(template.id)), [all, leftOut]);
  const options = useMemo(() => (settings.chosen ? sheetOptions(design, settings.chosen) : undefined), [design, settings]);
  const problem = options && optionsProblem(options);
  const laid = useLayOut(templates, problem ? undefined : options);

  return (
    <div className="sheets">
      <TemplateList all={all} leftOut={leftOut} set={laid.set} />
      <Pages templates={laid.templates} set={laid.set} problem={problem} busy={laid.busy} none={all.length === 0} />
      <PaperPanel settings={settings} />
      <Foot templates={templates} options={problem ? undefined : options} />
    </div>
  );
}

const sheetsSaid = (count: number): string => (count === 1 ? "1 sheet" : `${count} sheets`);

function tilingOf(set: SheetSet | undefined, template: Template): Tiling | undefined {
  return set?.tilings.find((tiling) => tiling.templateId === template.id);
}

function TemplateList({
  all,
  leftOut,
  set,
}: {
  readonly all: readonly Template[];
  readonly leftOut: ReadonlySet<string>;
  readonly set: SheetSet | undefined;
}) {
  const parts = [...new Set(all.map((template) => template.partId))];
  const ids = all.map((template) => template.id);
  const allIn = ids.every((id) => !leftOut.has(id));
  return (
    <section className="side sheets-list" aria-labelledby="sheets-list-title">
      <div className="sheets-all">
        <h2 className="side-title" id="sheets-list-title">
          Templates
        </h2>
        <Button look="link" onClick={() => leaveOut(ids, allIn)}>
          {allIn ? "none" : "all"}
        </Button>
      </div>
      <div className="sheets-list-parts">
        {parts.map((partId) => {
          const own = all.filter((template) => template.partId === partId);
          return (
            <section key={partId}>
              <h3 className="sheets-part">{own[0]?.partLabel}</h3>
              {own.map((template) => (
                <TemplateTick
                  key={template.id}
                  template={template}
                  chosen={!leftOut.has(template.id)}
                  tiling={tilingOf(set, template)}
                />
              ))}
            </section>
          );
        })}
      </div>
    </section>
  );
}

function TemplateTick({
  template,
  chosen,
  tiling,
}: {
  readonly template: Template;
  readonly chosen: boolean;
  readonly tiling: Tiling | undefined;
}) {
  const id = useId();
  return (
    <div className="sheets-one">
      <TickBox labelledBy={id} on={chosen} onChange={(on) => leaveOut([template.id], !on)} />
      <span className="sheets-one-name" id={id}>
        {template.title}
      </span>
      {chosen && tiling ? (
        <span className="note">{tiling.shared ? "shares a sheet" : sheetsSaid(tiling.sheets.length)}</span>
      ) : null}
    </div>
  );
}

interface PagesProps {
  readonly templates: readonly Template[];
  readonly set: SheetSet | undefined;
  readonly problem: { readonly message: string; readonly mend: string } | undefined;
  readonly busy: boolean;
  readonly none: boolean;
}

function Pages({ templates, set, problem, busy, none }: PagesProps) {
  const region = useRef<HTMLElement>(null);
  const width = useWidth(region);
  const groups = useMemo(() => (set ? assembliesOf(set, templates) : []), [set, templates]);
  const pxPerMm = scaleFor(set, groups, width);
  return (
    <section className="sheets-pages" ref={region} aria-labelledby="sheets-title" aria-busy={busy}>
      <div className="sheets-head">
        <div>
          <h1 className="title" id="sheets-title">
            {set === undefined && busy
              ? "Laying out the sheets"
              : set && set.sheets.length > 0
                ? `${sheetsSaid(set.sheets.length)} of ${set.paper.label}`
                : "No sheet yet"}
          </h1>
          <p className="parts-summary">
            {none
              ? "No part gives a template yet: mend its numbers first."
              : problem
                ? `${sentence(problem.message)} ${problem.mend}`
                : set && set.sheets.length === 0
                  ? "Tick a template at the left."
                  : jointsSaid(set)}
          </p>
        </div>
        {set && set.sheets.length > 1 ? (
          <nav className="sheets-map" aria-label="Map of the sheets">
            {groups.map((group) => (
              <div key={group.key} className="sheets-map-one" style={{ gridTemplateColumns: `repeat(${group.columns}, auto)` }}>
                {group.sheets.map((index) => {
                  const sheet = set.sheets[index]!;
                  const wide = sheet.width >= sheet.height;
                  return (
                    <a
                      key={index}
                      className="map-sheet"
                      href="#sheet"
                      style={{
                        width: wide ? "2rem" : "1.5rem",
                        height: wide ? "1.5rem" : "2rem",
                        gridColumn: group.column(index),
                        gridRow: group.row(index),
                      }}
                      aria-label={`${sheet.tag}: ${sheet.name}`}
                      onClick={(event) => {
                        event.preventDefault();
                        document.getElementById(`sheet-${index}`)?.scrollIntoView({ behavior: "smooth", block: "center" });
                      }}
                    >
                      {sheet.tag}
                    </a>
                  );
                })}
              </div>
            ))}
          </nav>
        ) : null}
      </div>
      {set ? <Inks templates={templates} /> : null}
      {set
        ? groups.map((group) => (
            <section key={group.key} className="assembly" aria-label={group.title}>
              <div className="assembly-head">
                <h2>{group.title}</h2>
                <p className="note">{group.says}</p>
              </div>
              <div className="assembly-sheets" style={{ gridTemplateColumns: `repeat(${group.columns}, auto)` }}>
                {group.sheets.map((index) => (
                  <div key={index} id={`sheet-${index}`} style={{ gridColumn: group.column(index), gridRow: group.row(index) }}>
                    <SheetSvg sheet={set.sheets[index]!} pxPerMm={pxPerMm} />
                  </div>
                ))}
              </div>
            </section>
          ))
        : null}
    </section>
  );
}

interface Assembly {
  readonly key: string;
  readonly title: string;
  readonly says: string;
  readonly sheets: readonly number[];
  readonly columns: number;
  readonly column: (index: number) => number | undefined;
  readonly row: (index: number) => number | undefined;
}

/** The sheets in the groups that are glued together; those that hold whole templates stand last, side by side. */
function assembliesOf(set: SheetSet, templates: readonly Template[]): Assembly[] {
  const tiled = set.tilings.filter((tiling) => !tiling.shared && tiling.sheets.length > 0);
  const shared = [...new Set(set.tilings.filter((tiling) => tiling.shared).flatMap((tiling) => tiling.sheets))];
  const groups: Assembly[] = tiled.map((tiling) => {
    const template = templates.find((one) => one.id === tiling.templateId);
    const cells = tiling.sheets.map((index) => set.sheets[index]!);
    const rows = [...new Set(cells.map((sheet) => sheet.row))].toSorted((a, b) => a - b);
    const columns = [...new Set(cells.map((sheet) => sheet.column))].toSorted((a, b) => a - b);
    return {
      key: tiling.templateId,
      title: template ? `${template.partLabel}, ${template.title.toLowerCase()}` : tiling.templateId,
      says: `${sheetsSaid(tiling.sheets.length)}. ${sentence(template?.lineIs ?? "")}`,
      sheets: tiling.sheets,
      columns: columns.length,
      column: (index) => columns.indexOf(set.sheets[index]!.column) + 1,
      row: (index) => rows.indexOf(set.sheets[index]!.row) + 1,
    };
  });
  if (shared.length > 0) {
    const names = shared.map((index) => set.sheets[index]!.placed.map(({ template }) => template.title.toLowerCase()).join(", "));
    groups.push({
      key: "shared",
      title: shared.length === 1 ? "Templates that share a sheet" : "Templates that share sheets",
      says: sentence(names.join("; ")),
      sheets: shared,
      columns: Math.min(3, shared.length),
      column: () => undefined,
      row: () => undefined,
    });
  }
  return groups;
}

const sentence = (words: string): string =>
  words === "" ? "" : `${words.charAt(0).toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? "" : "."}`;

function jointsSaid(set: SheetSet | undefined): string {
  if (!set) return "";
  const joined = set.tilings.filter((tiling) => !tiling.shared && tiling.sheets.length > 1).length;
  return joined === 0
    ? "Every template fits on one sheet: nothing to join."
    : `${joined === 1 ? "One template is" : `${joined} templates are`} joined from several sheets by numbered marks.`;
}

/** px of a mm: the widest assembly fills the region, but no sheet is shown larger than it is. */
function scaleFor(set: SheetSet | undefined, groups: readonly Assembly[], width: number): number {
  if (!set || width === 0) return 1;
  const widths = groups.map((group) => {
    const widest = Math.max(...group.sheets.map((index) => set.sheets[index]!.width));
    return { mm: widest * group.columns, gaps: 6 * (group.columns - 1) };
  });
  return Math.min(2.2, ...widths.map(({ mm, gaps }) => (width - gaps) / mm));
}

/** Inner width of a region, px. */
function useWidth(region: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const element = region.current;
    if (!element) return undefined;
    const observer = new ResizeObserver(() => {
      const { paddingLeft, paddingRight } = getComputedStyle(element);
      setWidth(element.clientWidth - Number.parseFloat(paddingLeft) - Number.parseFloat(paddingRight));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [region]);
  return width;
}

function PaperPanel({ settings }: { readonly settings: PaperSettings }) {
  const notation = useNotation();
  const groups = [...new Set(settings.fields.map((field) => field.spec.group))];
  const printer = settings.chosen?.printer;
  return (
    <aside className="side sheets-paper" aria-label="Paper and printer">
      <h2 className="side-title">Paper and printer</h2>
      <div className="sheets-paper-groups">
        {groups.map((group) => (
          <section key={group} className="panel-group" aria-label={group}>
            <h3 className="panel-group-name">{group}</h3>
            <div className="panel-rows">
              {settings.fields
                .filter((field) => field.spec.group === group && !field.idle)
                .map((field) => (
                  <FieldRow key={field.path} field={field} notation={notation} editing={settings.editing} />
                ))}
            </div>
            {group === "Printer" ? (
              <p className="sheets-correction">
                {printer ? (
                  <>
                    Drawn <span className="num">{printer.sx.toFixed(4)}</span> times as wide and{" "}
                    <span className="num">{printer.sy.toFixed(4)}</span> times as long, so that it prints true.
                  </>
                ) : (
                  "No correction: this printer prints true, or has not been measured yet."
                )}
              </p>
            ) : null}
          </section>
        ))}
      </div>
    </aside>
  );
}

function Foot({ templates, options }: { readonly templates: readonly Template[]; readonly options: PlainOptions | undefined }) {
  const design = useDesign();
  const saving = useSheetSaving();
  const ready = options !== undefined && templates.length > 0;
  const start = (write: Parameters<typeof saving.save>[1]) => (): void => {
    if (options) void saving.save({ design, templates, options }, write);
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
          <Button onClick={saving.cancel}>Cancel</Button>
        </div>
      )}
    </footer>
  );
}
