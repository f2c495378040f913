/** Strip scales that the visitor has taught or brought along, kept in the store of the logbook. */
import './zod-setup.ts';
import type { StripScale } from '../core/scale/schema.ts';
import { moveToBin, putScale, takeFromBin } from './store/changes.ts';
import { newId } from './store/ids.ts';
import { openLogbook } from './store/logbook.ts';
import { askToPersist } from './store/persistence.ts';
import type { BinRecord } from './store/tables.ts';

export interface KeptScales {
  readonly scales: readonly StripScale[];
  /** What is there but can't be used, such as a scale of a later program: left alone. */
  readonly unusable: number;
}

/** Sound ones only, by name. Never rejects: where nothing can be kept, there is nothing. */
export async function keptScales(): Promise<KeptScales> {
  try {
    const { store } = await openLogbook();
    const kept = await store.all('scales');
    if (kept.length === 0) return { scales: [], unusable: 0 };
    const { parseScale } = await import('../core/scale/schema.ts');
    const scales = kept.flatMap((one) => {
      const parsed = parseScale(one);
      return parsed.ok ? [parsed.scale] : [];
    });
    return { scales: scales.sort((a, b) => a.name.localeCompare(b.name)), unusable: kept.length - scales.length };
  } catch (error) {
    console.error(error);
    return { scales: [], unusable: 0 };
  }
}

/** On the device, or only until the page is closed or left. */
export type KeptWhere = 'device' | 'page';

/** Throws a StoreError when it isn't kept at all. */
export async function keepScale(scale: StripScale): Promise<KeptWhere> {
  const logbook = await openLogbook();
  await logbook.write(putScale(scale));
  if (logbook.store.kind !== 'kept') return 'page';
  await askToPersist();
  return 'device';
}

/** @returns takes the deletion back */
export async function deleteScale(scale: StripScale): Promise<() => Promise<void>> {
  const logbook = await openLogbook();
  const record: BinRecord = { id: newId(), deleted: new Date().toISOString(), entries: [], pool: null, scale };
  await logbook.write(moveToBin(record));
  return () => logbook.write(takeFromBin(record));
}
