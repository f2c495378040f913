/** Waters that an expert would treat otherwise than a rule does: each with what decides, its source or common practice. */
import { describe, expect, it } from 'vitest';
import { retestLine, upkeepLine } from '../../../../src/words/plan/parts.ts';
import { noteText, remedyText, verdictText } from '../../../../src/words/plan/sentences.ts';
import { caution } from '../../../../src/words/plan/cautions.ts';
import type { Plan } from '../../../../src/core/water/plan/types.ts';
import { kinds, plain, plan, reading, step } from './inputs.ts';

const planOf = (change: Parameters<typeof plain>[0]) => plan(plain(change));
const without: 'total-chlorine'[] = ['total-chlorine'];
const salted = { chlorination: 'chlorinator', cell: { gramsPerHour: 15 } };
const at = (made: Plan, kind: string) => kinds(made).indexOf(kind as never);
const fill = { ph: 7.6, 'total-alkalinity': 90, 'calcium-hardness': 150, salt: 50, 'cyanuric-acid': 0 };

describe('a salt pool with 150 mg/L of stabilizer', () => {
  const made = planOf({
    pool: salted,
    shelf: [{ product: 'salt' }],
    without,
    readings: {
      'cyanuric-acid': reading(150, 10),
      salt: reading(3200, 100),
      'free-chlorine': reading(1, 0.2),
    },
    fill,
  });

  it('is left with too little salt by the fresh water: the cell stays off until salt is in and dissolved', () => {
    expect(step(made, 'replace-water').after.water.salt).toBeLessThan(2700);
    expect(kinds(made)).not.toContain('run-chlorinator');
    expect(at(made, 'raise-salt')).toBeGreaterThan(at(made, 'replace-water'));
    expect(made.upkeep).toMatchObject({ pause: { reason: 'salt-low' } });
    expect(upkeepLine(made.upkeep!, 'metric')).toContain('Leave the chlorinator off until there is salt enough');
  });

  it('says so too where the salt is low now', () => {
    const now = planOf({ pool: salted, readings: { salt: reading(1500, 100) }, without });
    expect(now.upkeep).toMatchObject({ pause: { reason: 'salt-low' } });
  });
});

describe('free chlorine of 8 without stabilizer', () => {
  const made = planOf({
    pool: { stabilised: false },
    readings: { 'free-chlorine': reading(8, 0.2), 'cyanuric-acid': reading(0) },
    without,
  });

  it('stops the daily dose and says for how long', () => {
    // The target of bare water: 1 to 3, aim 2; 6 mg/L at the 6 a day assumed for bare water in the sun: a day.
    expect(made.upkeep).toMatchObject({ pause: { reason: 'above-target', days: expect.closeTo(1, 6) as number } });
    expect(upkeepLine(made.upkeep!, 'metric')).toMatch(/^Add no chlorine .* in about 24 hours/);
  });

  it('doesn’t say that nothing speaks against swimming (US labels commonly stop at 4 mg/L: from memory)', () => {
    expect(made.verdict).toMatchObject({ swim: 'with-care', reasons: ['chlorine-above-label'] });
    expect(verdictText('chlorine-above-label')).toContain('your label decides');
  });
});

describe('a reading whose top is open', () => {
  it('is diluted, but never a pH: it answers to its buffers, not to the amount', () => {
    const hold = (id: string, value: object) => planOf({ readings: { [id]: value }, without }).holds[0]!;
    const ph = hold('ph', { value: 7.75, low: 7.6, high: 7.9, openAbove: true });
    expect(ph).toMatchObject({ target: 'ph', remedy: 'better-test' });
    const alkalinity = hold('total-alkalinity', { value: 95, low: 85, high: 105, openAbove: true });
    expect(remedyText(alkalinity.remedy)).toContain('never for pH');
  });
});

