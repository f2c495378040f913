import { describe, expect, it } from 'vitest';
import { nextTest } from '../../../src/core/log/next-test.ts';
import { ROUTINE_DAYS } from '../../../src/core/pool/test-times.ts';
import { changesSinceLast, quantitiesIn, seriesOf, summarise, thinned, trendOf } from '../../../src/core/log/trends.ts';
import { addition, dayTime, loggedValue, reading } from './samples.ts';

describe('seriesOf', () => {
  it('goes by time, takes the value by hand before the photo’s, and leaves out what matched nothing', () => {
    const entries = [
      reading(2, [loggedValue('ph', 7.4, 0.2), { ...loggedValue('ph', 7.6, 0.25), method: 'drops' }]),
      addition(1, 'acid'),
      reading(0, [loggedValue('ph', 7.8, 0.2)]),
      reading(3, [], { unmatched: ['ph'] }),
    ];
    expect(seriesOf(entries, 'ph')).toMatchObject([
      { time: dayTime(0), value: 7.8, low: 7.6, high: 8, byHand: false },
      { time: dayTime(2), value: 7.6, low: 7.35, high: 7.85, byHand: true },
    ]);
    expect(quantitiesIn(entries)).toEqual(['ph']);
  });

  it('shows the one interval that holds both where two values fit', () => {
    const folded = { ...loggedValue('ph', 7.25, 0.25), alternative: { value: 8, low: 7.9, high: 8.3 } };
    expect(seriesOf([reading(0, [folded])], 'ph')[0]).toMatchObject({ value: 7.25, low: 7, high: 8.3 });
  });
});

describe('trendOf', () => {
  const entries = Array.from({ length: 3000 }, (_, day) =>
    reading(day, [loggedValue('ph', 7 + day / 3000, 0.1), ...(day % 100 === 0 ? [loggedValue('salt', 3000, 90)] : [])]),
  );

  it('has the series of each quantity, in the order of time', () => {
    const few = [entries[0]!, addition(0.5, 'acid'), entries[1]!];
    const trend = trendOf(few);
    expect(trend.series.map(({ quantity }) => quantity)).toEqual(quantitiesIn(few));
    for (const { quantity, points, count } of trend.series) {
      expect(points).toEqual(seriesOf(few, quantity));
      expect(count).toBe(points.length);
    }
    expect(trend).toMatchObject({ count: 3, first: dayTime(0) });
    expect(trend.newest.map(({ time }) => time)).toEqual([dayTime(1), dayTime(0.5), dayTime(0)]);
    expect(trendOf([])).toEqual({ series: [], additions: [], newest: [], count: 0, first: null });
  });

  it('spreads what is drawn of very many evenly, and drops nothing of what is rare', () => {
    const { series, newest, count } = trendOf(entries);
    const of = (quantity: string) => series.find((one) => one.quantity === quantity)!;
    expect(of('ph').count).toBe(3000);
    expect(of('ph').points.length).toBeLessThan(1000);
    expect(of('ph').points.at(-1)!.time).toBe(dayTime(2999));
    expect(of('salt').points).toHaveLength(30);
    expect([newest.length, count]).toEqual([120, 3000]);
    const gaps = thinned(Array.from({ length: 3000 }, (_, i) => i)).map((one, i, all) => one - (all[i - 1] ?? -1));
    expect(Math.max(...gaps) - Math.min(...gaps)).toBeLessThanOrEqual(1);
  });
});

