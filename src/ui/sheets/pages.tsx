/** The sheets as they will leave the printer, in the groups that are glued together. */
import { useEffect, useMemo, useRef, useState, type RefObject } from "react";
import type { SheetSet } from "../../sheets/sheet.ts";
import { assembliesOf, jointsSaid, type Assembly } from "./assemblies.ts";
import { useNotation } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { useJointDrag } from "./joint-drag.ts";
import type { LaidOut } from "./sheets-client.ts";
import { Inks, SheetSvg } from "./sheet-svg.tsx";
import { paperSaid, sentence, sheetsSaid } from "./words.ts";
import "./pages.css";

interface PagesProps {
  readonly laid: LaidOut;
  readonly problem: { readonly message: string; readonly mend: string } | undefined;
  readonly none: boolean;
  /** Moves the joints of templates that are joined together by so much more, mm across and up their sheets. */
  readonly onJoint: (templateIds: readonly string[], by: { readonly x: number; readonly y: number }) => void;
}

export function Pages({ laid, problem, none, onJoint }: PagesProps) {
  const { set, templates, busy } = laid;
  const notation = useNotation();
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
                ? `${sheetsSaid(set.sheets.length)} of ${paperSaid(set.paper, notation)}`
                : "No sheet yet"}
          </h1>
          <p className="parts-summary">
            {none
              ? "No part gives a template yet: mend its numbers first."
              : problem
                ? `${sentence(problem.message)} ${problem.mend}`
                : set === undefined
                  ? "Each template is turned and shifted until it takes the fewest sheets."
                  : set.sheets.length === 0
                    ? "Tick a template at the left."
                    : jointsSaid(groups)}
          </p>
          <Laying laid={laid} />
        </div>
        {set && set.sheets.length > 1 ? (
          <nav className="sheets-map" aria-label="Map of the sheets">
            {groups.map((group) => (
              <section key={group.key} className="sheets-map-one" aria-label={group.title}>
                <p className="sheets-map-name">{group.title}</p>
                <div className="sheets-map-sheets" style={{ gridTemplateColumns: `repeat(${group.columns}, auto)` }}>
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
              </section>
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

/** How far the layout is, where it takes its time, and a way to stop it. */
function Laying({ laid: { set, progress, stopped, stop, again } }: { readonly laid: LaidOut }) {
  if (stopped)
    return (
      <output className="sheets-laying">
        {set ? "Stopped: these sheets are those of before the last change." : "Stopped before the sheets were laid out."}
        <Button size="small" onClick={again}>
          Lay them out
        </Button>
      </output>
    );
  if (progress === undefined) return null;
  return (
    <p className="sheets-laying">
      {set ? "Laying out anew" : ""}
      <progress className="sheets-progress-bar" aria-label="Laying out the sheets" max={1} value={progress} />
      <Button size="small" onClick={stop}>
        Stop laying out
      </Button>
    </p>
  );
}

interface AssemblyProps {
  readonly group: Assembly;
  readonly set: SheetSet;
  readonly pxPerMm: number;
  readonly onJoint: PagesProps["onJoint"];
}

function AssemblyOfSheets({ group, set, pxPerMm, onJoint }: AssemblyProps) {
  const joined = group.joined.length > 0;
  const drag = useJointDrag(pxPerMm, (by) => onJoint(group.joined, by));
  const sheets = group.sheets.map((index) => (
    <div key={index} id={`sheet-${index}`} style={{ gridColumn: group.column(index), gridRow: group.row(index) }}>
      <SheetSvg sheet={set.sheets[index]!} pxPerMm={pxPerMm} />
    </div>
  ));
  const style = { gridTemplateColumns: `repeat(${group.columns}, auto)` };
  return (
    <section className="assembly" aria-label={group.title}>
      <h2>{group.title}</h2>
      <p className="note">{group.says}</p>
      {group.ways === "" ? null : <p className="note">{group.ways}</p>}
      {joined ? (
        <section
          className="assembly-sheets assembly-joined"
          style={style}
          aria-label={`Sheets of ${group.title}: arrow keys move the joints by 1 mm, with Shift by 10 mm`}
          // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- its keys do what dragging does
          tabIndex={0}
          {...drag.handlers}
        >
          {sheets}
          {drag.by ? (
            <output className="assembly-drag">
              joints {Math.abs(drag.by.x)} mm {drag.by.x < 0 ? "to the left" : "to the right"}, {Math.abs(drag.by.y)} mm{" "}
              {drag.by.y < 0 ? "down" : "up"}
            </output>
          ) : null}
        </section>
      ) : (
        <div className="assembly-sheets" style={style}>
          {sheets}
        </div>
      )}
    </section>
  );
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