describe('80 m3, green, stabilizer 80, pH 7.9', () => {
  const green = (readings: object = {}) =>
    planOf({
      pool: { volumeLitres: 80_000 },
      look: { water: 'green', bottomVisible: false },
      readings: {
        'free-chlorine': reading(0, 0.2),
        ph: reading(7.9, 0.1),
        'cyanuric-acid': reading(80, 5),
        ...readings,
      },
      without,
    });

  it('brings the pH to the low end first, although the reading may be in range (common practice, no source)', () => {
    const made = green();
    expect(kinds(made)).toEqual(['clean', 'lower-ph', 'clear-algae']);
    expect(made.holds.map(({ target }) => target)).not.toContain('ph');
  });

  it('then doses in full, or says why this round stops short, and that nobody swims only where that is so', () => {
    for (const alkalinity of [30, 60, 80, 160]) {
      const made = green({ 'total-alkalinity': reading(alkalinity, 5) });
      const dose = step(made, 'clear-algae');
      const aim = dose.why.find(({ line }) => line === 'aim') as { value: number };
      expect(aim.value).toBe(20);
      const reached = dose.after.spans.freeChlorine.high;
      const isShort = reached < 19.7;
      expect(dose.notes.includes('as-much-as-the-ph-bears'), `${alkalinity}`).toBe(isShort);
      expect(dose.why.some(({ line }) => line === 'as-the-ph-bears')).toBe(isShort);
      expect(dose.notes.includes('chlorine-above-swim-limit-for-now')).toBe(reached > 10);
      expect(dose.parts).toBeGreaterThanOrEqual(reached > 10 ? 2 : 1);
      expect(dose.notes).toContain('dilution-helps');
    }
  });
});

describe('free chlorine 0, total chlorine 3', () => {
  const made = planOf({
    readings: {
      'free-chlorine': { value: 0, low: 0, high: 0.2 },
      'total-chlorine': reading(3, 0.2),
      'cyanuric-acid': reading(10, 2),
    },
  });

  it('explains that ten times stops at the 10 mg/L of the CDC code, and is repeated until it holds overnight', () => {
    const { notes, why } = step(made, 'oxidise-combined');
    expect(why).toContainEqual(expect.objectContaining({ line: 'aim', value: 10 }));
    expect(notes).toEqual(['oxidise-common-practice', 'oxidise-capped', 'repeat-until-it-holds']);
    expect(noteText('oxidise-capped')).toContain('10 mg/L');
  });

  it('leaves the stabilizer for afterwards', () => {
    expect(kinds(made)).not.toContain('raise-stabilizer');
    expect(made.holds).toContainEqual({
      target: 'cyanuric-acid',
      reason: 'after-the-fight',
      remedy: 'once-chlorine-holds',
    });
  });
});

describe('a test that is held back', () => {
  it('is still asked for after the dose: both pH and chlorine are listed, with times (common practice, no source)', () => {
    const made = planOf({
      readings: { 'free-chlorine': reading(1, 0.2), ph: reading(7.8, 0.1) },
      without,
    });
    expect(made.holds.map(({ target }) => target)).toContain('ph');
    const ph = made.retests.filter((one) => one.reading === 'ph');
    expect(ph.map(({ reason }) => reason)).toEqual(['held', 'before-swimming']);
    expect(ph[1]!.afterHours).toBeGreaterThan(0);
    expect(made.retests.some((one) => one.reading === 'free-chlorine' && one.afterHours > 0)).toBe(true);
    expect(ph.map(retestLine).join()).toMatch(/now.*after 4 hours/);
  });

  // The times, a turnover and more: common practice, no source.
  it.each([
    { 'total-alkalinity': reading(40, 5) },
    { ph: reading(8.1, 0.05) },
    { 'calcium-hardness': reading(60, 5) },
    { 'free-chlorine': reading(1, 0.1) },
  ])('after any dose: %j', (readings) => {
    const { retests, steps } = planOf({ readings, without });
    expect(steps.length).toBeGreaterThan(0);
    for (const id of ['ph', 'free-chlorine']) {
      expect(retests.some((one) => one.reading === id && one.afterHours >= 1)).toBe(true);
    }
  });
});