describe('changesSinceLast', () => {
  const change = (before: number, after: number, half: number) =>
    changesSinceLast([
      reading(0, [loggedValue('free-chlorine', before, half)]),
      reading(1, [loggedValue('ph', 7.4)]),
      reading(2, [loggedValue('free-chlorine', after, half)]),
    ])[0]!;

  it('compares with the last reading that had the same quantity', () => {
    expect(change(3, 1, 0.2)).toMatchObject({
      direction: 'down',
      before: { value: 3, time: dayTime(0) },
      after: { value: 1 },
    });
    expect(change(1, 3, 0.2)).toMatchObject({ direction: 'up' });
  });

  it('calls no change what the intervals leave open', () => {
    // Half widths of 0.5 and 0.5 make 0.71 together.
    expect(change(2, 2.7, 0.5).direction).toBe('unclear');
    expect(change(2, 2.72, 0.5).direction).toBe('up');
    expect(change(2, 2, 0)).toMatchObject({ direction: 'unclear' });
  });

  it('goes by the halves of the intervals that face each other', () => {
    const told = (value: number, low: number, high: number) => ({
      ...loggedValue('free-chlorine', value),
      low,
      high,
    });
    // hypot(0.3, 0.4) = 0.5 between 2 and 2.6: surely more. The outer halves of 2 and 1 would hide it.
    const [lower, upper] = [told(2, 0, 2.3), told(2.6, 2.2, 3.6)];
    const direction = (one: typeof lower, other: typeof lower) =>
      changesSinceLast([reading(1, [other]), addition(2, 'acid'), reading(0, [one])])[0]!.direction;
    expect(direction(lower, upper)).toBe('up');
    expect(direction(upper, lower)).toBe('down');
    // hypot(0.6, 0.4) = 0.72.
    expect(direction(told(2, 2, 2.6), upper)).toBe('unclear');
    expect(direction(upper, told(2, 2, 2.6))).toBe('unclear');
  });

  it('is empty for a first reading', () => {
    expect(changesSinceLast([])).toEqual([]);
    expect(changesSinceLast([reading(0, [loggedValue('ph', 7.4)])])).toEqual([]);
  });
});

describe('summarise', () => {
  it('gives median and range', () => {
    const points = seriesOf(
      [7.2, 7.9, 7.4, 7.6].map((value, day) => reading(day, [loggedValue('ph', value)])),
      'ph',
    );
    expect(summarise(points, { low: 7.2, high: 7.8 })).toEqual({
      count: 4,
      lowest: 7.2,
      median: 7.5,
      highest: 7.9,
      inTarget: 3,
      surelyInTarget: 3,
    });
    expect(summarise([], null)).toBeNull();
  });

  it('counts apart what lies in the span with its whole interval, an open end being none', () => {
    const readings = [7.25, 7.5].map((value, day) => reading(day, [loggedValue('ph', value, 0.1)]));
    const open = reading(2, [{ ...loggedValue('ph', 7.5, 0.1), openAbove: true }]);
    expect(summarise(seriesOf([open], 'ph'), { low: 7.2, high: 7.8 })).toMatchObject({
      inTarget: 1,
      surelyInTarget: 0,
    });
    expect(summarise(seriesOf(readings, 'ph'), { low: 7.2, high: 7.8 })).toMatchObject({
      inTarget: 2,
      surelyInTarget: 1,
    });
  });
});

describe('nextTest', () => {
  const target = () => ({ low: 2, high: 6 });
  const fall = [6, 5.5, 5, 4.5].map((value, day) => reading(day, [loggedValue('free-chlorine', value)]));

  it('goes by the rule where nothing drifts', () => {
    const steady = [3, 3.1, 2.9, 3].map((value, day) => reading(day, [loggedValue('free-chlorine', value)]));
    expect(nextTest(steady, target, new Map(), dayTime(3))).toEqual({
      time: dayTime(3 + ROUTINE_DAYS['free-chlorine']),
      quantity: 'free-chlorine',
      reason: 'rule',
      overdue: false,
    });
  });

  it('is overdue once the time has come, and null without readings', () => {
    expect(nextTest(fall, target, new Map(), dayTime(30))).toMatchObject({ overdue: true });
    expect(nextTest([addition(0, 'acid')], target, new Map(), dayTime(1))).toBeNull();
  });
});
