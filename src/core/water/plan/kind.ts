/** Whether it is a pool or a spa, where its owner didn't say. */
import type { PlanInput } from '../../pool/schema.ts';

/** L and °C that only a spa has. Common practice, no source. */
const LARGEST_SPA_LITRES = 4000;
const WARM_AS_A_SPA_C = 32;

/** What is small and hot is a spa, unless its owner says what it is. */
export function withKind(input: PlanInput): PlanInput {
  const { pool, readings } = input;
  const isSpa = pool.volumeLitres <= LARGEST_SPA_LITRES && (readings.temperature?.value ?? 0) >= WARM_AS_A_SPA_C;
  return { ...input, pool: { ...pool, kind: pool.kind ?? (isSpa ? 'spa' : 'pool') } };
}
