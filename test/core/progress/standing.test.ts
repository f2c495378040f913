/** All that the log's page shows of a pool: found beside the page it is the same. */
import { expect, it } from 'vitest';
import { LATELY_DAYS } from '../../../src/core/log/time.ts';
import { standingOf } from '../../../src/core/progress/standing.ts';
import { addition, dayTime, loggedValue, POOL, reading } from '../log/samples.ts';

const LAST = LATELY_DAYS + 40;
const entries = Array.from({ length: LAST + 1 }, (_, day) => [
  reading(day, [loggedValue('ph', 7.5, 0.2), loggedValue('free-chlorine', day % 2 ? 3 : 4, 0.3)]),
  ...(day % 2 ? [addition(day + 0.1, 'chlorine', { chlorineGrams: 28.5 })] : []),
]).flat();

it('is found from the entries of this season, and goes through a message whole', async () => {
  const now = dayTime(LAST + 0.5);
  const found = await standingOf(entries, {
    pool: POOL,
    spans: { 'free-chlorine': { low: 2.5, high: 6.5 } },
    now,
    from: dayTime(0),
    last: dayTime(LAST + 0.1),
    at: now,
    lately: dayTime(40),
    trendFrom: dayTime(LAST - 29),
  });
  // 1 mg/L is put in every second day, and one is used up in between.
  expect(found.chlorine!.value).toBeCloseTo(0.5, 1);
  expect(found.acid).toBeNull();
  expect(found.plan).toBeNull();
  expect(found.next!.quantity).toBe('free-chlorine');
  expect(found.changes.map(({ quantity }) => quantity)).toEqual(['ph', 'free-chlorine']);
  expect(found.trend.series[0]!.count).toBe(30);
  expect(found.estimate!.quantities.length).toBe(2);
  expect(structuredClone(found)).toEqual(found);
});
