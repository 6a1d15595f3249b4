/** What a damaged file must not bring: values that the whole file does not hold there. */
export const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** What in `kept` differs from the same place in `whole`. A list may be shorter only where its entries stand for themselves. */
export function madeUp(kept: unknown, whole: unknown, path: string): string[] {
  if (isRecord(kept) && isRecord(whole))
    return Object.entries(kept).flatMap(([key, value]) => madeUp(value, whole[key], path === "" ? key : `${path}.${key}`));
  if (Array.isArray(kept) && Array.isArray(whole) && (path === "cuts" || path === "copies"))
    return kept.flatMap((value, i) => (JSON.stringify(value) === JSON.stringify(whole[i]) ? [] : [`${path}[${i}]`]));
  return JSON.stringify(kept) === JSON.stringify(whole) ? [] : [path];
}
