/** The reading that the form was filled from: kept before a plan that rests on it is. */
let time: string | null = null;

/** ISO 8601; null where all was typed. */
export function readingTime(): string | null {
  return time;
}

export function rememberReading(iso: string | null): void {
  time = iso;
}

/** A plan is kept with its reading: one that still waits in this tab goes into the logbook first. */
export async function keepReadingFirst(): Promise<void> {
  if (time === null) return;
  const { keepWaiting } = await import('../keep/keep-unkept.ts');
  await keepWaiting(time);
}
