/** Names of a design's numbers, for people. */
import type { Design } from "./design.ts";
import { placeOf, type OrderKey, type TablePlace } from "./place.ts";

const ORDER_LABELS: Readonly<Record<OrderKey, string>> = {
  title: "title",
  player: "player",
  number: "instrument number",
  date: "date",
  notes: "notes",
  builtBy: "builder",
  status: "status",
};

/** A number's name within a sentence, "width at the nut"; the path itself where it leads nowhere. */
export function labelOf(design: Design, path: string): string {
  const found = placeOf(design, path);
  if (!found.ok) return path;
  const place = found.value;
  switch (place.in) {
    case "table":
      return tableLabel(place);
    case "order":
      return ORDER_LABELS[place.key];
    case "reference":
      return "reference measurement";
    case "measured":
      return `measured ${tableLabel(place.of)}`;
    case "limits":
      return lowered(place.label);
    case "seasons":
      return lowered(place.spec.label);
    case "making":
    case "wood":
      return `${lowered(place.spec.label)} of ${place.id}`;
    case "display":
      return place.path;
  }
}

const tableLabel = ({ spec, steps, entry }: TablePlace): string =>
  entry === undefined ? lowered(spec.label) : typeof steps.at(-1) === "number" ? entry : `${lowered(spec.label)} of ${entry}`;

/** What an entry of the list at a path is called: "layer 2". */
export function entryLabelOf(design: Design, path: string, index: number): string {
  const found = placeOf(design, `${path}[${index}]`);
  return found.ok && found.value.in === "table" ? (found.value.entry ?? "entry") : "entry";
}

/** "Width at the nut" within a sentence; an abbreviation stays as it is. */
const lowered = (label: string): string =>
  /^\p{Lu}\p{Ll}/u.test(label) ? label.charAt(0).toLowerCase() + label.slice(1) : label;
