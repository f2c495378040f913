import { describe, expect, it } from 'vitest';
import { climateOf, evaporationMm, runsOverMm, waterByAir } from '../../../src/core/pool/climate.ts';
import { parsePlanInput } from '../../../src/core/pool/schema.ts';
import { planFrom } from '../../../src/core/water/plan/make-plan.ts';
import { assumptionLine } from '../../../src/words/plan/parts.ts';
import { planIssueText } from '../../../src/words/plan-input.ts';

const POOL = { volumeLitres: 24_000, surface: 'vinyl', heater: 'none', chlorination: 'hypochlorite', stabilised: true };
const inputWith = (climate: unknown, more: object = {}) => ({
  pool: { ...POOL, climate },
  readings: { ph: { value: 7.5 } },
  month: 'jun',
  ...more,
});

describe('the climate in a plan’s input', () => {
  it('may hold any of the twelve months, and either quantity', () => {
    expect(parsePlanInput(inputWith({ jun: { airC: 19 }, jan: { rainMm: 0 }, dec: {} })).ok).toBe(true);
    expect(parsePlanInput(inputWith({ june: { airC: 19 } })).ok).toBe(false);
  });

  it.each([
    ['metric', { jun: { airC: 75 } }, 'the mean air temperature of June can’t be 75 °C: 45 °C is the most'],
    ['us', { jan: { rainMm: -25.4 } }, 'the rain of January can’t be -1 in: it must be at least 0 in'],
    ['metric', { jul: { rainMm: 5000 } }, 'the rain of July can’t be 5,000 mm: 4,000 mm is the most'],
  ] as const)('says in %s what is out of bounds in %j', (units, climate, sentence) => {
    const parsed = parsePlanInput(inputWith(climate));
    if (parsed.ok) throw new Error('taken');
    const said = planIssueText(parsed.issues[0]!, units).replaceAll('\u00a0', ' ').replace('−', '-');
    expect(said).toBe(sentence);
  });
});

describe('a temperature that nobody measured', () => {
  const assumed = (input: unknown) => {
    const outcome = planFrom(input);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    return outcome.plan.assumptions.find(({ code }) => code === 'temperature');
  };

  it('is taken from the month’s air, which is said', () => {
    const found = assumed(inputWith({ jun: { airC: 19 } }))!;
    expect(found.span).toEqual({ value: 19, low: 14, high: 29 });
    expect(assumptionLine(found, 'metric')).toContain('by the mean air temperature of June at your place');
  });

  it('stays as it was without a climate of this month, and with a heater', () => {
    const usual = { value: 25, low: 15, high: 30 };
    for (const input of [
      inputWith({ jul: { airC: 19 } }),
      inputWith(undefined),
      inputWith({ jun: { airC: 19 } }, { month: undefined }),
      { ...inputWith({}), pool: { ...POOL, heater: 'copper', climate: { jun: { airC: 19 } } } },
    ]) {
      const found = assumed(input)!;
      expect(found.span).toEqual(usual);
      expect(assumptionLine(found, 'metric')).not.toContain('at your place');
    }
    const measured = { readings: { ph: { value: 7.5 }, temperature: { value: 22 } } };
    expect(assumed(inputWith({ jun: { airC: 19 } }, measured))).toBeUndefined();
  });

  it('is no ice, and no surer than without a climate', () => {
    expect(waterByAir({ jan: { airC: -20 } }, 'jan', {})).toEqual({ value: 0, low: 0, high: 10 });
    const { low, high } = waterByAir({ jul: { airC: 22 } }, 'jul', {})!;
    expect(high - low).toBe(30 - 15);
  });
});

describe('rain against what evaporates', () => {
  it('halves with 11 °C, as the air holds half as much', () => {
    // Saturation vapour pressure over water at 25 and 14 °C: 3.1699 and 1.5990 kPa (CRC Handbook, from memory).
    expect(evaporationMm(14) / evaporationMm(25)).toBeCloseTo(1.599 / 3.1699, 2);
    expect(runsOverMm({ airC: 25, rainMm: 5 * 30.4375 })).toBeCloseTo(0, 12);
    expect(runsOverMm({ airC: 14, rainMm: 5 * 30.4375 })).toBeCloseTo(2.5, 12);
    expect(runsOverMm({ airC: 10 })).toBe(0);
  });
});

it('is found in a pool’s record, without what can’t be', () => {
  const details = { 'pool.climate.jun.airC': 19, 'pool.climate.jun.rainMm': -1, 'pool.climate.jul.airC': 'warm' };
  expect(climateOf(details)).toMatchObject({ jun: { airC: 19 }, jul: {} });
  expect(climateOf(details).jun).not.toHaveProperty('rainMm');
});
