/** What stands in the printed report of an order: everything in words and tables, in the units of the design, nothing laid out yet. */
import { countBySeverity, findingsOf, sentenceOf } from "../checks/findings.ts";
import type { Design } from "../document/design.ts";
import { fingerprintOf } from "../document/fingerprint.ts";
import { woodSpecies } from "../lutherie/wood-species.ts";
import type { AnySpec, Derived, DerivedPart, DeriveOther, Field } from "../parts/derived.ts";
import { arrange } from "../parts/general-arrangement.ts";
import { makingsOf } from "../parts/makings.ts";
import { entryName, partName } from "../parts/part-name.ts";
import { lowerFirst } from "../sheets/words.ts";
import type { QuantityKind } from "../units/quantity.ts";
import { readQuantity } from "../units/read.ts";
import { cuttingSections } from "./cutting-list.ts";
import type { Column, Report, Section } from "./report.ts";
import { sayer, type Say } from "./say.ts";
import { cutStates, type CutState } from "./cut-state.ts";
import { blanksOf } from "../parts/wood.ts";
import { cuttingList } from "../templates/cutting-list.ts";
import { isSame } from "../templates/difference.ts";

/** Everything that the report of a design says. */
export function reportOf(design: Design, derived: Derived, deriveOther: DeriveOther): Report {
  const { order = {} } = design;
  const say = sayer({ unit: design.units, fractions: design.fractions ?? false });
  const fingerprint = fingerprintOf(design);
  const facts: readonly (readonly [string, string | undefined])[] = [
    ["Player", order.player],
    ["Date", order.date],
    ["Built by", order.builtBy],
    ["Status", order.status ?? "in work"],
    ["Sign of the numbers", fingerprint],
  ];
  return {
    title: [order.number ? `No. ${order.number}` : "", order.title ?? ""].filter((text) => text !== "").join(", ") || "Order",
    facts: facts.flatMap(([word, text]) => (text ? [[word, text] as const] : [])),
    notes: order.notes ?? "",
    pictures: [
      { title: "The whole instrument", drawing: arrange(derived).drawing },
      ...derived.parts
        .filter((part) => part.problems.length === 0)
        .map((part) => ({ title: partName(part), drawing: part.drawing() })),
    ].filter(({ drawing }) => drawing.layers.length > 0),
    sections: [
      referenceSection(design, derived, say),
      findingsSection(design, derived, say),
      ...cuttingSections(cuttingList(design, derived, makingsOf(design, derived)), say),
      provenanceSection(design, derived),
      cutsSection(cutStates(design, derived, deriveOther), say),
    ]
      .filter(({ title, rows }) => rows.length > 0 || title === CHECKS)
      .concat([derived.instrument, ...derived.parts].flatMap((part) => numbersSections(part, say))),
    stamp: [order.number ? `No. ${order.number}` : "", order.title ?? "", order.date ?? "", fingerprint]
      .filter((text) => text !== "")
      .join(" · "),
  };
}

const SAME_MM = 0.005;

function referenceSection(design: Design, derived: Derived, say: Say): Section {
  const fields = [derived.instrument, ...derived.parts].flatMap((part) => part.fields.map((field) => ({ part, field })));
  const rows = Object.entries(design.order?.reference ?? {}).map(([key, theirs]) => {
    const found = fields.find(({ field }) => field.path === key) ?? fields.find(({ field }) => field.key === key);
    const ours = typeof found?.field.value === "number" ? found.field.value : undefined;
    const read = typeof theirs === "string" ? readQuantity(theirs, { quantity: "length", bareUnit: design.units }) : undefined;
    const value = typeof theirs === "number" ? theirs : read?.ok ? read.value.value : undefined;
    const off = ours === undefined || value === undefined ? undefined : value - ours;
    return [
      found ? nameOf(found.part, found.field) : key,
      typeof theirs === "number" ? say(theirs, "length") : String(theirs),
      ours === undefined ? "" : say(ours, "length"),
      off === undefined ? "" : Math.abs(off) < SAME_MM ? "the same" : `${off > 0 ? "+" : "-"}${say(Math.abs(off), "length")}`,
    ];
  });
  return {
    title: "An instrument the player likes",
    columns: [
      { head: "Length", share: 40 },
      { head: "Theirs", share: 20, right: true },
      { head: "Ours", share: 20, right: true },
      { head: "Theirs is", share: 20, right: true },
    ],
    rows,
  };
}

const nameOf = (part: DerivedPart, field: Field): string =>
  part.id === "instrument" ? field.spec.label : `${partName(part)}: ${field.spec.label.toLowerCase()}`;

const CHECKS = "Checks";

function findingsSection(design: Design, derived: Derived, say: Say): Section {
  const findings = findingsOf(design, derived);
  const counts = countBySeverity(findings);
  return {
    title: CHECKS,
    about: `${counts.stop} to stop at, ${counts.look} to look at, ${counts.fine} fine. A clear check is no promise: try the template in scrap.`,
    columns: [
      { head: "", share: 8 },
      { head: "Part", share: 17 },
      { head: "What was found, and what to do", share: 74 },
    ],
    rows: [
      ...derived.problems.map(({ message, mend }) => ["stop", "", `${message}. ${mend}`]),
      ...findings
        .filter(({ severity }) => severity !== "fine")
        .map((finding) => [finding.severity, finding.partLabel, `${sentenceOf(finding, say)} ${finding.mend}`.trim()]),
    ],
  };
}

