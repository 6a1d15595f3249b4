/** The cutting list: wood with its weights, lengths, holes and bits, to be saved for paper and for a spreadsheet. */
import { useMemo, useState } from "react";
import { fileNameOf } from "../../document/file-name.ts";
import { makingsOf } from "../../parts/makings.ts";
import { cuttingListCsv, cuttingListReport, grams } from "../../report/cutting-list.ts";
import { cuttingList, type CuttingList, type PieceRow } from "../../templates/cutting-list.ts";
import { useDerived, useDesign, useNotation } from "../bench.ts";
import { saveBytes } from "../files.ts";
import { Button } from "../kit/button.tsx";
import { RowChoice } from "../kit/choice.tsx";
import { tell } from "../kit/tell.tsx";
import { say, type Notation } from "../notation.ts";
import { useEditing } from "../panels/editing.ts";
import { FieldRow } from "../panels/field-row.tsx";
import { fontBytes } from "../sheets/save-sheets.ts";
import { Wide } from "./wide.tsx";
import "./fit-pages.css";

export function CuttingPage() {
  const design = useDesign();
  const derived = useDerived();
  const notation = useNotation();
  const list = useMemo(() => cuttingList(design, derived, makingsOf(design, derived)), [design, derived]);
  const [decimal, setDecimal] = useState<"." | ",">((1.5).toLocaleString().includes(",") ? "," : ".");
  const stem = `${fileNameOf(design.order ?? {}).replace(/\.json$/, "")}-cutting-list`;

  async function save(name: string, type: string, content: Promise<Uint8Array | string>): Promise<void> {
    try {
      if (await saveBytes(name, content, type)) tell({ title: "Saved.", more: name, kind: "fine" });
    } catch (error) {
      tell({ title: "It was not saved.", more: error instanceof Error ? error.message : String(error), kind: "stop" });
    }
  }

  async function onPaper(): Promise<Uint8Array> {
    const [{ reportPages }, { usualPaper }, { pdfOf }, fonts] = await Promise.all([
      import("../../report/pages.ts"),
      import("../../report/sheets.ts"),
      import("../../export/pdf/writer.ts"),
      fontBytes(AbortSignal.timeout(60_000)),
    ]);
    const report = cuttingListReport(design, list, (value, quantity) => say(value, quantity, notation));
    return pdfOf(reportPages(report, usualPaper(design)), {
      fonts,
      title: report.title,
      number: design.order?.number ?? "",
      date: design.order?.date ?? "",
    });
  }

  return (
    <div className="fitp fitp-single">
      <section className="fitp-main" aria-label="Cutting list">
        <div className="fitp-bar">
          <p className="fitp-total">{totals(list)}</p>
          <RowChoice
            label="Decimal sign of the table"
            value={decimal}
            options={[
              { value: ".", label: "1.5" },
              { value: ",", label: "1,5" },
            ]}
            onChoose={setDecimal}
          />
          <Button onClick={() => void save(`${stem}.csv`, "text/csv", Promise.resolve(cuttingListCsv(list, decimal)))}>
            Save table (CSV)
          </Button>
          <Button look="main" onClick={() => void save(`${stem}.pdf`, "application/pdf", onPaper())}>
            Save PDF
          </Button>
        </div>
        <Pieces list={list} notation={notation} />
        <Lengths list={list} notation={notation} />
        <Holes list={list} notation={notation} />
        <Bits list={list} notation={notation} />
      </section>
    </div>
  );
}

interface PartProps {
  readonly list: CuttingList;
  readonly notation: Notation;
}

function totals({ pieces }: CuttingList): string {
  const known = pieces.filter(({ finishedG }) => finishedG !== undefined);
  const weight = known.reduce((sum, { finishedG = 0, count }) => sum + finishedG * count, 0);
  const others = pieces.length - known.length;
  if (pieces.length === 0) return "No part of this design says what it is cut from yet.";
  return `${pieces.length} pieces; those of known wood weigh ${grams(weight)} finished${others > 0 ? `, ${others} not weighed` : ""}.`;
}

const Num = ({ mm, notation }: { readonly mm: number; readonly notation: Notation }) => (
  <td className="right num">{say(mm, "length", { ...notation, fractions: false })}</td>
);

