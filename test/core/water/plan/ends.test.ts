/** Why the plan leaves a reading outside its target, what it holds back, and what it wants tested again. */
import { describe, expect, it } from 'vitest';
import { plain, plan, reading, step } from './inputs.ts';
import { upkeepLine } from '../../../../src/words/plan/parts.ts';

type Change = Parameters<typeof plain>[0];
const planOf = (change: Change) => plan(plain(change));
const whyOf = (change: Change, target: string) => planOf(change).endChecks.find((one) => one.target === target)!.why;
const without: 'total-chlorine'[] = ['total-chlorine'];
const plaster = { surface: 'plaster' };
const salted = { chlorination: 'chlorinator' };

describe('a reading that ends outside', () => {
  /* The plain pool: 40 m3, vinyl, 30 to 50 mg/L of stabilizer, 60 to 100 of alkalinity, 2 to 6 of chlorine. */
  it.each<[string, string, Change]>([
    [
      'cyanuric-acid',
      'comes-with-the-chlorine',
      { pool: { chlorination: 'trichlor' }, readings: { 'cyanuric-acid': reading(10, 2) } },
    ],
    [
      'cyanuric-acid',
      'comes-with-the-chlorine',
      { pool: { chlorination: 'dichlor' }, readings: { 'cyanuric-acid': reading(10, 2) } },
    ],
    ['salt', 'leaves-only-with-water', { readings: { salt: reading(3500, 100) } }],
    ['calcium-hardness', 'kept-by-ph-instead', { readings: { 'calcium-hardness': reading(600, 10) } }],
    ['free-chlorine', 'falls-by-itself', { readings: { 'free-chlorine': reading(8, 0.2) }, without }],
    [
      'free-chlorine',
      'raised-on-purpose',
      { look: { water: 'green' }, readings: { 'free-chlorine': reading(0.2, 0.1) }, without },
    ],
    [
      'ph',
      'lifted-by-chlorine',
      { look: { water: 'green' }, readings: { 'free-chlorine': reading(0.2, 0.1) }, without },
    ],
    ['combined-chlorine', 'not-measured', { without }],
    [
      'combined-chlorine',
      'goes-on-after-retest',
      { readings: { 'free-chlorine': reading(2.5, 0.1), 'total-chlorine': reading(3.5, 0.1) } },
    ],
    [
      'total-alkalinity',
      'comes-down-with-acid',
      { readings: { ph: reading(8, 0.05), 'total-alkalinity': reading(160, 5) } },
    ],
    // 58 may be 60: not dosed for.
    ['total-alkalinity', 'held-for-retest', { readings: { 'total-alkalinity': reading(58, 5) } }],
    [
      'calcium-hardness',
      'held-for-retest',
      { readings: { 'cyanuric-acid': reading(140, 10), 'calcium-hardness': reading(90, 5) } },
    ],
    // Dosed from the high end, 160, to 250: the value comes from 100 to 190, below 200.
    [
      'calcium-hardness',
      'dosed-for-cautious-end',
      { pool: plaster, readings: { 'calcium-hardness': reading(100, 60) } },
    ],
    // From 2100 to 3000: the value comes from 1500 to 2400, below 2700.
    ['salt', 'dosed-for-cautious-end', { pool: salted, readings: { salt: reading(1500, 600) }, without }],
  ])('%s: %s', (target, why, change) => {
    expect(whyOf(change, target)).toBe(why);
  });

  it('is not blamed on anything where it ends inside', () => {
    for (const { inside, why } of planOf({}).endChecks) expect({ inside, why }).toEqual({ inside: true, why: null });
  });

  it.each(['temperature', 'ph', 'calcium-hardness', 'total-alkalinity'] as const)(
    'as the saturation index does without %s is not known',
    (blank) => {
      // Soft, cold, at the low ends: far below -0.5 with the usual value of any one of them.
      const soft = { ph: reading(7.2, 0), 'total-alkalinity': reading(60, 0), 'calcium-hardness': reading(150, 0) };
      const made = planOf({ readings: { ...soft, temperature: reading(5, 0) }, without: [blank] });
      const index = made.endChecks.find(({ target }) => target === 'saturation-index')!;
      expect({ inside: index.inside, why: index.why }).toEqual({ inside: false, why: 'not-measured' });
    },
  );

  it('as the index does while what it follows from is held', () => {
    const readings = {
      ph: reading(7.2, 0.02),
      'total-alkalinity': reading(62, 8),
      'calcium-hardness': reading(160, 1),
      temperature: reading(12, 1),
    };
    expect(whyOf({ pool: plaster, readings }, 'saturation-index')).toBe('held-for-retest');
  });
});

