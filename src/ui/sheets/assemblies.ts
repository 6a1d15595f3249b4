/** The sheets in the groups that are glued together, and what is said of each. */
import { lowerFirst } from "../../sheets/words.ts";
import type { Choice, SheetSet, Tiling } from "../../sheets/sheet.ts";
import type { Template } from "../../templates/template.ts";
import { sentence, sheetsSaid } from "./words.ts";

export interface Assembly {
  readonly key: string;
  /** The templates on it that are joined from its sheets; empty where nothing is joined. */
  readonly joined: readonly string[];
  readonly title: string;
  readonly says: string;
  /** The ways that were tried, with the sheets that each takes; empty where there was nothing to choose. */
  readonly ways: string;
  readonly sheets: readonly number[];
  readonly columns: number;
  readonly column: (index: number) => number | undefined;
  readonly row: (index: number) => number | undefined;
}

/** Joined sheets in the order of their templates; those that hold whole templates stand last, side by side. */
export function assembliesOf(set: SheetSet, templates: readonly Template[]): Assembly[] {
  const tiled = new Map<string, Tiling[]>();
  for (const tiling of set.tilings) {
    if (tiling.sheets.length === 0 || (tiling.shared && tiling.sheets.length === 1)) continue;
    const key = tiling.sheets.join(" ");
    tiled.set(key, [...(tiled.get(key) ?? []), tiling]);
  }
  const titleOf = (id: string): string => lowerFirst(templates.find((one) => one.id === id)?.title ?? id);
  const groups = [...tiled.values()].map((tilings): Assembly => {
    const [first] = tilings as [Tiling];
    const { title, sheets } = first;
    const cells = sheets.map((index) => set.sheets[index]!);
    const places = (of: (cell: (typeof cells)[number]) => number): number[] =>
      [...new Set(cells.map(of))].toSorted((a, b) => a - b);
    const [rows, columns] = [places(({ row }) => row), places(({ column }) => column)];
    const lineIs = templates.find(({ id }) => id === first.templateId)?.lineIs ?? "";
    return {
      key: tilings.map(({ templateId }) => templateId).join(" "),
      joined: sheets.length > 1 ? tilings.map(({ templateId }) => templateId) : [],
      title,
      says:
        tilings.length > 1
          ? sentence(tilings.map(({ templateId }) => titleOf(templateId)).join(", "))
          : `${sheetsSaid(sheets.length)}. ${sentence(lineIs)}`,
      ways: tilings.length > 1 ? rowSaid(tilings) : sheets.length > 1 ? waysSaid(first.choices) : "",
      sheets,
      columns: columns.length,
      column: (index) => columns.indexOf(set.sheets[index]!.column) + 1,
      row: (index) => rows.indexOf(set.sheets[index]!.row) + 1,
    };
  });
  const shared = [...new Set(set.tilings.filter(isShared).flatMap((tiling) => tiling.sheets))];
  if (shared.length === 0) return groups;
  const names = set.tilings.filter(isShared).map(({ templateId }) => titleOf(templateId));
  return [
    ...groups,
    {
      key: "shared",
      joined: [],
      title: set.tilings.find(isShared)!.title,
      says: `${sheetsSaid(shared.length)}. ${sentence(names.join(", "))}`,
      ways: "",
      sheets: shared,
      columns: Math.min(3, shared.length),
      column: () => undefined,
      row: () => undefined,
    },
  ];
}

const isShared = ({ shared, sheets }: Tiling): boolean => shared && sheets.length === 1;
const alone = ({ choices }: Tiling): number => choices[0]?.sheets ?? 0;
const DRAG = "Drag the sheets, or press the arrow keys on them, to move the joints away from a detail.";

/** "Taken: 2 sheets lying. Also tried: 3 upright." */
function waysSaid(choices: readonly Choice[]): string {
  const [taken, ...others] = choices;
  if (!taken) return "";
  const said = ({ sheets, orientation, turn }: Choice): string =>
    `${sheets} ${orientation === "landscape" ? "lying" : "upright"}${turn === 1 ? ", the template turned" : ""}`;
  const tried = others.length === 0 ? "" : ` Also tried: ${others.map(said).join("; ")}.`;
  return `Taken: ${said(taken)}.${tried} ${DRAG}`;
}

const rowSaid = (tilings: readonly Tiling[]): string =>
  `${sheetsSaid(tilings[0]!.sheets.length)}, joined once and then cut apart; one by one they would take ${tilings.reduce((sum, tiling) => sum + alone(tiling), 0)}. ${DRAG}`;

/** How many things are to be joined. */
export function jointsSaid(groups: readonly Assembly[]): string {
  const joined = groups.filter(({ joined: ids }) => ids.length > 0).length;
  const single = groups.reduce((sum, { joined: ids, sheets }) => sum + (ids.length === 0 ? sheets.length : 0), 0);
  if (joined === 0) return "Every template fits on one sheet: nothing to join.";
  const whole = single === 0 ? "" : ` ${sheetsSaid(single)} ${single === 1 ? "needs" : "need"} no joining.`;
  return `${joined} ${joined === 1 ? "group" : "groups"} to join by numbered marks.${whole}`;
}
