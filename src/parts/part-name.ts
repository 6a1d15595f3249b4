import type { DerivedPart } from "./derived.ts";

/** What a part is called: by its kind, or by the name that the maker gave it. */
export function partName({ id, kind, label }: Pick<DerivedPart, "id" | "kind" | "label">): string {
  if (id === kind) return label;
  const words = id
    .replace(/[-_]+/g, " ")
    .replace(/(\p{L})(\d+)$/u, "$1 $2")
    .replace(/(\p{Ll})(\p{Lu})/gu, (_, end: string, start: string) => `${end} ${start.toLowerCase()}`);
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** What an entry of a list is called, counted as people do: "layer 2"; strings from the last one, as on the instrument. */
export const entryName = (
  { item, countsDown }: { readonly item: string; readonly countsDown?: boolean },
  index: number,
  count: number,
): string => `${item} ${countsDown ? count - index : index + 1}`;
