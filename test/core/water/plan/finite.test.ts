/** Whatever can be put in, what comes out is finite, and nothing that is less than none is shown. */
import { describe, expect, it } from 'vitest';
import { QUANTITIES } from '../../../../src/core/measurement/quantities.ts';
import { planFrom } from '../../../../src/core/water/plan/make-plan.ts';
import { plain } from './inputs.ts';

const IDS = [
  'free-chlorine',
  'ph',
  'total-alkalinity',
  'calcium-hardness',
  'cyanuric-acid',
  'salt',
  'temperature',
] as const;

/** Every number in a plan, with the way to it. */
function numbersIn(value: unknown, path = ''): [string, number][] {
  if (typeof value === 'number') return [[path, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => numbersIn(part, `${path}.${key}`));
}

describe('a plan from the ends of what can be put in', () => {
  it('holds finite numbers only, and no alkalinity or hardness below none', () => {
    let made = 0;
    // All combinations of the lowest, an ordinary and the highest value of each reading, taken crosswise.
    for (let mix = 0; mix < 3 ** IDS.length; mix += 5) {
      const readings = Object.fromEntries(
        IDS.map((id, i) => {
          const { min, max } = QUANTITIES[id];
          const value = [min, id === 'ph' ? 7.4 : min + (max - min) / 12, max][Math.floor(mix / 3 ** i) % 3]!;
          return [id, { value, low: Math.max(min, value * 0.7), high: Math.min(max, value * 1.3) }];
        }),
      );
      const plan = planFrom(plain({ readings }));
      if (!plan.ok) continue;
      made += 1;
      for (const [path, number] of numbersIn(plan.plan))
        expect(Number.isFinite(number), `${path} of ${mix}`).toBe(true);
      for (const water of [plan.plan.now, plan.plan.end]) {
        for (const id of ['totalAlkalinity', 'calciumHardness', 'freeChlorine'] as const) {
          expect(water.spans[id].low, `${id} of ${mix}`).toBeGreaterThanOrEqual(0);
        }
      }
    }
    expect(made).toBeGreaterThan(40);
  });
});
