/** From a design to its file. */
import type { AnySpec, Raw, RawRecord } from "../parts/derived.ts";
import { tableOfMaking } from "../parts/making.ts";
import { partOf } from "../parts/registry.ts";
import { SEASONS_TABLE, woodTable } from "../parts/wood.ts";
import type { Design, Numbers } from "./design.ts";
import { ORDER_KEYS } from "./place.ts";
import { isRecord } from "./shape.ts";

/** The sections of a file in the order of the contract. */
export const SECTIONS: readonly string[] = [
  "format",
  "version",
  "units",
  "fractions",
  "order",
  "instrument",
  "parts",
  "templates",
  "wood",
  "seasons",
  "measured",
  "limits",
  "cuts",
  "boards",
  "copies",
];

/**
 * The text of the design's file: known keys in the order of the contract and of each part's table, then unknown keys in their own; two
 * blanks a level; a line end at the end. Everything that the design holds is in it, and the same design gives the same text.
 */
export const writeDesign = (design: Design): string => `${JSON.stringify(orderedDesign(design), undefined, 2)}\n`;

function orderedDesign(design: Design): RawRecord {
  return inOrder(SECTIONS, {
    ...design,
    ...orderedNumbers(design),
    ...(design.order ? { order: inOrder([...ORDER_KEYS, "reference"], { ...design.order }) } : {}),
    ...(design.measured
      ? {
          measured: mapValues(design.measured, (entry) =>
            inOrder(["value", "date", "how", "leads", "perFace", "faces"], { ...entry }),
          ),
        }
      : {}),
    ...(design.cuts
      ? {
          cuts: design.cuts.map((cut) =>
            inOrder(["date", "part", "template", "fingerprint", "material", "note", "numbers"], {
              ...cut,
              numbers: inOrder(["units", "instrument", "parts", "templates", "wood", "seasons", "measured", "limits"], {
                ...cut.numbers,
                ...orderedNumbers(cut.numbers),
              }),
            }),
          ),
        }
      : {}),
  });
}

const orderedNumbers = (numbers: Numbers): RawRecord => ({
  instrument: orderedByTable(numbers.instrument, partOf("instrument")?.params ?? {}),
  parts: mapValues(numbers.parts, (record) => orderedByTable(record, partOf(record.kind)?.params ?? {})),
  ...(numbers.templates
    ? { templates: mapValues(numbers.templates, (record, id) => orderedByTable(record, tableOfMaking(id))) }
    : {}),
  ...(numbers.wood ? { wood: mapValues(numbers.wood, (record) => orderedByTable(record, woodTable())) } : {}),
  ...(numbers.seasons ? { seasons: orderedByTable(numbers.seasons, SEASONS_TABLE) } : {}),
});

function orderedByTable(record: RawRecord, table: object): RawRecord {
  const specs = table as Readonly<Record<string, AnySpec>>;
  const orderedValue = (raw: Raw, spec: AnySpec | undefined): Raw =>
    spec?.type === "records" && Array.isArray(raw)
      ? raw.map((entry: Raw) => (isRecord(entry) ? orderedByTable(entry, spec.of) : entry))
      : raw;
  return inOrder(
    ["kind", "version", ...Object.keys(specs)],
    mapValues(record, (raw, key) => orderedValue(raw, Object.hasOwn(specs, key) ? specs[key] : undefined)),
  );
}

function inOrder(known: readonly string[], record: RawRecord): RawRecord {
  const present = known.filter((key) => Object.hasOwn(record, key));
  const others = Object.keys(record).filter((key) => !known.includes(key));
  return Object.fromEntries([...present, ...others].map((key) => [key, record[key]]));
}

const mapValues = <V, W>(record: Readonly<Record<string, V>>, change: (value: V, key: string) => W): Record<string, W> =>
  Object.fromEntries(Object.entries(record).map(([key, value]) => [key, change(value, key)]));
