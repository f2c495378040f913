/** The test that is worth it: what it promises is what the plan becomes when it is made. */
import { describe, expect, it } from 'vitest';
import { intervalFor } from '../../../../src/core/measurement/methods.ts';
import { planFrom } from '../../../../src/core/water/plan/make-plan.ts';
import { worthTesting } from '../../../../src/core/water/plan/worth.ts';
import { plain, reading } from './inputs.ts';

function planOf(readings: Record<string, unknown>) {
  const outcome = planFrom(plain({ readings }));
  if (!outcome.ok) throw new Error('no plan');
  return outcome.plan;
}

describe('which test is worth it', () => {
  it('is a drop test of alkalinity where its strip leaves the acid open', () => {
    const readings = { ph: reading(8.2, 0.05), 'total-alkalinity': reading(120, 60) };
    const worth = worthTesting(planOf(readings))!;
    expect(worth).toMatchObject({ quantity: 'total-alkalinity', method: 'drops', kind: 'lower-ph', form: 'liquid' });
    // Made, it gives the very plan that was promised.
    const tested = { value: 120, ...intervalFor('total-alkalinity', 120, 'drops'), method: 'drops' };
    const made = planOf({ ...readings, 'total-alkalinity': tested }).steps.find(({ kind }) => kind === 'lower-ph')!;
    expect(worth.then[0]).toBeCloseTo(made.amount!.exact, 6);
    expect(worth.then[1]).toBeCloseTo(made.amount!.upTo, 6);
    expect(worth.then[1] - worth.then[0]).toBeLessThan(worth.now[1] - worth.now[0]);
  });

  it('is a meter for salt where the strip leaves the salt open', () => {
    const readings = { salt: reading(2000, 600) };
    const outcome = planFrom(plain({ readings, pool: { chlorination: 'chlorinator', cell: { gramsPerHour: 20 } } }));
    if (!outcome.ok) throw new Error('no plan');
    expect(worthTesting(outcome.plan)).toMatchObject({ quantity: 'salt', method: 'meter', kind: 'raise-salt' });
  });

  it('is none where all is known as well as a kit would know it, and where nothing is dosed', () => {
    expect(worthTesting(planOf({ ph: { value: 8.2, low: 8.15, high: 8.25 } }))).toBeNull();
    expect(worthTesting(planOf({}))).toBeNull();
  });
});
