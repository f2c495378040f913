/** What a file brings before anything is done with it: the sound part, and what is wrong with the rest. */
import type * as z from 'zod/mini';
import { type Fault, faultOf } from '../fault.ts';
import type { StripScale } from '../scale/schema.ts';
import type { Choice } from './choices.ts';
import type { Entry, Pool } from './schema.ts';
import { isPlausibleTime } from './time.ts';
import type { TableFound } from './wide-table.ts';

/** A stored picture on its way through a file. */
export interface FilePicture {
  readonly id: string;
  readonly base64: string;
}

export interface Incoming {
  readonly pools: readonly Pool[];
  readonly entries: readonly Entry[];
  readonly scales: readonly StripScale[];
  readonly pictures: readonly FilePicture[];
  readonly choices: readonly Choice[];
}

/** Something in the file that can't be used; the rest of the file can. */
export interface FileProblem {
  readonly where: PlaceInFile;
  readonly fault: Fault;
}

export interface PlaceInFile {
  readonly what: 'line' | 'pool' | 'entry' | 'scale' | 'picture' | 'choice';
  /** Counted from one; an entry's id where its number isn't known any more. */
  readonly at: number | string;
}

/** Why a file can't be used at all. */
export type FileFailure = 'not-text' | 'not-a-logbook' | 'other-version' | 'newer-version' | 'empty';

export type ReadFile =
  | {
      readonly ok: true;
      readonly incoming: Incoming;
      readonly problems: readonly FileProblem[];
      /** What the columns of an ordinary table were taken for. */
      readonly table?: TableFound;
    }
  | { readonly ok: false; readonly failure: FileFailure };

/** What stands in a list, counted from one. */
export function numbered(what: PlaceInFile['what']): (index: number) => PlaceInFile {
  return (index) => ({ what, at: index + 1 });
}

/** Keeps what the schema accepts and says what is wrong with the rest. */
export function sift<T>(
  schema: z.ZodMiniType<T>,
  items: readonly unknown[],
  whereOf: (index: number) => PlaceInFile,
): { good: T[]; problems: FileProblem[] } {
  const good: T[] = [];
  const problems: FileProblem[] = [];
  items.forEach((item, i) => {
    const result = schema.safeParse(item);
    if (result.success) good.push(result.data);
    else problems.push({ where: whereOf(i), fault: faultOf(result.error.issues[0]!) });
  });
  return { good, problems };
}

/** A date far away is a slip of whoever wrote the file: such entries are left out, and told of. @param now ISO 8601 */
export function withinDates(read: ReadFile, now: string): ReadFile {
  if (!read.ok) return read;
  const { entries } = read.incoming;
  const far = entries.filter(({ time }) => !isPlausibleTime(time, now));
  if (far.length === 0) return read;
  const problems = far.map(({ time, id }): FileProblem => ({
    where: { what: 'entry', at: id },
    fault: { path: [], code: 'far-date', facts: { date: time.slice(0, 10) } },
  }));
  const near = entries.filter(({ time }) => isPlausibleTime(time, now));
  return { ...read, incoming: { ...read.incoming, entries: near }, problems: [...read.problems, ...problems] };
}
