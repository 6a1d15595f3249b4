/** Compare: another version beside the open design. Numbers that differ, outlines laid over each other, templates to cut again. */
import { useMemo, useState } from "react";
import type { Design } from "../../document/design.ts";
import type { Drawing } from "../../drawing/drawing.ts";
import { joinBounds } from "../../geometry/bounds.ts";
import type { Derived } from "../../parts/derived.ts";
import {
  compare,
  type Comparison,
  type NumberRow,
  type PartRow,
  type TemplateRow,
  type Version,
} from "../../templates/compare.ts";
import { useDerived, useDeriveOther, useDesign, useNotation } from "../bench.ts";
import { drawingBox, ShapeSvg } from "../drawing-svg.tsx";
import { hashOf } from "../frame/route.ts";
import { ListChoice } from "../kit/choice.tsx";
import { FindingSign } from "../kit/sign.tsx";
import { quantityOf, say, type Notation } from "../notation.ts";
import { madeOf, patternsOf } from "../sheets/patterns.ts";
import { useChoosable, useChosen } from "./versions.ts";
import { Wide } from "./wide.tsx";
import "./fit-pages.css";
import "./compare-page.css";

const versionOf = (design: Design, derived: Derived): Version => ({
  derived,
  templates: madeOf(patternsOf(design, derived, "")),
});

export function ComparePage() {
  const design = useDesign();
  const derived = useDerived();
  const choosable = useChoosable();
  const [value, setValue] = useState("");
  const chosen = useChosen(value);
  const deriveOther = useDeriveOther();
  const other = useMemo(
    () => (chosen.state === "here" ? deriveOther("compared", chosen.design) : undefined),
    [chosen, deriveOther],
  );
  const waiting = derived.waiting || other?.waiting === true;
  const comparison = useMemo(
    () =>
      chosen.state === "here" && other && !waiting
        ? compare(versionOf(chosen.design, other), versionOf(design, derived))
        : undefined,
    [chosen, other, design, derived, waiting],
  );
  return (
    <div className="fitp fitp-single">
      <section className="fitp-main" aria-label="Two versions side by side">
        {choosable.length === 0 ? (
          <p className="fitp-lead">
            There is nothing to compare with yet. Recent states of this design are kept as you work, and every cut that is entered
            under Order keeps its numbers.
          </p>
        ) : (
          <div className="fitp-bar">
            <span className="fitp-total">Lay this design beside</span>
            <ListChoice
              label="The other version"
              value={value}
              options={[{ value: "", label: "choose a version" }, ...choosable]}
              onChoose={setValue}
            />
          </div>
        )}
        {choosable.length > 0 && value === "" ? (
          <p className="note">
            Every number that differs is listed, outlines are laid over each other, and the templates that must be cut again are
            named.
          </p>
        ) : null}
        {chosen.state === "coming" || (other && waiting) ? <p className="note">One moment.</p> : null}
        {chosen.state === "refused" ? <p role="alert">It cannot be read: {chosen.message}.</p> : null}
        {comparison ? <Found comparison={comparison} /> : null}
      </section>
    </div>
  );
}

function Found({ comparison }: { readonly comparison: Comparison }) {
  const { numbers, parts, templates } = comparison;
  if (numbers.length === 0 && parts.length === 0 && templates.length === 0)
    return (
      <p className="fitp-lead says-fine">
        <FindingSign severity="fine" /> Nothing differs: numbers, drawings and templates are the same.
      </p>
    );
  return (
    <>
      <Templates rows={templates} />
      <Numbers rows={numbers} />
      <section className="fitp-block" aria-labelledby="compare-parts">
        <h2 id="compare-parts">Outlines</h2>
        {parts.length === 0 ? <p className="note">The drawings are the same.</p> : null}
        <div className="compare-parts">
          {parts.map((row) => (
            <Overlaid key={row.id} row={row} />
          ))}
        </div>
      </section>
    </>
  );
}

