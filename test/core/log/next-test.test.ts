/** When a reading will have left its span: worked cases at the edges of the rule. */
import { describe, expect, it } from 'vitest';
import { nextTest, type Tested } from '../../../src/core/log/next-test.ts';
import { ROUTINE_DAYS } from '../../../src/core/pool/test-times.ts';
import type { Agent } from '../../../src/core/log/schema.ts';
import { USUAL_SPANS } from '../../../src/core/reading/usual-spans.ts';
import { waterAhead } from '../../../src/core/track/estimate.ts';
import { addition, dayTime, loggedValue, POOL, reading } from './samples.ts';

const series = (quantity: Tested, values: readonly number[], from = 0) =>
  values.map((value, day) => reading(from + day, [loggedValue(quantity, value)]));
const target = () => ({ low: 2, high: 6 });

describe('nextTest', () => {
  it('gives the earliest need of all quantities', () => {
    const entries = [...series('total-alkalinity', [90]), ...series('ph', [7.4], 1)];
    const due = { quantity: 'ph', time: dayTime(1 + ROUTINE_DAYS.ph), reason: 'rule' };
    expect(nextTest(entries, () => null, new Map(), dayTime(1))).toMatchObject(due);
    expect(nextTest(entries.toReversed(), () => null, new Map(), dayTime(1))).toMatchObject(due);
  });

  it('is overdue from the very minute on', () => {
    const entries = series('ph', [7.4]);
    expect(nextTest(entries, () => null, new Map(), dayTime(ROUTINE_DAYS.ph))).toMatchObject({ overdue: true });
    expect(nextTest(entries, () => null, new Map(), dayTime(ROUTINE_DAYS.ph - 0.01))).toMatchObject({ overdue: false });
  });

  const certain = (quantity: Tested, values: readonly number[], deviation = 0.01) =>
    new Map([[quantity, values.map((value, day) => likely(value, deviation, day))]]);
  /** 90 % of a normal distribution lie within 1.645 deviations (handbook table of the normal distribution). */
  const likely = (value: number, deviation: number, day: number) => ({
    value,
    low: value - 1.645 * deviation,
    high: value + 1.645 * deviation,
    time: dayTime(day),
  });
  const one = series('free-chlorine', [4]);

  it('comes where the estimate goes out of its span: 2 mg/L of room at 1 a day, up or down', () => {
    for (const values of [
      [4, 5, 6, 7],
      [4, 3, 2, 1],
    ]) {
      const next = nextTest(one, target, certain('free-chlorine', values), dayTime(0))!;
      expect(next.reason).toBe('drift');
      // At the end of the span half of it lies outside: 0.1 is passed a fifth of the way there.
      expect(Date.parse(next.time)).toBeCloseTo(Date.parse(dayTime(1.2)), -4);
    }
  });

  it('comes as the estimate gets unsurer, though it stays where it is', () => {
    // Outside 2 to 6 at 4 with a deviation of d lie 2 (1 - Φ(2/d)): 0.0455 at 1, 0.3173 at 2 (handbook table).
    const wider = [1, 2].map((deviation, day) => likely(4, deviation, day));
    const next = nextTest(one, target, new Map([['free-chlorine', wider]]), dayTime(0))!;
    // A tenth more after 0.1 / 0.2718 of a day, and half a day is left in any case.
    expect(next).toMatchObject({ reason: 'drift', time: dayTime(0.5) });
  });

  it('leaves half a day where it may go at once', () => {
    const next = nextTest(one, target, certain('free-chlorine', [2.02, 0]), dayTime(0));
    expect(next).toMatchObject({ time: dayTime(0.5), reason: 'drift' });
  });

  it('goes by the rule where the estimate stays, nobody says where it should lie, or there is none', () => {
    const stays = certain('free-chlorine', [4, 4, 4, 4]);
    expect(nextTest(one, target, stays, dayTime(0))).toMatchObject({ reason: 'rule', time: dayTime(3) });
    const goes = certain('free-chlorine', [4, 1]);
    expect(nextTest(one, () => null, goes, dayTime(0))).toMatchObject({ reason: 'rule' });
    expect(nextTest(one, target, new Map(), dayTime(0))).toMatchObject({ reason: 'rule' });
  });

  it('asks no sooner for what lies outside already: the same test would say it again', () => {
    const outside = certain('free-chlorine', [8, 8, 8], 0.5);
    expect(nextTest(one, target, outside, dayTime(0))).toMatchObject({ reason: 'rule' });
  });
});

