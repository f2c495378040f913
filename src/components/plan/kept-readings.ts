/** Between the readings of a plan's form and those of the logbook. */
import { completed, type Given } from '../../core/measurement/measurement.ts';
import type { QuantityId } from '../../core/measurement/quantities.ts';
import {
  countingValues,
  type Entry,
  fromLogged,
  NOTHING_SAID,
  type ReadingEntry,
  typedFields,
} from '../../core/log/schema.ts';

/** By quantity; what came from a reading has its time. */
export type Readings = Readonly<Partial<Record<string, Given & { readonly time?: string | undefined }>>>;
/** What every entry has. */
export type Common = Pick<Entry, 'id' | 'poolId' | 'revision' | 'edited' | 'time' | 'zoneMinutes'>;

/** What was typed into the form is a reading too; what came from one is in the logbook already. */
export function typedReading(atHand: Readings, common: Common): ReadingEntry | null {
  const typed = Object.entries(atHand).filter(([, one]) => one && one.time === undefined);
  if (typed.length === 0) return null;
  const values = typed.map(([id, reading]) => ({
    ...completed(id as QuantityId, reading as Given),
    ...NOTHING_SAID,
  }));
  return { ...common, note: '', ...typedFields(values) };
}

/** A reading's values as a plan takes them. */
export function readingsFrom(reading: ReadingEntry): Record<string, unknown> {
  return Object.fromEntries(countingValues(reading).map((value) => [value.quantity, fromLogged(reading, value)]));
}
