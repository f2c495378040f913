/** What the single steps say and take along: companions, parts, notes, and when there is nothing to do. */
import { describe, expect, it } from 'vitest';
import { kinds, plain, plan, reading, step } from './inputs.ts';

type Change = Parameters<typeof plain>[0];
const planOf = (change: Change) => plan(plain(change));
const without: 'total-chlorine'[] = ['total-chlorine'];
const lowChlorine = { 'free-chlorine': reading(1, 0.2) };

describe('chlorine', () => {
  it('says what comes with it', () => {
    const notes = (product: string, more: object = {}) =>
      step(planOf({ readings: { ...lowChlorine, ...more }, without, shelf: [{ product }] }), 'raise-chlorine').notes;
    expect(notes('calcium-hypochlorite')).toContain('adds-calcium');
    expect(notes('calcium-hypochlorite')).not.toContain('adds-stabilizer');
    expect(notes('dichlor', { 'cyanuric-acid': reading(32, 1) })).toContain('adds-stabilizer');
    expect(notes('sodium-hypochlorite')).toEqual([]);
  });

  it('shows its sum: from the high end of the reading to the aim', () => {
    const { why, hoursBetweenParts, parts } = step(planOf({ readings: lowChlorine, without }), 'raise-chlorine');
    // 4 - 1.2 mg/L; chlorine counts as Cl2, 70.9 g/mol.
    expect(why).toContainEqual({
      line: 'by-mass',
      mgPerLitre: expect.closeTo(2.8, 9) as number,
      mmolPerLitre: expect.closeTo(2.8 / 70.906, 5) as number,
    });
    expect({ parts, hoursBetweenParts }).toEqual({ parts: 1, hoursBetweenParts: 0 });
  });

  it('leaves combined chlorine alone where there is more than it takes, and where it may be none', () => {
    // Ten times the 0.6 that is combined at least are 6: there are 8.
    const enough = { 'free-chlorine': reading(8, 0.1), 'total-chlorine': reading(8.8, 0.1) };
    expect(kinds(planOf({ readings: enough }))).toEqual([]);
    // 0.7, and with the errors 0.2 to 1.2.
    const made = planOf({ readings: { 'free-chlorine': reading(4, 0.2), 'total-chlorine': reading(4.7, 0.3) } });
    expect(kinds(made)).toEqual([]);
    expect(made.holds).toEqual([{ target: 'combined-chlorine', reason: 'straddles', remedy: 'better-test' }]);
    expect(made.retests.map(({ reading: of }) => of).toSorted()).toEqual(['free-chlorine', 'total-chlorine']);
  });

  it('comes from a chlorinator only for the everyday level, in warm water, within a day', () => {
    const pool = { chlorination: 'chlorinator', cell: { gramsPerHour: 15 } };
    const salt = reading(3200, 50);
    const run = (change: object, temperature = 26) =>
      planOf({
        pool,
        shelf: [],
        without,
        ...change,
        readings: { ...lowChlorine, salt, temperature: reading(temperature, 1) },
      });
    expect(step(run({}), 'run-chlorinator').notes).toEqual([]);
    expect(kinds(run({}, 14))).not.toContain('run-chlorinator');
    expect(kinds(run({ look: { water: 'green' } }))).not.toContain('run-chlorinator');
    expect(kinds(run({ pool: { ...pool, cell: undefined } }))).not.toContain('run-chlorinator');
    expect(kinds(run({ shelf: [{ product: 'household-bleach' }] }))).not.toContain('run-chlorinator');
    // 40 m3 x 2.8 mg/L = 112 g: 24 h at 4.67 g/h.
    expect(kinds(run({ pool: { ...pool, cell: { gramsPerHour: 4.7 } } }))).toContain('run-chlorinator');
    expect(kinds(run({ pool: { ...pool, cell: { gramsPerHour: 4.6 } } }))).not.toContain('run-chlorinator');
  });

  it('that is taken out takes the pH along, which is tested again', () => {
    const taken = planOf({
      readings: { 'free-chlorine': reading(15, 1) },
      without,
      shelf: [{ product: 'sodium-thiosulfate' }],
    });
    expect(taken.retests.map(({ reading: of }) => of)).toContain('ph');
    const [first] = step(taken, 'lower-chlorine').why;
    expect(first).toMatchObject({ line: 'reading', used: 14 });
    // Thiosulfate to sulfate takes four chlorine: (14 - 6) / 70.906 / 4 mmol/L.
    expect(step(taken, 'lower-chlorine').why).toContainEqual({
      line: 'by-mass',
      mgPerLitre: 8,
      mmolPerLitre: expect.closeTo(8 / 70.906 / 4, 5) as number,
    });
  });

  it('stops a chlorinator where there is too much', () => {
    const notes = (chlorination: string) =>
      step(
        planOf({ pool: { chlorination }, readings: { 'free-chlorine': reading(15, 1) }, without }),
        'wait-for-chlorine',
      ).notes;
    expect(notes('chlorinator')).toContain('chlorinator-off-until-chlorine-falls');
    expect(notes('hypochlorite')).not.toContain('chlorinator-off-until-chlorine-falls');
  });

  it('bleaches the pads from 10 mg/L on', () => {
    const bleached = (value: number) =>
      planOf({ readings: { 'free-chlorine': reading(value, 0.1) }, without }).generalCautions.includes(
        'strip-bleached',
      );
    expect([9.9, 10].map(bleached)).toEqual([false, true]);
  });
});

