/** When everything was last saved to a file, and how many entries there were: the page says how old a copy is. */
import { remember, remembered } from '../../browser/remembered.ts';

const KEY = 'log-copy';

export interface LastCopy {
  /** ISO 8601. */
  readonly time: string;
  readonly entries: number;
}

export function noteCopy(entries: number): void {
  remember(KEY, JSON.stringify({ time: new Date().toISOString(), entries } satisfies LastCopy));
}

/** @returns null where there is none yet */
export function lastCopy(): LastCopy | null {
  try {
    const copy = JSON.parse(remembered(KEY) ?? 'null') as { time?: unknown; entries?: unknown } | null;
    return typeof copy?.time === 'string' && typeof copy.entries === 'number' ? (copy as LastCopy) : null;
  } catch {
    return null;
  }
}