/** Where the wood of each piece comes from, for the order and for a border. */
function provenanceSection(design: Design, derived: Derived): Section {
  return {
    title: "Where the wood comes from",
    about: "Some species may be sold or cross a border only with papers: keep them with the order.",
    columns: [
      { head: "Piece", share: 22 },
      { head: "Wood", share: 22 },
      { head: "Origin", share: 16 },
      { head: "Board", share: 18 },
      { head: "Papers", share: 22 },
    ],
    rows: blanksOf(design, derived).flatMap(({ partLabel, blank, wood: { value } }) =>
      value && [value.origin, value.board, value.papers].some((text) => text !== "")
        ? [
            [
              partLabel.toLowerCase() === blank.title.toLowerCase() ? partLabel : `${partLabel}: ${lowerFirst(blank.title)}`,
              woodSpecies(value.species)?.common ?? blank.material ?? "",
              value.origin,
              value.board,
              value.papers,
            ],
          ]
        : [],
    ),
  };
}

const cutsSection = (states: readonly CutState[], say: Say): Section => ({
  title: "What was cut",
  columns: [
    { head: "Date", share: 13 },
    { head: "Template", share: 29 },
    { head: "Sign", share: 10 },
    { head: "Material and note", share: 24 },
    { head: "Now", share: 24 },
  ],
  rows: states.map((state) => [
    state.cut.date,
    state.name,
    state.cut.fingerprint,
    [state.cut.material, state.cut.note].filter(Boolean).join(", "),
    stateWords(state, (mm) => say(mm, "length")),
  ]),
});

/** "still matches", "up to 0.4 mm off at the outline, fret 21 is new": how a cut template stands to the present numbers. */
export function stateWords({ difference, waiting }: CutState, say: (mm: number) => string): string {
  if (waiting) return "being worked out";
  if (!difference) return "no such template now";
  if (isSame(difference)) return "still matches";
  const { farthest, name, gone, added } = difference;
  return [
    isSame({ ...difference, gone: [], added: [] }) ? "" : `up to ${say(farthest)} off at ${name ?? "its line"}`,
    gone.length > 0 ? `${listed(gone)} gone` : "",
    added.length > 0 ? `${listed(added)} new` : "",
  ]
    .filter((text) => text !== "")
    .join(", ");
}

const listed = (names: readonly string[]): string =>
  names.length > 2 ? `${names[0]} and ${names.length - 1} more` : names.join(" and ");

const STATE_WORDS: Readonly<Record<Field["state"], string>> = {
  given: "",
  measured: "measured",
  follows: "follows",
  fallback: "usual",
};

const NUMBERS: readonly Column[] = [
  { head: "", share: 25 },
  { head: "", share: 17, right: true },
  { head: "", share: 8 },
];

const RECORDS: readonly Column[] = [
  { head: "", share: 14 },
  { head: "", share: 86 },
];

/** A heading, then every group of numbers in two halves beside each other, and its lists. */
function numbersSections(part: DerivedPart, say: Say): Section[] {
  const shown = part.fields.filter(({ idle }) => !idle);
  const groups = [...new Set(shown.map(({ spec }) => spec.group))].flatMap((group): Section[] => {
    const own = shown.filter(({ spec }) => spec.group === group);
    const rows = own.flatMap((field) => fieldRow(field, say));
    const half = Math.ceil(rows.length / 2);
    const lists = own.flatMap((field): Section[] => {
      const records = recordRows(field, say);
      return records.length > 0
        ? [
            {
              title: rows.length > 0 && field.spec.label === group ? `${group}, one by one` : field.spec.label,
              within: true,
              columns: RECORDS,
              rows: records,
            },
          ]
        : [];
    });
    if (rows.length === 0) return lists;
    const halves = rows.slice(0, half).map((row, i) => [...row, ...(rows[half + i] ?? [])]);
    return [{ title: group, within: true, columns: [...NUMBERS, ...NUMBERS], rows: halves }, ...lists];
  });
  const title = part.id === "instrument" ? "Numbers of the instrument" : partName(part);
  return groups.length > 0 ? [{ title, columns: [], rows: [] }, ...groups] : [];
}

function fieldRow(field: Field, say: Say): string[][] {
  const text = field.records ? "" : valueOf(field, say);
  return text === "" ? [] : [[field.spec.label, text, STATE_WORDS[field.state]]];
}

/** One row a record, each number with its name: "Bar 1", "from the middle 8 mm, width 3.2 mm". */
const recordRows = ({ spec, records = [] }: Field, say: Say): string[][] =>
  records.map((record, i) => [
    capital(entryName(spec as Extract<AnySpec, { type: "records" }>, i, records.length)),
    record
      .filter(({ idle, value }) => !idle && value !== false)
      .flatMap((one) => {
        const label = lowerFirst(one.spec.label);
        const text = valueOf(one, say);
        return one.value === true ? [label] : text === "" ? [] : [`${label} ${text}`];
      })
      .join(", "),
  ]);

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const QUANTITIES: ReadonlySet<string> = new Set(["length", "angle", "number", "count"]);
/** Longer texts are drawings or lists that say nothing on paper. */
const LONGEST_TEXT = 60;

function valueOf({ spec, value }: Field, say: Say): string {
  const kind = spec.type.replace("optional-", "");
  if (typeof value === "number" && QUANTITIES.has(kind)) return say(value, kind as QuantityKind);
  if (spec.type === "choice") return spec.options.find((option) => option.value === value)?.label ?? "";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value) && value.every((one) => typeof one === "number")) return value.join(" ");
  return typeof value === "string" && value.length <= LONGEST_TEXT ? value : "";
}
