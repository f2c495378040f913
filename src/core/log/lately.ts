/** The time that the log learns from, and that changes since last time lie within, days. Older entries tell of another season. */
export const LATELY_DAYS = 120;

const DAY = 86_400_000;

export function daysBefore(iso: string, days: number): string {
  return new Date(Date.parse(iso) - days * DAY).toISOString();
}
