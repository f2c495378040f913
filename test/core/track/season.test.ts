import { describe, expect, it } from 'vitest';
import { estimateSlow } from '../../../src/core/track/estimate-slow.ts';
import type { TrackEvent } from '../../../src/core/track/events.ts';
import { eventsOf, poolOf } from '../../bench/season/events.ts';
import { simulateSeason } from '../../bench/season/simulate.ts';

import { randomFrom } from '../../studio/random.ts';

/** Photos of one scale as they differ in simulation; `npm run season` has the figures over many seasons. */
const STRIPS = { photoSteps: 0.25, sharedSteps: 0.1, statedSteps: 0.27, forgets: 0.1, upsets: 0 };

describe('a season of strips', () => {
  const season = simulateSeason({ seed: 7001, hasDropTest: false, ...STRIPS });
  const events = eventsOf(season);
  const pool = poolOf(season);

  it('knows more than the last strip alone', () => {
    const dips = season.days.filter(({ strip }) => strip).slice(4);
    const off = { strip: 0, estimate: 0 };
    let held = 0;
    for (const { day, strip, truth } of dips.filter((_, i) => i % 6 === 0)) {
      const { quantities } = estimateSlow(pool, events, day)!;
      for (const { quantity, value, low, high } of strip!) {
        const now = quantities.get(quantity)!;
        off.strip += Math.abs(value - truth[quantity]) / (high - low);
        off.estimate += Math.abs(now.value - truth[quantity]) / (high - low);
        held += truth[quantity] >= now.low && truth[quantity] <= now.high ? 1 : 0;
        expect(now.high - now.low).toBeLessThan(high - low);
      }
    }
    expect(off.estimate).toBeLessThan(0.9 * off.strip);
    expect(held).toBeGreaterThan(0.7 * 4 * (dips.length / 6));
  });

  it('moves a scale’s readings before and after by one drop test', () => {
    const strips: TrackEvent[] = [0, 5, 10, 15, 20].map((day) => read(day, 120, 12, 'strip'));
    const drops: TrackEvent = { ...read(10, 90, 3, 'drops'), sharedVariance: 0.3 } as TrackEvent;
    const without = estimateSlow(pool, strips, 21)!.quantities.get('total-alkalinity')!;
    const events = [...strips, drops].sort((a, b) => a.day - b.day);
    const withDrops = estimateSlow(pool, events, 21)!.quantities.get('total-alkalinity')!;
    expect(without.value).toBeGreaterThan(112);
    expect(withDrops.value).toBeLessThan(104);
  });

  it('does not average out what a scale always gets wrong', () => {
    const many: TrackEvent[] = Array.from({ length: 40 }, (_, i) => read(i, 100 + 8 * Math.sin(5 * i), 12, 'strip'));
    const { low, high } = estimateSlow(pool, many, 40)!.quantities.get('total-alkalinity')!;
    // Forty independent readings would leave 12 x 3.29 / sqrt 40 = 6.
    expect(high - low).toBeGreaterThan(12);
  });

  it('does not take a scale’s error for known because the water passes to wider blocks', () => {
    // Blocks of 0, 100, 200, 400 mg/L; an error of 0.39 of them, of which the scale has 0.3 and a photo 0.25.
    const valueAt = (steps: number) => (steps < 2 ? 100 * steps : 200 * (steps - 1));
    const stepsOf = (value: number) => (value < 200 ? value / 100 : 1 + value / 200);
    const doubts = Array.from({ length: 20 }, (_, seed) => {
      const { normal } = randomFrom(seed);
      const strips = Array.from({ length: 31 }, (_, i): TrackEvent => {
        const seen = stepsOf(140 + 5 * i) + 0.25 * normal();
        const [low, value, high] = [-0.39, 0, 0.39].map((error) => valueAt(seen + error));
        const sides = [value! - low!, high! - value!] as const;
        const about = {
          quantity: 'total-hardness',
          sharedVariance: 0.59,
          deviation: (high! - low!) / 2,
          sides,
        } as const;
        return { ...read(5 * i, value!, 1, 'strip'), ...about } as TrackEvent;
      });
      const { low, high } = estimateSlow(pool, strips, 150)!.quantities.get('total-hardness')!;
      return (stepsOf(high) - stepsOf(low)) / (2 * 1.645);
    });
    // The scale's 0.3 can't become known: there is nothing to hold it against.
    expect(doubts.reduce((sum, doubt) => sum + doubt / doubts.length, 0)).toBeGreaterThan(0.29);
  });
  it('takes more than and less than for what they are', () => {
    const open: TrackEvent[] = [0, 5, 10].map(
      (day) => ({ ...read(day, 240, 20, 'strip'), bound: 'above' }) as TrackEvent,
    );
    const { value, high } = estimateSlow(pool, open, 10)!.quantities.get('total-alkalinity')!;
    expect(value).toBeGreaterThan(225);
    expect(high).toBeGreaterThan(260);
  });

  it('gives the same answer in any order of equal days, and is finite whatever is read', () => {
    const odd: TrackEvent[] = [read(0, 0, 1, 'a'), read(0, 20_000, 1, 'b'), read(9000, 3, 0.01, 'a')];
    for (const estimate of estimateSlow(pool, odd, 20_000)!.quantities.values()) {
      expect(Object.values(estimate).every(Number.isFinite)).toBe(true);
      expect(estimate.low).toBeLessThanOrEqual(estimate.value);
      expect(estimate.high).toBeGreaterThanOrEqual(estimate.value);
    }
  });
});

