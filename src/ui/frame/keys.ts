/** Every key of the frame. The list under `?` is made from this, so it cannot differ from what the keys do. */
import { useEffect } from "react";
import { redo, undo } from "../../store/commands/undo.ts";
import { switchUnits } from "../../store/commands/switch-units.ts";
import { openDialog } from "../../store/session-store.ts";
import type { Workbench } from "../../store/workbench.ts";
import { notationOf } from "../notation.ts";
import { go, PLACES, PLACE_NAMES, readRoute } from "./route.ts";

export interface KeyDeed {
  /** As shown: "Ctrl Z". */
  readonly keys: readonly string[];
  readonly says: string;
  readonly matches: (event: KeyboardEvent) => boolean;
  /** One letter without Ctrl: can be turned off, since speech and tremor press them by accident. */
  readonly single?: boolean;
  /** Leaves the field that is being typed into as it is. */
  readonly stays?: boolean;
  readonly run: () => void;
}

export interface FrameDeeds {
  readonly openFile: () => void;
  readonly saveFile: () => void;
}

const withCtrl = (event: KeyboardEvent): boolean => (event.ctrlKey || event.metaKey) && !event.altKey;
const bare = (event: KeyboardEvent): boolean => !event.ctrlKey && !event.metaKey && !event.altKey;

export function keyDeeds(bench: Workbench, deeds: FrameDeeds): readonly KeyDeed[] {
  const step = (by: 1 | -1): void => {
    const ids = bench.derived.getState().parts.map((part) => part.id);
    const route = readRoute(location.hash);
    const at = ids.indexOf(route.place === "parts" && route.part ? route.part : bench.session.getState().activePart);
    const next = ids[(at + by + ids.length) % ids.length];
    if (next !== undefined) go({ place: "parts", part: next });
  };
  return [
    {
      keys: ["Ctrl", "Z"],
      says: "Undo",
      matches: (e) => withCtrl(e) && !e.shiftKey && e.key.toLowerCase() === "z",
      run: () => undo(bench),
    },
    {
      keys: ["Ctrl", "Shift", "Z"],
      says: "Redo; Ctrl Y does the same",
      matches: (e) =>
        withCtrl(e) && ((e.shiftKey && e.key.toLowerCase() === "z") || (!e.shiftKey && e.key.toLowerCase() === "y")),
      run: () => redo(bench),
    },
    {
      keys: ["Ctrl", "O"],
      says: "Open a design file",
      matches: (e) => withCtrl(e) && !e.shiftKey && e.key.toLowerCase() === "o",
      run: deeds.openFile,
    },
    {
      keys: ["Ctrl", "S"],
      says: "Save the design as a file",
      matches: (e) => withCtrl(e) && !e.shiftKey && e.key.toLowerCase() === "s",
      run: deeds.saveFile,
    },
    ...PLACES.map((place, i) => ({
      keys: ["Alt", String(i + 1)],
      says: `Go to ${PLACE_NAMES[place]}`,
      matches: (e: KeyboardEvent) => e.altKey && !e.ctrlKey && !e.metaKey && e.code === `Digit${i + 1}`,
      run: () => go({ place }),
    })),
    {
      keys: ["F1"],
      says: "What the number is that you are at, and its usual range",
      matches: (e) => e.key === "F1",
      stays: true,
      run: () => document.activeElement?.closest(".row")?.querySelector<HTMLElement>(".help-name")?.click(),
    },
    { keys: ["]"], says: "Next part", single: true, matches: (e) => bare(e) && e.key === "]", run: () => step(1) },
    { keys: ["["], says: "Part before", single: true, matches: (e) => bare(e) && e.key === "[", run: () => step(-1) },
    {
      keys: ["U"],
      says: "Inches, fractions, millimetres in turn",
      single: true,
      matches: (e) => bare(e) && e.key.toLowerCase() === "u",
      run: () => {
        const { unit, fractions } = notationOf(bench.design.getState().design);
        if (unit === "mm") switchUnits(bench, "in", false);
        else if (fractions) switchUnits(bench, "mm", false);
        else switchUnits(bench, "in", true);
      },
    },
    {
      keys: ["1"],
      says: "The board at true size",
      single: true,
      matches: (e) => bare(e) && e.key === "1",
      run: () => document.querySelector<HTMLElement>(".board-true")?.click(),
    },
    {
      keys: ["?"],
      says: "This list",
      single: true,
      matches: (e) => bare(e) && e.key === "?",
      run: () => openDialog(bench.session, { kind: "keys" }),
    },
  ];
}

/** Keys that hold while a field, a list or the board has the focus. They are told in the list, and are done where they belong. */
export const FIELD_KEYS: readonly { readonly keys: readonly string[]; readonly says: string }[] = [
  { keys: ["Enter"], says: "Take the number over" },
  { keys: ["Esc"], says: "Put back what stood there" },
  { keys: ["↑", "↓"], says: "A step more, a step less; with Shift ten" },
];

/** While an outline by points is on the board and the board has the focus. */
export const POINT_KEYS: typeof FIELD_KEYS = [
  { keys: [".", ","], says: "The next point, the one before; with Shift as well as those chosen" },
  { keys: ["A"], says: "All points" },
  { keys: ["←", "→", "↑", "↓"], says: "Move the chosen points by 1 mm; with Shift 10, with Alt 0.1" },
  { keys: ["I"], says: "Put a point in after the chosen one" },
  { keys: ["Del"], says: "Take the chosen points out" },
  { keys: ["C", "V", "E"], says: "Make them corners, fair, even" },
  { keys: ["W"], says: "Make the run of points fair" },
  { keys: ["B"], says: "Fairness lines on and off" },
  { keys: ["Esc"], says: "Let the points go" },
];

const inWords = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement && (target.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName));

/** Listens for the keys of the frame. Nothing is done while a dialog is open, and single keys not while words are being typed. */
export function useKeys(list: readonly KeyDeed[], singleKeys: boolean): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || document.querySelector(".dlg")) return;
      const deed = list.find((one) => one.matches(event));
      if (!deed || (deed.single && (!singleKeys || inWords(event.target)))) return;
      event.preventDefault();
      // A half-typed number is said or refused first, as if its field had been left.
      if (!deed.single && !deed.stays && inWords(event.target)) (event.target as HTMLElement).blur();
      deed.run();
    };
    addEventListener("keydown", press);
    return () => removeEventListener("keydown", press);
  }, [list, singleKeys]);
}
