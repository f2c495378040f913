/** When two records say the same. */

/** JSON with its keys in order. */
export function canonical(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    typeof part === 'object' && part !== null && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}

export interface Replacement<T> {
  readonly before: T;
  readonly after: T;
}
