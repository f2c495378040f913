/** What must hold for every plan. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planIssueText } from '../../../../src/words/plan-input.ts';
import type { PlanInput } from '../../../../src/core/pool/schema.ts';
import { makePlan } from '../../../../src/core/water/plan/make-plan.ts';
import { SAFE_PH } from '../../../../src/core/water/plan/safe-band.ts';
import { planToText } from '../../../../src/words/plan/plan-to-text.ts';
import { convert, convertTemperature } from '../../../../src/core/water/units.ts';
import { anyInput, planned } from './inputs.ts';

describe('every plan', () => {
  it('ends in the target or says why not, and reads as text without a hole', () => {
    let plans = 0;
    fc.assert(
      fc.property(anyInput, (input) => {
        const made = makePlan(input);
        if (!made.ok) {
          expect(made.issues.length).toBeGreaterThan(0);
          made.issues.forEach((issue) => expect(planIssueText(issue, 'metric')).toMatch(/\w+ \w+/));
          return;
        }
        plans++;
        for (const { inside, why } of made.plan.endChecks) expect(inside || why !== null).toBe(true);
        for (const units of ['metric', 'us'] as const) {
          expect(planToText(made.plan, units)).not.toMatch(
            /undefined|NaN|Infinity|\[object|  {8}\S|less than can be measured/,
          );
        }
      }),
      { seed: 81, numRuns: 150 },
    );
    expect(plans).toBeGreaterThan(100);
  });

  it('keeps every predicted pH in the safe band once it is there', () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const made = planned(input);
        if (!made) return;
        let { ph } = made.now.water;
        for (const { after, kind } of made.steps) {
          const next = after.water.ph;
          // Chlorine that is used up leaves its acid behind whatever the plan says.
          if (ph >= SAFE_PH.low && ph <= SAFE_PH.high && kind !== 'wait-for-chlorine') {
            expect(next, kind).toBeGreaterThanOrEqual(SAFE_PH.low - 1e-6);
            expect(next, kind).toBeLessThanOrEqual(SAFE_PH.high + 0.05);
          }
          ph = next;
        }
      }),
      { seed: 82, numRuns: 150 },
    );
  });

  it('keeps acid and chlorine, calcium and carbonate apart, and acid away from a bottle of chlorine', () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const made = planned(input);
        if (!made) return;
        made.steps.forEach((one, i) => {
          const before = made.steps.slice(0, i).map(({ kind }) => kind);
          const isChlorine = ['raise-chlorine', 'clear-algae', 'oxidise-combined'].includes(one.kind);
          if (isChlorine && before.includes('lower-ph')) expect(one.waitFirst!.hours).toBeGreaterThanOrEqual(1);
          if (one.kind === 'raise-hardness' && (before.includes('raise-alkalinity') || before.includes('raise-ph'))) {
            expect(one.waitFirst!.hours).toBeGreaterThanOrEqual(12);
          }
          if (one.kind === 'lower-ph') expect(one.cautions).toContain('acid-and-chlorine');
          if (i > 0 && one.amount && one.waitFirst) expect(one.waitFirst.hours).toBeGreaterThanOrEqual(0.5);
        });
        expect(new Set(made.steps.map(({ id }) => id)).size).toBe(made.steps.length);
      }),
      { seed: 83, numRuns: 150 },
    );
  });

  it('is the same in US units', () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const there = (litres: number) => convert('volume', convert('volume', litres, 'L', 'gal'), 'gal', 'L');
        const { pool, readings } = input;
        const degrees = (value: number) => convertTemperature(convertTemperature(value, 'C', 'F'), 'F', 'C');
        const { temperature } = readings;
        const inUs: PlanInput = {
          ...input,
          pool: {
            ...pool,
            volumeLitres: there(pool.volumeLitres),
            volumeLowLitres: there(pool.volumeLowLitres!),
            volumeHighLitres: there(pool.volumeHighLitres!),
          },
          readings: temperature
            ? {
                ...readings,
                temperature: {
                  value: degrees(temperature.value),
                  low: degrees(temperature.low!),
                  high: degrees(temperature.high!),
                },
              }
            : readings,
        };
        const [one, other] = [planned(input), planned(inUs)];
        expect(other === null).toBe(one === null);
        if (!one || !other) return;
        expect(other.steps.map(({ id }) => id)).toEqual(one.steps.map(({ id }) => id));
        one.steps.forEach(({ amount }, i) => {
          if (amount) expect(other.steps[i]!.amount!.exact / amount.exact).toBeCloseTo(1, 6);
        });
      }),
      { seed: 84, numRuns: 60 },
    );
  });
});

describe('the arithmetic that is shown', () => {
  it('gives the amount, line by line', () => {
    let checked = 0;
    fc.assert(
      fc.property(anyInput, (input) => {
        for (const { why, amount } of planned(input)?.steps ?? []) {
          if (!amount) continue;
          let mmolPerLitre = 0;
          let litres = 0;
          let perUnit = 0;
          for (const line of why) {
            if (line.line === 'by-equilibrium' || line.line === 'for-the-acid-to-come')
              mmolPerLitre += line.mmolPerLitre;
            if (line.line === 'by-mass') mmolPerLitre += line.mmolPerLitre;
            if (line.line === 'from-the-soda-ash-to-come') mmolPerLitre -= line.mmolPerLitre;
            if (line.line === 'volume') ({ litres } = line);
            if (line.line === 'strength') perUnit = line.mmolPerUnit;
            if (line.line === 'amount') {
              expect((mmolPerLitre * litres) / perUnit / line.exact).toBeCloseTo(1, 6);
              expect(line.exact).toBe(amount.exact);
              checked++;
            }
          }
        }
      }),
      { seed: 87, numRuns: 150 },
    );
    expect(checked).toBeGreaterThan(100);
  });
});
