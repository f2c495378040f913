/** What must hold for every plan, over random waters and pools: `PLANS=10000 npm run unit -- invariants` for many. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyInput, planned } from './inputs.ts';
import { ALL, doses, widened } from './invariants.ts';

const PLANS = Number(process.env['PLANS'] ?? 250);
const seed = 20;

describe(`over ${PLANS} random waters and pools`, () => {
  const inputs = fc.sample(anyInput, { seed, numRuns: PLANS });

  it.each(Object.keys(ALL) as (keyof typeof ALL)[])('%s', { timeout: 60_000 + 60 * PLANS }, (name) => {
    let looked = 0;
    for (const input of inputs) {
      const plan = planned(input);
      if (!plan) continue;
      looked++;
      expect(ALL[name](plan), JSON.stringify(input)).toEqual([]);
    }
    expect(looked).toBeGreaterThan(0.9 * PLANS);
  });

  it('the same input gives the same plan', () => {
    for (const input of inputs.slice(0, PLANS / 10)) {
      expect(planned(structuredClone(input))).toEqual(planned(input));
    }
  });

  /* Which end of a lesser reading makes the pH move more is picked for the likeliest water: good to some hundredths. */
  it('more uncertainty never gives a larger dose', { timeout: 60_000 + 60 * PLANS }, () => {
    const by = [
      ['ph', 0.1],
      ['total-alkalinity', 15],
      ['calcium-hardness', 30],
      ['cyanuric-acid', 10],
      ['free-chlorine', 0.5],
      ['salt', 200],
    ] as const;
    let compared = 0;
    inputs.forEach((input, i) => {
      const [id, more] = by[i % by.length]!;
      const [sure, unsure] = [planned(input), planned(widened(input, id, more))];
      const [least, most] = [sure && doses(sure), unsure && doses(unsure)];
      if (!least || !most) return;
      compared += most.size;
      for (const [what, amount] of most) {
        expect(amount, `${what} ${JSON.stringify([id, input])}`).toBeLessThanOrEqual(
          (least.get(what) ?? 0) * 1.06 + 0.005,
        );
      }
    });
    expect(compared).toBeGreaterThan(PLANS / 4);
  });
});
