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
