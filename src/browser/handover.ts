/** What was measured, on its way to the plan page. Kept for this tab only. */
import * as z from 'zod/mini';
import { type Measurement, measurementSchema } from '../core/measurement/measurement.ts';
import { HANDOVER_KEY as KEY } from './handed-over.ts';

const FORMAT = 'dipwise-handover-2';
const handoverSchema = z.object({ format: z.literal(FORMAT), measurements: z.array(measurementSchema) });

/** @returns false where the browser keeps nothing */
export function handOver(measurements: readonly Measurement[]): boolean {
  try {
    sessionStorage.setItem(KEY, JSON.stringify({ format: FORMAT, measurements }));
    return true;
  } catch {
    return false;
  }
}

/** What was handed over last in this tab; none when nothing, or nothing sound, is there. */
export function takeHandover(): readonly Measurement[] {
  try {
    const result = handoverSchema.safeParse(JSON.parse(sessionStorage.getItem(KEY) ?? 'null'));
    return result.success ? result.data.measurements : [];
  } catch {
    return [];
  }
}
