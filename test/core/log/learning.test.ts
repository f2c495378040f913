/** Rates learnt from the log, against worked cases and against simulated pools whose rates are known. */
import { describe, expect, it } from 'vitest';
import { acidUse } from '../../../src/core/log/acid-use.ts';
import { chlorineUse, worthTelling } from '../../../src/core/log/chlorine-use.ts';
import type { Entry } from '../../../src/core/log/schema.ts';
import { randomFrom } from './random.ts';
import { addition, dayTime, loggedValue, POOL, reading } from './samples.ts';

const chlorine = (day: number, value: number) => reading(day, [loggedValue('free-chlorine', value)]);
/** Grams that lift the pool by so many mg/L. */
const grams = (milligramsPerLitre: number) => (milligramsPerLitre * POOL.volumeLitres!) / 1000;
const hypo = (day: number, milligramsPerLitre: number) =>
  addition(day, 'chlorine', { chlorineGrams: grams(milligramsPerLitre) });

describe('chlorineUse', () => {
  it('adds up by hand: 4 and 2 mg/L added, 3 left over from 3, in 4 days: 1.5 a day', () => {
    // 3.0 -> (1.5 used, none added) 1.5 -> +4 -> (3.0 used in two days) 2.5 -> +2 -> (1.5) 3.0
    const entries = [chlorine(0, 3), chlorine(1, 1.5), hypo(1.1, 4), chlorine(3, 2.5), hypo(3.1, 2), chlorine(4, 3)];
    const use = chlorineUse(entries, POOL)!;
    expect(use.value).toBeCloseTo(1.5, 9);
    expect(use.low).toBeCloseTo(1.5, 9);
    expect(use.count).toBe(4);
  });

  it('counts what the chlorinator makes', () => {
    const entries = [chlorine(0, 3), chlorine(1, 3), chlorine(2, 3)];
    const use = chlorineUse(entries, { ...POOL, chlorinatorGramsPerDay: grams(2) })!;
    expect(use.value).toBeCloseTo(2, 9);
  });

  it('starts afresh after water, after chlorine of unknown amount, after a gap and beyond the scale', () => {
    const stretch = (day: number, from: number) => [
      chlorine(day, from),
      chlorine(day + 1, from - 1),
      chlorine(day + 2, from - 2),
    ];
    const broken: Entry[][] = [
      [...stretch(0, 5), addition(2.5, 'water'), ...stretch(3, 4)],
      [...stretch(0, 5), addition(2.5, 'chlorine'), ...stretch(3, 8)],
      [...stretch(0, 5), addition(2.5, 'chlorine-remover'), ...stretch(3, 2.5)],
      [...stretch(0, 5), ...stretch(20, 9)],
      [...stretch(0, 5), reading(2.5, [{ ...loggedValue('free-chlorine', 10), offScale: 'above' }]), ...stretch(3, 9)],
      [...stretch(0, 5), chlorine(2.5, 0), ...stretch(3, 9)],
    ];
    for (const entries of broken) expect(chlorineUse(entries, POOL)!.value).toBeCloseTo(1, 9);
  });

  it('counts nothing before the first reading, and what went in just after one as added since', () => {
    const use = chlorineUse([hypo(-1, 9), chlorine(0, 3), hypo(0, 2), chlorine(1, 4), chlorine(2, 3)], POOL)!;
    expect(use).toMatchObject({ count: 3, from: dayTime(0), to: dayTime(2) });
    expect(use.value).toBeCloseTo(1, 9);
  });

  it('breaks between the readings around the water, whichever minute they share', () => {
    const fall = (from: number, values: readonly number[]) => values.map((value, i) => chlorine(from + i, value));
    const after = [...fall(0, [5, 4, 3]), addition(2, 'water'), ...fall(3, [9, 8, 7])];
    expect(chlorineUse(after, POOL)!.value).toBeCloseTo(1, 9);
    const before = [...fall(0, [5, 4, 3, 2]), addition(3, 'water'), ...fall(4, [9, 8, 7])];
    expect(chlorineUse(before, POOL)!.value).toBeCloseTo(1, 9);
  });

  it('joins readings ten days apart, and counts none that stands alone', () => {
    expect(chlorineUse([chlorine(0, 12), chlorine(10, 7), chlorine(20, 2)], POOL)).toMatchObject({ count: 3 });
    expect(chlorineUse([chlorine(0, 12), chlorine(10.1, 7), chlorine(20.2, 2)], POOL)).toBeNull();
    const lone = [chlorine(0, 5), chlorine(1, 4), chlorine(2, 3), addition(2.5, 'water'), chlorine(3, 9)];
    expect(chlorineUse(lone, POOL)).toMatchObject({ count: 3 });
  });

  it('goes by the last 56 days', () => {
    const entries = [0, 8, 16, 24, 32, 40, 48, 56].map((day) => chlorine(day, 9 - day / 8));
    expect(chlorineUse([chlorine(-1, 9), ...entries], POOL)).toMatchObject({ count: 8, from: dayTime(0) });
  });

  it('never uses less than nothing', () => {
    expect(chlorineUse([chlorine(0, 3), chlorine(1, 3), chlorine(2, 3)], POOL)).toBeNull();
    // Rises by 0.5 in three days, which may be chance: it swings by as much.
    const use = chlorineUse([chlorine(0, 3), chlorine(1, 3.4), chlorine(2, 3.1), chlorine(3, 3.5)], POOL)!;
    expect(use).toMatchObject({ value: 0, low: 0 });
    expect(use.high).toBeGreaterThan(0);
  });

  it('says nothing without volume, with too few readings, or where chlorine only rose', () => {
    expect(chlorineUse([chlorine(0, 3), chlorine(1, 2), chlorine(2, 1)], { ...POOL, volumeLitres: null })).toBeNull();
    expect(chlorineUse([chlorine(0, 3), chlorine(1, 2)], POOL)).toBeNull();
    expect(chlorineUse([chlorine(0, 1), chlorine(1, 2), chlorine(2, 3)], POOL)).toBeNull();
  });

  it('holds the true use in about nine of ten simulated pools', () => {
    const { uniform, normal } = randomFrom(20260701);
    let held = 0;
    const runs = 400;
    for (let run = 0; run < runs; run++) {
      const use = 0.3 + 0.9 * uniform();
      const entries: Entry[] = [];
      let level = 4;
      for (let day = 0; day < 24; day += 2) {
        entries.push(chlorine(day, level + 0.3 * normal()));
        const dose = Math.max(0, 4 - level);
        if (dose > 0) entries.push(hypo(day + 0.1, dose));
        level += dose - 2 * use + 0.4 * normal();
      }
      const learnt = chlorineUse(entries, POOL)!;
      if (learnt.low <= use && use <= learnt.high) held += 1;
    }
    expect(held / runs).toBeGreaterThan(0.85);
    expect(held / runs).toBeLessThan(0.99);
  });
});

