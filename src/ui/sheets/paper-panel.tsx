/** The paper and the printer, of this browser. */
import { useState } from "react";
import { useNotation } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { FieldRow } from "../panels/field-row.tsx";
import { MeasurePrinter } from "./measure-printer.tsx";
import { PRINTER, type PaperSettings } from "./paper-settings.ts";
import { removePrinter } from "./printers.ts";

export function PaperPanel({ settings }: { readonly settings: PaperSettings }) {
  const notation = useNotation();
  const [measuring, setMeasuring] = useState(false);
  // Measuring is offered before there is a printer to choose.
  const groups = [...new Set([...settings.fields.map((field) => field.spec.group), PRINTER])];
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
            {group === PRINTER ? (
              <>
                <p className="sheets-correction">
                  {printer ? (
                    <>
                      Drawn <span className="num">{printer.sx.toFixed(4)}</span> times as wide and{" "}
                      <span className="num">{printer.sy.toFixed(4)}</span> times as long, so that it prints true.
                    </>
                  ) : (
                    "No correction. Until the printer is measured, nobody knows how long its millimetre is."
                  )}
                </p>
                <div className="sheets-printer-acts">
                  <Button size="small" onClick={() => setMeasuring(true)}>
                    Measure a printer
                  </Button>
                  {printer ? (
                    <Button look="link" size="small" onClick={() => removePrinter(printer.name)}>
                      forget {printer.name}
                    </Button>
                  ) : null}
                </div>
              </>
            ) : null}
          </section>
        ))}
      </div>
      {measuring && settings.chosen ? <MeasurePrinter chosen={settings.chosen} onClose={() => setMeasuring(false)} /> : null}
    </aside>
  );
}
