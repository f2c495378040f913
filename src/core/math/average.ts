/** Of values in no order. Of none at all both are 0. */

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}

/** The middle one, or halfway between the middle two. */
export function median(values: readonly number[]): number {
  const sorted = values.toSorted((one, other) => one - other);
  const half = sorted.length >> 1;
  if (sorted.length % 2 === 1) return sorted[half]!;
  return sorted.length === 0 ? 0 : (sorted[half - 1]! + sorted[half]!) / 2;
}