describe('a rate', () => {
  const rate = (value: number, high: number) => ({ value, low: 0, high, count: 3, from: dayTime(0), to: dayTime(9) });
  it('is worth telling up to three times its value, not at "0.1 (0 to 17)"', () => {
    expect(worthTelling(rate(1, 2.9))).not.toBeNull();
    expect(worthTelling(rate(0.1, 17))).toBeNull();
    expect(worthTelling(rate(0, 0.4))).toBeNull();
    expect(worthTelling(null)).toBeNull();
  });
});

describe('acidUse', () => {
  const acid = (day: number, acidMoles: number | null) => addition(day, 'acid', { acidMoles });

  it('adds up by hand: 3 and 5 mol lasted two weeks, whatever the last dose is', () => {
    expect(acidUse([acid(0, 3), acid(6, 5), acid(14, 99)])).toMatchObject({ value: 4, count: 3 });
  });

  it('gives the interval of a ratio', () => {
    // 3, 5 and 4 mol lasted a week each: 12 / 3 = 4 a week, misfits -1, 1 and 0. The deviation is
    // sqrt(3 * 2 / 2) / 3 = 0.5774; Student's t for 90 %, 2 degrees of freedom, is 2.920: 1.686.
    const use = acidUse([acid(21, 8), acid(14, 4), acid(0, 3), acid(7, 5), addition(5, 'chlorine')])!;
    expect(use).toMatchObject({ count: 4, from: dayTime(0), to: dayTime(21) });
    expect(use.value).toBeCloseTo(4, 9);
    expect(use.low).toBeCloseTo(4 - 1.686, 3);
    expect(use.high).toBeCloseTo(4 + 1.686, 3);
    // 1 and 7 mol: misfits -3 and 3, sqrt(2 * 18 / 1) / 2 = 3, times 6.314 for 1 degree: 18.94.
    const vague = acidUse([acid(0, 1), acid(7, 7), acid(14, 8)])!;
    expect(vague.low).toBe(0);
    expect(vague.high).toBeCloseTo(4 + 18.94, 2);
  });

  it('goes by the last 84 days', () => {
    expect(acidUse([acid(0, 6), acid(42, 6), acid(84, 6)])).toMatchObject({ value: 1, count: 3 });
    expect(acidUse([acid(-1, 6), acid(42, 6), acid(84, 6)])).toBeNull();
  });

  it('takes half a day apart as two doses, and one of unknown strength for all of its day', () => {
    expect(acidUse([acid(0, 2), acid(0.5, 1), acid(7, 9)])).toMatchObject({ value: 3, count: 3 });
    expect(acidUse([acid(0, 3), acid(0.1, null), acid(7, 3), acid(14, 3)])).toBeNull();
    expect(acidUse([acid(0, null), acid(0.1, 3), acid(7, 3), acid(14, 3)])).toBeNull();
  });

  it('takes what was poured on one day as one dose', () => {
    expect(acidUse([acid(0, 2), acid(0.1, 1), acid(7, 3), acid(14, 3)])).toMatchObject({ value: 3, low: 3, count: 3 });
  });

  it('says nothing from two doses or where one is of unknown strength', () => {
    expect(acidUse([acid(0, 3), acid(7, 3)])).toBeNull();
    expect(acidUse([acid(0, 3), acid(7, null), acid(14, 3)])).toBeNull();
  });

  it('holds the true use in about nine of ten simulated pools', () => {
    const { uniform, normal } = randomFrom(77);
    let held = 0;
    const runs = 400;
    for (let run = 0; run < runs; run++) {
      const perWeek = 1 + 4 * uniform();
      const entries: Entry[] = [];
      let day = 0;
      for (let dose = 0; dose < 12; dose++) {
        const days = 4 + 6 * uniform();
        entries.push(acid(day, Math.max(0.1, ((perWeek * days) / 7) * (1 + 0.25 * normal()))));
        day += days;
      }
      const learnt = acidUse(entries)!;
      if (learnt.low <= perWeek && perWeek <= learnt.high) held += 1;
    }
    expect(held / runs).toBeGreaterThan(0.82);
    expect(held / runs).toBeLessThan(0.98);
  });
});
