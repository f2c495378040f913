/** The values of a reading on their way to the plan page. Kept for this tab only. */
import * as z from 'zod/mini';
import { PAD_QUANTITIES } from '../core/measurement/quantities.ts';
import { HANDOVER_KEY as KEY } from './handed-over.ts';

const value = z.number().check(z.minimum(0), z.maximum(100_000));

const handoverSchema = z.object({
  format: z.literal('dipwise-handover-1'),
  /** ISO 8601. */
  time: z.iso.datetime(),
  scaleId: z.string().check(z.maxLength(64)),
  readings: z.array(
    z
      .object({
        parameter: z.enum(PAD_QUANTITIES),
        unit: z.enum(['mg/L', 'pH']),
        value,
        low: value,
        high: value,
        offScale: z.nullable(z.enum(['below', 'above'])),
        origin: z.enum(['photo', 'hand']),
      })
      .check(z.refine(({ low, value: middle, high }) => low <= middle && middle <= high)),
  ),
});

export type Handover = z.infer<typeof handoverSchema>;
export type HandoverReading = Handover['readings'][number];

/** @returns false where the browser keeps nothing */
export function handOver(handover: Handover): boolean {
  try {
    sessionStorage.setItem(KEY, JSON.stringify(handover));
    return true;
  } catch {
    return false;
  }
}

/** What was handed over last in this tab; null when nothing, or nothing sound, is there. */
export function takeHandover(): Handover | null {
  try {
    const result = handoverSchema.safeParse(JSON.parse(sessionStorage.getItem(KEY) ?? 'null'));
    return result.success ? result.data : null;
  } catch {
    return null;
  }
}

export function forgetHandover(): void {
  try {
    sessionStorage.removeItem(KEY);
  } catch {
    // Denied: there is nothing to forget.
  }
}