function Pieces({ list, notation }: PartProps) {
  const [open, setOpen] = useState<string>();
  if (list.pieces.length === 0) return null;
  const shown = list.pieces.find(({ placed }) => placed.id === open);
  return (
    <section className="fitp-block" aria-labelledby="list-pieces">
      <h2 id="list-pieces">Pieces of wood</h2>
      <Wide label="Table of the pieces">
        <table className="fitp-table">
          <thead>
            <tr>
              <th scope="col">Piece</th>
              <th scope="col">Wood</th>
              {["Pieces", "Long", "Wide", "Thick", "Sawn", "Finished"].map((head) => (
                <th scope="col" className="right" key={head}>
                  {head}
                </th>
              ))}
              <th scope="col">
                <span className="unseen">Change</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {list.pieces.map((row) => (
              <tr key={row.placed.id}>
                <th scope="row">
                  {row.placed.blank.title}
                  {row.placed.partLabel === row.placed.blank.title ? null : <span className="note"> {row.placed.partLabel}</span>}
                </th>
                <td>{row.wood === "" ? "–" : row.wood}</td>
                <td className="right num">{row.count}</td>
                <Num mm={row.rough.length} notation={notation} />
                <Num mm={row.rough.width} notation={notation} />
                <Num mm={row.rough.thickness} notation={notation} />
                <td className="right num">{weightOf(row, row.roughG)}</td>
                <td className="right num">{weightOf(row, row.finishedG)}</td>
                <td>
                  <Button
                    look="link"
                    label={`change wood and allowances: ${row.placed.blank.title}`}
                    pressed={open === row.placed.id}
                    onClick={() => setOpen(open === row.placed.id ? undefined : row.placed.id)}
                  >
                    change
                  </Button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      {shown ? <Wood row={shown} notation={notation} /> : null}
      <p className="note">
        Sizes as they are sawn: long along the grain, with what is left on. Weights of one piece at 12 % moisture; ≈ where the
        density is estimated.
      </p>
    </section>
  );
}

const weightOf = ({ density }: PieceRow, g: number | undefined): string =>
  g === undefined ? "–" : `${density?.basis === "estimated" ? "≈ " : ""}${grams(g)}`;

function Wood({ row, notation }: { readonly row: PieceRow; readonly notation: Notation }) {
  const editing = useEditing();
  return (
    <section className="fitp-drawer" aria-label={`Wood of ${row.placed.blank.title}`}>
      <h3>{row.placed.blank.title}</h3>
      <div className="fitp-fields">
        {row.placed.wood.fields
          .filter(({ idle }) => !idle)
          .map((field) => (
            <FieldRow key={field.path} field={field} notation={notation} editing={editing} />
          ))}
      </div>
    </section>
  );
}

function Lengths({ list, notation }: PartProps) {
  if (list.lengths.length === 0) return null;
  return (
    <section className="fitp-block" aria-labelledby="list-lengths">
      <h2 id="list-lengths">By length</h2>
      <Wide label="Table of the lengths">
        <table className="fitp-table">
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">Section</th>
              {["Pieces", "Longest", "In all"].map((head) => (
                <th scope="col" className="right" key={head}>
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {list.lengths.map((row) => (
              <tr key={`${row.partId} ${row.title}`}>
                <th scope="row">
                  {row.title} <span className="note">{row.partLabel}</span>
                </th>
                <td className="num">
                  {[row.width, row.height].map((mm) => say(mm, "length", { ...notation, fractions: false })).join(" × ")}
                </td>
                <td className="right num">{row.count}</td>
                <Num mm={row.longest} notation={notation} />
                <Num mm={row.total} notation={notation} />
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </section>
  );
}

function Holes({ list, notation }: PartProps) {
  if (list.holes.length === 0) return null;
  return (
    <section className="fitp-block" aria-labelledby="list-holes">
      <h2 id="list-holes">Holes</h2>
      <Wide label="Table of the holes">
        <table className="fitp-table">
          <thead>
            <tr>
              <th scope="col" className="right">
                Drill
              </th>
              <th scope="col" className="right">
                Holes
              </th>
              <th scope="col">Where</th>
            </tr>
          </thead>
          <tbody>
            {list.holes.map((row) => (
              <tr key={row.diameter}>
                <Num mm={row.diameter} notation={notation} />
                <td className="right num">{row.count}</td>
                <td>{row.where.map(({ partLabel, count }) => `${partLabel} ${count}`).join(", ")}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </section>
  );
}

function Bits({ list, notation }: PartProps) {
  if (list.bits.length === 0) return null;
  return (
    <section className="fitp-block" aria-labelledby="list-bits">
      <h2 id="list-bits">Bits, bushes and saws</h2>
      <Wide label="Table of the bits">
        <table className="fitp-table">
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col" className="right">
                Size
              </th>
              <th scope="col">For</th>
            </tr>
          </thead>
          <tbody>
            {list.bits.map((row) => (
              <tr key={`${row.what} ${row.size}`}>
                <th scope="row">{row.what}</th>
                <Num mm={row.size} notation={notation} />
                <td>{row.for.join("; ")}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </section>
  );
}