describe('what is held back', () => {
  /* Wider than 0.3 pH, 1 mg/L of chlorine, 25 of alkalinity, 45 of calcium, 15 of stabilizer, 540 of salt is a strip's. */
  it.each<[string, number, number, number, Change]>([
    ['ph', 7.8, 0.1, 0.2, {}],
    ['free-chlorine', 2.1, 0.4, 0.6, {}],
    ['total-alkalinity', 60, 10, 14, {}],
    ['calcium-hardness', 150, 20, 25, {}],
    ['cyanuric-acid', 30, 7, 8, {}],
    ['salt', 2700, 250, 300, { pool: salted }],
  ])('%s of %d: the same test again from +-%d, a better one from +-%d', (target, value, fine, coarse, change) => {
    const remedy = (by: number) =>
      planOf({ ...change, readings: { [target]: reading(value, by) }, without }).holds.find(
        (hold) => hold.target === target,
      );
    expect(remedy(fine)).toMatchObject({ reason: 'straddles', remedy: 'repeat-test' });
    expect(remedy(coarse)).toMatchObject({ reason: 'straddles', remedy: 'better-test' });
  });

  it('beyond the end of a scale: diluted above, another test below, and pH never diluted', () => {
    const hold = (ends: object) =>
      planOf({ readings: { 'total-alkalinity': { value: 95, low: 85, high: 105, ...ends } } }).holds[0];
    expect(hold({ openAbove: true })).toMatchObject({ reason: 'off-scale', remedy: 'dilute-sample' });
    expect(hold({ openBelow: true })).toMatchObject({ reason: 'off-scale', remedy: 'better-test' });
    const ph = (ends: object) => planOf({ readings: { ph: { value: 7.75, low: 7.6, high: 7.9, ...ends } } }).holds[0];
    expect(ph({ openAbove: true })).toMatchObject({ reason: 'off-scale', remedy: 'better-test' });
    expect(ph({ openBelow: true })).toMatchObject({ reason: 'off-scale', remedy: 'better-test' });
  });

  it('nothing lies below 0', () => {
    const hold = (low: number) =>
      planOf({ readings: { 'free-chlorine': { value: 2.1, low, high: 3, openBelow: true } }, without }).holds[0];
    expect(hold(0)).toMatchObject({ target: 'free-chlorine', reason: 'straddles' });
    expect(hold(0.5)).toMatchObject({ target: 'free-chlorine', reason: 'off-scale' });
  });

  it('chlorine that nobody measured', () => {
    const made = planOf({ without: ['free-chlorine', 'total-chlorine'] });
    expect(made.holds).toContainEqual({ target: 'free-chlorine', reason: 'not-measured', remedy: 'measure' });
    expect(made.retests[0]).toMatchObject({ reading: 'free-chlorine', afterHours: 0, remedy: 'measure' });
  });
});

describe('the next tests', () => {
  const readings = (change: Change) => planOf(change).retests.map(({ reading, reason }) => `${reading} ${reason}`);

  it('are the usual ones where nothing was done, with the salt of a chlorinator', () => {
    const usual = ['free-chlorine', 'ph', 'total-alkalinity', 'calcium-hardness', 'cyanuric-acid'];
    const all = usual.map((each) => `${each} routine`);
    expect(readings({})).toEqual(all);
    const withSalt = readings({ pool: salted, readings: { salt: reading(3200, 50) } });
    expect(withSalt.toSorted()).toEqual([...all, 'salt routine'].toSorted());
  });

  it('keep to total hardness where that is what was read', () => {
    const hardness = { 'total-hardness': reading(60, 10) };
    const blank: Change = { pool: plaster, readings: hardness, without: ['calcium-hardness'] };
    expect(readings(blank)).toContain('total-hardness after-dose');
    expect(readings({ pool: plaster, readings: { ...hardness, 'calcium-hardness': reading(50, 10) } })).toContain(
      'calcium-hardness after-dose',
    );
  });

  it('come after the water has mixed, in the order of their time', () => {
    const { retests } = planOf({ readings: { 'cyanuric-acid': reading(140, 10) } });
    expect(retests).toContainEqual({ reading: 'cyanuric-acid', afterHours: 8, reason: 'after-dilution', remedy: null });
    const hours = retests.map(({ afterHours }) => afterHours);
    expect(hours).toEqual(hours.toSorted((a, b) => a - b));
  });

  it('wait for chlorine to fall, and for the pads that it bleaches', () => {
    const { retests } = planOf({ readings: { 'free-chlorine': reading(15, 1) }, without });
    expect(retests).toContainEqual({ reading: 'free-chlorine', afterHours: 24, reason: 'once-fallen', remedy: null });
    expect(retests.find((one) => one.reading === 'ph')).toMatchObject({ afterHours: 24, remedy: 'wait-for-chlorine' });
  });
});

describe('from day to day', () => {
  it('a covered pool uses less than one in the sun', () => {
    const use = (pool: Record<string, unknown>) => planOf({ pool }).upkeep!.use;
    expect(use({ exposure: 'covered' }).value).toBeLessThan(use({ exposure: 'sun' }).value);
    expect(use({ exposure: 'covered', stabilised: false })).toEqual(use({ exposure: 'covered' }));
    expect(use({ exposure: 'sun', stabilised: false }).value).toBeGreaterThan(use({ exposure: 'sun' }).value);
  });

  it('says the hours without needless zeros', () => {
    // 40 m3 losing 4 mg/L a day at 16 g/h: 10 h; at 3 and 5 mg/L 7.5 and 12.5 h.
    const chlorineUse = { value: 4, low: 3, high: 5 };
    const pool = { ...salted, cell: { gramsPerHour: 16, setting: 1 } };
    const { upkeep } = planOf({ pool, readings: { salt: reading(3200, 50) }, chlorineUse });
    expect(upkeepLine(upkeep!, 'metric')).toContain('run it 10 hours a day (7.5 to 12.5)');
  });

  it('keeps acid and the chlorinator’s chlorine apart too', () => {
    const pool = { ...salted, cell: { gramsPerHour: 15 } };
    const readings = { 'free-chlorine': reading(1, 0.2), ph: reading(8.1, 0.05), salt: reading(3200, 50) };
    const made = planOf({ pool, readings, without, shelf: [{ product: 'hydrochloric-acid', strength: 31.45 }] });
    expect(step(made, 'run-chlorinator').waitFirst).toMatchObject({ reason: 'acid-and-chlorine' });
  });
});