/** Through the whole estimate: a pool that uses chlorine up, and one that hardly moves. */
describe('the estimate of what comes', () => {
  const spans = (quantity: Tested) => USUAL_SPANS[quantity] ?? null;

  it('asks for chlorine before three days where it falls towards the end of its span, with the log as with the plan', () => {
    const entries = [4.4, 4.1, 3.8].flatMap((chlorine, i) => [
      reading(3 * i, [loggedValue('free-chlorine', chlorine, 0.3), loggedValue('total-alkalinity', 100, 10)]),
    ]);
    const next = nextTest(
      entries,
      (id) => (id === 'free-chlorine' ? { low: 3.5, high: 6 } : spans(id)),
      waterAhead(entries, POOL, dayTime(6)),
      dayTime(6),
    )!;
    expect(next).toMatchObject({ quantity: 'free-chlorine', reason: 'drift' });
    expect(next.time > dayTime(6.4) && next.time < dayTime(9)).toBe(true);
  });

  it('stays what it is until something is written down', () => {
    const entries = [0, 5, 10].map((day) => reading(day, [loggedValue('ph', 7.6, 0.1)]));
    const at = (day: number) => nextTest(entries, spans, waterAhead(entries, POOL, dayTime(day)), dayTime(day))!.time;
    expect(at(10.5)).toBe(at(12));
  });
});

describe('a dose', () => {
  /* What acts on what is chemistry; which of it moves a reading enough to count is common practice, no source. */
  const movers: Record<Tested, readonly Agent[]> = {
    // Both chlorines rise with it and fall with thiosulfate; who knows what 'other' is.
    'free-chlorine': ['chlorine', 'chlorine-remover', 'other', 'water'],
    'total-chlorine': ['chlorine', 'chlorine-remover', 'other', 'water'],
    // Hypochlorite is a base and trichlor an acid; so is cyanuric acid.
    ph: ['acid', 'base', 'bicarbonate', 'chlorine', 'stabilizer', 'other', 'water'],
    'total-alkalinity': ['acid', 'base', 'bicarbonate', 'other', 'water'],
    'total-hardness': ['calcium', 'other', 'water'],
    // So does calcium hypochlorite bring calcium.
    'calcium-hardness': ['calcium', 'chlorine', 'other', 'water'],
    // Dichlor and trichlor bring cyanuric acid.
    'cyanuric-acid': ['stabilizer', 'chlorine', 'other', 'water'],
    salt: ['salt', 'other', 'water'],
    boron: ['other', 'water'],
  };
  const cases = Object.entries(movers) as [Tested, readonly Agent[]][];
  const dosed = (quantity: Tested, agent: Agent) =>
    nextTest([...series(quantity, [6]), addition(1, agent)], () => null, new Map(), dayTime(1))!.reason;

  it.each(cases)(
    'asks for %s again after any of %j, but for chlorine, which goes in day by day',
    (quantity, agents) => {
      for (const agent of agents) expect(dosed(quantity, agent)).toBe(agent === 'chlorine' ? 'rule' : 'dose');
    },
  );

  it.each([
    ['free-chlorine', 'acid'],
    ['ph', 'calcium'],
    ['ph', 'salt'],
    ['total-alkalinity', 'salt'],
    ['total-hardness', 'acid'],
    ['cyanuric-acid', 'base'],
    ['salt', 'bicarbonate'],
  ] as const)('leaves %s as it was after %s', (quantity, agent) => {
    expect(dosed(quantity, agent)).toBe('rule');
  });
});