describe('1.5 m3 at 38 °C', () => {
  const tub = (readings: object) =>
    planOf({ pool: { volumeLitres: 1500 }, readings: { temperature: reading(38, 1), ...readings }, without });

  it('is a spa, with the targets of one: at least 3 mg/L (CDC), 150 to 250 of calcium (ANSI/APSP/ICC-11, page 34)', () => {
    const made = tub({ 'free-chlorine': reading(2.5, 0.1) });
    expect(made.input.pool.kind).toBe('spa');
    expect(made.targets['free-chlorine']).toMatchObject({ low: 3, high: 5 });
    expect(made.targets['calcium-hardness']).toMatchObject({ low: 100, aim: 150, high: 250 });
    expect(made.verdict.reasons).toContain('chlorine-too-low');
    const rest = tub({
      'free-chlorine': reading(4, 0.2),
      'cyanuric-acid': reading(0),
      'calcium-hardness': reading(200, 10),
    });
    expect(rest.retests).toContainEqual({ reading: 'ph', afterHours: 12, reason: 'routine', remedy: null });
  });

  it('gets no calcium while the pH that would carry the index out of its span is held', () => {
    const made = tub({
      ph: reading(7.8, 0.1),
      'total-alkalinity': reading(140, 3),
      'calcium-hardness': reading(80, 5),
      'free-chlorine': reading(4, 0.2),
      'cyanuric-acid': reading(0),
    });
    expect(made.holds).toContainEqual({ target: 'calcium-hardness', reason: 'index-first', remedy: 'plan-again' });
    expect(kinds(made)).not.toContain('raise-hardness');
    expect(made.end.saturationIndex.value).toBeLessThanOrEqual(0.3);
  });

  it('above 40 °C nobody goes in (Administrative Rules of Montana), and at 40 it can’t be said', () => {
    expect(tub({ temperature: reading(41, 0.5) }).verdict.reasons).toContain('too-hot');
    expect(tub({ temperature: reading(40, 1) }).verdict.reasons).toContain('maybe-too-hot');
  });
});

describe('8 °C', () => {
  const cold = (change: object = {}) => planOf({ readings: { temperature: reading(8, 1) }, ...change });

  it('is told: below 15 °C water is cold and kills (RNLI)', () => {
    const { swim, reasons } = cold().verdict;
    expect(swim).not.toBe('no-objection');
    expect(reasons).toContain('cold-water');
    expect(caution('cold-water').source).toContain('Royal National Lifeboat Institution');
  });

  it('doesn’t count on a cell that is switched off in cold water (common practice, no source)', () => {
    const made = cold({
      pool: salted,
      readings: { temperature: reading(8, 1), salt: reading(3200, 100), 'free-chlorine': reading(3.2, 0.1) },
      without,
    });
    expect(made.upkeep).toMatchObject({ kind: 'product', instead: 'of-cold-cell' });
    expect(upkeepLine(made.upkeep!, 'metric')).toContain('switch off in water below 15 °C');
  });
});

describe('a chlorine pad of 0 beside pale pads', () => {
  it.each([
    { look: { water: 'clear', padsPale: true }, readings: { 'free-chlorine': reading(0) } },
    {
      readings: {
        'free-chlorine': reading(0),
        ph: { value: 6.2, offScale: 'below' },
        'total-alkalinity': { value: 40, offScale: 'below' },
      },
    },
  ])('asks for the bleach check before any dose (strip chemistry, from memory): %j', (change) => {
    const made = planOf({ ...change, without } as never);
    expect(made.steps).toEqual([]);
    expect(made.upkeep).toBeNull();
    expect(made.holds).toEqual([{ target: 'free-chlorine', reason: 'maybe-bleached', remedy: 'bleach-check' }]);
    expect(remedyText('bleach-check')).toContain('distilled water');
  });

  it('doses where the owner has looked, and they are not', () => {
    const look = { water: 'clear', padsPale: false };
    expect(kinds(planOf({ look, readings: { 'free-chlorine': reading(0) }, without }))).toContain('raise-chlorine');
  });
});

/* That an answer holds nothing that isn't there rests on no source: common practice of whoever explains a treatment. */
