/** "Keep these values": what was typed on the plan's page becomes a reading of the logbook. */
import '../../browser/zod-setup.ts';
import { toStoreError } from '../../browser/store/failure.ts';
import { newId, zoneMinutesAt } from '../../browser/store/ids.ts';
import { openLogbook } from '../../browser/store/logbook.ts';
import { NOTHING_SAID, type ReadingEntry, toLogged, typedFields } from '../../core/log/schema.ts';
import { QUANTITY_IDS } from '../../core/measurement/quantities.ts';
import type { PlanInput } from '../../core/pool/schema.ts';
import { measuredByHand } from '../../core/reading/measured.ts';
import { failureText, NOTICES } from '../../words/log.ts';

type Readings = PlanInput['readings'];

/** @returns what is to be said of it */
export async function keepValues(readings: Readings): Promise<{ text: string; isKept: boolean }> {
  try {
    const logbook = await openLogbook();
    const pool = await logbook.pool();
    await logbook.keepReading(entryOf(readings, pool.id), null);
    const memory = logbook.store.kind === 'memory' ? ` ${NOTICES.memory}` : '';
    return { text: `Kept in the logbook of ${pool.name}.${memory}`, isKept: true };
  } catch (error) {
    return { text: failureText(toStoreError(error).failure), isKept: false };
  }
}

/** A photo's own values are kept with their photo, not here. */
function typedIn(readings: Readings): (keyof Readings)[] {
  return QUANTITY_IDS.filter((id) => readings[id] && readings[id].method !== 'photo');
}

function entryOf(readings: Readings, poolId: string): ReadingEntry {
  const now = new Date();
  const values = typedIn(readings).map((id) => {
    const { value, method = 'unsaid' } = readings[id]!;
    return toLogged(measuredByHand(id, { value, method: method === 'photo' ? 'unsaid' : method }, ''), NOTHING_SAID);
  });
  return {
    id: newId(),
    poolId,
    revision: 1,
    edited: now.toISOString(),
    time: now.toISOString(),
    zoneMinutes: zoneMinutesAt(now),
    note: '',
    ...typedFields(values),
  };
}