describe('pH and alkalinity', () => {
  it('are not dosed for the index while calcium or alkalinity is a guess', () => {
    const scaling = {
      ph: reading(7.7, 0.05),
      'calcium-hardness': reading(700, 20),
      'total-alkalinity': reading(95, 3),
    };
    const change = {
      pool: { surface: 'plaster', heater: 'copper' },
      readings: { ...scaling, temperature: reading(36, 1) },
    };
    expect(kinds(planOf(change))).toEqual(['lower-ph', 'look-for-scale']);
    for (const blank of ['calcium-hardness', 'total-alkalinity'] as const) {
      expect(kinds(planOf({ ...change, without: [blank] }))).not.toContain('lower-ph');
    }
  });

  it('go in rounds only beyond the limit, and say so', () => {
    // The limit is 180 mg/L.
    expect(kinds(planOf({ readings: { 'total-alkalinity': reading(170, 5) } }))).toEqual([]);
    const made = planOf({ readings: { 'total-alkalinity': reading(220, 10) } });
    expect(made.steps.map(({ id }) => id)).toEqual([
      'acid-round-1',
      'aerate-round-1',
      'acid-round-2',
      'aerate-round-2',
    ]);
    expect(made.steps[0]!.notes).toContain('alkalinity-follows-over-several-rounds');
    // Never below the aim of 80, from any end.
    expect(made.end.spans.totalAlkalinity.low).toBeGreaterThanOrEqual(80 - 1e-6);
  });

  it('count the acid that is on the shelf: dry acid takes as much alkalinity for its mole', () => {
    const readings = { ph: reading(8.1, 0.05), 'total-alkalinity': reading(40, 5) };
    const shelf = [{ product: 'sodium-bisulfate' }, { product: 'sodium-bicarbonate' }];
    const dry = planOf({ readings, shelf });
    expect(step(dry, 'lower-ph').choice!.product).toBe('sodium-bisulfate');
    // Sulfate comes with dry acid alone.
    expect(dry.end.water.sulfate).toBeGreaterThan(planOf({ readings }).end.water.sulfate);
    expect(dry.end.water.totalAlkalinity).toBeCloseTo(75, 0);
  });

  it('are raised by soda ash whatever the alkalinity, where that is unknown', () => {
    const made = planOf({ readings: { ph: reading(6.9, 0.05) }, without: ['total-alkalinity'] });
    expect(step(made, 'raise-ph').choice!.product).toBe('soda-ash');
    expect(step(made, 'raise-ph').notes).toEqual(['clouding-clears']);
  });
});