function Templates({ rows }: { readonly rows: readonly TemplateRow[] }) {
  const notation = useNotation();
  return (
    <section className="fitp-block" aria-labelledby="compare-templates">
      <h2 id="compare-templates">Templates to cut again</h2>
      {rows.length === 0 ? (
        <p className="note">None: every template still fits what was cut.</p>
      ) : (
        <ul className="fitp-list">
          {rows.map((row) => (
            <li key={row.id} className="compare-row">
              <span className={row.change === "gone" ? "says-stop" : "says-look"}>
                <FindingSign severity={row.change === "gone" ? "stop" : "look"} />
              </span>
              <strong>{row.title}</strong>
              <span>{changeWords(row.change, notation)}</span>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function changeWords(change: TemplateRow["change"], notation: Notation): string {
  if (change === "new") return "is new";
  if (change === "gone") return "is there no more";
  const { farthest, name, gone, added } = change;
  return [
    farthest > 0 ? `${name ?? "a line"} moved by up to ${say(farthest, "length", notation)}` : "",
    gone.length > 0 ? `without ${listed(gone)}` : "",
    added.length > 0 ? `with ${listed(added)}` : "",
  ]
    .filter((words) => words !== "")
    .join(", ");
}

const listed = (names: readonly string[]): string =>
  names.length <= 3 ? names.join(", ") : `${names.slice(0, 2).join(", ")} and ${names.length - 2} more`;

function Numbers({ rows }: { readonly rows: readonly NumberRow[] }) {
  const notation = useNotation();
  if (rows.length === 0) return null;
  return (
    <section className="fitp-block" aria-labelledby="compare-numbers">
      <h2 id="compare-numbers">Numbers that differ</h2>
      <Wide label="Table of the numbers">
        <table className="fitp-table">
          <thead>
            <tr>
              <th scope="col">Number</th>
              <th scope="col">Part</th>
              <th scope="col" className="right">
                Then
              </th>
              <th scope="col" className="right">
                Now
              </th>
              <th scope="col" className="right">
                By
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.path}>
                <th scope="row">{row.label}</th>
                <td>
                  <a href={hashOf(row.partId === "instrument" ? { place: "numbers" } : { place: "parts", part: row.partId })}>
                    {row.partLabel}
                  </a>
                </td>
                <td className="right num">{textOf(row.before, row, notation)}</td>
                <td className="right num">{textOf(row.now, row, notation)}</td>
                <td className="right num">{byOf(row, notation)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </section>
  );
}

function textOf(value: unknown, { type }: NumberRow, notation: Notation): string {
  const quantity = quantityOf(type);
  if (value === undefined) return "–";
  if (typeof value === "number" && quantity) return say(value, quantity, notation);
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value)) return value.join(" ");
  const text = String(value);
  return text.length > 40 ? `${text.slice(0, 38)}…` : text;
}

function byOf(row: NumberRow, notation: Notation): string {
  const quantity = quantityOf(row.type);
  if (typeof row.before !== "number" || typeof row.now !== "number" || !quantity) return "";
  const by = row.now - row.before;
  return `${by < 0 ? "−" : "+"}${say(Math.abs(by), quantity, { ...notation, fractions: false })}`;
}

/** Both drawings in one picture: the present one in ink, the other dashed. */
function Overlaid({ row }: { readonly row: PartRow }) {
  const boxes = [row.before, row.now].flatMap((drawing) => (drawing ? (drawingBox(drawing, [], true) ?? []) : []));
  if (boxes.length === 0) return null;
  const box = joinBounds(boxes);
  const [width, height] = [Math.max(box.maxX - box.minX, 1), Math.max(box.maxY - box.minY, 1)];
  const margin = Math.max(width, height) * 0.02;
  const says =
    row.before && row.now
      ? `${row.label}, both versions over each other`
      : row.now
        ? `${row.label} is new`
        : `${row.label} is gone`;
  return (
    <figure className="compare-part">
      <svg
        className="dsvg"
        viewBox={`${box.minX - margin} ${-box.maxY - margin} ${width + 2 * margin} ${height + 2 * margin}`}
        role="img"
        aria-label={says}
      >
        <g className="compare-now">{row.now ? <Lines drawing={row.now} /> : null}</g>
        <g className="compare-then">{row.before ? <Lines drawing={row.before} /> : null}</g>
      </svg>
      <figcaption>
        {row.label}
        {row.before && row.now ? "" : row.now ? ", new" : ", gone"} <span className="note">now in ink, then dashed</span>
      </figcaption>
    </figure>
  );
}

const Lines = ({ drawing }: { readonly drawing: Drawing }) =>
  drawing.layers.flatMap((layer) =>
    layer.shapes
      .filter(({ line, role }) => line !== "centre" && line !== "adjacent" && role !== "guide")
      .map((shape) => <ShapeSvg key={`${layer.name} ${shape.id}`} shape={shape} />),
  );
