/** What is taken to be known of a reading that came without its span, off its scale, or not at all. */
import { describe, expect, it } from 'vitest';
import { planToText } from '../../../../src/words/plan/plan-to-text.ts';
import { measureText } from '../../../../src/words/plan/numbers.ts';
import { assumptionLine, upkeepLine } from '../../../../src/words/plan/parts.ts';
import { plain, plan, reading } from './inputs.ts';

type Change = Parameters<typeof plain>[0];
const planOf = (change: Change) => plan(plain(change));
const assumed = (change: Change, code: string) => planOf(change).assumptions.find((one) => one.code === code);
const without: 'total-chlorine'[] = ['total-chlorine'];

describe('a typed value', () => {
  const spanOf = (id: 'total-alkalinity' | 'cyanuric-acid' | 'free-chlorine', typed: object) => {
    const { spans } = planOf({ readings: { [id]: typed }, without }).now;
    return {
      'total-alkalinity': spans.totalAlkalinity,
      'cyanuric-acid': spans.cyanuricAcid,
      'free-chlorine': spans.freeChlorine,
    }[id];
  };

  it('is as sure as the way it was measured', () => {
    const alkalinity = (method?: string) => spanOf('total-alkalinity', { value: 200, ...(method && { method }) });
    expect(alkalinity('drops')).toEqual({ value: 200, low: 185, high: 215 });
    expect(alkalinity('meter')).toEqual({ value: 200, low: 184, high: 216 });
    expect(alkalinity('eye')).toEqual({ value: 200, low: 140, high: 260 });
    expect(alkalinity('unsaid')).toEqual({ value: 200, low: 170, high: 230 });
    expect(alkalinity()).toEqual(alkalinity('unsaid'));
    // Water either has stabilizer or has none.
    expect(spanOf('cyanuric-acid', { value: 0 })).toEqual({ value: 0, low: 0, high: 0 });
    expect(spanOf('free-chlorine', { value: 5, low: 4.9, high: 5.1, method: 'eye' })).toEqual({
      value: 5,
      low: 4.9,
      high: 5.1,
    });
  });

  it('is named as one of which nobody said how it was measured', () => {
    const named = (ph: object) => assumed({ readings: { ph: { value: 7.5, ...ph } } }, 'test-error')?.readings ?? [];
    expect(named({})).toEqual(['ph']);
    expect(named({ method: 'unsaid' })).toEqual(['ph']);
    for (const said of [{ low: 7.4 }, { high: 7.6 }, { offScale: 'above' }, { method: 'drops' }])
      expect(named(said)).toEqual([]);
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
    expect(upkeepLine(upkeep!, 'metric')).toContain(
      'With the output of the chlorinator its setting could be worked out',
    );
    expect(measureText([])).toBe('less than can be measured');
  });
});