describe('salt and stabilizer', () => {
  it('are not put in on a guess', () => {
    const pool = { chlorination: 'chlorinator' };
    const made = planOf({ pool, without: ['salt', 'cyanuric-acid', 'total-chlorine'] });
    expect(kinds(made)).toEqual([]);
    expect(made.holds.map(({ target, reason }) => `${target} ${reason}`).toSorted()).toEqual([
      'cyanuric-acid not-measured',
      'salt not-measured',
    ]);
  });

  it('are weighed for the high end of the reading', () => {
    // Stabilizer from 12 to 40 mg/L in 40 m3: 28 x 40 = 1120 g, and 32 x 40 = 1280 g from the low end.
    const stabilizer = step(planOf({ readings: { 'cyanuric-acid': reading(10, 2) } }), 'raise-stabilizer');
    expect(stabilizer.amount!.exact).toBeCloseTo(1120, 6);
    expect(stabilizer.amount!.upTo).toBeCloseTo(1280, 6);
    expect(stabilizer.notes).not.toContain('stabilizer-instead-of-acid');
    const high = planOf({ readings: { 'cyanuric-acid': reading(10, 2), ph: reading(8, 0.05) } });
    expect(step(high, 'raise-stabilizer').notes).toContain('stabilizer-instead-of-acid');
    // Salt from 1100 to 3000 mg/L: 1900 x 40 = 76 kg.
    const salted = { pool: { chlorination: 'chlorinator' }, readings: { salt: reading(1000, 100) }, without };
    expect(step(planOf(salted), 'raise-salt').amount!.exact).toBeCloseTo(76_000, 3);
  });

  it('are left alone where they are not wanted', () => {
    const bare = { pool: { stabilised: false }, readings: { 'cyanuric-acid': reading(0), salt: reading(200, 20) } };
    expect(kinds(planOf({ ...bare, without }))).toEqual([]);
  });
});

describe('a step', () => {
  const freeOf = (made: ReturnType<typeof planOf>) => made.retests.find(({ reading: of }) => of === 'free-chlorine');

  it('of calcium waits half a day after soda ash', () => {
    const made = planOf({ readings: { ph: reading(7, 0.05), 'calcium-hardness': reading(90, 5) } });
    expect(kinds(made)).toEqual(['raise-ph', 'raise-hardness']);
    expect(step(made, 'raise-hardness').waitFirst).toEqual({ hours: 12, reason: 'calcium-and-carbonate' });
  });

  it('of cleaning lets the filter run for a day', () => {
    expect(step(planOf({ look: { water: 'green' } }), 'clean').circulateMinutes).toBe(24 * 60);
  });

  it('of chlorine is followed by its test, whatever it came from or took it away', () => {
    const pool = { chlorination: 'chlorinator', cell: { gramsPerHour: 15 } };
    const run = planOf({ pool, shelf: [], without, readings: { ...lowChlorine, salt: reading(3200, 50) } });
    expect(freeOf(run)).toMatchObject({ reason: 'after-dose' });
    const much = { 'free-chlorine': reading(15, 1) };
    const taken = planOf({ readings: much, without, shelf: [{ product: 'sodium-thiosulfate' }] });
    expect(freeOf(taken)).toMatchObject({ reason: 'after-dose' });
    for (const each of [taken, planOf({ readings: much, without })]) {
      // Down to the upper end of its target.
      expect(each.steps[0]!.why).toContainEqual({ line: 'aim', target: 'free-chlorine', value: 6 });
    }
  });

  it('does not put off the test of what was held', () => {
    const readings = {
      ph: reading(7.2, 0.02),
      'total-alkalinity': reading(62, 8),
      'calcium-hardness': reading(160, 1),
      temperature: reading(12, 1),
    };
    const { retests, steps } = planOf({ pool: { surface: 'plaster' }, readings });
    expect(steps.map(({ kind }) => kind)).toContain('aerate');
    expect(retests.find(({ reading: of }) => of === 'ph')).toMatchObject({ afterHours: 0, reason: 'held' });
  });

  it('of new water for stabilizer asks for chlorine without it from then on', () => {
    const notes = (chlorination: string, readings: object) =>
      step(
        planOf({ pool: { chlorination }, readings: { ...readings, 'total-alkalinity': reading(80, 2) } }),
        'replace-water',
      ).notes;
    const stabilizer = { 'cyanuric-acid': reading(140, 10) };
    for (const tablets of ['trichlor', 'dichlor']) {
      expect(notes(tablets, stabilizer)).toContain('unstabilised-chlorine-from-now-on');
      expect(notes(tablets, { 'calcium-hardness': reading(1200, 20) })).not.toContain(
        'unstabilised-chlorine-from-now-on',
      );
    }
    expect(notes('hypochlorite', stabilizer)).not.toContain('unstabilised-chlorine-from-now-on');
  });
});
