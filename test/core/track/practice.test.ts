import { expect, it } from 'vitest';
import { waterNow } from '../../../src/core/track/estimate.ts';
import { dayTime, loggedValue, POOL, reading } from '../log/samples.ts';

const OWN = { id: 'my-strip', name: 'My strip', origin: 'taught' as const };

it('a practice photo says nothing of water that a scale of one’s own has read', () => {
  const practice = reading(2, [loggedValue('total-alkalinity', 200, 15)]);
  const own = reading(1, [loggedValue('total-alkalinity', 90, 15)], { scale: OWN });
  const both = waterNow([own, practice], POOL, dayTime(3))!.quantities[0]!;
  expect(both).toMatchObject({ quantity: 'total-alkalinity', readings: 1 });
  expect(both.value).toBeLessThan(100);
  expect(waterNow([practice], POOL, dayTime(3))!.quantities[0]!.value).toBeGreaterThan(150);
});
