/** The templates of several instruments from one design: one for all that it serves, another where a copy's own numbers change its lines. */
import type { Pattern } from "./patterns.ts";

/** The patterns of one instrument, and what it is called: "No. 22". */
export interface Run {
  readonly name: string;
  readonly patterns: readonly Pattern[];
}

/**
 * Merges the patterns of the runs. The first run's templates keep their ids; a template of other lines has the first copy that it serves
 * in its id and name. With more than one run every template says whom it serves.
 */
export function mergeRuns(runs: readonly Run[]): Pattern[] {
  const [first, ...copies] = runs;
  if (!first || copies.length === 0) return [...(first?.patterns ?? [])];
  const ids = [...new Set(runs.flatMap(({ patterns }) => patterns.map(({ source }) => source.id)))];
  return ids.flatMap((id) => {
    const groups: { readonly lines: string; readonly pattern: Pattern; readonly names: string[] }[] = [];
    for (const { name, patterns } of runs) {
      const pattern = patterns.find(({ source }) => source.id === id);
      if (!pattern) continue;
      const lines = linesOf(pattern);
      const same = groups.find((group) => group.lines === lines);
      if (same) same.names.push(name);
      else groups.push({ lines, pattern, names: [name] });
    }
    return groups.map(({ pattern, names }, i) => serving(pattern, names, i === 0 ? undefined : slugOf(names[0]!)));
  });
}

/** What is cut, as a text that is the same for the same lines. */
const linesOf = ({ made }: Pattern): string =>
  made.ok ? JSON.stringify([made.value.title, made.value.drawing.layers]) : `refused ${made.error.message}`;

function serving(pattern: Pattern, names: readonly string[], own: string | undefined): Pattern {
  const serves = servedSaid(names);
  const named = <T extends { readonly id: string; readonly name: string }>(template: T): T => ({
    ...template,
    serves,
    ...(own === undefined ? {} : { id: `${template.id}@${own}`, name: `${template.name}-${own}` }),
  });
  const { made } = pattern;
  return { ...pattern, source: named(pattern.source), made: made.ok ? { ok: true, value: named(made.value) } : made };
}

/** "No. 21, 22 and copy 3" */
export function servedSaid(names: readonly string[]): string {
  const short = names.map((name, i) => (i > 0 && name.startsWith("No. ") ? name.slice(4) : name));
  return short.length > 1 ? `${short.slice(0, -1).join(", ")} and ${short.at(-1)!}` : (short[0] ?? "");
}

const slugOf = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");

/** The id of the template that a copy's own one is a variant of. */
export const sharedIdOf = (id: string): string => id.replace(/@[^@/]*$/, "");
