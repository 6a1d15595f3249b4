/** Records that settle when they are read, and plain data made of them. */

/** A record whose fields settle when read, and which reads as plain data after. */
export function lazyCopy<R>(p: R, keys: readonly string[]): R {
  const copy = {} as R;
  for (const key of keys) Object.defineProperty(copy, key, { enumerable: true, get: () => p[key as keyof R] });
  return copy;
}

/**
 * Measures of which some are worked out when they are first read, and then once: what only a check or a template asks for. They may hang on
 * nothing but what was read, as plain data, before.
 */
export function withLater<M extends object, K extends keyof M>(
  now: Omit<M, K>,
  later: { readonly [P in K]?: (() => M[P]) | undefined },
): M {
  const measures = { ...now } as M;
  for (const [key, work] of Object.entries<(() => unknown) | undefined>(later)) {
    if (!work) continue;
    let done: { readonly value: unknown } | undefined;
    Object.defineProperty(measures, key, { enumerable: true, get: () => (done ??= { value: work() }).value });
  }
  return measures;
}

/** Plain data with every cell read. */
export function plain<T>(value: T): T {
  if (Array.isArray(value)) return value.map(plain) as T;
  if (typeof value !== "object" || value === null) return value;
  const copy: Record<string, unknown> = {};
  for (const key of Object.keys(value)) copy[key] = plain((value as Record<string, unknown>)[key]);
  return copy as T;
}