describe('changes that nobody wrote down', () => {
  it('are told with their size, once a second reading bears them out', () => {
    const pool = { litres: 28_500, doubt: 0.1, fill: {} };
    const before = [0, 5, 10, 15].map((day) => read(day, 110, 10, 'strip'));
    const after = [20, 25].map((day) => read(day, 60, 10, 'strip'));
    const first = estimateSlow(pool, [...before, after[0]!], 20)!;
    expect(first.oddities).toMatchObject([{ kind: 'unconfirmed', day: 20, value: 60 }]);
    const { oddities, quantities } = estimateSlow(pool, [...before, ...after], 25)!;
    expect(oddities).toMatchObject([{ kind: 'jump', quantity: 'total-alkalinity', after: 15, before: 20 }]);
    expect(oddities[0]!.kind === 'jump' && oddities[0]!.change).toBeCloseTo(-50, -1.2);
    // Not smeared over: the estimate is at the new level.
    expect(Math.abs(quantities.get('total-alkalinity')!.value - 60)).toBeLessThan(10);
  });

  it('are told from one reading that was wrong', () => {
    const pool = { litres: 28_500, doubt: 0.1, fill: {} };
    const events = [0, 5, 10, 15, 20, 25, 30].map((day) => read(day, day === 20 ? 40 : 110, 10, 'strip'));
    const { oddities, quantities } = estimateSlow(pool, events, 30)!;
    expect(oddities).toMatchObject([{ kind: 'misfit', day: 20, value: 40 }]);
    expect(quantities.get('total-alkalinity')!.value).toBeGreaterThan(100);
  });
});

describe('rain', () => {
  const pool = { litres: 28_500, doubt: 0.1, fill: {} };
  const saltAfter = (share: number, days: number) => {
    const rain: TrackEvent = { kind: 'exchanged', day: 1, share, doubt: 0.1, by: 'rain' };
    const before: TrackEvent[] = [saltBy(0, 3000), saltBy(0.5, 3000)];
    const at = (events: TrackEvent[]) => estimateSlow(pool, events, 1 + days)!.quantities.get('salt')!.value;
    return at([...before, rain]) / at(before);
  };

  it('thins the water while it stands there, and is gone once as much has evaporated', () => {
    // By hand: 20 mm in 1,300 mm are 1.5 %.
    expect(saltAfter(0.015, 0)).toBeCloseTo(1 - 0.015, 2.5);
    expect(saltAfter(0.015, 30)).toBeCloseTo(1, 3);
  });

  it('takes along what runs over', () => {
    // Of 10 %, 3 % find room.
    expect(saltAfter(0.1, 0)).toBeCloseTo(0.93 * 0.97, 2);
    expect(saltAfter(0.1, 30)).toBeCloseTo(0.93, 2);
  });
});

describe('the pool’s true volume', () => {
  it('is learnt from a dose of salt between two good tests', () => {
    // By hand: 40 kg of salt that raise the salt by 1,250 mg/L lie in 40,000,000 / 1250 = 32,000 L.
    const events: TrackEvent[] = [
      saltBy(0, 1500),
      { kind: 'added', day: 1, moles: { salt: 40_000 / 58.44 }, doubt: 0.01 },
      saltBy(2, 2750),
    ];
    const { litres } = estimateSlow({ litres: 28_500, doubt: 0.15, fill: {} }, events, 2)!;
    expect(litres!.value).toBeGreaterThan(31_000);
    expect(litres!.value).toBeLessThan(32_500);
    expect(litres!.low).toBeLessThan(32_000);
    expect(litres!.high).toBeGreaterThan(32_000);
  });
});

function read(day: number, value: number, deviation: number, method: string): TrackEvent & { kind: 'read' } {
  const quantity = 'total-alkalinity';
  return { kind: 'read', day, quantity, value, deviation, bound: null, method, sharedVariance: null, entry: `${day}` };
}

function saltBy(day: number, value: number): TrackEvent {
  return { ...read(day, value, 25, 'meter'), quantity: 'salt', sharedVariance: 0.4 };
}
