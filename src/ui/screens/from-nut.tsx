/** A table of distances from the nut, read across like a rule, to be copied with one press. */
import type { TemplateSource } from "../../parts/contract.ts";
import { useNotation } from "../bench.ts";
import { Button } from "../kit/button.tsx";
import { Sign } from "../kit/sign.tsx";
import { copyText } from "../copy-text.ts";
import { say, type Notation } from "../notation.ts";
import { formatLength } from "../../units/format.ts";

export function FromNut({ table }: { readonly table: NonNullable<TemplateSource["table"]> }) {
  const notation = useNotation();
  // Room for the longest label, and for a number with what a fraction leaves over.
  const width = 0.45 * Math.max(...table.rows.map(({ label }) => label.length)) + (notation.fractions ? 10.5 : 6);
  async function copy(): Promise<void> {
    const lines = [table.title, ...table.rows.map((row) => `${row.label}\t${say(row.value, "length", notation)}`)];
    await copyText(lines.join("\n"), "The table is copied.");
  }
  return (
    <>
      <div className="from-nut-head">
        <h3 className="note">
          {table.title}, {notation.unit === "mm" ? "mm" : "inches"}
        </h3>
        <Button look="quiet" size="small" onClick={() => void copy()}>
          <Sign name="copy" /> Copy the table
        </Button>
      </div>
      <dl className="from-nut" style={{ gridTemplateColumns: `repeat(auto-fill, minmax(min(100%, ${width}rem), 1fr))` }}>
        {table.rows.map((row) => (
          <div key={row.label}>
            <dt>{row.label}</dt>
            <dd>
              <FromNutNumber value={row.value} notation={notation} />
            </dd>
          </div>
        ))}
      </dl>
    </>
  );
}

function FromNutNumber({ value, notation }: { readonly value: number; readonly notation: Notation }) {
  const { main, rest } = formatLength(value, notation, "fixed");
  return (
    <>
      {main}
      {rest === "" ? null : <span className="from-nut-rest"> {rest}</span>}
    </>
  );
}
