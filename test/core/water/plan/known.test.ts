/** What is taken to be known of a reading that came without its span, off its scale, or not at all. */
import { describe, expect, it } from 'vitest';
import { planToText } from '../../../../src/core/water/plan/wording/plan-to-text.ts';
import { measureText } from '../../../../src/core/water/plan/wording/numbers.ts';
import { assumptionLine, upkeepLine } from '../../../../src/core/water/plan/wording/parts.ts';
import { plain, plan, reading } from './inputs.ts';

type Change = Parameters<typeof plain>[0];
const planOf = (change: Change) => plan(plain(change));
const assumed = (change: Change, code: string) => planOf(change).assumptions.find((one) => one.code === code);
const without: 'total-chlorine'[] = ['total-chlorine'];

describe('a typed value', () => {
  /* What a fresh drop test or a good meter can tell. Common practice, no source. */
  it('is as sure as a fresh test: a share of it, and no less than a drop', () => {
    const span = (id: 'total-alkalinity' | 'cyanuric-acid' | 'free-chlorine', value: number) => {
      const { totalAlkalinity, cyanuricAcid, freeChlorine } = planOf({ readings: { [id]: { value } }, without }).now
        .spans;
      return { 'total-alkalinity': totalAlkalinity, 'cyanuric-acid': cyanuricAcid, 'free-chlorine': freeChlorine }[id];
    };
    expect(span('total-alkalinity', 80)).toEqual({ value: 80, low: 75, high: 85 });
    expect(span('total-alkalinity', 200)).toEqual({ value: 200, low: 190, high: 210 });
    expect(span('cyanuric-acid', 40)).toEqual({ value: 40, low: 34, high: 46 });
    expect(span('free-chlorine', 5)).toEqual({ value: 5, low: 4.5, high: 5.5 });
    // Water either has stabilizer or has none.
    expect(span('cyanuric-acid', 0)).toEqual({ value: 0, low: 0, high: 0 });
  });

  it('is named as one, unless it came with an end', () => {
    const named = (ph: object) => assumed({ readings: { ph: { value: 7.5, ...ph } } }, 'test-error')?.readings ?? [];
    expect(named({})).toEqual(['ph']);
    for (const end of [{ low: 7.4 }, { high: 7.6 }, { offScale: 'above' }]) expect(named(end)).toEqual([]);
  });
});

describe('off its scale', () => {
  it('a pH may lie 0.8 further out, within 6 and 9, for what is predicted', () => {
    const ends = (value: number, offScale: string) => planOf({ readings: { ph: { value, offScale } } }).now.spans.ph;
    expect(ends(8, 'above')).toMatchObject({ low: 8, high: expect.closeTo(8.8, 9) as number });
    expect(ends(8.4, 'above')).toMatchObject({ low: 8.4, high: 9 });
    expect(ends(7, 'below')).toMatchObject({ low: expect.closeTo(6.2, 9) as number, high: 7 });
    expect(ends(6.5, 'below')).toMatchObject({ low: 6, high: 6.5 });
  });

  it('anything else may be twice as much, or nothing', () => {
    const ends = (change: object) =>
      planOf({ readings: { 'total-alkalinity': { value: 100, ...change } } }).now.spans.totalAlkalinity;
    expect(ends({ offScale: 'above' })).toMatchObject({ low: 100, high: 200 });
    expect(ends({ low: 90, high: 110, openAbove: true })).toMatchObject({ low: 90, high: 220 });
  });
});

describe('in words', () => {
  it('names the stand-ins: none for stabilizer where the pool has none', () => {
    const bare = { pool: { stabilised: false, exposure: 'covered' }, without: ['cyanuric-acid' as const] };
    expect(assumed(bare, 'cyanuric-acid')!.span.value).toBe(0);
    const total = { readings: { 'total-hardness': reading(300, 20) }, without: ['calcium-hardness' as const] };
    expect(assumptionLine(assumed(total, 'calcium-from-total')!, 'metric')).toMatch(
      /^Calcium taken as 80 % of the total/,
    );
  });

  it('tells from end to end what an assumption moves', () => {
    const both = assumptionLine(assumed({ without: ['cyanuric-acid'] }, 'cyanuric-acid')!, 'metric');
    expect(both).toMatch(
      /moves the saturation index now from \S+ to \S+ and the active chlorine now from \S+ to \S+ mg\/L\.$/,
    );
  });

  it('gives no active chlorine where nobody measured any', () => {
    const text = (change: Change) => planToText(planOf(change), 'metric');
    expect(text({})).toMatch(/Active chlorine \(hypochlorous acid\): \d/);
    expect(text({ without: ['free-chlorine', 'total-chlorine'] })).toContain('(hypochlorous acid): not known');
  });

  it('says what a loss was worked out from, and what is missing for the hours', () => {
    const pool = { chlorination: 'chlorinator' };
    const chlorineLoss = { before: { value: 4 }, after: { value: 3.5 }, hours: 10, night: true };
    const { upkeep } = planOf({ pool, readings: { salt: reading(3200, 50) }, chlorineLoss });
    expect(upkeepLine(upkeep!, 'metric')).toContain('With the output of the chlorinator the hours could be worked out');
    expect(measureText([])).toBe('less than can be measured');
  });
});
