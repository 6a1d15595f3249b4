/** The sheets as they will leave the printer, in the groups that are glued together. */
import { useEffect, useMemo, useRef, useState, type RefObject } from "react";
import type { Choice, SheetSet } from "../../sheets/sheet.ts";
import type { Template } from "../../templates/template.ts";
import { useJointDrag } from "./joint-drag.ts";
import { Inks, SheetSvg } from "./sheet-svg.tsx";
import { sentence, sheetsSaid } from "./words.ts";
import "./pages.css";

interface PagesProps {
  readonly templates: readonly Template[];
  readonly set: SheetSet | undefined;
  readonly problem: { readonly message: string; readonly mend: string } | undefined;
  readonly busy: boolean;
  readonly none: boolean;
  /** Moves the joints of a template by so much more, mm across and up its sheets. */
  readonly onJoint: (templateId: string, by: { readonly x: number; readonly y: number }) => void;
}

export function Pages({ templates, set, problem, busy, none, onJoint }: PagesProps) {
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
      {set ? <Inks set={set} /> : null}
      {set
        ? groups.map((group) => <AssemblyOfSheets key={group.key} group={group} set={set} pxPerMm={pxPerMm} onJoint={onJoint} />)
        : null}
    </section>
  );
}

interface AssemblyProps {
  readonly group: Assembly;
  readonly set: SheetSet;
  readonly pxPerMm: number;
  readonly onJoint: PagesProps["onJoint"];
}

function AssemblyOfSheets({ group, set, pxPerMm, onJoint }: AssemblyProps) {
  const joined = group.templateId !== undefined && group.sheets.length > 1;
  const drag = useJointDrag(pxPerMm, (by) => (group.templateId === undefined ? undefined : onJoint(group.templateId, by)));
  return (
    <section className="assembly" aria-label={group.title}>
      <div className="assembly-head">
        <h2>{group.title}</h2>
        <p className="note">{group.says}</p>
      </div>
      {joined ? <p className="note assembly-ways">{group.ways}</p> : null}
      <div
        className={joined ? "assembly-sheets assembly-joined" : "assembly-sheets"}
        style={{ gridTemplateColumns: `repeat(${group.columns}, auto)` }}
        {...(joined ? drag.handlers : {})}
      >
        {group.sheets.map((index) => (
          <div key={index} id={`sheet-${index}`} style={{ gridColumn: group.column(index), gridRow: group.row(index) }}>
            <SheetSvg sheet={set.sheets[index]!} pxPerMm={pxPerMm} />
          </div>
        ))}
        {drag.by ? (
          <output className="assembly-drag">
            joints {Math.abs(drag.by.x)} mm {drag.by.x < 0 ? "to the left" : "to the right"}, {Math.abs(drag.by.y)} mm{" "}
            {drag.by.y < 0 ? "down" : "up"}
          </output>
        ) : null}
      </div>
    </section>
  );
}

interface Assembly {
  readonly key: string;
  /** The template that all its sheets are of, if they are joined. */
  readonly templateId?: string;
  /** The ways that were tried, with the sheets that each takes. */
  readonly ways?: string;
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
      templateId: tiling.templateId,
      ways: waysSaid(tiling.choices),
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

/** "Taken: 2 sheets lying. Also tried: 3 upright." */
function waysSaid(choices: readonly Choice[]): string {
  const [taken, ...others] = choices;
  if (!taken) return "";
  const said = ({ sheets, orientation, turn }: Choice): string =>
    `${sheets} ${orientation === "landscape" ? "lying" : "upright"}${turn === 1 ? ", the template turned" : ""}`;
  const tried = others.length === 0 ? "" : ` Also tried: ${others.map(said).join("; ")}.`;
  return `Taken: ${said(taken)}.${tried} Drag a sheet to move the joints away from a detail.`;
}

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
