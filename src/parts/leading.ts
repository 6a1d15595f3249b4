/** Which of two leads where a number was measured, and what gives way to it. */
import type { AnyPart } from "./any-part.ts";
import type { DesignNumbers, Raw, RawRecord } from "./derived.ts";

/** What was measured of a number, if what depends on it follows that and not the plan. */
export function leading({ measured }: DesignNumbers, path: string): Raw {
  const entry = measured?.[path];
  return entry?.leads === false ? undefined : entry?.value;
}

/**
 * What the maker gave, less what a measured value of the same balance takes back: where the end of a board is measured, a planned width at the
 * join gives way.
 */
export function withoutRivals(raw: RawRecord, part: AnyPart, isMeasured: (key: string) => boolean): RawRecord {
  const kept = { ...raw };
  for (const { members, given, yields } of part.balances ?? []) {
    const measured = members.filter(isMeasured);
    if (measured.length === 0) continue;
    for (const key of yields) {
      const standing = members.filter((member) => isMeasured(member) || (kept[member] ?? undefined) !== undefined);
      if (standing.length <= given) break;
      if (!isMeasured(key)) delete kept[key];
    }
  }
  return kept;
}
