import type { Part, Words } from "../contract.ts";
import { instrumentChecks } from "./checks.ts";
import { drawInstrument } from "./draw.ts";
import { instrumentInPlace } from "./in-place.ts";
import { measureInstrument, type InstrumentMeasures } from "./measure.ts";
import { instrumentBalances, instrumentParams, type InstrumentParams } from "./params.ts";

export type { InstrumentFret, InstrumentMeasures, InstrumentString } from "./measure.ts";
export type { InstrumentParams, StringRecord } from "./params.ts";

export const instrument: Part<InstrumentParams, InstrumentMeasures> = {
  kind: "instrument",
  label: "Instrument",
  about: "Strings, scale, frets and the widths that every part shares.",
  version: 1,
  migrations: [],
  params: instrumentParams,
  balances: instrumentBalances,
  reads: [],
  measure: measureInstrument,
  measureNames: ["joinX", "fret12X", "lastFretX"],
  draw: (_p, m) => drawInstrument(m),
  summary,
  templates: () => [],
  inPlace: (_p, m) => instrumentInPlace(m),
  checks: instrumentChecks,
};

function summary(p: InstrumentParams, m: InstrumentMeasures): Words {
  const count = p.strings.length;
  const paired = m.courses.some((strings) => strings > 1);
  const strings = `${count === 0 ? "No" : count} string${count === 1 ? "" : "s"}${paired ? ` in ${m.courses.length} courses` : ""}, `;
  const scale = { value: m.scale, quantity: "length" } as const;
  const scales: Words = m.twoScales ? [{ value: m.bassScale, quantity: "length" }, " to ", scale] : [scale];
  return [strings, ...scales, ` scale, ${p.handed}-handed.`];
}
