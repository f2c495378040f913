import { describe, expect, it } from 'vitest';
import { planFrom } from '../../../../src/core/water/plan/make-plan.ts';
import { upkeepLine } from '../../../../src/words/plan/parts.ts';

const input = {
  pool: {
    volumeLitres: 50_000,
    surface: 'vinyl',
    heater: 'none',
    chlorination: 'chlorinator',
    stabilised: true,
    cell: { gramsPerHour: 20, setting: 1 },
  },
  readings: { 'free-chlorine': { value: 4 }, ph: { value: 7.5 }, 'cyanuric-acid': { value: 50 } },
};

function upkeepFor(more: object) {
  const outcome = planFrom({ ...input, ...more });
  if (!outcome.ok) throw new Error(outcome.issues[0]!.code);
  return outcome.plan.upkeep!;
}

describe('a chlorine use learnt from the logbook', () => {
  it('sets the hours of the chlorinator, with its interval', () => {
    // dose-facts.csv D100: 50 m3 losing 2 mg/L a day need 5 h of a 20 g/h cell; the ends in proportion.
    const upkeep = upkeepFor({ chlorineUse: { value: 2, low: 1.6, high: 2.4 } });
    expect(upkeep).toMatchObject({
      kind: 'chlorinator',
      hours: 5,
      lowHours: 4,
      highHours: 6,
      use: { basis: 'learnt' },
    });
    expect(upkeepLine(upkeep, 'metric')).toContain('learnt from the logbook');
  });

  it('goes behind a loss that was measured, and before what is assumed', () => {
    const chlorineLoss = { before: { value: 4 }, after: { value: 3 }, hours: 24, night: false };
    expect(upkeepFor({ chlorineUse: { value: 2, low: 1, high: 3 }, chlorineLoss }).use).toMatchObject({
      value: 1,
      basis: 'measured-day',
    });
    expect(upkeepFor({}).use.basis).toBe('assumed');
  });

  it('is assumed by the month’s air where nobody measured the water: ten degrees less, half as much', () => {
    const cold = { ...input.pool, climate: { apr: { airC: 16 } } };
    const usual = upkeepFor({}).use.value;
    expect(upkeepFor({ pool: cold, month: 'apr' }).use.value).toBeCloseTo(usual / 2, 9);
    // Another month's air says nothing, and a thermometer goes first.
    expect(upkeepFor({ pool: cold, month: 'may' }).use.value).toBe(usual);
    const measured = { ...input.readings, temperature: { value: 26 } };
    expect(upkeepFor({ pool: cold, month: 'apr', readings: measured }).use.value).toBe(usual);
  });

  it('is refused when its span does not hold it', () => {
    const outcome = planFrom({ ...input, chlorineUse: { value: 2, low: 3, high: 4 } });
    expect(outcome.ok).toBe(false);
  });
});
