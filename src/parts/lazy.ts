/** Records that settle when they are read, and plain data made of them. */

/** A record whose fields settle when read, and which reads as plain data after. */
export function lazyCopy<R>(p: R, keys: readonly string[]): R {
  const copy = {} as R;
  for (const key of keys) Object.defineProperty(copy, key, { enumerable: true, get: () => p[key as keyof R] });
  return copy;
}

/** Plain data with every cell read. */
export function plain<T>(value: T): T {
  if (Array.isArray(value)) return value.map(plain) as T;
  if (typeof value !== "object" || value === null) return value;
  const copy: Record<string, unknown> = {};
  for (const key of Object.keys(value)) copy[key] = plain((value as Record<string, unknown>)[key]);
  return copy as T;
}
